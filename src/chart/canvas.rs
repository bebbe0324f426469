//! Cells that a chart is drawn into, character by character, where it is more than a line.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

use super::line::{Ink, Line, Signs};
use crate::account::text::width;

/// The room that a chart has, and the characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Frame {
    /// Columns; a chart of fewer than [`Frame::LEAST_COLUMNS`] has no lines.
    pub columns: usize,
    /// Rows; a chart of fewer than [`Frame::LEAST_ROWS`] has no lines.
    pub rows: usize,
    /// What it is drawn with.
    pub signs: Signs,
}

impl Frame {
    /// The fewest columns that hold a chart.
    pub const LEAST_COLUMNS: usize = 20;
    /// The fewest rows that hold a chart.
    pub const LEAST_ROWS: usize = 5;
    /// The most columns and rows that are used of what is given.
    const MOST: usize = 400;

    /// Blank cells; `None` where there is no room.
    pub(super) fn canvas(self) -> Option<Canvas> {
        let roomy = self.columns >= Self::LEAST_COLUMNS && self.rows >= Self::LEAST_ROWS;
        let (columns, rows) = (self.columns.min(Self::MOST), self.rows.min(Self::MOST));
        roomy.then(|| Canvas {
            cells: vec![vec![(" ".to_string(), Ink::Words); columns]; rows],
            signs: self.signs,
        })
    }
}

/// Cells of one column each; a wide character leaves the next one empty.
pub(super) struct Canvas {
    cells: Vec<Vec<(String, Ink)>>,
    pub(super) signs: Signs,
}

impl Canvas {
    pub(super) fn columns(&self) -> usize {
        self.cells[0].len()
    }

    pub(super) fn rows(&self) -> usize {
        self.cells.len()
    }

    /// Draws one character of the two, by what there is to draw with; nothing beyond the edge.
    pub(super) fn draw(&mut self, row: usize, column: usize, signs: (char, char), ink: Ink) {
        let sign = self.signs.pick(signs.0, signs.1);
        if let Some(cell) = self.cells.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = (sign.to_string(), ink);
        }
    }

    /// Whether nothing is drawn in a cell.
    pub(super) fn is_blank(&self, row: usize, column: usize) -> bool {
        let cell = self.cells.get(row).and_then(|row| row.get(column));
        cell.is_some_and(|(text, _)| text == " ")
    }

    /// Writes a text centred on a column, or as near as the edges let it; `false` and nothing written
    /// where something else stands there or beside it, or it is too long.
    pub(super) fn write(&mut self, row: usize, centre: usize, text: &str) -> bool {
        let (own, all) = (width(text), self.columns());
        if own > all {
            return false;
        }
        let from = centre.saturating_sub(own / 2).min(all - own);
        let beside = from.saturating_sub(1)..(from + own + 1).min(all);
        if !beside.into_iter().all(|column| self.is_blank(row, column)) {
            return false;
        }
        let mut column = from;
        for letter in text.graphemes(true) {
            let cells = self.cells[row][column..].iter_mut();
            for (at, cell) in cells.take(letter.width()).enumerate() {
                let shown = if at == 0 { letter } else { "" };
                *cell = (shown.to_string(), Ink::Words);
            }
            column += letter.width();
        }
        true
    }

    /// The lines, without spaces at their ends.
    pub(super) fn lines(self) -> Vec<Line> {
        let line = |row: Vec<(String, Ink)>| {
            let cells = row.into_iter();
            let line = cells.fold(Line::default(), |line, (text, ink)| line.with(text, ink));
            line.trimmed()
        };
        self.cells.into_iter().map(line).collect()
    }
}
