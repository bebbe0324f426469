//! What is known of a bloom's looks: as it was written in the list, or as the trial row saw it. What
//! was seen goes to the scores as it was measured, and never by way of a text.

use std::fmt;

use serde::ser::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::text::Text;
use crate::colour::{Lab, Target, UnknownColour, Vocabulary};
use crate::form::{AnswerError, Answers, Traits};

/// A colour of a bloom.
#[derive(Debug, Clone, PartialEq)]
pub enum KnownColour {
    /// A colour word, `#rrggbb` or `lab(L a b)`, as it was written.
    Written(Text),
    /// As the trial row measured it, with all its digits.
    Measured(Lab),
}

/// What was answered of a bloom.
#[derive(Debug, Clone, PartialEq)]
pub enum KnownBloom {
    /// `TRAIT=VALUE` words, diameter apart.
    Written(Text),
    /// The answers that stand in the trial row, by its table of traits. They are never saved in a
    /// record, since the row has a place of its own.
    Answered(Box<Answers>),
}

impl KnownColour {
    /// What it means.
    ///
    /// # Errors
    /// [`UnknownColour`] where it was written so that these words do not know it.
    pub fn target(&self, words: &Vocabulary) -> Result<Target, UnknownColour> {
        match self {
            KnownColour::Written(text) => words.target(text),
            KnownColour::Measured(lab) => Ok(Target::point(*lab)),
        }
    }
}

impl KnownBloom {
    /// The words, where it was written.
    pub fn written(&self) -> Option<&Text> {
        match self {
            KnownBloom::Written(text) => Some(text),
            KnownBloom::Answered(_) => None,
        }
    }

    /// The answers. Words are read here because the table of traits may be the grower's own.
    pub(super) fn answers(&self, traits: &Traits) -> Result<Answers, AnswerError> {
        match self {
            KnownBloom::Written(text) => {
                let pairs: Vec<&str> = text.split_whitespace().collect();
                Answers::read(&pairs, traits)
            }
            KnownBloom::Answered(answers) => Ok((**answers).clone()),
        }
    }
}

impl From<Text> for KnownColour {
    fn from(text: Text) -> KnownColour {
        KnownColour::Written(text)
    }
}

impl From<Text> for KnownBloom {
    fn from(text: Text) -> KnownBloom {
        KnownBloom::Written(text)
    }
}

/// As a person reads it: a measured colour no finer than anyone can tell.
impl fmt::Display for KnownColour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            KnownColour::Written(text) => text.fmt(f),
            KnownColour::Measured(Lab { l, a, b }) => write!(f, "lab({l:.1} {a:.1} {b:.1})"),
        }
    }
}

impl<'de> Deserialize<'de> for KnownColour {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<KnownColour, D::Error> {
        Text::deserialize(reader).map(KnownColour::Written)
    }
}

impl Serialize for KnownColour {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        match self {
            KnownColour::Written(text) => text.serialize(writer),
            KnownColour::Measured(Lab { l, a, b }) => {
                writer.collect_str(&format_args!("lab({l} {a} {b})"))
            }
        }
    }
}

impl<'de> Deserialize<'de> for KnownBloom {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<KnownBloom, D::Error> {
        Text::deserialize(reader).map(KnownBloom::Written)
    }
}

impl Serialize for KnownBloom {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        match self {
            KnownBloom::Written(text) => text.serialize(writer),
            KnownBloom::Answered(_) => Err(S::Error::custom(
                "found a record with what the trial row saw, expected one without it to be saved",
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_measured_colour_is_read_back_as_it_was_and_told_shorter() {
        let lab = Lab::new(61.0 / 3.0, -20.0 / 7.0, 1.0e-7);
        let colour = KnownColour::Measured(lab);
        assert_eq!(colour.to_string(), "lab(20.3 -2.9 0.0)");
        let written = ron::to_string(&colour).expect("writes");
        let read: KnownColour = ron::from_str(&written).expect("reads");
        let words = Vocabulary::embedded();
        let [one, other] = [colour, read].map(|one| one.target(&words).expect("a colour").centre);
        assert_eq!((one, one), (lab, other));
    }

    #[test]
    fn what_the_row_saw_is_never_saved_in_a_record() {
        let answers = Answers::default();
        assert!(ron::to_string(&KnownBloom::Answered(Box::new(answers))).is_err());
        let written = ron::to_string(&KnownBloom::from(Text::new("centre=open").expect("a text")));
        assert_eq!(written.as_deref(), Ok("\"centre=open\""));
    }
}
