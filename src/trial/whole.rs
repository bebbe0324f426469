//! The row as a whole: what was sown, what stayed, and which parents it came from.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::entry::{Fate, What};
use super::row::Trial;
use super::seedling::{Seedling, Subject};
use super::statistics::family::{Families, Family};
use super::statistics::share::Share;

/// The row as a whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Whole {
    /// Every seedling, as it stands.
    pub all: Counts,
    /// By the year of sowing.
    pub sown: Vec<(i16, Counts)>,
    /// Season by season, as it stood on the last day of the year: all that were sown by then.
    pub seasons: Vec<(i16, Counts)>,
    /// The parents with a name, by the shrunk share that stays, the best first.
    pub parents: Vec<ParentShare>,
    /// How parents were weighed against the row; `None` where none has a seedling decided on.
    pub families: Option<Families>,
}

/// How many seedlings stand how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Seedlings sown that got a number.
    pub sown: u32,
    /// Kept.
    pub keep: u32,
    /// Held another season.
    pub hold: u32,
    /// Culled.
    pub cull: u32,
}

/// What became of a parent's seedlings.
#[derive(Debug, Clone, PartialEq)]
pub struct ParentShare {
    /// The parent.
    pub parent: Subject,
    /// Seedlings of it, on either side.
    pub counts: Counts,
    /// The share that stays of those decided on: counted, and shrunk to the row's.
    pub family: Family,
}

impl Counts {
    fn add(&mut self, fate: Option<Fate>) {
        self.sown += 1;
        match fate {
            Some(Fate::Keep) => self.keep += 1,
            Some(Fate::Hold) => self.hold += 1,
            Some(Fate::Cull) => self.cull += 1,
            None => {}
        }
    }

    /// Those that nothing was decided on.
    pub fn undecided(&self) -> u32 {
        self.sown - self.keep - self.hold - self.cull
    }

    /// The selection rate: kept of all that were sown.
    pub fn kept(&self) -> Share {
        share(self.keep, self.sown)
    }

    /// Kept or held, of those decided on: what stays through the selections so far. Young seedlings
    /// that nothing was decided on speak neither for nor against their parents.
    pub fn stays(&self) -> Share {
        let stay = self.keep + self.hold;
        share(stay, stay + self.cull)
    }
}

/// A part of a whole; none of none where the part is the larger, which no count is.
fn share(part: u32, whole: u32) -> Share {
    Share::new(part, whole).into_iter().sum()
}

impl Trial {
    /// The row as a whole. Varieties on trial are no seedlings and do not count.
    pub fn whole(&self) -> Whole {
        let mut all = Counts::default();
        let mut sown: BTreeMap<i16, Counts> = BTreeMap::new();
        let mut parents: BTreeMap<&Subject, Counts> = BTreeMap::new();
        for seedling in self.seedlings() {
            let fate = self.fate_on(seedling, Date::MAX);
            all.add(fate);
            sown.entry(seedling.sown_in()).or_default().add(fate);
            for parent in seedling.parents() {
                parents.entry(parent).or_default().add(fate);
            }
        }
        let shares: Vec<Share> = parents.values().map(Counts::stays).collect();
        let families = Families::of(&shares);
        let each = families.iter().flat_map(|families| &families.families);
        let mut parents: Vec<ParentShare> = parents
            .iter()
            .zip(each)
            .map(|((parent, counts), family)| ParentShare {
                parent: (*parent).clone(),
                counts: *counts,
                family: *family,
            })
            .collect();
        // Stable, so that parents alike stay in the order of their names.
        parents.sort_by(|a, b| b.family.shrunk.total_cmp(&a.family.shrunk));
        Whole {
            all,
            seasons: self.seasons(),
            sown: sown.into_iter().collect(),
            parents,
            families,
        }
    }

    fn seasons(&self) -> Vec<(i16, Counts)> {
        let first = self.seedlings().iter().map(Seedling::sown_in).min();
        let seen = self.entries().iter().map(|entry| entry.date.year());
        let last = self
            .seedlings()
            .iter()
            .map(Seedling::sown_in)
            .chain(seen)
            .max();
        let (Some(first), Some(last)) = (first, last) else {
            return Vec::new();
        };
        let count = |year: i16| {
            // OK because every year that a date has has a last day.
            let end = Date::new(year, 12, 31).unwrap_or(Date::MAX);
            let mut counts = Counts::default();
            let sown = self.seedlings().iter().filter(|one| one.sown_in() <= year);
            sown.for_each(|seedling| counts.add(self.fate_on(seedling, end)));
            (year, counts)
        };
        (first..=last).map(count).collect()
    }

    /// What was decided of a seedling by the end of a day.
    fn fate_on(&self, seedling: &Seedling, day: Date) -> Option<Fate> {
        let entries = self.of_subject(&Subject::Seedling(seedling.number));
        let decided = entries.into_iter().rev().filter(|entry| entry.date <= day);
        decided
            .filter_map(|entry| match &entry.what {
                What::Decided(decision) => Some(decision.fate),
                What::Observed(_) | What::Withdrawn => None,
            })
            .next()
    }
}

#[cfg(test)]
mod tests;
