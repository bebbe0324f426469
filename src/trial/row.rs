//! The row as a whole: its seedlings and its book.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::entry::{Decision, Entry, Observation, What};
use super::seedling::{Number, Seedling, Subject};
use crate::book::{self, Book, Misfit};
use crate::variety::Text;

mod check;
mod figures;
mod odd;

pub use crate::book::Doubt;
pub use check::{BloomDays, EntryContext};

/// The seedlings and every entry about them. The order in which entries come makes no difference.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trial {
    seedlings: Vec<Seedling>,
    by_number: BTreeMap<Number, usize>,
    book: Book<Entry>,
}

/// Why an entry cannot be added.
pub type AddError = book::AddError<Subject>;

impl Trial {
    /// The row of these seedlings and entries, and what does not fit together, one sentence each:
    /// [`Trial::read`] in words alone.
    pub fn of(seedlings: Vec<Seedling>, entries: Vec<Entry>) -> (Trial, Vec<String>) {
        let (trial, misfits) = Trial::read(seedlings, entries);
        (trial, misfits.into_iter().map(|one| one.told).collect())
    }

    /// The row of these seedlings and entries, and what does not fit together: as [`Book::read`] tells
    /// it, and entries of seedlings that are not there.
    pub fn read(seedlings: Vec<Seedling>, entries: Vec<Entry>) -> (Trial, Vec<Misfit>) {
        let mut trial = Trial::default();
        let mut told = Vec::new();
        for seedling in seedlings {
            let number = seedling.number;
            if !trial.add_seedling(seedling) {
                told.push(Misfit::of_no_entry(format!(
                    "{number}: found the number a second time, expected each seedling once"
                )));
            }
        }
        let (book, misfits) = Book::read(entries);
        told.extend(misfits);
        // Of one that was dropped when all that was noted of it was withdrawn nothing needs saying.
        let strange = book.entries().iter().filter(|entry| {
            trial.seedling_is_unknown(&entry.of) && book.standing_of(&entry.of).next().is_some()
        });
        told.extend(strange.map(|entry| {
            let of = &entry.of;
            let told = format_args!("found the seedling {of}, expected one of trial.ron");
            Misfit::of(entry.id, told)
        }));
        told.sort_by_key(Misfit::order);
        trial.book = book;
        (trial, told)
    }

    /// Adds a seedling; `false` where its number is taken.
    fn add_seedling(&mut self, seedling: Seedling) -> bool {
        if self.by_number.contains_key(&seedling.number) {
            return false;
        }
        self.by_number.insert(seedling.number, self.seedlings.len());
        self.seedlings.push(seedling);
        true
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
        self.book.add(entry)
    }

    /// The book itself.
    pub fn book(&self) -> &Book<Entry> {
        &self.book
    }

    /// The number of the next entry.
    pub fn next_id(&self) -> u32 {
        self.book.next_id()
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
        self.book.entries()
    }

    /// The entry with this number.
    pub fn entry(&self, id: u32) -> Option<&Entry> {
        self.book.entry(id)
    }

    /// The entry that counts in the place of the one with this number, as [`Book::stands_for`].
    pub fn stands_for(&self, id: u32) -> Option<&Entry> {
        self.book.stands_for(id)
    }

    /// The later entry that is why the one with this number no longer counts; `None` where it counts.
    pub fn ended_by(&self, id: u32) -> Option<&Entry> {
        self.book.ended_by(id)
    }

    /// As [`Book::withdrawn_in_the_end`].
    pub fn withdrawn_in_the_end(&self, id: u32) -> (u32, bool) {
        self.book.withdrawn_in_the_end(id)
    }

    /// Every entry about a subject, each with the later one that is why it no longer counts.
    pub fn book_of(&self, subject: &Subject) -> Vec<(&Entry, Option<&Entry>)> {
        self.book.book_of(subject)
    }

    /// Every subject that has a record or an entry that stands: seedlings by number, then
    /// varieties by name.
    pub fn subjects(&self) -> Vec<Subject> {
        let numbered = self
            .by_number
            .keys()
            .map(|number| Subject::Seedling(*number));
        let of_entries = self.book.subjects().cloned();
        let mut all: Vec<Subject> = numbered.chain(of_entries).collect();
        all.sort();
        all.dedup();
        all
    }

    /// The entries about a subject that stand, by date; those of one day by the place of the first
    /// entry that each goes back to.
    pub fn of_subject(&self, subject: &Subject) -> Vec<&Entry> {
        self.book.standing_of(subject).collect()
    }

    /// Whether it is a seedling that is not in the row.
    pub fn seedling_is_unknown(&self, subject: &Subject) -> bool {
        matches!(subject, Subject::Seedling(number) if !self.by_number.contains_key(number))
    }

    /// What was seen of a subject, by date, with the entry that tells it.
    pub fn observations(&self, subject: &Subject) -> Vec<(&Entry, &Observation)> {
        self.book
            .standing_of(subject)
            .filter_map(|entry| Some((entry, entry.observation()?)))
            .collect()
    }

    /// What was counted of varieties in the beds: the name, the day, stems cut and plants that stood.
    pub fn cut_of_varieties(&self) -> impl Iterator<Item = (&Text, Date, [Option<u32>; 2])> {
        let names = self.book.subjects().filter_map(|subject| match subject {
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
        self.book
            .standing_of(subject)
            .filter_map(|entry| match &entry.what {
                What::Decided(decision) => Some((entry, decision)),
                What::Observed(_) | What::Withdrawn => None,
            })
    }
}

#[cfg(test)]
mod tests;
