//! One entry of the stock book: what became of a plant's tubers, on which day.
//!
//! Nothing is overwritten. An entry that was wrong is replaced by a later one that names it.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::book;
use crate::measure::Money;
use crate::trial::Subject;
use crate::variety::Text;

/// One entry: one line of the journal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
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
    /// Who noted it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Text>,
    /// Of whom.
    pub of: Subject,
    /// The year in which these tubers were lifted; without it as [`lifting_of`] has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub year: Option<i16>,
    /// Where it happened, in the grower's words: a shed, a shelf, a frame.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Text>,
    /// What.
    pub what: What,
}

/// What an entry tells.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum What {
    /// What happened.
    Happened(Box<Event>),
    /// Nothing: the entry that this one corrects should not have been made.
    Withdrawn,
}

/// What happened on one day, in numbers. All of it may be left out; what is empty did not happen.
/// [`Lifting`](super::Lifting) says what each number does to the sums.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Event {
    /// Clumps lifted.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub lifted: Option<u32>,
    /// Tubers with an eye that clumps were divided into.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub divided: Option<u32>,
    /// Tubers put in store.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub stored: Option<u32>,
    /// Tubers found sound when all in store were counted.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub sound: Option<u32>,
    /// Tubers lost.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub lost: Option<u32>,
    /// Why they were.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<Text>,
    /// Tubers potted up.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub potted: Option<u32>,
    /// Cuttings that rooted.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub cuttings: Option<u32>,
    /// Given away.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub given: Option<u32>,
    /// Promised to somebody and still here.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub promised: Option<u32>,
    /// Sold.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub sold: Option<u32>,
    /// The price of each: of those sold, else what is asked from this day on.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "price_if_any"
    )]
    pub price: Option<Money>,
    /// To whom they were given, promised or sold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<Text>,
    /// Planted.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub planted: Option<u32>,
    /// How many are kept back for the grower's own beds, from this day on.
    #[serde(
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub keep: Option<u32>,
    /// A note.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<Text>,
}

/// The month in which the year of a new lifting begins; common practice, no source: by August nothing of
/// the last lifting is in store any more, and nothing of the next is lifted.
const FIRST_MONTH: i8 = 8;

/// The year of the lifting that tubers in store on a day are of: this year's from August on, else that of
/// the year before.
pub fn lifting_of(day: Date) -> i16 {
    day.year() - i16::from(day.month() < FIRST_MONTH)
}

impl Entry {
    /// The year in which the tubers that it is about were lifted.
    pub fn lifting(&self) -> i16 {
        self.year.unwrap_or_else(|| lifting_of(self.date))
    }

    /// What happened, where the entry tells that.
    pub fn event(&self) -> Option<&Event> {
        match &self.what {
            What::Happened(event) => Some(event),
            What::Withdrawn => None,
        }
    }
}

impl Event {
    /// Whether nothing happened.
    pub fn is_empty(&self) -> bool {
        *self == Event::default()
    }
}

impl book::Entry for Entry {
    type Of = Subject;

    const LISTED_BY: &'static str = "trug stock";

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
        let other = Entry {
            id: self.id,
            year: other.year.or(Some(other.lifting())),
            ..other.clone()
        };
        let own = Entry {
            year: Some(self.lifting()),
            ..self.clone()
        };
        own == other
    }
}

fn price_if_any<'de, D: serde::Deserializer<'de>>(reader: D) -> Result<Option<Money>, D::Error> {
    Money::price(reader).map(Some)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::read_ron;

    #[test]
    fn an_entry_reads_as_the_journal_has_it() {
        let text = r#"(id: 7, date: "2026-04-18", by: "Ann", of: "24-001", year: 2025, place: "byre", what: happened((sold: 31, price: "4.50", to: "quay stall")))"#;
        let entry: Entry = read_ron("stock.journal", text).expect("an entry");
        let event = entry.event().expect("an event");
        assert_eq!(event.sold, Some(31));
        assert_eq!(event.price, Some(Money::hundredths(450)));
        for wrong in [
            r#"(id: 7, date: "2026-04-18", of: "24-001", what: happened((sold: 10000)))"#,
            r#"(id: 7, date: "2026-04-18", of: "24-001", what: happened((sold: -1)))"#,
            r#"(id: 7, date: "2026-04-18", of: "24-001", what: happened((price: "-1")))"#,
            r#"(id: 7, date: "2026-04-18", of: "24-001", what: happened((rotten: 1)))"#,
        ] {
            assert!(
                read_ron::<Entry>("stock.journal", wrong).is_err(),
                "{wrong}"
            );
        }
    }

    #[test]
    fn tubers_in_store_are_of_the_last_autumn() {
        for (day, year) in [
            ("2025-10-20", 2025),
            ("2026-01-01", 2025),
            ("2026-07-31", 2025),
            ("2026-08-01", 2026),
        ] {
            assert_eq!(lifting_of(day.parse().expect(day)), year, "{day}");
        }
    }
}
