//! A text of the grower's that is to hold another value, changed where the value changed and nowhere
//! else.
//!
//! What is not changed stays as it is written, to the letter: comments, blanks, order of fields, units,
//! `Some(...)` or none, commas or none at the end. What is changed is written as the program writes it
//! (`merge`): a value in the place of the one before; a new field where the program would have it, a
//! new record where the list has it, both on lines like those of their neighbours (`arrange`); what is
//! gone goes with its comma and with the comments that are its own (`place` has the one rule), and
//! what moves takes them along.
//!
//! What comes out is read again and must be the new value. Where it is not, and only there, the text
//! is what the program would write of itself, behind the comments at the head of a single value.

mod align;
mod arrange;
mod change;
mod holds;
mod layout;
mod merge;
mod names;
mod outline;
mod past;
mod place;
mod records;
mod splice;
mod three;
mod value;

pub use change::Again;
pub use holds::Holds;
pub(in crate::folder) use past::Past;

/// `text` with the value that the program would write as `new`.
pub fn kept(text: &str, new: &str, holds: Holds) -> String {
    let change = holds.change(text, new);
    change.map_or_else(|| holds.anew(text, new), |change| change.text)
}

#[cfg(test)]
mod tests;
