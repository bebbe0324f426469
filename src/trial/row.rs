//! The row as a whole: its seedlings, its entries, and which of them stand after corrections.

use std::collections::BTreeMap;
use std::fmt;

use super::entry::{Decision, Entry, Observation, What};
use super::seedling::{Number, Seedling, Subject};

mod check;

pub use check::{Doubt, EntryContext};

/// The seedlings and every entry about them. The order in which entries come makes no difference.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trial {
    seedlings: Vec<Seedling>,
    by_number: BTreeMap<Number, usize>,
    /// By number; corrections, and what they correct, among them.
    entries: Vec<Entry>,
    /// For each entry the place of the first one that it goes back to by corrections.
    root: Vec<usize>,
    /// For the place of each first entry the place of the one that stands for it.
    standing: BTreeMap<usize, usize>,
    /// First entries by the subject of what stands for them.
    by_subject: BTreeMap<Subject, Vec<usize>>,
}

/// An entry that cannot be added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AddError {
    /// The seedling's number is taken.
    NumberTaken(Number),
    /// The entry's number is not above every other.
    IdTaken {
        /// Its number.
        found: u32,
        /// The least that can be had.
        least: u32,
    },
    /// It corrects an entry that is not there.
    NothingToCorrect(u32),
    /// It withdraws something and does not say what.
    WithdrawsNothing(u32),
}

impl Trial {
    /// The row of these seedlings and entries. What does not fit together is told, one sentence
    /// each, and used as far as it can be: a correction of an entry that is lost stands by itself.
    pub fn of(seedlings: Vec<Seedling>, entries: Vec<Entry>) -> (Trial, Vec<String>) {
        let mut trial = Trial::default();
        let mut told = Vec::new();
        for seedling in seedlings {
            if let Err(error) = trial.add_seedling(seedling) {
                told.push(error.to_string());
            }
        }
        let mut entries = entries;
        // Entries of one number, as two books put together have them, fall in an order of their own.
        entries.sort_by_cached_key(|entry| entry.id);
        let shared = |pair: &[Entry]| pair[0].id == pair[1].id;
        if entries.windows(2).any(shared) {
            entries.sort_by_cached_key(|entry| (entry.id, format!("{entry:?}")));
            entries.dedup();
        }
        for pair in entries.windows(2).filter(|pair| shared(pair)) {
            told.push(format!(
                "entry {}: found a second entry with this number, expected each number once; both count, and corrections of it go to the first",
                pair[0].id
            ));
        }
        for entry in entries {
            let root = match trial.root_for(&entry) {
                Ok(root) => root,
                Err(error) => {
                    told.push(error.to_string());
                    if entry.what == What::Withdrawn {
                        continue;
                    }
                    trial.entries.len()
                }
            };
            if let Subject::Seedling(number) = entry.of
                && !trial.by_number.contains_key(&number)
            {
                told.push(format!(
                    "entry {}: found the seedling {number}, expected one of trial.ron",
                    entry.id
                ));
            }
            trial.push(entry, root);
        }
        (trial, told)
    }

    /// Adds a seedling.
    ///
    /// # Errors
    /// [`AddError::NumberTaken`].
    pub fn add_seedling(&mut self, seedling: Seedling) -> Result<(), AddError> {
        if self.by_number.contains_key(&seedling.number) {
            return Err(AddError::NumberTaken(seedling.number));
        }
        self.by_number.insert(seedling.number, self.seedlings.len());
        self.seedlings.push(seedling);
        Ok(())
    }

    /// Adds an entry; whether it makes sense is for [`Trial::check`] to say before.
    ///
    /// # Errors
    /// [`AddError`] where its number is taken or it corrects nothing; the row is then as it was.
    pub fn add(&mut self, entry: Entry) -> Result<(), AddError> {
        let least = self.next_id();
        if entry.id < least {
            let found = entry.id;
            return Err(AddError::IdTaken { found, least });
        }
        let root = self.root_for(&entry)?;
        self.push(entry, root);
        Ok(())
    }

    /// The number of the next entry.
    pub fn next_id(&self) -> u32 {
        self.entries
            .last()
            .map_or(1, |last| last.id.saturating_add(1))
    }

    /// The number that the next seedling of a year gets.
    pub fn next_number(&self, year: i16) -> Option<Number> {
        let of_year = self.by_number.keys().filter(|number| number.year() == year);
        let last = of_year.max().map_or(0, |number| number.own());
        Number::new(year, last.checked_add(1)?)
    }

    /// Every seedling, in the order of the file.
    pub fn seedlings(&self) -> &[Seedling] {
        &self.seedlings
    }

    /// The seedling with this number.
    pub fn seedling(&self, number: Number) -> Option<&Seedling> {
        self.by_number.get(&number).map(|at| &self.seedlings[*at])
    }

    /// The seedling that a subject is; `None` of a variety or an unknown number.
    pub fn seedling_of(&self, subject: &Subject) -> Option<&Seedling> {
        match subject {
            Subject::Seedling(number) => self.seedling(*number),
            Subject::Variety(_) => None,
        }
    }

    /// Every entry by number, corrected ones and their corrections among them.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The entry with this number.
    pub fn entry(&self, id: u32) -> Option<&Entry> {
        self.place(id).map(|at| &self.entries[at])
    }

    /// The entry that stands in the place of the one with this number; itself where it was never
    /// corrected.
    pub fn stands_for(&self, id: u32) -> Option<&Entry> {
        let root = self.root[self.place(id)?];
        self.standing.get(&root).map(|at| &self.entries[*at])
    }

    /// Every subject that has a record or an entry that stands: seedlings by number, then
    /// varieties by name.
    pub fn subjects(&self) -> Vec<Subject> {
        let numbered = self
            .by_number
            .keys()
            .map(|number| Subject::Seedling(*number));
        let mut all: Vec<Subject> = numbered.chain(self.by_subject.keys().cloned()).collect();
        all.sort();
        all.dedup();
        all
    }

    /// The entries about a subject that stand, by date; those of one day by the place of the first
    /// entry that each goes back to.
    pub fn of_subject(&self, subject: &Subject) -> Vec<&Entry> {
        let roots = self.by_subject.get(subject).map_or(&[][..], Vec::as_slice);
        let mut found: Vec<(&usize, &Entry)> = roots
            .iter()
            .map(|root| (root, &self.entries[self.standing[root]]))
            .collect();
        found.sort_by_key(|(root, entry)| (entry.date, **root));
        found.into_iter().map(|(_, entry)| entry).collect()
    }

    /// What was seen of a subject, by date, with the entry that tells it.
    pub fn observations(&self, subject: &Subject) -> Vec<(&Entry, &Observation)> {
        let entries = self.of_subject(subject).into_iter();
        entries
            .filter_map(|entry| Some((entry, entry.observation()?)))
            .collect()
    }

    /// The decision that stands: the last by date, of one day the one entered last.
    pub fn decision(&self, subject: &Subject) -> Option<(&Entry, &Decision)> {
        let entries = self.of_subject(subject).into_iter().rev();
        entries
            .filter_map(|entry| match &entry.what {
                What::Decided(decision) => Some((entry, decision)),
                What::Observed(_) | What::Withdrawn => None,
            })
            .next()
    }

    fn place(&self, id: u32) -> Option<usize> {
        let at = self.entries.partition_point(|entry| entry.id < id);
        self.entries.get(at).filter(|entry| entry.id == id)?;
        Some(at)
    }

    /// Where the entry goes back to: its own place, or what it corrects.
    fn root_for(&self, entry: &Entry) -> Result<usize, AddError> {
        match entry.corrects {
            None if entry.what == What::Withdrawn => Err(AddError::WithdrawsNothing(entry.id)),
            None => Ok(self.entries.len()),
            Some(of) => match self.place(of) {
                Some(at) => Ok(self.root[at]),
                None => Err(AddError::NothingToCorrect(of)),
            },
        }
    }

    /// The last of all corrections stands, whichever of the chain it names.
    fn push(&mut self, entry: Entry, root: usize) {
        let at = self.entries.len();
        if let Some(before) = self.standing.insert(root, at) {
            let old = &self.entries[before].of;
            if let Some(roots) = self.by_subject.get_mut(old) {
                roots.retain(|one| *one != root);
                if roots.is_empty() {
                    self.by_subject.remove(&old.clone());
                }
            }
        }
        if entry.what != What::Withdrawn {
            let roots = self.by_subject.entry(entry.of.clone()).or_default();
            roots.push(root);
        }
        self.root.push(root);
        self.entries.push(entry);
    }
}

impl fmt::Display for AddError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            AddError::NumberTaken(number) => write!(
                f,
                "{number}: found the number a second time, expected each seedling once"
            ),
            AddError::IdTaken { found, least } => write!(
                f,
                "entry: found the number {found}, expected {least} or more"
            ),
            AddError::NothingToCorrect(of) => write!(
                f,
                "corrects: found {of}, expected the number of an earlier entry"
            ),
            AddError::WithdrawsNothing(id) => write!(
                f,
                "entry {id}: found a withdrawal that names no entry, expected withdraw=NUMBER"
            ),
        }
    }
}

impl std::error::Error for AddError {}

#[cfg(test)]
mod tests;
