//! The trial row: seedlings and varieties on trial, what was seen of them, and what it adds up to.
//!
//! Pure: records and a rule set in, sums and sentences out. The book is a list of [`Entry`]s that
//! only grows; [`Trial`] applies the corrections and finds a subject's entries.

pub mod account;
mod as_variety;
mod charts;
mod entry;
pub mod evidence;
mod gate;
mod lasting;
mod naming;
mod next;
mod numbers;
pub mod read;
mod renamed;
mod row;
mod seedling;
mod seedling_edit;
pub mod sheet;
mod sowing;
pub mod statistics;
mod taken;
mod telling;
mod whole;

pub use as_variety::Fit;
pub use entry::{Decision, Entry, EntryError, Fate, Observation, Shade, VaseStem, Visits, What};
pub use evidence::{Evidence, EvidenceContext, Neighbours, each_on_all_cores};
pub use gate::{Advice, Check, Gate, Least, Limits, Months, Release, State};
pub use lasting::{Beside, COMPARED, Lasting, Pair, Tests, Verdict, beside};
pub use next::{Next, Urgency};
pub use numbers::Numbers;
pub use renamed::Renamed;
pub use row::{AddError, BloomDays, Doubt, EntryContext, Trial};
pub use seedling::{Number, Parent, Seedling, Sown, Subject, SubjectError};
pub use seedling_edit::SeedlingEdit;
pub use sowing::{Sowing, SowingGround};
pub use taken::Taken;
pub use telling::{EvidenceLine, share_in_words};
pub use whole::{Counts, ParentShare, Whole};
