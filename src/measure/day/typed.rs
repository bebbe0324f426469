//! A day as people write it: `20 Aug`, `20.8.2026`, `08/20/2026`, `yesterday`, `friday`, `week 33`.

use jiff::civil::Date;

use super::calendar::Calendar;
use super::shape::Shape;
use super::{believed, read};
use crate::measure::brief;

/// A day that was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedDay {
    /// The day.
    pub day: Date,
    /// What was typed, where that is not the day as files have it.
    typed: Option<String>,
}

impl TypedDay {
    /// What was taken, where it was not typed in full: `20 Aug, so 2026-08-20`.
    pub fn told(&self) -> Option<String> {
        let typed = self.typed.as_ref()?;
        Some(format!("{typed}, so {}", self.day))
    }
}

/// A day as files have it, which needs no telling.
impl From<Date> for TypedDay {
    fn from(day: Date) -> TypedDay {
        TypedDay { day, typed: None }
    }
}

/// Reads a day as people write it.
///
/// # Errors
/// A sentence with what was found and what was expected: a text that is no day, a day that the
/// calendar does not have, one that may be two, or one of no year that is believed.
pub fn typed(text: &str, calendar: &Calendar) -> Result<TypedDay, String> {
    let text = text.trim();
    if calendar.is_of_files() || text.parse::<Date>().is_ok() {
        return read(text).map(TypedDay::from);
    }
    let found = || format!("found {:?}", brief(text));
    let shape =
        Shape::of(text).ok_or_else(|| format!("{}, expected {}", found(), calendar.expected()))?;
    let day = calendar
        .day(shape)
        .map_err(|told| format!("{}, {told}", found()))?;
    Ok(TypedDay {
        day: believed(day)?,
        typed: Some(text.to_string()),
    })
}

/// Reads the day that a text begins with, of as many words as it can be, and what stands behind it.
///
/// # Errors
/// As [`typed`].
pub fn leading<'a>(text: &'a str, calendar: &Calendar) -> Result<(TypedDay, &'a str), String> {
    let text = text.trim();
    let blanks = text.match_indices(' ').map(|(at, _)| at);
    let ends = blanks.chain([text.len()]).collect::<Vec<usize>>();
    let says = |end: &usize| is_day(&text[..*end]);
    let first = text.find(' ').unwrap_or(text.len());
    let end = ends.into_iter().rev().find(says).unwrap_or(first);
    Ok((typed(&text[..end], calendar)?, text[end..].trim()))
}

/// Whether a text says a day, of this calendar or not.
fn is_day(text: &str) -> bool {
    text.trim().parse::<Date>().is_ok() || Shape::of(text).is_some()
}
