//! Import and export: a table's rows as varieties, and varieties as a table.
//!
//! Columns are matched by heading, words for forms, sizes and colours are the list's own or the
//! grower's mapped once; what is neither is listed and never guessed, and a heading that may mean
//! either of two fields is asked about. An [`Intake`] is a file with what was answered of it, for the
//! command and the screen alike; [`Import::of`] says what a file would do, and only [`Import::apply`] does it.

mod candidates;
mod cell;
mod colours;
mod columns;
mod either;
mod export;
mod field;
mod headings;
mod import;
mod intake;
mod kind;
mod known;
mod lengths;
mod looked_up;
mod mapping;
mod merge;
mod nearest;
mod own_words;
mod question;
mod records;
mod same_name;
mod spellings;
mod statement;
mod taken;
mod term;
pub(super) mod typed;

pub use columns::{Column, Columns};
pub use export::export;
pub use field::Field;
pub use import::Import;
pub use intake::{Answer, Intake, Over};
pub use kind::Kind;
pub use own_words::{Mapping, OwnWords, UNKNOWN};
pub use question::{About, Offered, Question, WhyAsked};
pub use taken::{BadRow, Filled, Taken, UnknownWord};

use std::num::NonZeroU32;

use super::text::Text;
use crate::colour::Vocabulary;
use crate::form::RuleSet;

/// What a file's cells are read by.
#[derive(Debug, Clone, Copy)]
pub struct Terms<'a> {
    /// The rule set whose forms and sizes are meant.
    pub rules: &'a RuleSet,
    /// The colour words.
    pub colours: &'a Vocabulary,
    /// The grower's own words.
    pub own: &'a OwnWords,
    /// Whose list it is: who sells where a row names no supplier, and states where it names nobody else.
    pub supplier: Option<&'a Text>,
    /// Tubers in a pack, where the file has none in a row.
    pub pack: Option<NonZeroU32>,
}
