//! The pencil sheet: a blank table to carry down the row, and the filled one taken back.
//!
//! A sheet is columns and subjects as data: text is printed here, and whoever draws it on paper
//! goes by the same columns. A filled sheet is a table with the columns' ids as its heading.

use std::fmt::Write;

use super::read::{WORDS, Word};
use super::row::Trial;
use super::seedling::Subject;
use crate::form::{Kind, Traits};
use crate::measure::SizeUnits;

mod import;

pub use import::{BadRow, Filled};

/// The heading of the first column.
pub const SUBJECT: &str = "seedling";

/// One column of a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// What stands in the heading of a table: a word of an entry or a trait; the grower's unit
    /// behind it where bare numbers have one.
    pub heading: String,
    /// What may be written in a cell, in few words.
    pub hint: String,
    /// Its width in millimetres on paper, for a hand that writes with a pencil in the wind.
    pub width: u32,
}

/// A blank sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// What it is called.
    pub title: String,
    /// The columns; the first holds the subject, the second its row and place.
    pub columns: Vec<Column>,
    /// One row a subject: what is printed in the first two columns.
    pub rows: Vec<[String; 2]>,
}

/// What a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// To look at blooms: traits, diameters, colour.
    Blooms,
    /// To count and test: cut stems, vase, weather, tubers.
    Counts,
}

/// Words of a sheet of counts, with hints and widths in millimetres.
const COUNTS: [(&str, &str, u32); 10] = [
    ("cut", "stems", 12),
    ("stem", "lengths", 26),
    ("open", "blooms", 12),
    ("weather", "wind:3/12", 26),
    ("vase", "7,8,6,6+", 36),
    ("visits", "7/10min", 18),
    ("plants", "stand", 13),
    ("tubers", "lifted", 13),
    ("sound", "in spring", 20),
    ("note", "", 40),
];

impl Sheet {
    /// A blank sheet for these subjects. With `units` lengths may be written as bare numbers, and
    /// the heading says of what.
    pub fn blank(
        trial: &Trial,
        subjects: &[Subject],
        purpose: Purpose,
        traits: &Traits,
        units: SizeUnits,
    ) -> Sheet {
        let column = |id: &str, hint: &str, width| Column {
            heading: match unit_of(id, units) {
                Some(unit) => format!("{id} ({unit})"),
                None => id.to_string(),
            },
            hint: hint.to_string(),
            width,
        };
        let mut columns = vec![
            column(SUBJECT, "", 24),
            column("place", "", 22),
            column("date", "2026-08-20", 22),
            column("by", "", 14),
        ];
        match purpose {
            Purpose::Counts => {
                columns.extend(COUNTS.map(|(id, hint, width)| column(id, hint, width)))
            }
            Purpose::Blooms => {
                columns.push(column("diameter", "98,104", 30));
                columns.push(column("colour", "peach", 26));
                let asked = traits.list().iter().filter(|one| one.id != "diameter");
                columns.extend(asked.map(|one| match &one.kind {
                    Kind::OneOf(states) => {
                        let ids: Vec<&str> = states.iter().map(|state| state.id.as_str()).collect();
                        column(&one.id, &ids.join(" "), 14)
                    }
                    Kind::Count(low, high) => column(&one.id, &format!("{low} to {high}"), 10),
                    Kind::Share => column(&one.id, "%", 10),
                    Kind::Length(_) => column(&one.id, "", 18),
                }));
                columns.push(column("note", "", 30));
            }
        }
        let row = |subject: &Subject| {
            let place = trial
                .seedling_of(subject)
                .map_or(String::new(), |seedling| {
                    let row = seedling.row.as_ref().map(ToString::to_string);
                    let place = seedling.place.map(|place| place.to_string());
                    let parts: Vec<String> = row.into_iter().chain(place).collect();
                    parts.join(" ")
                });
            [subject.to_string(), place]
        };
        Sheet {
            title: match purpose {
                Purpose::Blooms => "Trial row: blooms".to_string(),
                Purpose::Counts => "Trial row: counts".to_string(),
            },
            columns,
            rows: subjects.iter().map(row).collect(),
        }
    }

    /// The sheet as text with ruled cells: one line of headings, one of hints, two a subject. A
    /// sheet of blooms is wide: print it across the paper.
    pub fn text(&self) -> String {
        let printed = |at: usize| self.rows.iter().map(move |row| row[at].chars().count());
        let width = |(at, column): (usize, &Column)| {
            let words = [column.heading.as_str(), column.hint.as_str()];
            let words = words.iter().map(|words| longest_word(words));
            // A pencil wants some 2.2 mm a character.
            let by_hand = (column.width as usize * 10) / 22;
            let own = if at < 2 {
                printed(at).max().unwrap_or(0)
            } else {
                by_hand
            };
            words.chain([own]).max().unwrap_or(1)
        };
        let widths: Vec<usize> = self.columns.iter().enumerate().map(width).collect();
        let mut text = format!("{}\n\n", self.title);
        let headings: Vec<&str> = self
            .columns
            .iter()
            .map(|one| one.heading.as_str())
            .collect();
        let hints: Vec<&str> = self.columns.iter().map(|one| one.hint.as_str()).collect();
        lines(&mut text, &headings, &widths);
        lines(&mut text, &hints, &widths);
        for row in &self.rows {
            let rule: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
            line(&mut text, rule.iter().map(String::as_str), &widths, '+');
            let cells = row.iter().map(String::as_str);
            let blank = std::iter::repeat_n("", widths.len() - row.len());
            line(&mut text, cells.chain(blank), &widths, '|');
            line(&mut text, widths.iter().map(|_| ""), &widths, '|');
        }
        text
    }

    /// The blank table for a spreadsheet: the heading, and each subject with empty cells.
    pub fn table(&self) -> Vec<Vec<String>> {
        let heading = self.columns.iter().map(|column| column.heading.clone());
        let mut rows = vec![heading.collect::<Vec<String>>()];
        for row in &self.rows {
            let mut cells = row.to_vec();
            cells.resize(self.columns.len(), String::new());
            rows.push(cells);
        }
        rows
    }
}

/// The unit of bare numbers in a column, where it has one.
fn unit_of(id: &str, units: SizeUnits) -> Option<&'static str> {
    match (id, units) {
        ("diameter", SizeUnits::Mm) => Some("mm"),
        ("stem" | "height", SizeUnits::Mm) => Some("cm"),
        ("diameter" | "stem" | "height", SizeUnits::In) => Some("in"),
        _ => None,
    }
}

/// The ids that a sheet's heading may have, beside `seedling`, `place` and the traits.
fn words() -> impl Iterator<Item = &'static Word> {
    // What is no observation is decided at the desk.
    let desk = ["decide", "reason", "corrects", "withdraw"];
    WORDS.iter().filter(move |word| !desk.contains(&word.id))
}

/// Cells whose words may stand one below the other.
fn lines(text: &mut String, cells: &[&str], widths: &[usize]) {
    let wrapped: Vec<Vec<String>> = cells
        .iter()
        .zip(widths)
        .map(|(cell, width)| wrapped(cell, *width))
        .collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    for at in 0..height {
        let cells = wrapped
            .iter()
            .map(|cell| cell.get(at).map_or("", String::as_str));
        line(text, cells, widths, '|');
    }
}

fn wrapped(cell: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in cell.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_string()),
        }
    }
    lines
}

fn line<'a>(text: &mut String, cells: impl Iterator<Item = &'a str>, widths: &[usize], mark: char) {
    for (cell, width) in cells.zip(widths) {
        // OK because writing to a text cannot fail.
        let _ = write!(text, "{mark}{cell:width$}");
    }
    text.push(mark);
    text.push('\n');
}

fn longest_word(words: &str) -> usize {
    let lengths = words.split_whitespace().map(|word| word.chars().count());
    lengths.max().unwrap_or(0)
}

#[cfg(test)]
mod tests;
