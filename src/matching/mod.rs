//! Finding names by what a grower types of them: the one matcher behind every line that looks for
//! something, and behind the words of `trug choose`.
//!
//! A query is split at spaces, and every word must be found. A word is found in a name, the best first:
//! as one of its words, as the beginning of one, by the first letters of its words, as a part of one, by
//! its letters in order with others between, and with one slip of the keyboard forgiven. Text is
//! compared folded: without case and accents. Where names are listed by how well they are found, slips
//! are forgiven where nothing is found without one; the list of varieties, which may be put in another
//! order, forgives them beside what is found.

mod folded;
mod marks;
mod query;
mod rank;
mod slip;
mod word;

pub use folded::{Folded, Name, folded, letters};
pub use query::{Finder, Query};
pub use rank::{Rank, without_needless_slips};
pub use word::{InOrder, Word};
