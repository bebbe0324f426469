//! What is half entered on the Row page, on its way to the disk, or can be taken back.

use crate::trial::{Entry, Observation, SeedlingEdit};

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Of {
    /// One kind of observation, one subject after the other: its place in [`quick::QUICK`].
    Walk(usize),
    /// A decision.
    Decide,
    /// A new seedling.
    Add,
    /// Stems cut of a variety that the line names.
    Cut,
    /// The day and the observer.
    Day,
    /// Words to look for, and those before.
    Find(String),
    /// Whose bloom this is.
    Bloom(Box<Observation>),
}

/// What waits for the disk.
#[derive(Debug, Clone)]
pub(super) enum Pending {
    Entry(Box<Entry>),
    Seedlings { edit: SeedlingEdit, turn: Turn },
}

/// Whether a change of the seedlings is made, or turned back or on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Turn {
    Made,
    TakenBack,
    MadeAgain,
}

/// Something that was done here and can be taken back.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Done {
    /// The entry with this number was made.
    Entry(u32),
    /// The seedlings were changed: what turns that, and what was done as a clause.
    Seedlings(SeedlingEdit, String),
}
