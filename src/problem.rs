//! One thing wrong with a text that a person edits: where, what was found, what was expected.

use std::fmt;

use ron::extensions::Extensions;
use serde::Deserialize;

/// The most characters of a file that a message quotes.
const MOST_SHOWN: usize = 40;

/// A problem in a text file, with its place. Lines and columns count from 1, columns in characters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The file as the grower knows it.
    pub file: String,
    /// Line of the problem.
    pub line: usize,
    /// Column of the problem.
    pub column: usize,
    /// What was found and what was expected, in words.
    pub message: String,
}

impl Problem {
    /// A problem at byte `offset` of `text`.
    pub fn at(file: &str, text: &str, offset: usize, message: impl Into<String>) -> Problem {
        let before = &text.as_bytes()[..offset.min(text.len())];
        let line_start = before
            .iter()
            .rposition(|b| *b == b'\n')
            .map_or(0, |at| at + 1);
        Problem {
            file: file.to_string(),
            line: 1 + before.iter().filter(|b| **b == b'\n').count(),
            column: 1 + String::from_utf8_lossy(&before[line_start..])
                .chars()
                .count(),
            message: message.into(),
        }
    }
}

/// Reads RON as the project writes it: `Some` is left out. An error has its place in `file`, and
/// says in plain words what was found and what was expected.
pub fn read_ron<'a, T: Deserialize<'a>>(file: &str, text: &'a str) -> Result<T, Problem> {
    let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    options.from_str(text).map_err(|error| {
        let start = error.span.start;
        let offset = past_blanks(text, offset_of(text, start.line, start.col));
        Problem::at(file, text, offset, plain(&error.code, &text[offset..]))
    })
}

/// The byte at a line and column that count from 1, columns in characters.
fn offset_of(text: &str, line: usize, column: usize) -> usize {
    let lines = text.split_inclusive('\n');
    let start: usize = lines.take(line.saturating_sub(1)).map(str::len).sum();
    let mut along = text[start..].char_indices().map(|(at, _)| start + at);
    along.nth(column.saturating_sub(1)).unwrap_or(text.len())
}

/// The parser stops before white space and comments; what it stumbled over comes after them.
fn past_blanks(text: &str, mut at: usize) -> usize {
    loop {
        let rest = text[at..].trim_start();
        at = text.len() - rest.len();
        let comment = match rest.get(..2) {
            Some("//") => rest.find('\n'),
            Some("/*") => rest.find("*/").map(|end| end + 2),
            _ => return at,
        };
        match comment {
            Some(length) => at += length,
            None => return at,
        }
    }
}

/// The word, text or mark that a rest of a file begins with.
fn found(rest: &str) -> String {
    let Some(first) = rest.chars().next() else {
        return "the end of the file".to_string();
    };
    let part = |c: char| c.is_alphanumeric() || "_-+.%".contains(c);
    let length = match first {
        '"' => rest[1..].find(['"', '\n']).map_or(rest.len(), |at| at + 2),
        c if part(c) => rest.find(|c| !part(c)).unwrap_or(rest.len()),
        c => c.len_utf8(),
    };
    let word = rest[..length].trim_end();
    let short: String = word.chars().take(MOST_SHOWN).collect();
    let dots = if short.len() < word.len() { "..." } else { "" };
    format!("`{short}{dots}`")
}

/// What was found at the start of `rest` and what was expected, in words for a person who edits.
fn plain(code: &ron::Error, rest: &str) -> String {
    use ron::Error as E;
    let expected = match code {
        // OK because messages of our own types are whole sentences already.
        E::Message(message) => return message.clone(),
        E::NoSuchStructField {
            expected, found, ..
        } => {
            let fields = one_of(expected);
            return format!("found the field `{found}`, expected {fields}");
        }
        E::MissingStructField { field, .. } => {
            return format!("found no field `{field}`, expected it before this place");
        }
        E::DuplicateStructField { field, .. } => {
            return format!("found the field `{field}` a second time, expected it once");
        }
        E::NoSuchEnumVariant {
            expected, found, ..
        } => {
            return format!("found `{found}`, expected {}", one_of(expected));
        }
        E::InvalidValueForType { expected, .. } if expected == "a borrowed string" => {
            "text without a `\\` in it".to_string()
        }
        E::InvalidValueForType { expected, found } => {
            return format!("found {found}, expected {expected}");
        }
        E::ExpectedDifferentLength { expected, found } => {
            return format!("found {found} values, expected {expected}");
        }
        E::UnclosedBlockComment => {
            return "found a comment that is not closed, expected `*/`".to_string();
        }
        E::InvalidEscape(_) => {
            return "found a `\\` with a letter that it cannot stand before, expected `\\\\`, \
                    `\\\"` or `\\n`"
                .to_string();
        }
        E::ExceededRecursionLimit => {
            return "found brackets nested too deep, expected fewer".to_string();
        }
        E::ExpectedBoolean => "`true` or `false`".to_string(),
        E::ExpectedFloat
        | E::ExpectedInteger
        | E::FloatUnderscore
        | E::UnderscoreAtBeginning
        | E::InvalidIntegerDigit { .. } => "a number".to_string(),
        E::IntegerOutOfBounds => "a number of a size that fits here".to_string(),
        E::ExpectedString | E::ExpectedStringEnd => "text between two `\"`".to_string(),
        E::ExpectedChar => "one letter between two `'`".to_string(),
        E::ExpectedComma => "a comma, or the bracket that closes this list".to_string(),
        E::ExpectedArray => "`[`".to_string(),
        E::ExpectedArrayEnd => "`]`".to_string(),
        E::ExpectedMap => "`{`".to_string(),
        E::ExpectedMapColon => "a colon".to_string(),
        E::ExpectedMapEnd => "`}`".to_string(),
        E::ExpectedOptionEnd | E::ExpectedStructLikeEnd => "`)`".to_string(),
        E::ExpectedStructLike | E::ExpectedNamedStructLike(_) | E::ExpectedUnit => {
            "`(`".to_string()
        }
        E::ExpectedDifferentStructName { .. } => {
            "`(`, or the bracket that closes the list before it".to_string()
        }
        E::ExpectedIdentifier | E::InvalidIdentifier(_) | E::SuggestRawIdentifier(_) => {
            "a word without quotes".to_string()
        }
        E::ExpectedOption => "a value, or `None`".to_string(),
        E::TrailingCharacters => "the end of the file".to_string(),
        E::Eof => "more: a bracket or a quote is not closed".to_string(),
        other => format!("something else ({other})"),
    };
    format!("found {}, expected {expected}", found(rest))
}

fn one_of(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match quoted.as_slice() {
        [] => "nothing".to_string(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Problem {
            file,
            line,
            column,
            message,
        } = self;
        write!(f, "{file}, line {line}, column {column}: {message}")
    }
}

impl std::error::Error for Problem {}

/// Where `part`, a slice borrowed from `text`, begins in it; 0 where it is no slice of it.
pub fn offset_in(text: &str, part: &str) -> usize {
    let offset = (part.as_ptr() as usize).wrapping_sub(text.as_ptr() as usize);
    if offset <= text.len() { offset } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_count_from_one_and_in_characters() {
        let text = "a\nré = b\n";
        let at = offset_in(text, &text[7..8]);
        let problem = Problem::at("f.ron", text, at, "found b");
        assert_eq!(problem.to_string(), "f.ron, line 2, column 6: found b");
    }
}
