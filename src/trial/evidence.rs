//! What a subject's entries add up to under a rule set.

use jiff::civil::Date;

use super::entry::{Decision, Observation};
use super::row::Trial;
use super::seedling::Subject;
use super::statistics::survival::{Curve, Stem};
use crate::colour::Vocabulary;
use crate::cores::all_in_spans;
use crate::form::Keyer;
use crate::measure::sample::Sample;
use crate::variety::{Extent, Weather};

mod colours;
mod counts;
mod diameter;
mod form;
mod near;

pub use colours::PartColour;
pub use counts::{Damage, Season, Tubers, VisitRate};
pub use diameter::{Diameters, Straddle};
pub(crate) use diameter::{ends, places, range};
pub use form::{Disagreement, FormSeen, Said};
pub use near::{Near, Neighbours};

/// Fewer subjects than this are done before a thread has started.
const LEAST_A_THREAD: usize = 64;

/// What evidence is worked out under.
#[derive(Debug, Clone, Copy)]
pub struct EvidenceContext<'a> {
    /// The rules, with their rates of mistakes.
    pub keyer: &'a Keyer,
    /// The colour words.
    pub words: &'a Vocabulary,
    /// The list's colours, to see what is near.
    pub neighbours: &'a Neighbours,
}

/// A subject's evidence. What was never looked at is `None` or empty.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// Whose.
    pub subject: Subject,
    /// How many observations stand.
    pub observations: usize,
    /// The first and the last day on which anything was seen.
    pub days: Option<(Date, Date)>,
    /// The days on which a bloom was seen, in order, each once.
    pub in_bloom: Vec<Date>,
    /// The years in which a bloom was seen.
    pub years: Vec<i16>,
    /// The form by all observations together.
    pub form: FormSeen,
    /// The diameters.
    pub diameters: Option<Diameters>,
    /// The colours by part, the main one first.
    pub colours: Vec<PartColour>,
    /// The nearest varieties of the list, the nearest first; none where no main colour is known.
    pub near: Vec<Near>,
    /// Every stem tested in the vase.
    pub vase_stems: Vec<Stem>,
    /// The share of stems still fresh, day by day.
    pub vase: Option<Curve>,
    /// Blooms damaged, by kind of weather.
    pub damage: Vec<Damage>,
    /// The same counts one by one, by date.
    pub weather: Vec<Weather>,
    /// Stems cut, season by season.
    pub seasons: Vec<Season>,
    /// Tubers through the winters.
    pub tubers: Tubers,
    /// Pollinators; `None` where none were counted for.
    pub visits: Option<VisitRate>,
    /// Lengths of cut stems, one by one.
    pub stem_lengths: Vec<Extent>,
    /// The same summed up, mm.
    pub stem: Option<Sample>,
    /// Heights of the plant, one by one.
    pub plant_heights: Vec<Extent>,
    /// The same summed up, mm.
    pub height: Option<Sample>,
    /// Plants standing, as last told; `None` where nobody told.
    pub plants: Option<u32>,
    /// Whether the grower holds that it is a form of its own, as last told.
    pub novelty: bool,
    /// The decision that stands, and its day.
    pub decision: Option<(Date, Decision)>,
    /// What could not be used, one sentence each.
    pub doubts: Vec<String>,
}

/// Something of each of many subjects, in their order, worked out on every core.
pub fn each_on_all_cores<T: Send>(
    subjects: &[Subject],
    one: impl Fn(&Subject) -> T + Sync,
) -> Vec<T> {
    all_in_spans(subjects.len(), LEAST_A_THREAD, |span| {
        subjects[span].iter().map(&one).collect()
    })
}

impl Trial {
    /// The evidence of many subjects, in their order, worked out on every core.
    pub fn evidence_of(&self, subjects: &[Subject], under: &EvidenceContext<'_>) -> Vec<Evidence> {
        each_on_all_cores(subjects, |one| self.evidence(one, under))
    }

    /// What the entries about a subject add up to. The order in which they were entered makes no
    /// difference, and a corrected entry counts as if it had been right at once.
    pub fn evidence(&self, subject: &Subject, under: &EvidenceContext<'_>) -> Evidence {
        let mut doubts = Vec::new();
        let seen: Vec<(Date, &Observation)> = self
            .observations(subject)
            .into_iter()
            .map(|(entry, observation)| (entry.date, observation))
            .collect();
        let observations = || seen.iter().map(|(_, observation)| *observation);
        let diameters = Diameters::of(&seen);
        let form = FormSeen::of(&seen, diameters.as_ref(), under.keyer, &mut doubts);
        let colours = colours::by_part(&seen, under.words, &mut doubts);
        // A diameter alone tells no form.
        let leading = form
            .leading()
            .filter(|one| one.share >= 0.5 && form.days > 0);
        let leading = leading.map(|likely| likely.form);
        let own_plants = self
            .seedling_of(subject)
            // A seedling is one plant until more of it are told.
            .map(|seedling| seedling.plants.map_or(1, |plants| plants.get()));
        let vase_stems: Vec<Stem> = observations().flat_map(vase_stems).collect();
        let mut days: Vec<Date> = seen
            .iter()
            .filter(|(_, observation)| in_bloom(observation))
            .map(|(date, _)| *date)
            .collect();
        days.dedup();
        let mut years: Vec<i16> = days.iter().map(|date| date.year()).collect();
        years.dedup();
        let stem_lengths: Vec<Extent> = observations()
            .flat_map(|seen| seen.stems.iter().copied())
            .collect();
        let plant_heights: Vec<Extent> = observations().filter_map(|seen| seen.height).collect();
        let summed_up = |lengths: &[Extent]| {
            Sample::of(&lengths.iter().map(|one| one.mm()).collect::<Vec<_>>())
        };
        Evidence {
            subject: subject.clone(),
            observations: seen.len(),
            days: seen.first().zip(seen.last()).map(|(a, b)| (a.0, b.0)),
            in_bloom: days,
            years,
            near: under.neighbours.near(subject, &colours, leading),
            form,
            diameters,
            colours,
            vase: Curve::of(&vase_stems),
            vase_stems,
            damage: Damage::by_kind(observations()),
            weather: observations()
                .flat_map(|seen| seen.weather.iter().copied())
                .collect(),
            seasons: Season::of(&seen, own_plants),
            tubers: Tubers::of(&seen, &mut doubts),
            visits: VisitRate::of(observations()),
            stem: summed_up(&stem_lengths),
            stem_lengths,
            height: summed_up(&plant_heights),
            plant_heights,
            plants: seen
                .iter()
                .rev()
                .find_map(|(_, seen)| seen.plants)
                .or(own_plants),
            novelty: seen
                .iter()
                .rev()
                .find_map(|(_, seen)| seen.novelty)
                .unwrap_or(false),
            decision: self
                .decision(subject)
                .map(|(entry, decision)| (entry.date, decision.clone())),
            doubts,
        }
    }
}

fn vase_stems(seen: &Observation) -> Vec<Stem> {
    let stem = |stem: &super::entry::VaseStem| Stem {
        days: stem.days.get(),
        ended: stem.ended,
    };
    seen.vase.iter().map(stem).collect()
}

/// Whether the observation is of a plant in bloom: tubers and plants are counted in winter too.
pub(super) fn in_bloom(seen: &Observation) -> bool {
    seen.bloom.is_some()
        || !seen.diameters.is_empty()
        || !seen.colours.is_empty()
        || !seen.vase.is_empty()
        || !seen.weather.is_empty()
        || !seen.stems.is_empty()
        || seen.visits.is_some()
        || seen.open.is_some_and(|open| open > 0)
        || seen.cut.is_some_and(|cut| cut > 0)
}

#[cfg(test)]
pub(in crate::trial) mod tests;
