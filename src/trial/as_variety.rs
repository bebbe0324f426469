//! Evidence as a record of the list, so that the code that scores varieties for Choose scores the
//! trial row too.

use std::num::NonZeroU32;

use super::evidence::{Evidence, EvidenceContext};
use super::gate::Release;
use super::row::Trial;
use super::seedling::Subject;
use crate::colour::{Part, Pattern};
use crate::form::{Answer, Answers, Keyer};
use crate::measure::day::week_of;
use crate::measure::{Length, SizeUnits};
use crate::variety::{
    ColourNote, Days, Extent, FULL_WEEKS, FitBasis, FormKnown, FormNote, Known, KnownBloom,
    KnownColour, Reason, StatedValue, Statement, StemsAWeek, Text, Uses, Varieties, Variety,
    VaseLife,
};

/// Who says so, where a form comes from the row.
const BY: &str = "the trial row";

/// How well a subject fits one use.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The use's place in the table.
    pub use_at: usize,
    /// 0 to 1; `None` where no want of the use is known.
    pub fitness: Option<f64>,
    /// On what ground that may be said; `None` where it may not.
    pub ground: Option<FitBasis>,
    /// Why, those that speak for it first.
    pub reasons: Vec<Reason>,
}

impl Evidence {
    /// The evidence as a record; with `record` it is added to what the list knows already.
    ///
    /// The form is noted where [`Evidence::settled`] by at least `credence`. Looks that settle none make none:
    /// of its bloom only the centre is then taken, since all answers together could be keyed. Diameters, lengths of stems,
    /// heights and weather counts are added to the record's own. A tested vase life stands beside what
    /// somebody states, and is weighed together with one that was tested before.
    ///
    /// **Vase life.** A stem still fresh when its test ended is never taken as ended. The median of
    /// the Kaplan-Meier curve is used where it was reached: it does not hang on how long the test
    /// went on. Where it was not, the days are the mean to the last day watched, which is less than
    /// the truth, and only the stems whose end was seen count as tested; where none ended, nothing
    /// is said.
    ///
    /// # Panics
    /// Never: a seedling's number is a text.
    pub fn as_variety(&self, keyer: &Keyer, credence: f64, record: Option<&Variety>) -> Variety {
        let mut variety = record.cloned().unwrap_or_else(|| {
            let name = Text::new(self.subject.to_string());
            Variety::named(name.expect("a number or a name is a text"))
        });
        let settled = self.settled(keyer, credence);
        if let Some(form) = settled {
            variety.form = Text::new(&keyer.set.forms[form].id)
                .ok()
                .map(|id| FormNote {
                    id,
                    known: FormKnown::Keyed,
                    by: Text::new(BY).ok(),
                });
        }
        variety.bloom = match (settled, variety.bloom) {
            (Some(_), noted) => self.standing(keyer, |_| true).or(noted),
            (None, Some(noted)) => Some(noted),
            (None, None) => self.standing(keyer, |id| id == "centre"),
        };
        let blooms = self.diameters.iter().flat_map(|seen| &seen.blooms);
        let lengths = blooms.flat_map(|(_, values)| values.iter().map(|mm| Length::from_mm(*mm)));
        let lengths = lengths.filter_map(|length| Extent::try_from(length).ok());
        variety.diameters.extend(lengths);
        if let Some(colours) = self.colour_notes(&variety.colours) {
            variety.colours = colours;
        }
        variety.stem_lengths.extend(&self.stem_lengths);
        variety.plant_heights.extend(&self.plant_heights);
        let tested = self.vase_life();
        if let (Some(noted), Some(_)) = (variety.vase.filter(|one| one.stems.is_none()), tested) {
            variety.stated.insert(
                0,
                Statement {
                    value: StatedValue::Vase(noted.days),
                    by: None,
                },
            );
        }
        variety.vase = merged(variety.vase, tested);
        variety.weather.extend(self.weather.iter().copied());
        variety.seen_in_bloom = self.in_bloom.iter().map(|day| week_of(*day)).collect();
        variety.stems_a_week = self.stems_a_week().or(variety.stems_a_week);
        variety.stems_a_plant = self.stems_a_plant().or(variety.stems_a_plant);
        variety
    }

    /// The subject's place in the list, and its record with the evidence taken into it; `None` where it
    /// is no variety of the list.
    pub fn record(
        &self,
        keyer: &Keyer,
        credence: f64,
        list: &Varieties,
    ) -> Option<(usize, Variety)> {
        let Subject::Variety(name) = &self.subject else {
            return None;
        };
        let at = list.find(name)?;
        let known = Some(&list.list()[at]);
        Some((at, self.as_variety(keyer, credence, known)))
    }

    /// The vase life as it is reckoned with; `None` where no stem's end was seen.
    pub fn vase_life(&self) -> Option<VaseLife> {
        let curve = self.vase.as_ref()?;
        let ended = curve.stems - curve.censored;
        let (days, stems) = match curve.median {
            Some(median) => (median, curve.stems),
            None => (curve.mean_to(curve.watched)?.days, ended),
        };
        Some(VaseLife {
            days: Days::try_from(days).ok()?,
            stems: Some(NonZeroU32::new(u32::try_from(stems).ok()?)?),
        })
    }

    /// How well it fits every use, by the same code as Choose; lengths are told in `units`.
    /// A use is said as its own where `share` of what it wants was seen on it.
    pub fn fits(
        &self,
        (keyer, uses): (&Keyer, &Uses),
        release: &Release,
        share: f64,
        record: Option<&Variety>,
        units: SizeUnits,
    ) -> Vec<Fit> {
        let variety = self.as_variety(keyer, release.least.credence, record);
        let known = Known::of(&variety, &keyer.set, uses);
        let enough = release.enough(&variety.weather, share);
        let fit = |(use_at, one)| Fit {
            use_at,
            fitness: known.fitness(one),
            ground: known.ground(one, &enough),
            reasons: known.reasons(one, &[], units),
        };
        uses.list().iter().enumerate().map(fit).collect()
    }

    /// The standing answers to these traits, the diameter apart; `None` where there are none.
    fn standing(&self, keyer: &Keyer, wanted: impl Fn(&str) -> bool) -> Option<KnownBloom> {
        let mut answers = Answers::default();
        for (index, answer) in self.form.standing.iter() {
            let id = keyer.set.traits.get(index).id.as_str();
            if *answer != Answer::CannotTell && id != "diameter" && wanted(id) {
                answers.set(index, answer.clone());
            }
        }
        (!answers.is_empty()).then(|| KnownBloom::Answered(Box::new(answers)))
    }

    /// The mean colours, of a part that nobody measured its word; `None` where no main colour was seen. How a colour lies is not observed:
    /// it is as noted for that part, else taken to cover it, or to blend where there is a second.
    fn colour_notes(&self, noted: &[ColourNote]) -> Option<Vec<ColourNote>> {
        let first = self.colours.first()?;
        let several = self.colours.iter().any(|one| one.part == Part::Second);
        let note = |seen: &super::evidence::PartColour| {
            let before = noted.iter().find(|note| note.part == seen.part);
            let taken = if several && seen.part != Part::Centre {
                Pattern::Blend
            } else {
                Pattern::SelfColoured
            };
            let colour = match seen.words.first() {
                Some(word) if seen.name.is_none() => Text::new(word).ok()?.into(),
                _ => KnownColour::Measured(seen.mean),
            };
            Some(ColourNote {
                colour,
                part: seen.part,
                pattern: before.map_or(taken, |note| note.pattern),
            })
        };
        let unseen = noted
            .iter()
            .filter(|note| !self.colours.iter().any(|seen| seen.part == note.part));
        let notes = self.colours.iter().filter_map(note).chain(unseen.cloned());
        (first.part == Part::Main).then(|| notes.collect())
    }

    /// Stems cut from one plant, on average over the seasons, where at least one a season was.
    fn stems_a_plant(&self) -> Option<NonZeroU32> {
        let known: Vec<f64> = self.seasons.iter().filter_map(|one| one.a_plant).collect();
        let mean = known.iter().sum::<f64>() / known.len() as f64;
        NonZeroU32::new(mean.round() as u32)
    }

    /// Stems cut from one plant in a week, on average over the seasons. A season that was cut for
    /// fewer weeks than a whole one counts as a whole one: a cut or two say little of a week.
    fn stems_a_week(&self) -> Option<StemsAWeek> {
        let of_season = |one: &super::evidence::Season| {
            Some(one.a_plant? / f64::from(one.weeks).max(FULL_WEEKS))
        };
        let known: Vec<f64> = self.seasons.iter().filter_map(of_season).collect();
        StemsAWeek::try_from(known.iter().sum::<f64>() / known.len() as f64).ok()
    }
}

impl Trial {
    /// For every variety on trial its place in the list, and its record with the evidence taken
    /// into it: for reckoning with, and never to be saved, since the evidence has a place of its own.
    pub fn records(
        &self,
        list: &Varieties,
        under: &EvidenceContext<'_>,
        credence: f64,
    ) -> Vec<(usize, Variety)> {
        let subjects = self.subjects();
        let record = |subject| {
            self.evidence(subject, under)
                .record(under.keyer, credence, list)
        };
        subjects.iter().filter_map(record).collect()
    }

    /// The list with those records in it.
    pub fn informed(
        &self,
        list: &Varieties,
        under: &EvidenceContext<'_>,
        credence: f64,
    ) -> Varieties {
        let mut informed = list.clone();
        for (at, record) in self.records(list, under, credence) {
            // OK because the record's name is the one that was there.
            let _ = informed.replace(at, record);
        }
        informed
    }
}

/// Both vase lives together, each by its stems; what somebody states gives way to a test.
fn merged(noted: Option<VaseLife>, tested: Option<VaseLife>) -> Option<VaseLife> {
    let (Some(before), Some(now)) = (noted, tested) else {
        return tested.or(noted);
    };
    let (Some(first), Some(second)) = (before.stems, now.stems) else {
        return Some(now);
    };
    let (a, b) = (f64::from(first.get()), f64::from(second.get()));
    let days = (before.days.get() * a + now.days.get() * b) / (a + b);
    Some(VaseLife {
        days: Days::try_from(days).ok()?,
        stems: first.checked_add(second.get()),
    })
}

#[cfg(test)]
mod tests;
