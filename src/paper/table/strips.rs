//! How wide each column is, and which columns stand on a page together.

use super::{CELL, CELL_LINES, FIRST_CELL, HEADING, HINT, LEAST, PAD, Printed, Strip, TableError};
use crate::paper::font::Style;
use crate::paper::printable::{Printable, Unprintable};

/// The least width of every column in mm.
pub(super) struct Measured(Vec<f64>);

/// No column for the pencil is made wider than this many times its own width.
const STRETCH: f64 = 1.6;
/// Room to spare for rounding, in mm.
const SLACK: f64 = 0.1;
/// A column is made wider for its printed cells by steps of this many mm.
const STEP: f64 = 2.0;

impl Measured {
    /// The width that each column asks for, or more where its own words need it, at most `most`.
    pub(super) fn of(printed: &Printed, most: f64) -> Result<Measured, Unprintable> {
        let column = |at: usize| -> Result<f64, Unprintable> {
            let (heading, hint) = (&printed.headings[at], &printed.hints[at]);
            heading.wrapped(HEADING, most - 2.0 * PAD - SLACK)?;
            hint.wrapped(HINT, most - 2.0 * PAD - SLACK)?;
            let words = widest_word(heading, HEADING).max(widest_word(hint, HINT));
            // A width that is no number gives way to the other one.
            let mut width = printed.widths[at].min(most).max(words + 2.0 * PAD + SLACK);
            let style = if at == 0 { FIRST_CELL } else { CELL };
            for text in printed.rows.iter().filter_map(|row| row.get(at)) {
                loop {
                    match text.fitted(style, LEAST, width - 2.0 * PAD, CELL_LINES) {
                        Ok(_) => break,
                        Err(refused) if width >= most => return Err(refused),
                        Err(_) => width = (width + STEP).min(most),
                    }
                }
            }
            Ok(width)
        };
        let widths = (0..printed.widths.len()).map(column);
        widths.collect::<Result<_, _>>().map(Measured)
    }

    /// How wide the whole table is.
    pub(super) fn total(&self) -> f64 {
        self.0.iter().sum()
    }
}

/// The columns parted into as few strips as can be, of about the same width, each filled up to
/// `room` mm. The first column is in each.
pub(super) fn strips(measured: &Measured, room: f64) -> Result<Vec<Strip>, TableError> {
    let Some((first, others)) = measured.0.split_first() else {
        return Ok(vec![Vec::new()]);
    };
    let beside = room - first;
    // The narrowest strips that need no more of them than strips of the full width do.
    let fewest = parted(others, beside).len();
    let mut limit = beside;
    while limit > STEP && parted(others, limit - STEP).len() == fewest {
        limit -= STEP;
    }
    let mut strips = Vec::new();
    for part in parted(others, limit) {
        let own: f64 = others[part.clone()].iter().sum();
        let stretch = (beside / own).clamp(1.0, STRETCH);
        let columns = part.map(|at| (at + 1, others[at] * stretch));
        strips.push([(0, *first)].into_iter().chain(columns).collect());
    }
    Ok(strips)
}

/// Runs of columns, each as long as `room` allows and never empty but where there is no column.
fn parted(widths: &[f64], room: f64) -> Vec<std::ops::Range<usize>> {
    let mut parts = Vec::new();
    let (mut start, mut used) = (0, 0.0);
    for (at, width) in widths.iter().enumerate() {
        if at > start && used + width > room {
            parts.push(start..at);
            (start, used) = (at, 0.0);
        }
        used += width;
    }
    parts.push(start..widths.len());
    parts
}

fn widest_word(text: &Printable, style: Style) -> f64 {
    let words = text.words();
    words.map(|word| word.width(style)).fold(0.0, f64::max)
}
