//! One thing wrong with a text that a person edits: where, what was found, what was expected.
//!
//! What is checked once it was read is a value, and knows its place as a [`Path`]; [`Places`] says
//! at which line and column of the text that is.

mod path;
mod places;
mod plain;
mod scan;
mod told;
mod tree;

pub use path::{Path, Step, Wrong};
pub use places::Places;
pub(crate) use scan::{Scan, Token, block_comment};
pub use told::{steers, told};
pub(crate) use tree::{Held, Node, Shape};

use std::fmt;

use ron::extensions::Extensions;
use serde::Deserialize;

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
    /// What is wrong in a value that was read from `text`, each at its place there.
    pub fn all(file: &str, text: &str, wrong: Vec<Wrong>) -> Vec<Problem> {
        // Problems are few, and a text without any is not read a second time.
        if wrong.is_empty() {
            return Vec::new();
        }
        let places = Places::of(text);
        let wrong = wrong.into_iter();
        wrong.map(|one| places.problem(file, one)).collect()
    }

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
            message: told(&message.into()),
        }
    }
}

/// Reads RON as the project writes it: `Some` is left out. An error has its place in `file`.
pub fn read_ron<'a, T: Deserialize<'a>>(file: &str, text: &'a str) -> Result<T, Problem> {
    let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    options
        .from_str(text)
        .map_err(|error| plain::problem(file, text, &error))
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

/// Several problems as one line.
pub fn sentences(problems: &[impl fmt::Display]) -> String {
    let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
    told.join("; ")
}

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
        let at = offset_in(text, &text[8..9]);
        let problem = Problem::at("f.ron", text, at, "found b");
        assert_eq!(problem.to_string(), "f.ron, line 2, column 6: found b");
    }
}
