//! Small plots in plain text: days in the vase, and diameters against limits.
//!
//! A plot is lines of characters, with no colour, so that it reads the same on screen, on paper and
//! in a mail; 38 columns by 8 rows are enough. Numbers in, lines out.

mod diameters;
mod vase;

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

pub use diameters::{Diameters, Limit};
pub use vase::VaseTest;

/// The room that a plot has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Frame {
    /// Columns; a plot of fewer than [`Frame::LEAST_WIDTH`] has no lines.
    pub width: usize,
    /// Rows; a plot of fewer than [`Frame::LEAST_HEIGHT`] has no lines.
    pub height: usize,
    /// ASCII only, where lines would else be drawn with box characters.
    pub ascii: bool,
}

impl Frame {
    /// The fewest columns that hold a plot.
    pub const LEAST_WIDTH: usize = 20;
    /// The fewest rows that hold a plot.
    pub const LEAST_HEIGHT: usize = 5;
    /// The most columns and rows that are used of what is given.
    const MOST: usize = 400;

    fn canvas(self) -> Option<Canvas> {
        let roomy = self.width >= Self::LEAST_WIDTH && self.height >= Self::LEAST_HEIGHT;
        let (width, height) = (self.width.min(Self::MOST), self.height.min(Self::MOST));
        roomy.then(|| Canvas {
            cells: vec![vec![" ".to_string(); width]; height],
            ascii: self.ascii,
        })
    }
}

/// Cells of one column each; a wide character leaves the next one empty.
struct Canvas {
    cells: Vec<Vec<String>>,
    ascii: bool,
}

impl Canvas {
    fn width(&self) -> usize {
        self.cells[0].len()
    }

    fn height(&self) -> usize {
        self.cells.len()
    }

    /// Draws one character of the two, by what the frame allows.
    fn draw(&mut self, row: usize, column: usize, (fine, ascii): (&str, &str)) {
        let mark = if self.ascii { ascii } else { fine };
        if let Some(cell) = self.cells.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = mark.to_string();
        }
    }

    /// Whether nothing is drawn over these columns, nor beside them.
    fn is_free(&self, row: usize, from: usize, columns: usize) -> bool {
        let beside = from.saturating_sub(1)..(from + columns + 1).min(self.width());
        self.cells[row][beside].iter().all(|cell| cell == " ")
    }

    /// Writes a text centred on a column, or as near as the edges let it; `false` and nothing
    /// written where something else stands there, or it is too long.
    fn write(&mut self, row: usize, centre: usize, text: &str) -> bool {
        let columns = text
            .graphemes(true)
            .map(UnicodeWidthStr::width)
            .sum::<usize>();
        if columns > self.width() {
            return false;
        }
        let from = centre
            .saturating_sub(columns / 2)
            .min(self.width() - columns);
        if !self.is_free(row, from, columns) {
            return false;
        }
        let mut column = from;
        for grapheme in text.graphemes(true) {
            for (at, cell) in self.cells[row][column..]
                .iter_mut()
                .take(grapheme.width())
                .enumerate()
            {
                *cell = if at == 0 {
                    grapheme.to_string()
                } else {
                    String::new()
                };
            }
            column += grapheme.width();
        }
        true
    }

    /// The lines, without spaces at their ends.
    fn lines(self) -> Vec<String> {
        let line = |row: Vec<String>| row.concat().trim_end().to_string();
        self.cells.into_iter().map(line).collect()
    }
}

/// Where in so many cells a value lies between two others.
fn place(value: f64, low: f64, high: f64, cells: usize) -> usize {
    let share = (value - low) / (high - low);
    (share.clamp(0.0, 1.0) * (cells - 1) as f64).round() as usize
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn number() -> impl Strategy<Value = f64> {
        prop_oneof![4 => 0.0..200.0, 1 => any::<f64>()]
    }

    proptest! {
        #[test]
        fn any_numbers_make_lines_that_fit(
            steps in prop::collection::vec((number(), number()), 0..9),
            numbers in prop::collection::vec(number(), 0..40),
            label in ".{0,20}",
            (width, height, ascii) in (0usize..90, 0usize..30, any::<bool>()),
        ) {
            let frame = Frame { width, height, ascii };
            let limit = |at: &f64| Limit { at: at + 9.0, label: label.clone() };
            let limits: Vec<Limit> = numbers.iter().map(limit).collect();
            let mean = steps.first().map(|(low, high)| [*low, (low + high) / 2.0, *high]);
            let vase = VaseTest { steps: &steps, fresh: &numbers };
            let diameters = Diameters { blooms: &numbers, mean, limits: &limits };
            let plots = [vase.lines(frame), diameters.lines(frame, |mm| format!("{mm} mm"))];
            for lines in &plots {
                prop_assert!(lines.len() <= height);
                for line in lines {
                    let columns = line.graphemes(true).map(UnicodeWidthStr::width);
                    prop_assert!(columns.sum::<usize>() <= width);
                }
            }
            prop_assert!(!ascii || plots[0].iter().all(|line| line.is_ascii()));
        }
    }
}
