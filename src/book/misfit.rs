//! What does not fit together in a book, and the order in which its entries are taken in.

use std::fmt;

use super::{AddError, Entry, MOST_ENTRIES};

/// Something that does not fit together: one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit {
    /// The number of the entry that it is about; `None` where it is about none.
    pub entry: Option<u32>,
    /// What was found, what was expected, and what becomes of it.
    pub told: String,
}

impl Misfit {
    /// What is wrong beside the entries.
    pub fn of_no_entry(told: String) -> Misfit {
        Misfit { entry: None, told }
    }

    /// What is wrong with the entry of this number.
    pub fn of(id: u32, told: impl fmt::Display) -> Misfit {
        Misfit {
            entry: Some(id),
            told: format!("entry {id}: {told}"),
        }
    }

    /// By this misfits are told in the order in which their entries are taken in.
    pub fn order(&self) -> (bool, Option<u32>) {
        (self.entry.is_some_and(|id| id <= MOST_ENTRIES), self.entry)
    }

    /// An entry that changes nothing of its own plant.
    pub(super) fn without_effect<E: Entry>(entry: &E, error: &AddError<E::Of>) -> Misfit {
        let becomes = match entry.withdraws() {
            true => "it withdraws nothing",
            false => "it counts by itself and corrects nothing",
        };
        Misfit::of(entry.id(), format_args!("{error}; {becomes}"))
    }
}

impl fmt::Display for Misfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told)
    }
}

/// The entries in the order in which they are taken in: those whose number is past the last, which
/// none can name, and then all others by number. One that past the last only changes another has
/// nothing to say by itself and is left out.
pub(super) fn sorted<E: Entry>(mut entries: Vec<E>, told: &mut Vec<Misfit>) -> Vec<E> {
    let key = |entry: &E| (entry.id() <= MOST_ENTRIES, entry.id());
    if !entries.is_sorted_by_key(key) {
        entries.sort_by_key(key);
    }
    // Entries of one number, as two books put together have them, fall in an order of their own.
    let shared = |pair: &[E]| pair[0].id() == pair[1].id();
    if entries.windows(2).any(shared) {
        entries.sort_by_cached_key(|entry| (key(entry), format!("{entry:?}")));
        entries.dedup();
    }
    let past = entries.iter().take_while(|entry| entry.id() > MOST_ENTRIES);
    for entry in past {
        let becomes = match entry.corrects() {
            None => "it counts, and can be neither corrected nor withdrawn",
            Some(_) => "it is left out, and stays in the file",
        };
        let found =
            format_args!("found a number past {MOST_ENTRIES}, the last that an entry may have");
        told.push(Misfit::of(entry.id(), format_args!("{found}; {becomes}")));
    }
    entries.retain(|entry| entry.id() <= MOST_ENTRIES || entry.corrects().is_none());
    for pair in entries.windows(2).filter(|pair| shared(pair)) {
        let id = pair[0].id();
        if id <= MOST_ENTRIES {
            told.push(Misfit::of(id, "found a second entry with this number, expected each number once; both count, and corrections of it go to the first"));
        }
    }
    entries
}
