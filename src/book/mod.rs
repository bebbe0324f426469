//! A book of entries that only grows: which entry goes back to which, and which of them count.
//!
//! One rule for every book, whatever its entries tell: nothing is overwritten, an entry that was wrong is
//! corrected or withdrawn by a later one of the same plant (`standing` has the rule word by word), and
//! what does not fit together is told and used as far as it can be.

mod error;
pub mod filled;
mod linking;
mod misfit;
pub mod sheet;
mod standing;
pub mod words;

use std::collections::{BTreeMap, HashMap};
use std::fmt;
use std::hash::Hash;

use jiff::civil::Date;

pub use error::AddError;
pub use misfit::Misfit;

/// One entry of a book: one line of its journal.
pub trait Entry: Clone + PartialEq + fmt::Debug {
    /// Of whom it is.
    type Of: Clone + Eq + Ord + Hash + fmt::Debug + fmt::Display;

    /// The command that lists a plant's entries, without the plant.
    const LISTED_BY: &'static str;

    /// Its running number.
    fn id(&self) -> u32;
    /// The entry in whose place it stands, or that it withdraws.
    fn corrects(&self) -> Option<u32>;
    /// The day of what it tells.
    fn date(&self) -> Date;
    /// Of whom it is.
    fn of(&self) -> &Self::Of;
    /// Whether it tells nothing but that the entry that it names should not have been made.
    fn withdraws(&self) -> bool;
    /// Whether both tell the same of the same, whatever their numbers.
    fn says_the_same(&self, other: &Self) -> bool;
}

/// Something that speaks against an entry: one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Doubt {
    /// Whether it cannot be so; what is only strange may be saved all the same.
    pub refuses: bool,
    /// What was found and what was expected.
    pub told: String,
}

/// Every entry of a book. The order in which they come makes no difference.
#[derive(Debug, Clone, PartialEq)]
pub struct Book<E: Entry> {
    /// Those whose number is past the last that may be, then all others by number; corrections, and
    /// what they correct, among them.
    entries: Vec<E>,
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
    by_subject: HashMap<E::Of, Vec<usize>>,
}

/// The last number that an entry may have. Nobody notes so much; a number past it is a slip or damage,
/// and were the next note to be numbered after it, numbers would run out.
pub const MOST_ENTRIES: u32 = 999_999_999;

impl<E: Entry> Default for Book<E> {
    fn default() -> Book<E> {
        Book {
            entries: Vec::new(),
            past: 0,
            root: Vec::new(),
            changes: BTreeMap::new(),
            standing: BTreeMap::new(),
            ended: BTreeMap::new(),
            by_subject: HashMap::new(),
        }
    }
}

impl<E: Entry> Book<E> {
    /// The book of these entries, and what does not fit together. That is used as far as it can be: a
    /// correction of an entry that is lost, or is another plant's, stands by itself and changes nothing
    /// else; such a withdrawal is left out.
    pub fn read(entries: Vec<E>) -> (Book<E>, Vec<Misfit>) {
        let mut book = Book::default();
        let mut told = Vec::new();
        book.entries = misfit::sorted(entries, &mut told);
        for found in 0..book.entries.len() {
            // What is left out lies behind those that are linked.
            let at = book.root.len();
            book.entries.swap(at, found);
            let entry = &book.entries[at];
            let id = entry.id();
            let root = match book.root_for(entry) {
                Ok(root) => root,
                Err(error) => {
                    told.push(Misfit::without_effect(entry, &error));
                    if entry.withdraws() {
                        continue;
                    }
                    at
                }
            };
            book.past += usize::from(id > MOST_ENTRIES);
            book.link(root);
        }
        book.entries.truncate(book.root.len());
        let changed: Vec<usize> = book.changes.keys().copied().collect();
        for root in changed {
            book.settle(root);
        }
        (book, told)
    }

    /// Adds an entry; whether it makes sense is not asked here.
    ///
    /// # Errors
    /// [`AddError`] where its number is taken or past the last, or where it changes nothing of its own
    /// plant; the book is then as it was.
    pub fn add(&mut self, entry: E) -> Result<(), AddError<E::Of>> {
        let least = self.next_id();
        let found = entry.id();
        if found < least {
            return Err(AddError::IdTaken { found, least });
        }
        if found > MOST_ENTRIES {
            return Err(AddError::IdPast(found));
        }
        let root = self.root_for(&entry)?;
        self.entries.push(entry);
        self.link(root);
        if self.changes.contains_key(&root) {
            self.settle(root);
        }
        Ok(())
    }

    /// Why an entry cannot be added, whatever it tells: a sentence each.
    pub fn refusals(&self, entry: &E) -> Vec<String> {
        let mut told = Vec::new();
        if let Err(error) = self.root_for(entry) {
            told.push(error.to_string());
        }
        if entry.id() > MOST_ENTRIES {
            told.push(AddError::<E::Of>::IdPast(entry.id()).to_string());
        }
        if let (true, Some(named)) = (entry.withdraws(), entry.corrects())
            && let Some(by) = self.ended_by(named).filter(|by| by.withdraws())
        {
            let by = by.id();
            told.push(format!(
                "withdraw: found entry {named}, which entry {by} has withdrawn, expected one that counts; withdraw={by} gives it back"
            ));
        }
        told
    }

    /// The number of the next entry; past [`MOST_ENTRIES`] where they are used up.
    pub fn next_id(&self) -> u32 {
        // OK because none of these is past the last that may be.
        self.numbered().last().map_or(1, |last| last.id() + 1)
    }

    /// Every entry by number, corrected ones and their corrections among them.
    pub fn entries(&self) -> &[E] {
        &self.entries
    }

    /// The entry with this number.
    pub fn entry(&self, id: u32) -> Option<&E> {
        self.place(id).map(|at| &self.entries[at])
    }

    /// The entry that counts in the place of the one with this number; itself where it was never
    /// changed. `None` where all of them are withdrawn.
    pub fn stands_for(&self, id: u32) -> Option<&E> {
        let root = self.root[self.place(id)?];
        self.stands(root).map(|at| &self.entries[at])
    }

    /// The entry that this one corrects, as it stands.
    pub fn replaced(&self, entry: &E) -> Option<&E> {
        self.stands_for(entry.corrects()?)
    }

    /// The later entry that is why the one with this number no longer counts; `None` where it counts.
    pub fn ended_by(&self, id: u32) -> Option<&E> {
        let by = self.ended.get(&self.place(id)?)?;
        Some(&self.entries[*by])
    }

    /// The entry that a withdrawal of `id` is about in the end, and whether it takes that out: where `id` is a
    /// withdrawal itself it gives back, and so on.
    pub fn withdrawn_in_the_end(&self, id: u32) -> (u32, bool) {
        let (mut id, mut takes_out) = (id, true);
        while let Some(entry) = self.entry(id).filter(|entry| entry.withdraws())
            && let Some(named) = entry.corrects()
        {
            (id, takes_out) = (named, !takes_out);
        }
        (id, takes_out)
    }

    /// Every entry about a subject, each with the later one that is why it no longer counts.
    pub fn book_of(&self, subject: &E::Of) -> Vec<(&E, Option<&E>)> {
        let all = self.entries.iter().enumerate();
        let own = all.filter(|(_, entry)| entry.of() == subject);
        let by = |at: usize| self.ended.get(&at).map(|by| &self.entries[*by]);
        own.map(|(at, entry)| (entry, by(at))).collect()
    }

    /// Every subject that has an entry that stands, in no order.
    pub fn subjects(&self) -> impl Iterator<Item = &E::Of> {
        let stands = |roots: &Vec<usize>| roots.iter().any(|root| self.stands(*root).is_some());
        let all = self.by_subject.iter();
        all.filter(move |(_, roots)| stands(roots))
            .map(|(subject, _)| subject)
    }

    /// The entries about a subject that stand, by date; those of one day by the place of the first
    /// entry that each goes back to.
    pub fn standing_of(&self, subject: &E::Of) -> impl DoubleEndedIterator<Item = &E> {
        let roots = self.by_subject.get(subject).map_or(&[][..], Vec::as_slice);
        let mut found: Vec<(Date, usize, &E)> = roots
            .iter()
            .filter_map(|root| {
                let entry = &self.entries[self.stands(*root)?];
                Some((entry.date(), *root, entry))
            })
            .collect();
        found.sort_unstable_by_key(|(date, root, _)| (*date, *root));
        found.into_iter().map(|(_, _, entry)| entry)
    }
}
