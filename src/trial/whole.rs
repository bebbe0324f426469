//! The row as a whole: what was sown, what stayed, and which parents it came from.

mod account;

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::entry::Fate;
use super::row::Trial;
use super::seedling::{Parent, Seedling, Subject};
use super::statistics::parents::{Decided, Estimate, Offspring, Parents};
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
    /// The parents with a name, by the share of their seedlings that would stay, the best first;
    /// those of too few seedlings to tell after them, by name.
    pub parents: Vec<ParentShare>,
    /// What a parent would give that has no seedling in this row; `None` where nothing was decided.
    pub new_parent: Option<Estimate>,
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
    /// What its seedlings say of it.
    pub offspring: Offspring,
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
        let mut fates = Vec::new();
        let decided = self.decided();
        for (seedling, decided) in self.seedlings().iter().zip(&decided) {
            let fate = fate_on(decided, Date::MAX);
            all.add(fate);
            sown.entry(seedling.sown_in()).or_default().add(fate);
            for parent in seedling.parents() {
                parents.entry(parent).or_default().add(fate);
            }
            fates.extend(fate.map(|fate| (seedling, fate)));
        }
        let names: Vec<&Subject> = parents.keys().copied().collect();
        let place = |parent: &Parent| names.binary_search(&parent.named()?).ok();
        let told = fates.iter().map(|(seedling, fate)| Decided {
            parents: [place(&seedling.seed_parent), place(&seedling.pollen_parent)],
            stays: *fate != Fate::Cull,
        });
        let weighed = Parents::of(&told.collect::<Vec<_>>(), names.len());
        let each = |at: usize| weighed.as_ref()?.each.get(at).copied();
        let mut parents: Vec<ParentShare> = parents
            .iter()
            .enumerate()
            .map(|(at, (parent, counts))| ParentShare {
                parent: (*parent).clone(),
                counts: *counts,
                offspring: each(at).unwrap_or_default(),
            })
            .collect();
        // Stable, so that parents alike stay in the order of their names.
        let told = |one: &ParentShare| one.offspring.estimate.map_or(-1.0, |told| told.share);
        parents.sort_by(|a, b| told(b).total_cmp(&told(a)));
        Whole {
            all,
            seasons: self.seasons(&decided),
            sown: sown.into_iter().collect(),
            parents,
            new_parent: weighed.map(|weighed| weighed.new),
        }
    }

    fn seasons(&self, decided: &[Vec<(Date, Fate)>]) -> Vec<(i16, Counts)> {
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
            let all = self.seedlings().iter().zip(decided);
            let sown = all.filter(|(one, _)| one.sown_in() <= year);
            sown.for_each(|(_, decided)| counts.add(fate_on(decided, end)));
            (year, counts)
        };
        (first..=last).map(count).collect()
    }

    /// What was decided of each seedling, by date.
    fn decided(&self) -> Vec<Vec<(Date, Fate)>> {
        let of = |seedling: &Seedling| {
            let subject = Subject::Seedling(seedling.number);
            let decisions = self.decisions(&subject);
            decisions
                .map(|(entry, decision)| (entry.date, decision.fate))
                .collect()
        };
        self.seedlings().iter().map(of).collect()
    }
}

/// What was decided by the end of a day.
fn fate_on(decided: &[(Date, Fate)], day: Date) -> Option<Fate> {
    let by_then = decided.iter().rev().find(|(date, _)| *date <= day);
    by_then.map(|(_, fate)| *fate)
}

#[cfg(test)]
mod tests;
