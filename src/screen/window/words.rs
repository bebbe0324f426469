//! The words of a window: runs of one look, each told where it begins and how long it is.

use std::fmt::Write;

use super::cell::Shown;
use super::paint::CELL;
use super::symbol::Symbol;
use crate::paper::escaped;

/// Letters of usual fonts of even widths are three fifths of this wide.
const SIZE: f64 = 16.6;
/// How far below the top of a cell its letters stand.
const BASE: f64 = 15.0;

/// Writes the words of a row of cells whose top is at `y`.
pub(super) fn write(text: &mut String, cells: &[Shown<'_>], y: f64) {
    let mut at = 0;
    while at < cells.len() {
        let end = end_of_run(cells, at);
        if end > at {
            run(text, &cells[at..end], (at as f64 * CELL.0, y + BASE));
        }
        at = end.max(at + 1);
    }
}

/// Where the run that begins here ends: at another look, at two blanks, and about a letter that a
/// font may not have, since the one that stands in for it may be wider.
fn end_of_run(cells: &[Shown<'_>], start: usize) -> usize {
    let mut end = start;
    for (at, cell) in cells.iter().enumerate().skip(start) {
        match cell.symbol {
            Symbol::Letter(letter) if at == start && !is_usual(letter) => return at + 1,
            Symbol::Letter(letter) if is_usual(letter) && cell.is_like(&cells[start]) => {
                end = at + 1;
            }
            Symbol::Blank if at > start && at == end => {}
            _ => break,
        }
    }
    end
}

/// Whether fonts of even widths surely have it.
fn is_usual(letter: &str) -> bool {
    letter.chars().all(|one| one < '\u{250}')
}

fn run(text: &mut String, cells: &[Shown<'_>], (x, y): (f64, f64)) {
    let first = &cells[0];
    let bold = match first.bold {
        true => " font-weight=\"bold\"",
        false => "",
    };
    let letters = cells.iter().map(|cell| match cell.symbol {
        Symbol::Letter(letter) => letter,
        _ => " ",
    });
    let letters: String = letters.collect();
    let length = cells.len() as f64 * CELL.0;
    // OK because writing to a text cannot fail, here and below.
    let _ = writeln!(
        text,
        "<text x=\"{x}\" y=\"{y}\" fill=\"{}\"{bold} textLength=\"{length}\">{}</text>",
        first.front,
        escaped(&letters)
    );
}

/// Writes all runs in their font.
pub(super) fn group(text: &mut String, words: &str) {
    let _ = writeln!(
        text,
        "<g font-family=\"'DejaVu Sans Mono', Menlo, Consolas, 'Liberation Mono', monospace\" \
         font-size=\"{SIZE}\" xml:space=\"preserve\">\n{words}</g>"
    );
}
