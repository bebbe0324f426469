//! A subject's evidence in words, a line for each thing that was looked at: the same in the command
//! and on the screen.

use super::evidence::{Damage, Evidence, Season, VisitRate, range};
use super::statistics::nested::Basis;
use super::statistics::share::Share;
use super::statistics::survival::{Caution, Curve};
use crate::colour::Part;
use crate::form::Keyer;
use crate::form::sentences::percent;
use crate::measure::sample::{Interval, Sample};
use crate::measure::{Exact, Length, SizeUnits, days};
use crate::variety::{FormKnown, FormNote};

/// One thing that was looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EvidenceLine {
    /// What it is about, in a word or two.
    pub about: &'static str,
    /// What it adds up to.
    pub text: String,
}

/// Forms told beside the likeliest.
const FORMS_TOLD: usize = 3;
/// A form with a smaller share is not worth a word.
const WORTH_TELLING: f64 = 0.01;

impl Evidence {
    /// A line for each thing that was looked at, the form first; `listed` is the form that the
    /// grower's list has for it.
    pub fn lines(
        &self,
        keyer: &Keyer,
        listed: Option<&FormNote>,
        units: SizeUnits,
    ) -> Vec<EvidenceLine> {
        let mut lines = Vec::new();
        let mut tell = |about, text: String| lines.push(EvidenceLine { about, text });
        if let Some(text) = self.form_in_words(keyer, listed, units) {
            tell("form", text);
        }
        for disagreement in &self.form.disagreements {
            tell("looks differ", disagreement.sentence(keyer));
        }
        if let Some(text) = self.diameter_in_words(units) {
            tell("diameter", text);
        }
        if !self.colours.is_empty() {
            tell("colour", self.colours_in_words());
        }
        if !self.near.is_empty() {
            tell("nearest", self.nearest_in_words());
        }
        if let Some(curve) = &self.vase {
            tell("vase", vase_in_words(curve));
        }
        for damage in &self.damage {
            tell("weather", damage_in_words(damage));
        }
        if let Some(stem) = &self.stem {
            tell("stem", lengths_in_words(stem, units));
        }
        if let Some(height) = &self.height {
            tell("height", lengths_in_words(height, units));
        }
        for season in &self.seasons {
            tell("cut", season_in_words(season));
        }
        if let Some(text) = self.tubers_in_words() {
            tell("tubers", text);
        }
        if let Some(visits) = &self.visits {
            tell("pollinators", visits_in_words(visits));
        }
        if let Some(plants) = self.plants {
            tell("plants", plants.to_string());
        }
        if self.novelty {
            tell(
                "novelty",
                "you hold that it is a form of its own".to_string(),
            );
        }
        if let Some((date, decision)) = &self.decision {
            let why = decision.reason.as_ref().map(|why| format!(": {why}"));
            let why = why.unwrap_or_default();
            tell(
                "decided",
                format!("{} on {date}{why}", decision.fate.done()),
            );
        }
        for doubt in &self.doubts {
            tell("to check", doubt.clone());
        }
        lines
    }

    fn form_in_words(
        &self,
        keyer: &Keyer,
        listed: Option<&FormNote>,
        units: SizeUnits,
    ) -> Option<String> {
        let seen = self.forms_seen_in_words(keyer);
        let told = match (listed, &seen) {
            (Some(note), Some(seen)) => format!("{}; {seen}", listed_form_in_words(note, keyer)),
            (Some(note), None) => {
                format!(
                    "{}; no trait was looked at here",
                    listed_form_in_words(note, keyer)
                )
            }
            (None, Some(seen)) => seen.clone(),
            (None, None) if self.diameters.is_some() => {
                "not known: no trait was looked at".to_string()
            }
            (None, None) => return None,
        };
        let listed = listed.and_then(|note| keyer.set.find(&note.id));
        let form = seen.and(self.form.leading()).map(|leading| leading.form);
        let size = self.form.size.as_ref().map(|size| {
            let size = keyer.set.size_in_words(form.or(listed), size, units);
            format!("; {size}")
        });
        Some(told + &size.unwrap_or_default())
    }

    /// The likeliest forms by its looks; `None` where only its diameter was measured, or nothing.
    fn forms_seen_in_words(&self, keyer: &Keyer) -> Option<String> {
        let leading = self.form.leading().filter(|_| self.form.days > 0)?;
        let name = |form: usize| keyer.set.forms[form].name.as_str();
        let told = self.form.likely.iter().take(FORMS_TOLD);
        let told = told.filter(|one| one.form == leading.form || one.share >= WORTH_TELLING);
        let shares: Vec<String> = told
            .map(|one| format!("{} {}", name(one.form), percent(one.share)))
            .collect();
        let days = match self.form.days {
            1 => "one day's looks".to_string(),
            days => format!("the looks of {days} days"),
        };
        let prior = keyer.prior.in_words();
        Some(format!("{} by {days}, {prior}", shares.join(", ")))
    }

    pub(super) fn diameter_in_words(&self, units: SizeUnits) -> Option<String> {
        let diameters = self.diameters.as_ref()?;
        let nested = &diameters.nested;
        let mut text = format!("mean {}", diameters.mean().shown(units));
        if let Some(limits) = nested.limits() {
            text += &format!(", 95 %: {}", range(limits, units));
        }
        let blooms = match nested.count {
            1 => "1 bloom".to_string(),
            count => format!("{count} blooms"),
        };
        text += &match nested.basis {
            Basis::OneValue => format!("; {blooms}, so no interval"),
            Basis::OneDate => {
                format!("; {blooms} of one day, so how days differ is not in it")
            }
            Basis::Dates(dates) => format!("; {blooms}, by the means of {dates} days"),
        };
        Some(text)
    }

    fn colours_in_words(&self) -> String {
        let told = self.colours.iter().map(|colour| {
            let part = match colour.part {
                Part::Main => String::new(),
                part => format!("{} ", part.word()),
            };
            let words = colour.words.join(" or ");
            let Some(name) = colour.name else {
                return format!("{part}{words}, by word and not measured");
            };
            let words = match words.as_str() {
                "" => String::new(),
                words => format!("{words}: "),
            };
            let spread = match (colour.spread, colour.count) {
                (Some(spread), count) => format!(", mean of {count}, spread {spread:.1}"),
                (None, _) => String::new(),
            };
            format!("{part}{words}{name} ({}{spread})", colour.mean.to_srgb())
        });
        told.collect::<Vec<_>>().join("; ")
    }

    fn nearest_in_words(&self) -> String {
        let told = self.near.iter().map(|near| {
            let form = match near.same_form {
                Some(true) => ", same form",
                Some(false) | None => "",
            };
            format!("{} {:.1} away{form}", near.name, near.distance)
        });
        let by_word = match self.colours.first() {
            Some(main) if main.name.is_none() => "; by the middle of its colour word",
            _ => "",
        };
        format!("{}{by_word}", told.collect::<Vec<_>>().join("; "))
    }

    fn tubers_in_words(&self) -> Option<String> {
        let tubers = &self.tubers;
        let mut parts = Vec::new();
        if tubers.kept.of() > 0 {
            parts.push(format!("kept {}", share_in_words(tubers.kept)));
        }
        match (tubers.stored, tubers.lifted) {
            (Some(stored), _) => parts.push(format!("{stored} in store, not yet looked at")),
            (None, Some(lifted)) => parts.push(format!("{lifted} at the last lifting")),
            (None, None) => {}
        }
        (!parts.is_empty()).then(|| parts.join("; "))
    }
}

/// `formal decorative, keyed in your list`.
fn listed_form_in_words(note: &FormNote, keyer: &Keyer) -> String {
    let name = note.name(&keyer.set);
    match (note.known, &note.by) {
        (FormKnown::Keyed, _) => format!("{name}, keyed in your list"),
        (FormKnown::Stated, Some(by)) => format!("{name}, stated by {by}"),
        (FormKnown::Stated, None) => format!("{name}, stated in your list"),
        (FormKnown::Guessed, _) => format!("{name}, by eye in your list"),
    }
}

/// `median 7 days (6 to 9), 12 stems of which 4 still fresh at the end`.
pub(super) fn vase_in_words(curve: &Curve) -> String {
    let limits = median_limits_in_words(curve);
    let median = match curve.median {
        Some(median) => format!("median {}{limits}", days(median)),
        None => format!(
            "median not reached in {}{limits}: over half outlast it",
            days(curve.watched)
        ),
    };
    let stems = stems_in_words(curve);
    let caution = match curve.caution() {
        None => String::new(),
        Some(Caution::FewEnded(ended)) => {
            format!("; small numbers: {ended} ended, too few to bound a median")
        }
        Some(Caution::MostlyFresh { .. }) => {
            "; most outlasted the test, so the limits are rough".to_string()
        }
        Some(Caution::FewStems(_)) => "; small numbers, so the limits are rough".to_string(),
    };
    format!("{median}; {stems}{caution}")
}

/// ` (95 %: 6 to 9)`; nothing where neither limit is known.
pub(super) fn median_limits_in_words(curve: &Curve) -> String {
    match (curve.median_limits.low, curve.median_limits.high) {
        (Some(low), Some(high)) => format!(" (95 %: {low} to {high})"),
        (Some(low), None) => format!(" (95 %: {low} or more)"),
        (None, Some(high)) => format!(" (95 %: {high} or less)"),
        (None, None) => String::new(),
    }
}

/// `12 stems, 4 of them still fresh at the end`.
pub(super) fn stems_in_words(curve: &Curve) -> String {
    match (curve.stems, curve.censored) {
        (1, 0) => "1 stem".to_string(),
        (1, _) => "1 stem, still fresh at the end".to_string(),
        (stems, 0) => format!("{stems} stems"),
        (stems, fresh) => format!("{stems} stems, {fresh} of them still fresh at the end"),
    }
}

fn damage_in_words(damage: &Damage) -> String {
    let events = match damage.events {
        1 => "one event, whose blooms are alike".to_string(),
        events => format!("{events} events"),
    };
    format!(
        "{}: {} damaged, {events}",
        damage.kind.word(),
        share_in_words(damage.share)
    )
}

/// `3 of 12, 25 % (95 %: 5 to 57 %)`.
pub fn share_in_words(share: Share) -> String {
    let Interval { low, high } = share.limits();
    let value = share.value().map_or("unknown".to_string(), percent);
    format!(
        "{} of {}, {value} (95 %: {:.0} to {:.0} %)",
        share.hit(),
        share.of(),
        low * 100.0,
        high * 100.0
    )
}

fn lengths_in_words(sample: &Sample, units: SizeUnits) -> String {
    let mean = Length::from_mm(Exact::ratio(sample.mean.round() as i64, 1));
    let shown = match units {
        SizeUnits::Mm => format!("{} cm", (mean.mm() / Exact::whole(10)).to_decimal(0)),
        SizeUnits::In => format!("{} in", mean.inches().to_decimal(0)),
    };
    match sample.count {
        1 => shown,
        count => format!("{shown}, mean of {count}"),
    }
}

fn season_in_words(season: &Season) -> String {
    let weeks = match season.weeks {
        1 => "1 week".to_string(),
        weeks => format!("{weeks} weeks"),
    };
    let each = match (season.a_plant, season.a_week()) {
        (Some(a_plant), Some(a_week)) => {
            format!("; {a_plant:.1} a plant, {a_week:.1} a plant a week")
        }
        _ => String::new(),
    };
    format!("{}: {} stems over {weeks}{each}", season.year, season.stems)
}

fn visits_in_words(visits: &VisitRate) -> String {
    let Interval { low, high } = visits.limits();
    format!(
        "{} in {} minutes, {:.1} a minute (95 %: {low:.1} to {high:.1})",
        visits.count,
        visits.minutes,
        visits.a_minute()
    )
}

impl super::Seedling {
    /// Where it comes from and where it stands: `Haaf Lantern x open-pollinated, sown 2026, row sea
    /// wall, place 4`.
    pub fn description(&self) -> String {
        let mut parts = vec![format!("{} x {}", self.seed_parent, self.pollen_parent)];
        parts.push(match self.sown {
            Some(sown) => format!("sown {sown}"),
            None => format!("sown {}", self.sown_in()),
        });
        if let Some(row) = &self.row {
            parts.push(format!("row {row}"));
        }
        if let Some(place) = self.place {
            parts.push(format!("place {place}"));
        }
        parts.join(", ")
    }
}
