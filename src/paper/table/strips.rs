//! How wide each column is, and which columns stand on a page together.

use super::printed::{HEADING, HINT, PAD, Printed, Strip, cell_lines};
use crate::paper::font::Style;
use crate::paper::printable::{Printable, Unprintable};

/// What each column asks for.
pub(super) struct Measured(Vec<Wish>);

/// The width of a column in mm.
#[derive(Clone, Copy)]
struct Wish {
    /// What the pencil wants.
    width: f64,
    /// What its own words need.
    least: f64,
    /// Whether it is for the pencil: none of its cells is printed.
    blank: bool,
}

/// A pencil can do with this part of what it wants, where that saves a page.
const TIGHTEST: f64 = 0.85;
/// Room to spare for rounding, in mm.
const SLACK: f64 = 0.1;
/// Widths are tried in steps of this many mm.
const STEP: f64 = 2.0;

impl Measured {
    /// The width that each column asks for, or more where its own words need it, at most `most`.
    pub(super) fn of(printed: &Printed, most: f64) -> Result<Measured, Unprintable> {
        let column = |at: usize| -> Result<Wish, Unprintable> {
            let (heading, hint) = (&printed.headings[at], &printed.hints[at]);
            heading.wrapped(HEADING, most - 2.0 * PAD - SLACK)?;
            hint.wrapped(HINT, most - 2.0 * PAD - SLACK)?;
            let words = widest_word(heading, HEADING).max(widest_word(hint, HINT));
            let words = words + 2.0 * PAD + SLACK;
            // A width that is no number gives way to the other one.
            let mut width = printed.widths[at].min(most).max(words);
            let cells = || printed.rows.iter().filter_map(|row| row.get(at));
            for text in cells() {
                loop {
                    match cell_lines(text, at == 0, width - 2.0 * PAD) {
                        Ok(_) => break,
                        Err(refused) if width >= most => return Err(refused),
                        Err(_) => width = (width + STEP).min(most),
                    }
                }
            }
            // Only the first column is never made narrower: it says whose row it is.
            let blank = at > 0 && cells().all(|text| text.as_str().is_empty());
            let least = if blank { words } else { width };
            Ok(Wish {
                width,
                least,
                blank,
            })
        };
        let wishes = (0..printed.widths.len()).map(column);
        wishes.collect::<Result<_, _>>().map(Measured)
    }

    /// How wide the whole table is at its tightest.
    pub(super) fn tightest(&self) -> f64 {
        self.0.iter().map(|wish| wish.tight(TIGHTEST)).sum()
    }
}

impl Wish {
    fn tight(self, share: f64) -> f64 {
        (self.width * share).max(self.least)
    }
}

/// The columns parted into as few strips as can be, of about the same width, each filled up to
/// `room` mm. The first column is in each.
pub(super) fn strips(measured: &Measured, room: f64) -> Vec<Strip> {
    let Some((first, others)) = measured.0.split_first() else {
        return vec![Vec::new()];
    };
    let beside = room - first.width;
    // The narrowest strips that need no more of them than strips of the full width do.
    let fewest = parted(others, beside).len();
    let mut limit = beside;
    while limit > STEP && parted(others, limit - STEP).len() == fewest {
        limit -= STEP;
    }
    let strip = |part: std::ops::Range<usize>| {
        let widths = filled(&others[part.clone()], beside);
        let columns = part.map(|at| at + 1).zip(widths);
        [(0, first.width)].into_iter().chain(columns).collect()
    };
    parted(others, limit).into_iter().map(strip).collect()
}

/// Runs of columns, each no wider than `room` at its tightest; never empty but where there is no
/// column.
fn parted(wishes: &[Wish], room: f64) -> Vec<std::ops::Range<usize>> {
    let mut parts = Vec::new();
    let (mut start, mut used) = (0, 0.0);
    for (at, wish) in wishes.iter().enumerate() {
        let tight = wish.tight(TIGHTEST);
        if at > start && used + tight > room {
            parts.push(start..at);
            (start, used) = (at, 0.0);
        }
        used += tight;
    }
    parts.push(start..wishes.len());
    parts
}

/// The widths of columns that fill `room` mm: narrower alike where they must be, else the blank
/// ones wider alike.
fn filled(wishes: &[Wish], room: f64) -> Vec<f64> {
    let own: f64 = wishes.iter().map(|wish| wish.width).sum();
    if own <= room {
        let blank: f64 = wishes.iter().filter(|w| w.blank).map(|w| w.width).sum();
        let stretch = match blank > 0.0 {
            true => 1.0 + (room - own) / blank,
            false => 1.0,
        };
        let width = |wish: &Wish| wish.width * if wish.blank { stretch } else { 1.0 };
        return wishes.iter().map(width).collect();
    }
    // The sum rises with the share, so halving finds the largest share that fits.
    let at = |share: f64| wishes.iter().map(move |wish| wish.tight(share));
    let (mut low, mut high) = (TIGHTEST, 1.0);
    for _ in 0..30 {
        let middle = (low + high) / 2.0;
        match at(middle).sum::<f64>() <= room {
            true => low = middle,
            false => high = middle,
        }
    }
    at(low).collect()
}

fn widest_word(text: &Printable, style: Style) -> f64 {
    let words = text.words();
    words.map(|word| word.width(style)).fold(0.0, f64::max)
}
