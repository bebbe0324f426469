//! The days of the week by their words.

use jiff::civil::Weekday;

use crate::measure::day::WEEKDAYS;

/// The day in a word, in any case: `friday`, `Fridays`, `fri`.
pub(super) fn weekday(word: &str) -> Option<Weekday> {
    let word = word.to_lowercase();
    let word = word.strip_suffix('s').unwrap_or(&word);
    let named = |name: &str| name == word || (word.len() == 3 && name.starts_with(word));
    let own = WEEKDAYS.iter().find(|(name, _)| named(name));
    own.map(|(_, day)| *day)
}

/// The word of a day.
pub(super) fn word(day: Weekday) -> &'static str {
    let own = WEEKDAYS.iter().find(|(_, own)| *own == day);
    // OK because all seven stand in the table.
    own.map_or("monday", |(name, _)| name)
}

/// Every word.
pub(in crate::order) fn words() -> impl Iterator<Item = &'static str> {
    WEEKDAYS.iter().map(|(name, _)| *name)
}
