//! An entry as words, `WORD=VALUE` each: what every book's reading and printing share.

use std::fmt;
use std::str::FromStr;

use jiff::civil::Date;

use crate::measure::brief;
use crate::measure::day::{self, Calendar, TypedDay};
use crate::problem::told;
use crate::variety::Text;

/// A word of an entry, and what its value looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word {
    /// What stands before `=`.
    pub id: &'static str,
    /// What stands after it, for help and messages.
    pub expected: &'static str,
}

/// Why words are not an entry: one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    /// The word that is wrong.
    pub about: String,
    pub(crate) found: String,
    pub(crate) expected: String,
}

/// The most that one word counts.
pub const MOST_COUNT: u32 = 9999;

impl Word {
    /// A word of a table.
    pub const fn new(id: &'static str, expected: &'static str) -> Word {
        Word { id, expected }
    }
}

impl ReadError {
    /// A value that is wrong, as it was typed.
    pub fn of(id: &str, value: &str, expected: impl Into<String>) -> ReadError {
        ReadError {
            about: told(&brief(id)),
            found: format!("{value:?}", value = brief(value)),
            expected: expected.into(),
        }
    }

    /// What another module told, which is a clause already.
    pub fn clause(id: &str, told: impl fmt::Display) -> ReadError {
        ReadError {
            about: id.to_string(),
            found: told.to_string(),
            expected: String::new(),
        }
    }

    /// A text that is no `WORD=VALUE`.
    pub fn no_pair(pair: &str, expected: impl Into<String>) -> ReadError {
        ReadError {
            about: told(&brief(pair)),
            ..ReadError::of("", pair, expected)
        }
    }

    /// What was found in words of our own.
    pub fn found(about: &str, found: &str, expected: impl Into<String>) -> ReadError {
        ReadError {
            about: about.to_string(),
            found: found.to_string(),
            expected: expected.into(),
        }
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.about.as_str(), self.expected.as_str()) {
            // What another module told is a whole sentence already.
            ("", _) => f.write_str(&self.found),
            (about, "") => write!(f, "{about}: {}", self.found),
            (about, expected) => write!(f, "{about}: found {}, expected {expected}", self.found),
        }
    }
}

impl std::error::Error for ReadError {}

/// A count of things, 0 to [`MOST_COUNT`].
///
/// # Errors
/// With what `words` expect of it.
pub fn count(words: &[Word], id: &str, value: &str) -> Result<u32, ReadError> {
    let digits = value.bytes().all(|byte| byte.is_ascii_digit());
    let number: Option<u32> = digits.then(|| value.parse().ok()).flatten();
    number
        .filter(|number| *number <= MOST_COUNT)
        .ok_or_else(|| expected(words, id, value))
}

/// The number of an entry.
///
/// # Errors
/// As [`count`].
pub fn number<T: FromStr>(words: &[Word], id: &str, value: &str) -> Result<T, ReadError> {
    value.parse().map_err(|_| expected(words, id, value))
}

/// A text of one line.
///
/// # Errors
/// What is wrong with it.
pub fn text(id: &str, value: &str) -> Result<Text, ReadError> {
    Text::new(value).map_err(|error| ReadError::clause(&told(&brief(id)), error))
}

/// A day as people write it.
///
/// # Errors
/// What was found and expected.
pub fn day(id: &str, value: &str, days: &Calendar) -> Result<TypedDay, ReadError> {
    day::typed(value, days).map_err(|told| ReadError::clause(id, told))
}

/// The error of a value that is not what its word wants.
pub fn expected(words: &[Word], id: &str, value: &str) -> ReadError {
    let word = words.iter().find(|word| word.id == id);
    ReadError::of(id, value, word.map_or("", |word| word.expected))
}

/// The words of a line, as a shell would part them: single quotation marks take all as it is,
/// double ones let a backslash stand before any character.
///
/// # Errors
/// A quotation mark that is never closed.
pub fn split(line: &str) -> Result<Vec<String>, ReadError> {
    let (mut words, mut word) = (Vec::new(), None::<String>);
    let mut characters = line.chars();
    while let Some(c) = characters.next() {
        match c {
            ' ' | '\t' => words.extend(word.take()),
            '\'' | '"' => {
                let word = word.get_or_insert_default();
                loop {
                    match characters.next() {
                        Some(end) if end == c => break,
                        Some('\\') if c == '"' => word.extend(characters.next()),
                        Some(other) => word.push(other),
                        None => {
                            let found = format!("a quotation mark {c} that is never closed");
                            let end = "one at the end of the value";
                            return Err(ReadError::found("entry", &found, end));
                        }
                    }
                }
            }
            c => word.get_or_insert_default().push(c),
        }
    }
    words.extend(word);
    Ok(words)
}

/// The words on one line that [`split`] takes apart again; it can be pasted behind a command too.
pub fn line<S: AsRef<str>>(words: &[S]) -> String {
    let words: Vec<String> = words.iter().map(|word| quoted(word.as_ref())).collect();
    words.join(" ")
}

fn quoted(word: &str) -> String {
    let bare = |c: char| c.is_alphanumeric() || "-_.,:/+=%#@".contains(c);
    if word.chars().all(bare) {
        return word.to_string();
    }
    let (id, value) = word.split_once('=').unwrap_or(("", word));
    if !value.contains('\'') {
        return format!("{id}='{value}'");
    }
    let mut escaped = String::new();
    for c in value.chars() {
        if "\"\\$`".contains(c) {
            escaped.push('\\');
        }
        escaped.push(c);
    }
    format!("{id}=\"{escaped}\"")
}

/// The day of a draft: the one that was told, or else this.
pub fn day_or(typed: Option<&TypedDay>, day: Date) -> Date {
    typed.map_or(day, |typed| typed.day)
}
