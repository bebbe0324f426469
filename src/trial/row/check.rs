//! What speaks against an entry before it is added.

use std::fmt;

use jiff::civil::Date;

use super::{AddError, MOST_ENTRIES, Trial};
use crate::form::space::Block;
use crate::form::{Answers, RuleSet};
use crate::measure::sample::Sample;
use crate::trial::entry::{Entry, Observation, What};
use crate::trial::seedling::{Sown, Subject};
use crate::variety::Varieties;

/// What an entry is checked against.
#[derive(Debug, Clone, Copy)]
pub struct EntryContext<'a> {
    /// The rules whose traits are answered.
    pub rules: &'a RuleSet,
    /// The grower's list.
    pub list: &'a Varieties,
    /// The day on which it is entered.
    pub today: Date,
}

/// Something that speaks against an entry: one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Doubt {
    /// Whether it cannot be so; what is only strange may be saved all the same.
    pub refuses: bool,
    /// What was found and what was expected.
    pub told: String,
}

/// No bloom is wider; the table of traits has the same limit.
const MOST_DIAMETER: f64 = 500.0;
/// Blooms outside these are rare enough to ask after. Assumed.
const USUAL_DIAMETER: std::ops::RangeInclusive<f64> = 20.0..=350.0;
/// A bloom this many times wider or narrower than the mean so far is more likely a slip. Assumed.
const STRANGE_RATIO: f64 = 1.6;
/// Days in the vase beyond this are rare enough to ask after. Assumed.
const USUAL_VASE: f64 = 21.0;

impl Trial {
    /// What speaks against the entry; nothing where it may be saved as it is.
    pub fn check(&self, entry: &Entry, grounds: &EntryContext<'_>) -> Vec<Doubt> {
        let mut doubts = Vec::new();
        let mut doubt = |refuses, told: String| doubts.push(Doubt { refuses, told });
        if let Err(error) = self.root_for(entry) {
            doubt(true, error.to_string());
        }
        if entry.id > MOST_ENTRIES {
            doubt(true, AddError::IdPast(entry.id).to_string());
        }
        if let (What::Withdrawn, Some(named)) = (&entry.what, entry.corrects)
            && let Some(by) = self.ended_by(named).filter(|by| by.what == What::Withdrawn)
        {
            let by = by.id;
            doubt(
                true,
                format!(
                    "withdraw: found entry {named}, which entry {by} has withdrawn, expected one that counts; withdraw={by} gives it back"
                ),
            );
        }
        if entry.date > grounds.today {
            let today = grounds.today;
            doubt(
                true,
                format!(
                    "date: found {}, expected a day up to today, {today}",
                    entry.date
                ),
            );
        }
        match &entry.of {
            Subject::Seedling(number) => match self.seedling(*number) {
                None => doubt(
                    true,
                    format!("found the seedling {number}, expected one of the row"),
                ),
                Some(seedling) => {
                    let sown = seedling.sown.unwrap_or(Sown::Year(number.year()));
                    if entry.date < sown.first_day() {
                        doubt(
                            true,
                            format!(
                                "date: found {}, expected a day after {number} was sown ({sown})",
                                entry.date
                            ),
                        );
                    }
                }
            },
            Subject::Variety(name) if grounds.list.find(name).is_none() => {
                doubt(
                    true,
                    format!(
                        "found the variety {:?}, expected one of the list, or a seedling's number such as 26-014",
                        name.as_str()
                    ),
                );
            }
            Subject::Variety(_) => {}
        }
        if let What::Observed(seen) = &entry.what {
            self.check_bloom(seen, grounds, &mut doubt);
            self.check_numbers(entry, seen, &mut doubt);
        }
        doubts
    }

    fn check_bloom(
        &self,
        seen: &Observation,
        grounds: &EntryContext<'_>,
        doubt: &mut impl FnMut(bool, String),
    ) {
        let words: Vec<&str> = seen
            .bloom
            .as_deref()
            .unwrap_or_default()
            .split_whitespace()
            .collect();
        let rules = grounds.rules;
        match Answers::read(&words, &rules.traits) {
            Err(error) => doubt(true, error.to_string()),
            Ok(answers) => {
                let block: Block = answers.block(rules.scales());
                if !rules.valid().iter().any(|own| own.meets(&block)) {
                    doubt(false, "found answers that no bloom can have together, expected one of them to be mistaken: they count as they are".to_string());
                }
            }
        }
    }

    fn check_numbers(
        &self,
        entry: &Entry,
        seen: &Observation,
        doubt: &mut impl FnMut(bool, String),
    ) {
        // What a correction replaces says nothing against it.
        let replaced = entry
            .corrects
            .and_then(|id| self.stands_for(id))
            .map(|old| old.id);
        let before: Vec<(&Entry, &Observation)> = self
            .observations(&entry.of)
            .into_iter()
            .filter(|(other, _)| Some(other.id) != replaced && other.date <= entry.date)
            .collect();
        let known = before.iter().flat_map(|(_, seen)| &seen.diameters);
        let known: Vec<f64> = known.map(|one| one.mm()).collect();
        let mean = Sample::of(&known).map(|sample| sample.mean);
        for one in &seen.diameters {
            let (mm, shown) = (one.mm(), one.length());
            if mm > MOST_DIAMETER {
                doubt(
                    true,
                    format!("diameter: found {shown}, expected a length over 0 and up to 500mm"),
                );
            } else if !USUAL_DIAMETER.contains(&mm) {
                doubt(
                    false,
                    format!("diameter: found {shown}, expected 20mm to 350mm of most blooms"),
                );
            } else if let Some(mean) = mean
                && (mm > mean * STRANGE_RATIO || mm < mean / STRANGE_RATIO)
            {
                doubt(
                    false,
                    format!(
                        "diameter: found {shown}, expected something near the mean so far, {mean:.0} mm"
                    ),
                );
            }
        }
        for stem in seen.vase.iter().filter(|stem| stem.days.get() > USUAL_VASE) {
            doubt(
                false,
                format!("vase: found {stem} days, expected up to {USUAL_VASE} of most stems"),
            );
        }
        let lifted = before.iter().rev().find_map(|(_, seen)| seen.tubers);
        match (seen.sound, seen.tubers.or(lifted)) {
            (Some(sound), Some(lifted)) if sound > lifted => {
                doubt(
                    true,
                    format!("sound: found {sound}, expected at most the {lifted} tubers lifted"),
                );
            }
            (Some(_), None) => doubt(
                false,
                "sound: found a count without tubers lifted before, expected that first"
                    .to_string(),
            ),
            _ => {}
        }
        if seen.open == Some(0) && !seen.diameters.is_empty() {
            doubt(
                false,
                "open: found 0 beside measured blooms, expected at least those".to_string(),
            );
        }
    }
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told)
    }
}
