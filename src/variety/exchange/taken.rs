//! What a file does to a list, to be told: records made and changed, rows and words that cannot be read.

use super::export::written;
use super::field::Field;
use super::kind::Kind;
use crate::variety::record::Variety;

/// A record that the file makes or changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Its name.
    pub name: String,
    /// The fields that it fills or changes, as an export has them.
    pub fields: Vec<Filled>,
}

/// One field as it was and as it will be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Filled {
    /// Its heading in an export.
    pub heading: &'static str,
    /// What the list has; `None` where it is unknown.
    pub old: Option<String>,
    /// What it will have.
    pub new: Option<String>,
}

/// A row that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadRow {
    /// Its line in the file.
    pub line: usize,
    /// The name in it, where it has one.
    pub name: Option<String>,
    /// What was found and what was expected.
    pub told: String,
}

/// A word that is no term.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownWord {
    /// What it stands for.
    pub kind: Kind,
    /// As first written.
    pub word: String,
    /// The lines that have it.
    pub lines: Vec<usize>,
    /// Terms near it, nearest first.
    pub near: Vec<String>,
}

impl Taken {
    /// What makes a record of the old one; `None` for one that the list does not have.
    pub(super) fn of(old: Option<&Variety>, new: &Variety) -> Taken {
        let written =
            |variety: &Variety, field| written(variety, field).map(|one| one.into_owned());
        let filled = |field: Field| {
            let filled = Filled {
                heading: field.heading(),
                old: old.and_then(|old| written(old, field)),
                new: written(new, field),
            };
            (filled.old != filled.new).then_some(filled)
        };
        let fields = Field::ALL.into_iter().filter(|one| one.is_exported());
        let fields = fields.filter(|one| old.is_some() || *one != Field::Name);
        Taken {
            name: old.unwrap_or(new).name.to_string(),
            fields: fields.filter_map(filled).collect(),
        }
    }
}
