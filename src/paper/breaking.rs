//! Where a line of words breaks: the one place that says so.

use super::font::POINT;

/// Letters added up in another order differ by less than this, in mm.
const ROUNDING: f64 = 1e-9;

/// Puts words on lines, one after the other.
#[derive(Debug)]
pub(super) struct Breaking {
    space: f64,
    size: f64,
    width: f64,
    /// How long the line is so far; `None` before the first word.
    long: Option<f64>,
}

impl Breaking {
    /// Lines of `width` mm, of letters of so many points; `space` is a share of their size, as are
    /// words.
    pub(super) fn new(space: f64, points: f64, width: f64) -> Breaking {
        Breaking {
            space,
            size: points * POINT,
            width,
            long: None,
        }
    }

    /// Whether the next word begins a line; `None` where it is wider than one.
    pub(super) fn begins_a_line(&mut self, word: f64) -> Option<bool> {
        let on = self.long.map(|long| long + self.space + word);
        let on = on.filter(|long| long * self.size <= self.width - ROUNDING);
        match on {
            Some(long) => {
                self.long = Some(long);
                Some(false)
            }
            None if word * self.size <= self.width => {
                self.long = Some(word);
                Some(true)
            }
            None => None,
        }
    }
}
