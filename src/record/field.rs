//! One field of a record as it stands in a form to be filled in.

use std::fmt;

/// Which field of a record: its word, and of several alike which one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Key {
    /// Its word in commands, such as `stem`.
    pub word: &'static str,
    /// The place among several that have this word, from 0.
    pub place: usize,
}

/// A field with what stands in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// Which it is.
    pub key: Key,
    /// The head that it stands under; fields of one head follow each other.
    pub group: &'static str,
    /// Its name as people read it.
    pub name: &'static str,
    /// What stands in it, as it may be typed; empty where that is not known.
    pub text: String,
    /// What it means, in one sentence.
    pub means: &'static str,
    /// What may stand there, with an example: a sentence. A list of words is told whole.
    pub takes: String,
    /// Whose figure it is.
    pub figure: Figure,
}

/// Whose figure stands in a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// The grower decides it: a name, a need, a note.
    Chosen,
    /// It was measured or counted here.
    Measured,
    /// A supplier, a list or a person states it.
    Stated,
    /// Where nothing stands an assumption holds, which is told.
    Assumed,
}

impl Key {
    /// The only field of this word.
    pub const fn of(word: &'static str) -> Key {
        Key { word, place: 0 }
    }

    /// That of several alike, counted from 0.
    pub const fn nth(word: &'static str, place: usize) -> Key {
        Key { word, place }
    }
}

impl Figure {
    /// In a few words, beside the field.
    pub fn words(self) -> &'static str {
        match self {
            Figure::Chosen => "yours to say",
            Figure::Measured => "measured or counted here",
            Figure::Stated => "stated by others",
            Figure::Assumed => "assumed where nothing stands",
        }
    }
}

impl fmt::Display for Key {
    /// As it is typed in a command: the first alone, of others with their number, counted from 1.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.place {
            0 => f.write_str(self.word),
            place => write!(f, "{}-{}", self.word, place + 1),
        }
    }
}
