//! An event or a round as its file has it: a day, or a day of the week with two dates.

use std::num::NonZeroU32;

use jiff::civil::Date;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::kinds::{Count, When, Work};
use super::weekday::{weekday, word};
use crate::measure::brief;
use crate::variety::Text;

/// The fields in the order in which they are written.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: Text,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    on: Option<Date>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    every: Option<Text>,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    from: Option<Date>,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    to: Option<Date>,
    pieces: Vec<(NonZeroU32, Text)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    colours: Vec<Text>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    within: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    cut_before: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sure: Option<f64>,
}

impl<'de> Deserialize<'de> for Work {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Work, D::Error> {
        let written = Written::deserialize(reader)?;
        Work::try_from(written).map_err(D::Error::custom)
    }
}

impl Serialize for Work {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        Written::from(self.clone()).serialize(writer)
    }
}

impl TryFrom<Written> for Work {
    type Error = String;

    fn try_from(written: Written) -> Result<Work, String> {
        let name = &written.name;
        let when = match (written.on, &written.every, written.from, written.to) {
            (Some(day), None, None, None) => When::On(day),
            (None, Some(every), Some(from), Some(to)) => {
                let day = weekday(every.as_str()).ok_or_else(|| {
                    let every = brief(every.as_str());
                    format!("{name}: found every {every:?}, expected a day of the week such as \"friday\"")
                })?;
                When::Every { day, from, to }
            }
            _ => {
                return Err(format!(
                    "{name}: found neither the one day of an event nor the days of a round, expected on, or every, from and to"
                ));
            }
        };
        let pieces = written.pieces.into_iter();
        Ok(Work {
            when,
            pieces: pieces.map(|(number, piece)| Count(number, piece)).collect(),
            name: written.name,
            colours: written.colours,
            within: written.within,
            cut_before: written.cut_before,
            sure: written.sure,
        })
    }
}

impl From<Work> for Written {
    fn from(work: Work) -> Written {
        let (on, every, from, to) = match work.when {
            When::On(day) => (Some(day), None, None, None),
            When::Every { day, from, to } => (None, Text::cleaned(word(day)), Some(from), Some(to)),
        };
        let pieces = work.pieces.into_iter();
        Written {
            name: work.name,
            on,
            every,
            from,
            to,
            pieces: pieces.map(|Count(number, piece)| (number, piece)).collect(),
            colours: work.colours,
            within: work.within,
            cut_before: work.cut_before,
            sure: work.sure,
        }
    }
}
