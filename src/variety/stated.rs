//! What somebody states of a variety's measures, and who: a supplier's list, a society's, a raiser.
//! What was measured here stands in fields of its own, each bloom, plant and stem by itself.

use serde::{Deserialize, Serialize};

use super::evidence::Days;
use super::extent::Reach;
use super::text::Text;
use crate::measure::brief;

/// One thing that somebody states, written `(what: diameter, value: "90mm to 110mm", by: "Oar Bulbs")`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "AsWritten", into = "AsWritten")]
pub struct Statement {
    /// What is stated.
    pub value: StatedValue,
    /// By whom; `None` where nobody noted it.
    pub by: Option<Text>,
}

/// A value that can be stated.
#[derive(Debug, Clone, PartialEq)]
pub enum StatedValue {
    /// The size word that it is sold under.
    Size(Text),
    /// Across one bloom.
    Diameter(Reach),
    /// Of the plant.
    Height(Reach),
    /// Of a cut stem.
    Stem(Reach),
    /// How long a cut stem lasts.
    Vase(Days),
}

/// What can be stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Dimension {
    /// A size word.
    Size,
    /// Across one bloom.
    Diameter,
    /// Of the plant.
    Height,
    /// Of a cut stem.
    Stem,
    /// Days in the vase.
    Vase,
}

/// A value as it is stated, with who states it where somebody noted that.
pub type Named<'a, T> = (T, Option<&'a Text>);

/// As a record has it: a word, a length or a span of lengths, `7.5 days`.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct AsWritten {
    what: Dimension,
    value: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<Text>,
}

impl Dimension {
    /// Each, in the order shown.
    pub const ALL: [Dimension; 5] = [
        Dimension::Size,
        Dimension::Diameter,
        Dimension::Height,
        Dimension::Stem,
        Dimension::Vase,
    ];

    /// The word in files and on screen.
    pub fn word(self) -> &'static str {
        match self {
            Dimension::Size => "size",
            Dimension::Diameter => "diameter",
            Dimension::Height => "height",
            Dimension::Stem => "stem",
            Dimension::Vase => "vase",
        }
    }

    /// Reads a value of it.
    ///
    /// # Errors
    /// One clause with what was found and what was expected.
    pub fn value(self, text: &str) -> Result<StatedValue, String> {
        Ok(match self {
            Dimension::Size => StatedValue::Size(Text::new(text).map_err(|told| told.to_string())?),
            Dimension::Diameter => StatedValue::Diameter(text.parse()?),
            Dimension::Height => StatedValue::Height(text.parse()?),
            Dimension::Stem => StatedValue::Stem(text.parse()?),
            Dimension::Vase => StatedValue::Vase(days(text)?),
        })
    }
}

impl StatedValue {
    /// What it is a value of.
    pub fn what(&self) -> Dimension {
        match self {
            StatedValue::Size(_) => Dimension::Size,
            StatedValue::Diameter(_) => Dimension::Diameter,
            StatedValue::Height(_) => Dimension::Height,
            StatedValue::Stem(_) => Dimension::Stem,
            StatedValue::Vase(_) => Dimension::Vase,
        }
    }

    /// As [`Dimension::value`] reads it.
    pub fn written(&self) -> String {
        match self {
            StatedValue::Size(word) => word.to_string(),
            StatedValue::Diameter(reach)
            | StatedValue::Height(reach)
            | StatedValue::Stem(reach) => reach.to_string(),
            StatedValue::Vase(days) => format!("{} days", days.get()),
        }
    }
}

fn days(text: &str) -> Result<Days, String> {
    let number = text.strip_suffix("days").unwrap_or(text).trim();
    number_of_days(number, text)
}

/// Days by their number alone, in plain digits; `found` is all that was written.
///
/// # Errors
/// A sentence that repeats `found`.
pub(in crate::variety) fn number_of_days(number: &str, found: &str) -> Result<Days, String> {
    let plain = number.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let number = plain.then(|| number.parse::<f64>().ok()).flatten();
    let number = number.ok_or_else(|| {
        format!(
            "found {:?}, expected a number of days such as 7.5",
            brief(found)
        )
    })?;
    Days::try_from(number)
}

impl TryFrom<AsWritten> for Statement {
    type Error = String;
    fn try_from(written: AsWritten) -> Result<Statement, String> {
        let value = written.what.value(&written.value)?;
        Ok(Statement {
            value,
            by: written.by,
        })
    }
}

impl From<Statement> for AsWritten {
    fn from(statement: Statement) -> AsWritten {
        AsWritten {
            what: statement.value.what(),
            value: statement.value.written(),
            by: statement.by,
        }
    }
}
