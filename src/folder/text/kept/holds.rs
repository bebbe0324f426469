//! What a file holds: one value, or a long list of records.

use super::change::{Again, Change, Digest, digest};
use super::{records, value};
use crate::problem::Scan;

/// What a file holds.
#[derive(Debug, Clone, Copy)]
pub enum Holds {
    /// One value.
    Value(Again),
    /// A list of records, each of which is read and written by itself, on a line of its own.
    Records(Again),
}

impl Holds {
    /// What changes `text` into one with the value that the program would write as `new`; `None` where
    /// all of it must be written anew.
    pub(super) fn change(self, text: &str, new: &str) -> Option<Change> {
        match self {
            Holds::Records(again) => records::change(text, new, again),
            Holds::Value(again) => value::change(text, new, again),
        }
    }

    /// `new` behind the comments that `text` begins with, where they change nothing of it.
    pub(super) fn anew(self, text: &str, new: &str) -> String {
        let head = &text[..Scan::new(text).pass_over_blanks()];
        let with_head = format!("{head}{new}");
        match self {
            Holds::Value(again) if again(&with_head).as_deref() == Some(new) => with_head,
            _ => new.to_string(),
        }
    }

    /// Of what the program would write for a value.
    pub(super) fn digest(self, written: &str) -> Digest {
        let records = match self {
            Holds::Records(_) => records::lines(written),
            Holds::Value(_) => None,
        };
        match records {
            Some(records) => digest(records.into_iter()),
            None => digest([written].into_iter()),
        }
    }

    /// Of what the program would write for the value of a text; of a list that is no such list, of the
    /// text.
    pub(super) fn digest_of(self, text: &str) -> Digest {
        let written = match self {
            Holds::Value(again) => again(text),
            Holds::Records(_) => None,
        };
        self.digest(written.as_deref().unwrap_or(text))
    }
}
