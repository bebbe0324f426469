//! The pencil sheet of a book: a blank table to carry out, as text with ruled cells and as rows of a file.
//! Whoever draws it on paper goes by the same columns. A filled sheet is a table with the columns' ids as its
//! heading.

use std::fmt;

use crate::account::text::{Side, pad, width, wrap};
use crate::account::{Cell, Column, Table};

/// A blank sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldSheet {
    /// What it is called.
    pub title: String,
    /// The columns: a word of an entry or a trait in each heading, with the grower's unit behind it
    /// where bare numbers have one, and the room that a hand needs that writes with a pencil in the
    /// wind. A row for each subject, with its name and its place; all else is blank.
    pub table: Table,
}

/// A row that cannot be taken, or is strange.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadRow {
    /// Its line in the file.
    pub line: usize,
    /// What was found and what was expected.
    pub told: String,
}

/// Columns of which something is printed: whose row it is, and where.
const PRINTED: usize = 2;

impl FieldSheet {
    /// The sheet as text with ruled cells: one line of headings, one of hints, two a subject. A
    /// sheet of blooms is wide: print it across the paper.
    pub fn text(&self) -> String {
        let Table { columns, rows, .. } = &self.table;
        let printed = |at: usize| rows.iter().map(move |row| width(&row[at].shown()));
        let wide = |(at, column): (usize, &Column)| {
            let words = [column.name.as_str(), column.hint.as_str()];
            let words = words.iter().map(|words| longest_word(words));
            // A pencil wants some 2.2 mm a character.
            let by_hand = (column.millimetres / 2.2) as usize;
            let own = if at < PRINTED {
                printed(at).max().unwrap_or(0)
            } else {
                by_hand
            };
            words.chain([own]).max().unwrap_or(1)
        };
        let widths: Vec<usize> = columns.iter().enumerate().map(wide).collect();
        let mut text = format!("{}\n\n", self.title);
        let headings: Vec<&str> = columns.iter().map(|one| one.name.as_str()).collect();
        let hints: Vec<&str> = columns.iter().map(|one| one.hint.as_str()).collect();
        lines(&mut text, &headings, &widths);
        lines(&mut text, &hints, &widths);
        let blank = vec![String::new(); widths.len()];
        for row in rows {
            let rule: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
            let cells: Vec<String> = row.iter().map(Cell::shown).collect();
            line(&mut text, &rule, &widths, '+');
            line(&mut text, &cells, &widths, '|');
            line(&mut text, &blank, &widths, '|');
        }
        text
    }

    /// The blank table for a spreadsheet: the heading, and each subject with empty cells.
    pub fn in_a_file(&self) -> Vec<Vec<String>> {
        self.table.file_rows()
    }
}

impl fmt::Display for BadRow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.told)
    }
}

/// Cells whose words may stand one below the other.
fn lines(text: &mut String, cells: &[&str], widths: &[usize]) {
    let wrapped: Vec<Vec<String>> = cells
        .iter()
        .zip(widths)
        .map(|(cell, width)| wrap(cell, *width))
        .collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    for at in 0..height {
        let cells = wrapped
            .iter()
            .map(|cell| cell.get(at).cloned().unwrap_or_default());
        line(text, &cells.collect::<Vec<_>>(), widths, '|');
    }
}

fn line(text: &mut String, cells: &[String], widths: &[usize], mark: char) {
    for (cell, width) in cells.iter().zip(widths) {
        text.push(mark);
        text.push_str(&pad(cell, *width, Side::Left));
    }
    text.push(mark);
    text.push('\n');
}

fn longest_word(words: &str) -> usize {
    words.split_whitespace().map(width).max().unwrap_or(0)
}
