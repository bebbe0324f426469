//! The pictures of a question's answers, as they were drawn last, and where they stand.

use crate::screen::kit::text::Row;

/// Where the pictures are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// Each beside its answer.
    Beside,
    /// In one line below the question.
    BelowQuestion,
    /// In one line below what is said of the bloom.
    BelowVerdict,
}

/// Where they are and how large.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Arranged {
    pub(super) place: Place,
    /// Rows of one picture.
    pub(super) rows: u16,
    /// What is said beside them.
    pub(super) told: Told,
}

/// What is said beside pictures, the most first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// What they show, and over each its answer.
    Caption,
    /// Its answer over each.
    Answers,
    /// Left of each its key, or its number.
    Keys,
}

/// The pictures of a question, drawn once.
#[derive(Debug, Clone, Default)]
pub(super) struct Pictures {
    /// The trait, under which rules, and the rows of a picture.
    pub(super) of: Option<(usize, usize, u16)>,
    pub(super) arranged: Option<Arranged>,
    /// One for each state, empty where there is none of it, or for each number that is shown.
    pub(super) drawn: Vec<Vec<Row>>,
}

impl Arranged {
    /// Columns of one picture.
    pub(super) fn columns(self) -> usize {
        usize::from(self.rows) * 2
    }
}

impl Pictures {
    pub(super) fn arranged(&self, place: Place) -> Option<Arranged> {
        self.arranged.filter(|arranged| arranged.place == place)
    }

    /// The rows of one picture.
    pub(super) fn rows(&self, at: usize) -> &[Row] {
        self.drawn.get(at).map_or(&[], |rows| rows)
    }
}
