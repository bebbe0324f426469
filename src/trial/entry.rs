//! One entry of the row's book: what was seen, or decided, of whom, when and by whom.
//!
//! Nothing is overwritten. An entry that was wrong is replaced by a later one that names it.

use std::fmt;
use std::num::NonZeroU32;
use std::str::FromStr;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::seedling::{Subject, as_text};
use crate::book;
use crate::colour::{NoPart, Part, Spec, with_part};
use crate::measure::bounds::MOST_COUNTED;
use crate::measure::{brief, same_id};
use crate::variety::{Days, Extent, Text, Weather};

/// One entry: one line of the journal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Its running number.
    pub id: u32,
    /// The entry in whose place this one stands, whole; always an earlier one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corrects: Option<u32>,
    /// The day of what it tells.
    #[serde(deserialize_with = "crate::measure::day::in_file")]
    pub date: Date,
    /// Who saw or decided it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Text>,
    /// Of whom.
    pub of: Subject,
    /// What.
    pub what: What,
}

/// What an entry tells.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
// Nearly every entry is an observation: a box would only add a step to each.
#[allow(clippy::large_enum_variant)]
pub enum What {
    /// What was seen.
    Observed(Observation),
    /// What the grower decided.
    Decided(Decision),
    /// Nothing: the entry that this one corrects should not have been made.
    Withdrawn,
}

/// What was seen on one day. All of it may be left out; what is empty was not looked at.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Observation {
    /// Answers of one bloom as `TRAIT=VALUE` words, the diameter apart.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bloom: Option<Text>,
    /// Diameters, one a bloom.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub diameters: Vec<Extent>,
    /// Colours by part.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<Shade>,
    /// Lengths of cut stems.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub stems: Vec<Extent>,
    /// Height of the plant.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height: Option<Extent>,
    /// Open blooms on all plants.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub open: Option<u32>,
    /// A vase test, one value a stem; the entry's day is the day that the stems were cut.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub vase: Vec<VaseStem>,
    /// Blooms counted after weather.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub weather: Vec<Weather>,
    /// Pollinators counted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub visits: Option<Visits>,
    /// Tubers at lifting.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub tubers: Option<u32>,
    /// Of the tubers lifted last, those sound in spring.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub sound: Option<u32>,
    /// Plants standing.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub plants: Option<u32>,
    /// Stems cut for use on this day.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub cut: Option<u32>,
    /// Whether the grower holds that it is a form of its own, which no named form describes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub novelty: Option<bool>,
    /// A note.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<Text>,
}

/// The colour of one part, written `peach`, `second:#ffcc99` or `reverse:lab(60 20 30)`; without a
/// part it is the main one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(into = "String")]
pub struct Shade {
    /// The part.
    pub part: Part,
    /// The colour as it was written.
    pub colour: Spec,
}

/// One stem in the vase, written `7` where it ended on day 7 and `6+` where it was still fresh
/// when the test ended on day 6: the usual mark of a censored time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(into = "String")]
pub struct VaseStem {
    /// Days in the vase until half of the petals had wilted, or the test ended.
    pub days: Days,
    /// Whether its end was seen.
    pub ended: bool,
}

/// Pollinators counted over some minutes, written `7/10min`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(into = "String")]
pub struct Visits {
    /// How many came.
    pub count: u32,
    /// Over how many minutes.
    pub minutes: NonZeroU32,
}

/// What the grower decided, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decision {
    /// Which way.
    pub fate: Fate,
    /// Why.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<Text>,
}

/// What becomes of a seedling.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Fate {
    /// It is kept: multiplied and released.
    Keep,
    /// It stays another season.
    Hold,
    /// It goes.
    Cull,
}

/// Why a text is not a shade, a stem in the vase, a count of pollinators or a fate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EntryError {
    pub(super) found: String,
    pub(super) expected: String,
}

/// A longer count of pollinators is a slip.
const MOST_MINUTES: u32 = 24 * 60;

impl Entry {
    /// What was seen, where the entry tells that.
    pub fn observation(&self) -> Option<&Observation> {
        match &self.what {
            What::Observed(observation) => Some(observation),
            What::Decided(_) | What::Withdrawn => None,
        }
    }
}

impl book::Entry for Entry {
    type Of = Subject;

    const LISTED_BY: &'static str = "trug row";

    fn id(&self) -> u32 {
        self.id
    }

    fn corrects(&self) -> Option<u32> {
        self.corrects
    }

    fn date(&self) -> Date {
        self.date
    }

    fn of(&self) -> &Subject {
        &self.of
    }

    fn withdraws(&self) -> bool {
        self.what == What::Withdrawn
    }

    fn says_the_same(&self, other: &Entry) -> bool {
        (&self.of, self.date, &self.by, &self.what, self.corrects)
            == (
                &other.of,
                other.date,
                &other.by,
                &other.what,
                other.corrects,
            )
    }
}

impl Observation {
    /// Whether nothing was seen.
    pub fn is_empty(&self) -> bool {
        *self == Observation::default()
    }
}

impl Fate {
    /// Every fate.
    pub const ALL: [Fate; 3] = [Fate::Keep, Fate::Hold, Fate::Cull];

    /// The word for what may be done: in files, commands and advice.
    pub fn word(self) -> &'static str {
        match self {
            Fate::Keep => "keep",
            Fate::Hold => "hold",
            Fate::Cull => "cull",
        }
    }

    /// The word for it once it was decided.
    pub fn done(self) -> &'static str {
        match self {
            Fate::Keep => "kept",
            Fate::Hold => "held",
            Fate::Cull => "culled",
        }
    }
}

impl FromStr for Fate {
    type Err = EntryError;
    fn from_str(text: &str) -> Result<Fate, EntryError> {
        let found = Fate::ALL.iter().find(|fate| same_id(text, fate.word()));
        found
            .copied()
            .ok_or_else(|| EntryError::new(text, "keep, hold or cull"))
    }
}

impl FromStr for Shade {
    type Err = EntryError;
    fn from_str(text: &str) -> Result<Shade, EntryError> {
        let (part, colour) = with_part(text)?;
        Shade::of(part.unwrap_or(Part::Main), colour)
    }
}

impl Shade {
    /// The colour of a part, as it was written.
    pub(super) fn of(part: Part, colour: &str) -> Result<Shade, EntryError> {
        let read = colour.parse().map_err(|_| {
            EntryError::new(colour, "a colour word such as peach, #rrggbb or lab(L a b)")
        });
        read.map(|colour| Shade { part, colour })
    }

    /// As it stands at this place of several, where the first without a part would be the main one.
    pub(super) fn among(&self, place: usize) -> String {
        match self.part {
            Part::Main if place > 0 => format!("main:{}", self.colour),
            _ => self.to_string(),
        }
    }
}

impl From<NoPart> for EntryError {
    fn from(none: NoPart) -> EntryError {
        let expected = "main, second, reverse or centre before the colon";
        EntryError::new(&none.found, expected)
    }
}

impl fmt::Display for Shade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.part {
            Part::Main => self.colour.fmt(f),
            part => write!(f, "{}:{}", part.word(), self.colour),
        }
    }
}

impl FromStr for VaseStem {
    type Err = EntryError;
    fn from_str(text: &str) -> Result<VaseStem, EntryError> {
        let text = text.trim();
        let (number, ended) = match text.strip_suffix('+') {
            Some(number) => (number.trim_end(), false),
            None => (text, true),
        };
        let plain = |byte: u8| byte.is_ascii_digit() || byte == b'.';
        let days = number
            .bytes()
            .all(plain)
            .then(|| number.parse::<f64>().ok());
        days.flatten()
            .and_then(|days| Days::try_from(days).ok())
            .map(|days| VaseStem { days, ended })
            .ok_or_else(|| {
                EntryError::new(
                    text,
                    "days over 0 and at most 60 for each stem, such as 7, or 6+ where it was still fresh",
                )
            })
    }
}

impl fmt::Display for VaseStem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mark = if self.ended { "" } else { "+" };
        write!(f, "{}{mark}", self.days.get())
    }
}

impl FromStr for Visits {
    type Err = EntryError;
    fn from_str(text: &str) -> Result<Visits, EntryError> {
        let read = || {
            let (count, minutes) = text.split_once('/')?;
            let minutes = minutes.trim().trim_end_matches("min").trim_end();
            let minutes: NonZeroU32 = minutes.parse().ok()?;
            let count = count
                .trim()
                .parse()
                .ok()
                .filter(|count| *count <= MOST_COUNTED)?;
            (minutes.get() <= MOST_MINUTES).then_some(Visits { count, minutes })
        };
        read().ok_or_else(|| {
            EntryError::new(text, "visits over minutes, at most a day, such as 7/10min")
        })
    }
}

impl fmt::Display for Visits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}min", self.count, self.minutes)
    }
}

as_text!(Shade, VaseStem, Visits);

impl EntryError {
    pub(super) fn new(found: &str, expected: impl Into<String>) -> EntryError {
        EntryError {
            found: format!("{:?}", brief(found)),
            expected: expected.into(),
        }
    }
}

impl fmt::Display for EntryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "found {}, expected {}", self.found, self.expected)
    }
}

impl std::error::Error for EntryError {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::read_ron;

    #[test]
    fn small_marks_read_back() {
        for text in ["7", "6+", "4.5", "0.5+"] {
            assert_eq!(text.parse::<VaseStem>().expect(text).to_string(), text);
        }
        for text in ["peach", "second:#ffcc99", "reverse:lab(60 20 -3.5)"] {
            assert_eq!(text.parse::<Shade>().expect(text).to_string(), text);
        }
        assert_eq!(
            "7/10".parse::<Visits>().expect("visits").to_string(),
            "7/10min"
        );
        for text in ["", "+", "0", "-1", "61", "6++", "1e1", "inf", "NaN"] {
            assert!(text.parse::<VaseStem>().is_err(), "{text:?}");
        }
        for text in ["7", "7/0min", "/5", "7/10h", "1/2000"] {
            assert!(text.parse::<Visits>().is_err(), "{text:?}");
        }
        let told = "petal:red".parse::<Shade>().expect_err("no such part");
        assert_eq!(
            told.to_string(),
            "found \"petal\", expected main, second, reverse or centre before the colon"
        );
    }

    #[test]
    fn an_entry_reads_as_the_journal_has_it() {
        let text = r#"(id: 7, date: "2026-08-20", by: "Ann", of: "26-014", what: observed((bloom: "centre=closed tip=?", diameters: ["98mm"], vase: ["7", "6+"], weather: ["wind:3/12"])))"#;
        let entry: Entry = read_ron("trial.journal", text).expect("an entry");
        let seen = entry.observation().expect("an observation");
        assert!(!seen.vase[1].ended && seen.vase[0].ended);
        let text = r#"(id: 8, corrects: 7, date: "2026-08-20", of: "26-014", what: withdrawn)"#;
        let entry: Entry = read_ron("trial.journal", text).expect("an entry");
        assert_eq!((entry.corrects, entry.observation()), (Some(7), None));
    }
}
