//! What stands without a word of its own in a line for an event or a round: its days, and so many of each
//! piece.
//!
//! A number begins a piece, and its name goes on to the next number, comma or day. So `12 Sep 12 table
//! bowl, 3 jars` is a day and two pieces: a day is told from a piece by its month or its signs.

use std::num::NonZeroU32;

use jiff::civil::{Date, Weekday};

use super::kinds::Count;
use super::weekday::weekday;
use crate::measure::brief;
use crate::measure::day::{self, Calendar, begins_weeks};
use crate::variety::Text;

/// What was found.
#[derive(Debug, Default)]
pub(super) struct Bare {
    /// The day of the week of a round.
    pub(super) every: Option<Weekday>,
    /// Days, in the order in which they stand.
    pub(super) days: Vec<Date>,
    /// Pieces; of none to take it away.
    pub(super) pieces: Vec<(Option<NonZeroU32>, Text)>,
}

/// Words that may stand between the others.
const BETWEEN: [&str; 7] = ["from", "to", "until", "on", "every", "and", "-"];

impl Bare {
    /// Reads it; days by `calendar`.
    ///
    /// # Errors
    /// A sentence with what means nothing.
    pub(super) fn read(text: &str, calendar: &Calendar) -> Result<Bare, String> {
        let text = text.replace(',', " , ");
        let words: Vec<&str> = text.split_whitespace().collect();
        let mut bare = Bare::default();
        let mut at = 0;
        while at < words.len() {
            let word = words[at];
            let rest = &words[at..];
            if let Some(length) = day_length(rest) {
                let typed = day::typed(&rest[..length].join(" "), calendar)?;
                bare.days.push(typed.day);
                at += length;
            } else if let Some(day) = weekday(word) {
                if bare.every.replace(day).is_some_and(|other| other != day) {
                    return Err(format!(
                        "found a second day of the week, {word:?}, expected one: each is a round of its own"
                    ));
                }
                at += 1;
            } else if is_number(word) {
                let length = name_length(&rest[1..]);
                if length == 0 {
                    return Err(format!(
                        "found {:?} with no piece behind it, expected such as 12 table bowl",
                        brief(word)
                    ));
                }
                let name = rest[1..=length].join(" ");
                bare.pieces.push(counted(word, &name)?);
                at += 1 + length;
            } else if word == "," || BETWEEN.contains(&word.to_lowercase().as_str()) {
                at += 1;
            } else {
                return Err(format!(
                    "found {:?}, expected a day, a day of the week, or so many of a piece such as 12 table bowl",
                    brief(word)
                ));
            }
        }
        Ok(bare)
    }
}

/// A piece read from `12 table bowl`.
pub(super) fn piece(text: &str) -> Result<Count, String> {
    let expected = "expected so many of a piece, such as 12 table bowl";
    let found = || format!("found {:?}, {expected}", brief(text));
    let (number, name) = text.trim().split_once(' ').ok_or_else(found)?;
    match counted(number, name.trim())? {
        (Some(number), name) => Ok(Count(number, name)),
        (None, _) => Err(found()),
    }
}

fn counted(number: &str, name: &str) -> Result<(Option<NonZeroU32>, Text), String> {
    let read: u32 = number.parse().map_err(|_| {
        format!(
            "found {:?}, expected a whole number of {:?}",
            brief(number),
            brief(name)
        )
    })?;
    let name = Text::new(name).map_err(|error| error.to_string())?;
    Ok((NonZeroU32::new(read), name))
}

fn is_number(word: &str) -> bool {
    word.bytes().all(|byte| byte.is_ascii_digit())
}

/// The words of a day at the beginning; `None` where there is none. `Sunday 12 Sep` is one day.
fn day_length(words: &[&str]) -> Option<usize> {
    let first = *words.first()?;
    let of_the_week = weekday(first).is_some() && !first.to_lowercase().ends_with('s');
    let named = usize::from(of_the_week);
    date_length(&words[named..]).map(|length| named + length)
}

/// The words of a date, no day of the week before it.
fn date_length(words: &[&str]) -> Option<usize> {
    let first = *words.first()?;
    let signed = first.starts_with(|c: char| c.is_ascii_digit())
        && first.contains(['-', '/', '.'])
        && first.bytes().filter(u8::is_ascii_digit).count() > 1;
    if signed {
        return Some(1);
    }
    let second = *words.get(1)?;
    let pair = (is_day(first) && is_month(second)) || (is_month(first) && is_day(second));
    let year = |word: &&&str| word.len() == 4 && is_number(word);
    let with_year = usize::from(words.get(2).filter(year).is_some());
    pair.then_some(2 + with_year)
}

/// Whether a word is a month.
fn is_month(word: &str) -> bool {
    let of_weeks = matches!(word.to_lowercase().as_str(), "from" | "week" | "weeks");
    begins_weeks(word) && word.chars().all(char::is_alphabetic) && !of_weeks
}

/// Whether a word is the day of a month: `12`, `12th`.
fn is_day(word: &str) -> bool {
    let digits = word.trim_end_matches(|c: char| c.is_alphabetic());
    is_number(digits) && (1..3).contains(&digits.len())
}

/// The words of a name, which ends before a number, a comma, a day or a word between.
fn name_length(words: &[&str]) -> usize {
    let ends = |at: &usize| {
        let word = words[*at];
        let before_number = words.get(*at + 1).is_some_and(|next| is_number(next));
        let between = BETWEEN.contains(&word.to_lowercase().as_str());
        let between = between && (word != "and" || before_number);
        word == ","
            || is_number(word)
            || between
            || day_length(&words[*at..]).is_some()
            || (*at > 0 && weekday(word).is_some())
    };
    (0..words.len()).find(ends).unwrap_or(words.len())
}
