//! Exact lengths, money and shares, and what a handful of measurements says.
//!
//! Knows nothing of dahlias: numbers in, numbers out.

pub(crate) mod bounds;
pub mod day;
mod exact;
mod id;
mod length;
mod money;
mod ratio;
pub(crate) mod read_text;
pub mod sample;
mod year_day;

pub use exact::{Exact, ParseExactError};
pub use id::{id_of, same_id};
pub use length::{Length, LengthUnit, ParseLengthError, SizeUnits};
pub use money::{Money, ParseMoneyError};
pub use year_day::YearDay;

/// The most characters of a text that a sentence on it repeats.
const LONGEST_FOUND: usize = 60;

/// A text as a sentence on what was found repeats it: its beginning, where it is long. What is no letter
/// counts as long as it is written in quotes, where a mark without a look of its own is told by its number.
pub fn brief(text: impl AsRef<str>) -> String {
    let text = text.as_ref();
    let long = |c: char| match c {
        '"' | '\'' | '\\' => 1,
        c => c.escape_debug().count(),
    };
    let mut written = 0;
    let end = text.char_indices().find(|(_, c)| {
        written += long(*c);
        written > LONGEST_FOUND
    });
    match end {
        Some((end, _)) => format!("{}...", &text[..end]),
        None => text.to_string(),
    }
}

/// A number of days in words: `1 day`, `7.5 days`.
pub fn days(count: f64) -> String {
    let ending = if count == 1.0 { "" } else { "s" };
    format!("{count} day{ending}")
}

/// A share for reading: `97 %`, `under 1 %`, `over 99 %`.
pub fn percent(share: f64) -> String {
    match share {
        s if s > 0.0 && s < 0.01 => "under 1 %".to_string(),
        s if s < 1.0 && s > 0.99 => "over 99 %".to_string(),
        s => format!("{:.0} %", s * 100.0),
    }
}

#[cfg(test)]
mod tests {
    use super::brief;

    #[test]
    fn what_is_repeated_is_short_however_it_is_written() {
        assert_eq!(brief("plum \"dark\""), "plum \"dark\"");
        assert_eq!(brief("é".repeat(60)), "é".repeat(60));
        assert_eq!(brief("é".repeat(61)), "é".repeat(60) + "...");
        let marks = format!("{:?}", brief("\u{2066}".repeat(500)));
        assert!(marks.len() < 80, "{marks}");
    }
}
