//! Who stands in the row: a seedling, its parents and its place, or a variety on trial beside it.

use std::fmt;
use std::num::NonZeroU32;
use std::str::FromStr;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::measure::brief;
use crate::measure::day::{self, Calendar};
use crate::variety::{Text, TextError, Varieties};

/// A seedling's number, written `26-014`: the last two digits of the year that it was sown in, and
/// its own number in that year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "String")]
pub struct Number {
    year: u8,
    own: u16,
}

/// What an entry is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "String")]
pub enum Subject {
    /// A seedling of the row.
    Seedling(Number),
    /// A variety of the list that is on trial, by its name.
    Variety(Text),
}

/// One parent of a seedling; written as a name, `open-pollinated` or `unknown`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize)]
#[serde(into = "String")]
pub enum Parent {
    /// A variety of the list, or a seedling of the row.
    Named(Subject),
    /// Whatever the bees brought.
    Open,
    /// Nobody noted it.
    #[default]
    Unknown,
}

/// When a seedling was sown: the day, or only the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(into = "String")]
pub enum Sown {
    /// In this year.
    Year(i16),
    /// On this day.
    On(Date),
}

/// A seedling as it stands in `trial.ron`: one record a line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seedling {
    /// Its number; unique in the row.
    pub number: Number,
    /// The plant that bore the seed.
    #[serde(default, skip_serializing_if = "Parent::is_unknown")]
    pub seed_parent: Parent,
    /// The plant that gave the pollen.
    #[serde(default, skip_serializing_if = "Parent::is_unknown")]
    pub pollen_parent: Parent,
    /// When it was sown; by its number where this is not noted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sown: Option<Sown>,
    /// The bed or row that it stands in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row: Option<Text>,
    /// Its place in the row, counted from the gate.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::counted"
    )]
    pub place: Option<u32>,
    /// Plants of it: one at first, more from cuttings and tubers.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub plants: Option<NonZeroU32>,
}

/// Why a text is not a number of a seedling, a subject, a parent or a time of sowing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SubjectError {
    found: String,
    expected: &'static str,
}

const OPEN: &str = "open-pollinated";
const UNKNOWN: &str = "unknown";

impl Number {
    /// The number `own` of a year of this century; `None` of another year or of 0.
    pub fn new(year: i16, own: u16) -> Option<Number> {
        let year = u8::try_from(year.checked_sub(2000)?)
            .ok()
            .filter(|year| *year < 100)?;
        (1..=9999).contains(&own).then_some(Number { year, own })
    }

    /// Its own number in the year.
    pub fn own(self) -> u16 {
        self.own
    }

    /// The year that the number itself names.
    pub fn year(self) -> i16 {
        2000 + i16::from(self.year)
    }
}

impl Subject {
    /// A variety by the name that the list has for it, so that case and accents make no second one.
    pub fn as_listed(self, list: &Varieties) -> Subject {
        match &self {
            Subject::Variety(name) => match list.find(name) {
                Some(row) => Subject::Variety(list.list()[row].name.clone()),
                None => self,
            },
            Subject::Seedling(_) => self,
        }
    }
}

impl Seedling {
    /// A seedling of which only the number is known.
    pub fn numbered(number: Number) -> Seedling {
        Seedling {
            number,
            seed_parent: Parent::Unknown,
            pollen_parent: Parent::Unknown,
            sown: None,
            row: None,
            place: None,
            plants: None,
        }
    }

    /// The year that it was sown in.
    pub fn sown_in(&self) -> i16 {
        match self.sown {
            Some(Sown::Year(year)) => year,
            Some(Sown::On(date)) => date.year(),
            None => self.number.year(),
        }
    }

    /// Both parents that have a name, the seed parent first; a selfed seedling's parent once.
    pub fn parents(&self) -> impl Iterator<Item = &Subject> {
        let (seed, pollen) = (self.seed_parent.named(), self.pollen_parent.named());
        seed.into_iter()
            .chain(pollen.filter(|pollen| Some(*pollen) != seed))
    }
}

impl Sown {
    /// The first day on which anything can have been seen of it.
    pub fn first_day(self) -> Date {
        match self {
            // OK because the reader lets no other year in.
            Sown::Year(year) => Date::new(year, 1, 1).unwrap_or(Date::MIN),
            Sown::On(date) => date,
        }
    }
}

impl Parent {
    /// The parent where it has a name or a number.
    pub fn named(&self) -> Option<&Subject> {
        match self {
            Parent::Named(subject) => Some(subject),
            Parent::Open | Parent::Unknown => None,
        }
    }

    fn is_unknown(&self) -> bool {
        *self == Parent::Unknown
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{:02}-{:03}", self.year, self.own))
    }
}

/// Reads `26-014` and `26-14`.
impl FromStr for Number {
    type Err = SubjectError;
    fn from_str(text: &str) -> Result<Number, SubjectError> {
        let read = || {
            let (year, own) = text.trim().split_once('-')?;
            let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
            let fits = year.len() == 2 && (1..=4).contains(&own.len());
            let plain = digits(year) && digits(own);
            let (year, own) = (year.parse().ok()?, own.parse().ok()?);
            (fits && plain && own > 0).then_some(Number { year, own })
        };
        read().ok_or_else(|| SubjectError {
            found: brief(text),
            expected: "a seedling's number such as 26-014",
        })
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Subject::Seedling(number) => number.fmt(f),
            Subject::Variety(name) => name.fmt(f),
        }
    }
}

/// Reads a seedling's number, else a variety's name.
impl FromStr for Subject {
    type Err = SubjectError;
    fn from_str(text: &str) -> Result<Subject, SubjectError> {
        if let Ok(number) = text.parse() {
            return Ok(Subject::Seedling(number));
        }
        let name = Text::new(text.trim()).map_err(|_: TextError| SubjectError {
            found: brief(text),
            expected: "a seedling's number such as 26-014, or a variety's name",
        })?;
        Ok(Subject::Variety(name))
    }
}

impl fmt::Display for Parent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Parent::Named(subject) => subject.fmt(f),
            Parent::Open => f.pad(OPEN),
            Parent::Unknown => f.pad(UNKNOWN),
        }
    }
}

/// Reads a variety's name, a seedling's number, `open-pollinated` or `unknown`.
impl FromStr for Parent {
    type Err = SubjectError;
    fn from_str(text: &str) -> Result<Parent, SubjectError> {
        match text.trim().to_lowercase().as_str() {
            OPEN | "open" => Ok(Parent::Open),
            UNKNOWN | "?" => Ok(Parent::Unknown),
            _ => text.parse().map(Parent::Named),
        }
    }
}

impl fmt::Display for Sown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Sown::Year(year) => write!(f, "{year}"),
            Sown::On(date) => write!(f, "{date}"),
        }
    }
}

/// Reads `2026` and `2026-03-14`.
impl FromStr for Sown {
    type Err = SubjectError;
    fn from_str(text: &str) -> Result<Sown, SubjectError> {
        let text = text.trim();
        let year = |text: &str| {
            let plain = text.len() == 4 && text.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| text.parse().ok()).flatten()
        };
        let read = || match year(text) {
            Some(year) => day::years().contains(&year).then_some(Sown::Year(year)),
            None => day::read(text).ok().map(Sown::On),
        };
        read().ok_or_else(|| SubjectError {
            found: brief(text),
            expected: "a year such as 2026 or a day such as 2026-03-14",
        })
    }
}

impl Sown {
    /// Reads a year, or a day as people write it.
    ///
    /// # Errors
    /// A sentence with what was found and what was expected.
    pub fn typed(text: &str, calendar: &Calendar) -> Result<Sown, String> {
        match text.parse::<Sown>() {
            Ok(sown) => Ok(sown),
            Err(_) => day::typed(text, calendar)
                .map(|typed| Sown::On(typed.day))
                .map_err(|told| format!("{told}, or a year such as 2026")),
        }
    }
}

impl fmt::Display for SubjectError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "found {:?}, expected {}", self.found, self.expected)
    }
}

impl std::error::Error for SubjectError {}

/// A type that is one text in a file: read by `FromStr`, written by `Display`.
macro_rules! as_text {
    ($($type:ty),+) => {$(
        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<$type, D::Error> {
                crate::measure::read_text::parsed(deserializer)
            }
        }
        impl From<$type> for String {
            fn from(value: $type) -> String {
                value.to_string()
            }
        }
    )+};
}
pub(super) use as_text;

as_text!(Number, Subject, Parent, Sown);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::read_ron;

    #[test]
    fn numbers_and_names_are_told_apart_and_read_back() {
        for (text, printed) in [
            ("26-14", "26-014"),
            (" 24-1203 ", "24-1203"),
            ("Haaf Light", "Haaf Light"),
        ] {
            let subject: Subject = text.parse().expect(text);
            assert_eq!(subject.to_string(), printed);
            assert_eq!(printed.parse(), Ok(subject));
        }
        for text in [
            "", "26", "26-", "26-0", "2026-14", "26-+1", "26-12345", "-6-1",
        ] {
            assert!(text.parse::<Number>().is_err(), "{text:?}");
        }
    }

    #[test]
    fn a_record_reads_with_what_is_unknown_left_out() {
        let text = r#"(number: "26-014", seed_parent: "Haaf Light", pollen_parent: "open-pollinated", sown: "2026-03-14", row: "sea wall", place: 4, plants: 1)"#;
        let seedling: Seedling = read_ron("trial.ron", text).expect("a seedling");
        assert_eq!(seedling.pollen_parent, Parent::Open);
        assert_eq!(seedling.parents().count(), 1);
        assert_eq!(seedling.sown_in(), 2026);
        let bare: Seedling = read_ron("trial.ron", r#"(number: "25-001")"#).expect("a number");
        assert_eq!((bare.sown_in(), bare.parents().count()), (2025, 0));
        let told = read_ron::<Seedling>("trial.ron", r#"(number: "nine")"#).expect_err("no number");
        assert!(told.to_string().contains("26-014"), "{told}");
    }
}
