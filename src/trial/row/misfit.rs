//! What does not fit together in a row's files, and the order in which its entries are taken in.

use std::fmt;

use super::{AddError, MOST_ENTRIES};
use crate::trial::entry::{Entry, What};

/// Something that does not fit together: one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit {
    /// The number of the entry that it is about; `None` of a seedling.
    pub entry: Option<u32>,
    /// What was found, what was expected, and what becomes of it.
    pub told: String,
}

impl Misfit {
    pub(super) fn of_the_row(told: String) -> Misfit {
        Misfit { entry: None, told }
    }

    fn of(entry: &Entry, told: impl fmt::Display) -> Misfit {
        let id = entry.id;
        Misfit {
            entry: Some(id),
            told: format!("entry {id}: {told}"),
        }
    }

    /// An entry that changes nothing of its own plant.
    pub(super) fn without_effect(entry: &Entry, error: &AddError) -> Misfit {
        let becomes = match entry.what {
            What::Withdrawn => "it withdraws nothing",
            What::Observed(_) | What::Decided(_) => "it counts by itself and corrects nothing",
        };
        Misfit::of(entry, format_args!("{error}; {becomes}"))
    }

    pub(super) fn unknown_seedling(entry: &Entry) -> Misfit {
        let of = &entry.of;
        Misfit::of(
            entry,
            format_args!("found the seedling {of}, expected one of trial.ron"),
        )
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
pub(super) fn sorted(mut entries: Vec<Entry>, told: &mut Vec<Misfit>) -> Vec<Entry> {
    let key = |entry: &Entry| (entry.id <= MOST_ENTRIES, entry.id);
    if !entries.is_sorted_by_key(key) {
        entries.sort_by_key(key);
    }
    // Entries of one number, as two books put together have them, fall in an order of their own.
    let shared = |pair: &[Entry]| pair[0].id == pair[1].id;
    if entries.windows(2).any(shared) {
        entries.sort_by_cached_key(|entry| (key(entry), format!("{entry:?}")));
        entries.dedup();
    }
    let past = entries.iter().take_while(|entry| entry.id > MOST_ENTRIES);
    for entry in past {
        let becomes = match entry.corrects {
            None => "it counts, and can be neither corrected nor withdrawn",
            Some(_) => "it is left out, and stays in the file",
        };
        let found =
            format_args!("found a number past {MOST_ENTRIES}, the last that an entry may have");
        told.push(Misfit::of(entry, format_args!("{found}; {becomes}")));
    }
    entries.retain(|entry| entry.id <= MOST_ENTRIES || entry.corrects.is_none());
    for pair in entries.windows(2).filter(|pair| shared(pair)) {
        if pair[0].id <= MOST_ENTRIES {
            told.push(Misfit::of(&pair[0], "found a second entry with this number, expected each number once; both count, and corrections of it go to the first"));
        }
    }
    entries
}
