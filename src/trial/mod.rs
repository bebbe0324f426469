//! The trial row: seedlings and varieties on trial, what was seen of them, and what it adds up to.
//!
//! Pure: records and a rule set in, sums and sentences out. The book is a list of [`Entry`]s that
//! only grows; [`Trial`] applies the corrections and finds a subject's entries.

mod entry;
pub mod plot;
pub mod read;
mod row;
mod seedling;
pub mod statistics;

pub use entry::{Decision, Entry, EntryError, Fate, Observation, Shade, VaseStem, Visits, What};
pub use row::{Doubt, Grounds, Trial};
pub use seedling::{Number, Parent, Seedling, Sown, Subject, SubjectError};
