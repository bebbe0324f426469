//! Days of the calendar: which are believed, how they are read, and sums that never leave it.

mod calendar;
mod shape;
mod typed;
mod weeks;

pub use calendar::{Calendar, DayOrder};
pub(in crate::measure) use shape::month;
pub use shape::{WEEKDAYS, month_name};
pub use typed::{TypedDay, leading, typed};
pub use weeks::{Weeks, begins_weeks, monday, week_of, weeks};

use super::brief;
use std::fmt;
use std::marker::PhantomData;

use jiff::SignedDuration;
use jiff::civil::{Date, date};
use serde::Deserializer;
use serde::de::{Error, Visitor};

/// The first day that is believed: no record of a garden that is still kept is older.
pub const FIRST: Date = date(1900, 1, 1);
/// The last day that is believed: a later one is a slip of a digit.
pub const LAST: Date = date(2200, 12, 31);
/// Days in four hundred years: no sum of days in a plan comes near.
const MOST_DAYS: i64 = 146_097;

/// The years that are believed.
pub fn years() -> std::ops::RangeInclusive<i16> {
    FIRST.year()..=LAST.year()
}

/// Reads a day as files have it, such as `2027-04-29`.
///
/// # Errors
/// What was found and what was expected: a text that is no day, or a day of no year that is believed.
pub fn read(text: &str) -> Result<Date, String> {
    let day = text.trim().parse::<Date>();
    let day = day.map_err(|_| {
        format!(
            "found {text:?}, expected a day such as 2027-04-29",
            text = brief(text)
        )
    })?;
    believed(day)
}

/// The day, where it is of a year that is believed.
fn believed(day: Date) -> Result<Date, String> {
    match (FIRST..=LAST).contains(&day) {
        true => Ok(day),
        false => Err(format!(
            "found the day {day}, expected one from {FIRST} to {LAST}"
        )),
    }
}

/// The day as a letter has it: `31 January 2027`.
pub fn in_words(day: Date) -> String {
    format!("{} {} {}", day.day(), month_name(day.month()), day.year())
}

/// The day so many days later, or earlier where they are under 0. A sum that no plan has stays within
/// four hundred years, and at the calendar's own ends.
pub fn later(day: Date, days: i64) -> Date {
    let days = days.clamp(-MOST_DAYS, MOST_DAYS);
    day.saturating_add(SignedDuration::from_hours(days * 24))
}

/// A day as a file has it, or one that may be left out.
pub(crate) trait Dated {
    fn of(day: Date) -> Self;
}

impl Dated for Date {
    fn of(day: Date) -> Date {
        day
    }
}

impl Dated for Option<Date> {
    fn of(day: Date) -> Option<Date> {
        Some(day)
    }
}

/// Reads a day that a file has as text; for `#[serde(deserialize_with = ...)]`.
pub(crate) fn in_file<'de, D: Deserializer<'de>, T: Dated>(reader: D) -> Result<T, D::Error> {
    struct Day<T>(PhantomData<T>);
    impl<'de, T: Dated> Visitor<'de> for Day<T> {
        type Value = T;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a day in double quotes, such as \"2027-04-29\"")
        }
        fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
            read(text).map(T::of).map_err(E::custom)
        }
    }
    reader.deserialize_str(Day(PhantomData))
}

#[cfg(test)]
mod tests;
