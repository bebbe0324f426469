//! Why an entry cannot be added to a book.

use std::fmt;

use super::MOST_ENTRIES;

/// An entry that cannot be added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AddError<S> {
    /// The entry's number is not above every other.
    IdTaken {
        /// Its number.
        found: u32,
        /// The least that can be had.
        least: u32,
    },
    /// The entry's number is past [`MOST_ENTRIES`].
    IdPast(u32),
    /// It corrects or withdraws an entry that is not there.
    NothingToChange {
        /// The number of that entry.
        named: u32,
        /// Whether it withdraws; else it corrects.
        withdraws: bool,
    },
    /// It corrects or withdraws an entry of another plant.
    OfAnother {
        /// The number of that entry.
        named: u32,
        /// Whose that is.
        whose: S,
        /// Whose this one is.
        own: S,
        /// The command that lists a plant's entries.
        listed_by: &'static str,
    },
    /// It withdraws something and does not say what.
    WithdrawsNothing(u32),
}

impl<S: fmt::Display> fmt::Display for AddError<S> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            AddError::IdTaken { found, least } => write!(
                f,
                "entry: found the number {found}, expected {least} or more"
            ),
            AddError::IdPast(found) => write!(
                f,
                "entry: found the number {found}, expected one up to {MOST_ENTRIES}"
            ),
            AddError::NothingToChange { named, withdraws } => {
                let word = if *withdraws { "withdraw" } else { "corrects" };
                write!(
                    f,
                    "{word}: found {named}, expected the number of an earlier entry"
                )
            }
            AddError::OfAnother {
                named,
                whose,
                own,
                listed_by,
            } => write!(
                f,
                "found entry {named}, which is of {whose}, expected one of {own}: `{listed_by} {own}` lists them"
            ),
            AddError::WithdrawsNothing(id) => write!(
                f,
                "entry {id}: found a withdrawal that names no entry, expected withdraw=NUMBER"
            ),
        }
    }
}

impl<S: fmt::Debug + fmt::Display> std::error::Error for AddError<S> {}
