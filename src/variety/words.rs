//! The names of a list, folded once: which of them have a word of a query, and how.

mod best;
mod lexicon;
mod names;
mod word_in_names;

pub use names::Names;
pub(super) use word_in_names::WordInNames;
