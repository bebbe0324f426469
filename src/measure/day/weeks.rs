//! Weeks of the year (ISO 8601), as they are typed: `30-42`, `week 30 to 42`, `20 Aug - 5 Sep`.

use jiff::civil::{Date, ISOWeekDate, Weekday};

use super::calendar::Calendar;
use super::later;
use super::shape::{Shape, What, Year, month, short_month};
use crate::measure::brief;

/// What stands between the first and the last, the surest first.
const BETWEEN: [&str; 6] = [" to ", " until ", "..", "\u{2013}", " - ", "-"];

/// Weeks of a year from the first to the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weeks {
    /// The first.
    pub first: u8,
    /// The last; the first again where it is one.
    pub last: u8,
}

/// An end of a span of weeks, as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    /// A number, no more.
    Bare(u8),
    /// A week that is called one.
    Week(u8),
    Day(Date),
}

/// The week of the year (ISO 8601) that a day lies in.
pub fn week_of(day: Date) -> u8 {
    day.iso_week_date().week().unsigned_abs()
}

/// The Monday of a week of a year; `None` where the year has no such week.
pub fn monday(year: i16, week: u8) -> Option<Date> {
    let first = ISOWeekDate::new(year, i8::try_from(week).ok()?, Weekday::Monday);
    first.ok().map(|week| week.date())
}

/// Reads weeks; a day stands for the week that it lies in.
///
/// # Errors
/// A sentence with what was found and what was expected: a text that is neither weeks nor days, or a
/// day of another year than is planned.
pub fn weeks(text: &str, calendar: &Calendar) -> Result<Weeks, String> {
    let text = text.trim();
    let bare = after_word(text, "from");
    let bare = after_word(bare, "weeks");
    let mut told = None;
    let mut keep = |error: Option<String>| told = told.take().or(error);
    // Two numbers are weeks, whatever day they could be: `8-12`.
    if let Some((first, last)) = bare.split_once('-').and_then(in_numbers) {
        return Ok(Weeks { first, last });
    }
    if let Some(end) = end(bare, calendar, &mut keep) {
        return both(end, end, calendar);
    }
    for sign in BETWEEN {
        for (at, _) in bare.match_indices(sign) {
            let (first, last) = (bare[..at].trim(), bare[at + sign.len()..].trim());
            match span(first, last, calendar) {
                Ok(Some(weeks)) => return Ok(weeks),
                Ok(None) => {}
                Err(error) => keep(Some(error)),
            }
        }
    }
    Err(told.unwrap_or_else(|| {
        format!(
            "found the weeks {text:?}, expected such as 30-42, or days such as 20 Aug - 5 Sep",
            text = brief(text)
        )
    }))
}

/// Whether a word begins weeks or days wherever it stands: `from`, `week`, `w33`, `Aug`.
pub fn begins_weeks(word: &str) -> bool {
    let lower = word.to_lowercase();
    let numbered = |rest: &str| !rest.is_empty() && rest.bytes().all(|byte| byte.is_ascii_digit());
    matches!(lower.as_str(), "from" | "week" | "weeks")
        || lower.strip_prefix('w').is_some_and(numbered)
        || month(&lower).is_some()
}

impl Weeks {
    /// The weeks with their days in a year: `weeks 34 to 36 (17 Aug to 6 Sep)`.
    pub fn told(self, year: i16) -> String {
        let Weeks { first, last } = self;
        let name = match first == last {
            true => format!("week {first}"),
            false => format!("weeks {first} to {last}"),
        };
        let shown = |day: Date| format!("{} {}", day.day(), short_month(day.month()));
        match (monday(year, first), monday(year, last)) {
            (Some(begins), Some(ends)) => {
                format!("{name} ({} to {})", shown(begins), shown(later(ends, 6)))
            }
            _ => name,
        }
    }

    /// Whether a text has them in numbers alone, so that nothing need be told.
    pub fn is_plain(self, text: &str) -> bool {
        let Weeks { first, last } = self;
        let text = text.trim();
        text == format!("{first}-{last}") || (first == last && text == first.to_string())
    }
}

/// The text behind a word that it begins with, in any case.
fn after_word<'a>(text: &'a str, word: &str) -> &'a str {
    match text.get(..word.len()) {
        Some(begins)
            if begins.eq_ignore_ascii_case(word) && text[word.len()..].starts_with(' ') =>
        {
            text[word.len()..].trim()
        }
        _ => text,
    }
}

/// Both ends, where they are numbers alone.
fn in_numbers((first, last): (&str, &str)) -> Option<(u8, u8)> {
    let plain = |text: &str| text.trim().bytes().all(|byte| byte.is_ascii_digit());
    let read = |text: &str| text.trim().parse().ok().filter(|_| plain(text));
    read(first).zip(read(last))
}

/// What a text says of an end; `None` where it says none, and `tell` hears why it was no day.
fn end(text: &str, calendar: &Calendar, tell: &mut dyn FnMut(Option<String>)) -> Option<End> {
    if text.bytes().all(|byte| byte.is_ascii_digit()) {
        return text.parse().ok().map(End::Bare);
    }
    let shape = Shape::of(text)?;
    if let What::Week(Year::Left, week, _) = shape.what {
        return Some(End::Week(week.unsigned_abs()));
    }
    // A table and a file have weeks in numbers.
    calendar.planned_year()?;
    let day = calendar.day(shape);
    let day = day.map_err(|told| tell(Some(format!("found {:?}, {told}", brief(text)))));
    day.ok().map(End::Day)
}

/// The weeks between two texts; `None` where one of them is no end.
fn span(first: &str, last: &str, calendar: &Calendar) -> Result<Option<Weeks>, String> {
    let mut told = None;
    let mut tell = |error: Option<String>| told = told.take().or(error);
    let ends = (
        end(first, calendar, &mut tell),
        end(last, calendar, &mut tell),
    );
    let (Some(one), Some(other)) = ends else {
        return told.map_or(Ok(None), Err);
    };
    // One name of a month may serve both: `20 - 25 Aug`, `Aug 20-25`.
    let (one, other) = match (one, other) {
        (End::Bare(_), End::Day(_)) => {
            let digits = last.find(|c: char| !c.is_ascii_digit()).unwrap_or(0);
            let whole = format!("{first}{}", &last[digits..]);
            (end(&whole, calendar, &mut tell), Some(other))
        }
        (End::Day(_), End::Bare(_)) if first.ends_with(|c: char| c.is_ascii_digit()) => {
            let digits = first.trim_end_matches(|c: char| c.is_ascii_digit()).len();
            let whole = format!("{}{last}", &first[..digits]);
            (Some(one), end(&whole, calendar, &mut tell))
        }
        pair => (Some(pair.0), Some(pair.1)),
    };
    match (one, other) {
        (Some(one), Some(other)) => both(one, other, calendar).map(Some),
        _ => told.map_or(Ok(None), Err),
    }
}

fn both(first: End, last: End, calendar: &Calendar) -> Result<Weeks, String> {
    let week = |end: End| match end {
        End::Bare(week) | End::Week(week) => Ok(week),
        End::Day(day) => {
            let of = day.iso_week_date().year();
            match calendar.planned_year() {
                Some(year) if year != of => Err(format!(
                    "found {day}, a day of the weeks of {of}, expected one of those of {year}, which are planned"
                )),
                _ => Ok(week_of(day)),
            }
        }
    };
    match (first, last) {
        (End::Day(_), End::Bare(number)) | (End::Bare(number), End::Day(_)) => Err(format!(
            "found a day beside the number {number}, expected two days such as 20 Aug - 5 Sep, or two weeks such as 30-42"
        )),
        _ => Ok(Weeks {
            first: week(first)?,
            last: week(last)?,
        }),
    }
}
