//! The parts that an account is put together from.

use super::cell::Cell;
use super::table::Table;

/// What is said of one matter. An account is a list of them, in the order in which they are read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Section {
    /// What stands over it, without a colon; a sentence, which has its full stop; or nothing.
    pub head: String,
    /// What stands beside the head in the same line; or nothing.
    pub note: String,
    /// What it says, part by part.
    pub parts: Vec<Part>,
}

/// A part of a section.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    /// Rows that are alike.
    Table(Table),
    /// Sentences, under the id of their list.
    Sentences(&'static str, Vec<Sentence>),
    /// Fields of the thing itself, a line each.
    Pairs(Vec<Pair>),
    /// What a table comes to, in one line: one more record of the list with this id.
    Sums(&'static str, Vec<Pair>),
}

/// A sentence, or a few.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sentence {
    /// A word or two that say what it is to the matter, such as `because`; or nothing.
    pub lead: &'static str,
    /// The sentence.
    pub text: String,
}

/// A field and its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// What programs call it; empty for what only people are told.
    pub id: &'static str,
    /// What people call it; empty for what only programs get.
    pub name: &'static str,
    /// What it is.
    pub cell: Cell,
    /// What is to be said of the value, for people, such as `free from 100.00`; or nothing.
    pub note: String,
}

impl Section {
    /// A section with this head, to be filled.
    pub fn under(head: impl Into<String>) -> Section {
        Section {
            head: head.into(),
            ..Section::default()
        }
    }

    /// The section with one more part.
    pub fn with(mut self, part: Part) -> Section {
        self.parts.push(part);
        self
    }

    /// Its tables.
    pub fn tables(&self) -> impl Iterator<Item = &Table> {
        self.parts.iter().filter_map(|part| match part {
            Part::Table(table) => Some(table),
            _ => None,
        })
    }

    /// Its sentences.
    pub fn sentences(&self) -> impl Iterator<Item = &Sentence> {
        let parts = self.parts.iter().filter_map(|part| match part {
            Part::Sentences(_, sentences) => Some(sentences),
            _ => None,
        });
        parts.flatten()
    }

    /// Its fields.
    pub fn pairs(&self) -> impl Iterator<Item = &Pair> {
        let parts = self.parts.iter().filter_map(|part| match part {
            Part::Pairs(pairs) => Some(pairs),
            _ => None,
        });
        parts.flatten()
    }

    /// What its tables come to.
    pub fn sums(&self) -> impl Iterator<Item = &Pair> {
        let parts = self.parts.iter().filter_map(|part| match part {
            Part::Sums(_, pairs) => Some(pairs),
            _ => None,
        });
        parts.flatten()
    }
}

impl Part {
    /// Sentences without a lead.
    pub fn sentences<T: Into<String>>(
        id: &'static str,
        texts: impl IntoIterator<Item = T>,
    ) -> Part {
        let sentence = |text: T| Sentence {
            lead: "",
            text: text.into(),
        };
        Part::Sentences(id, texts.into_iter().map(sentence).collect())
    }
}

impl Pair {
    /// A field that people and programs get.
    pub fn new(id: &'static str, name: &'static str, cell: impl Into<Cell>) -> Pair {
        Pair {
            id,
            name,
            cell: cell.into(),
            note: String::new(),
        }
    }

    /// A field that only programs get.
    pub fn data(id: &'static str, cell: impl Into<Cell>) -> Pair {
        Pair::new(id, "", cell)
    }

    /// The field with something said of its value.
    pub fn noted(mut self, note: impl Into<String>) -> Pair {
        self.note = note.into();
        self
    }
}
