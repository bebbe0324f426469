//! The row as a whole: its seedlings, its entries, and which of them count after corrections and
//! withdrawals.

use std::collections::{BTreeMap, HashMap};

use jiff::civil::Date;

use super::entry::{Decision, Entry, Observation, What};
use super::seedling::{Number, Seedling, Subject};
use crate::variety::Text;

mod check;
mod error;
mod figures;
mod linking;
mod misfit;
mod odd;
mod standing;

pub use check::{BloomDays, Doubt, EntryContext};
pub use error::AddError;
pub use misfit::Misfit;

/// The seedlings and every entry about them. The order in which entries come makes no difference.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trial {
    seedlings: Vec<Seedling>,
    by_number: BTreeMap<Number, usize>,
    /// Those whose number is past the last that may be, then all others by number; corrections, and
    /// what they correct, among them.
    entries: Vec<Entry>,
    /// How many at the front have a number past the last that may be.
    past: usize,
    /// For each entry the place of the first one that it goes back to.
    root: Vec<usize>,
    /// For the place of each first entry that others name, the places of those, in order.
    changes: BTreeMap<usize, Vec<usize>>,
    /// For the same the place of the one that stands; `None` where all are withdrawn.
    standing: BTreeMap<usize, Option<usize>>,
    /// For the place of each entry that no longer counts the place of the one that is why.
    ended: BTreeMap<usize, usize>,
    /// First entries by their subject.
    by_subject: HashMap<Subject, Vec<usize>>,
}

/// The last number that an entry may have. Nobody notes so much; a number past it is a slip or damage,
/// and were the next note to be numbered after it, numbers would run out.
pub const MOST_ENTRIES: u32 = 999_999_999;

impl Trial {
    /// The row of these seedlings and entries, and what does not fit together, one sentence each:
    /// [`Trial::read`] in words alone.
    pub fn of(seedlings: Vec<Seedling>, entries: Vec<Entry>) -> (Trial, Vec<String>) {
        let (trial, misfits) = Trial::read(seedlings, entries);
        (trial, misfits.into_iter().map(|one| one.told).collect())
    }

    /// The row of these seedlings and entries, and what does not fit together. That is used as far as
    /// it can be: a correction of an entry that is lost, or is another plant's, stands by itself and
    /// changes nothing else; such a withdrawal is left out.
    pub fn read(seedlings: Vec<Seedling>, entries: Vec<Entry>) -> (Trial, Vec<Misfit>) {
        let mut trial = Trial::default();
        let mut told = Vec::new();
        // Entries of seedlings that are not there, each with the sentences before it.
        let mut strange = Vec::new();
        for seedling in seedlings {
            if let Err(error) = trial.add_seedling(seedling) {
                told.push(Misfit::of_the_row(error.to_string()));
            }
        }
        trial.entries = misfit::sorted(entries, &mut told);
        for found in 0..trial.entries.len() {
            // What is left out lies behind those that are linked.
            let at = trial.root.len();
            trial.entries.swap(at, found);
            let entry = &trial.entries[at];
            let unknown = trial.seedling_is_unknown(&entry.of);
            let id = entry.id;
            let root = match trial.root_for(entry) {
                Ok(root) => root,
                Err(error) => {
                    told.push(Misfit::without_effect(entry, &error));
                    if entry.what == What::Withdrawn {
                        continue;
                    }
                    at
                }
            };
            if unknown {
                strange.push((at, told.len()));
            }
            trial.past += usize::from(id > MOST_ENTRIES);
            trial.link(root);
        }
        trial.entries.truncate(trial.root.len());
        let changed: Vec<usize> = trial.changes.keys().copied().collect();
        for root in changed {
            trial.settle(root);
        }
        // Of one that was dropped when all that was noted of it was withdrawn nothing needs saying.
        for (at, before) in strange.into_iter().rev() {
            let entry = &trial.entries[at];
            if !trial.of_subject(&entry.of).is_empty() {
                told.insert(before, Misfit::unknown_seedling(entry));
            }
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

    /// Changes the seedlings as `change` does, where it does.
    pub(super) fn change_seedlings<T>(
        &mut self,
        change: impl FnOnce(&mut Vec<Seedling>) -> Option<T>,
    ) -> Option<T> {
        let changed = change(&mut self.seedlings)?;
        let numbered = self.seedlings.iter().enumerate();
        self.by_number = numbered.map(|(at, one)| (one.number, at)).collect();
        Some(changed)
    }

    /// Adds an entry; whether it makes sense is for [`Trial::check`] to say before.
    ///
    /// # Errors
    /// [`AddError`] where its number is taken or past the last, or where it changes nothing of its own
    /// plant; the row is then as it was.
    pub fn add(&mut self, entry: Entry) -> Result<(), AddError> {
        let least = self.next_id();
        if entry.id < least {
            let found = entry.id;
            return Err(AddError::IdTaken { found, least });
        }
        if entry.id > MOST_ENTRIES {
            return Err(AddError::IdPast(entry.id));
        }
        let root = self.root_for(&entry)?;
        self.entries.push(entry);
        self.link(root);
        if self.changes.contains_key(&root) {
            self.settle(root);
        }
        Ok(())
    }

    /// The number of the next entry; past [`MOST_ENTRIES`] where they are used up.
    pub fn next_id(&self) -> u32 {
        // OK because none of these is past the last that may be.
        self.numbered().last().map_or(1, |last| last.id + 1)
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

    /// The entry that counts in the place of the one with this number; itself where it was never
    /// changed. `None` where all of them are withdrawn.
    pub fn stands_for(&self, id: u32) -> Option<&Entry> {
        let root = self.root[self.place(id)?];
        self.stands(root).map(|at| &self.entries[at])
    }

    /// The later entry that is why the one with this number no longer counts; `None` where it counts.
    pub fn ended_by(&self, id: u32) -> Option<&Entry> {
        let by = self.ended.get(&self.place(id)?)?;
        Some(&self.entries[*by])
    }

    /// Every entry about a subject, each with the later one that is why it no longer counts.
    pub fn book_of(&self, subject: &Subject) -> Vec<(&Entry, Option<&Entry>)> {
        let all = self.entries.iter().enumerate();
        let own = all.filter(|(_, entry)| entry.of == *subject);
        let by = |at: usize| self.ended.get(&at).map(|by| &self.entries[*by]);
        own.map(|(at, entry)| (entry, by(at))).collect()
    }

    /// Every subject that has a record or an entry that stands: seedlings by number, then
    /// varieties by name.
    pub fn subjects(&self) -> Vec<Subject> {
        let numbered = self
            .by_number
            .keys()
            .map(|number| Subject::Seedling(*number));
        let of_entries = self.by_subject.iter().filter(|(_, roots)| {
            let mut roots = roots.iter();
            roots.any(|root| self.stands(*root).is_some())
        });
        let of_entries = of_entries.map(|(subject, _)| subject.clone());
        let mut all: Vec<Subject> = numbered.chain(of_entries).collect();
        all.sort();
        all.dedup();
        all
    }

    /// The entries about a subject that stand, by date; those of one day by the place of the first
    /// entry that each goes back to.
    pub fn of_subject(&self, subject: &Subject) -> Vec<&Entry> {
        self.standing_of(subject).collect()
    }

    fn standing_of(&self, subject: &Subject) -> impl DoubleEndedIterator<Item = &Entry> {
        let roots = self.by_subject.get(subject).map_or(&[][..], Vec::as_slice);
        let mut found: Vec<(Date, usize, &Entry)> = roots
            .iter()
            .filter_map(|root| {
                let entry = &self.entries[self.stands(*root)?];
                Some((entry.date, *root, entry))
            })
            .collect();
        found.sort_unstable_by_key(|(date, root, _)| (*date, *root));
        found.into_iter().map(|(_, _, entry)| entry)
    }

    /// What was seen of a subject, by date, with the entry that tells it.
    pub fn observations(&self, subject: &Subject) -> Vec<(&Entry, &Observation)> {
        self.standing_of(subject)
            .filter_map(|entry| Some((entry, entry.observation()?)))
            .collect()
    }

    /// What was counted of varieties in the beds: the name, the day, stems cut and plants that stood.
    pub fn cut_of_varieties(&self) -> impl Iterator<Item = (&Text, Date, [Option<u32>; 2])> {
        let names = self.by_subject.keys().filter_map(|subject| match subject {
            Subject::Variety(name) => Some((subject, name)),
            Subject::Seedling(_) => None,
        });
        let counts = names.flat_map(|(subject, name)| {
            let seen = self.observations(subject).into_iter();
            seen.map(move |(entry, seen)| (name, entry.date, [seen.cut, seen.plants]))
        });
        counts.filter(|(_, _, counts)| counts.iter().any(Option::is_some))
    }

    /// The decision that stands: the last by date, of one day the one entered last.
    pub fn decision(&self, subject: &Subject) -> Option<(&Entry, &Decision)> {
        self.decisions(subject).next_back()
    }

    /// Every decision that stands, by date; those of one day in the order in which they were entered.
    pub fn decisions(
        &self,
        subject: &Subject,
    ) -> impl DoubleEndedIterator<Item = (&Entry, &Decision)> {
        self.standing_of(subject)
            .filter_map(|entry| match &entry.what {
                What::Decided(decision) => Some((entry, decision)),
                What::Observed(_) | What::Withdrawn => None,
            })
    }
}

#[cfg(test)]
mod tests;
