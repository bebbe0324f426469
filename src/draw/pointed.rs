//! Arrows and dimension lines over a picture in cells: thin lines of dots that the petals stand off.

use super::dots::{A_CELL, FINE, means, pattern};
use super::drawing::Drawing;
use super::raster::Picture;

/// The width of a line in dots.
const LINE: f64 = 1.1;
/// A dot is a line's where so much of it is covered.
const COVERED: f64 = 0.45;

/// The dots of a trait's marks over a drawing.
pub(super) struct Pointed {
    across: u32,
    dots: Vec<bool>,
}

impl Pointed {
    /// Those over a drawing of so many columns.
    pub(super) fn of(drawing: &Drawing, trait_id: &str, columns: u32) -> Pointed {
        let across = columns * A_CELL.0;
        let side = across * FINE;
        let marks = Picture::of_marks(drawing, trait_id, side, LINE * f64::from(FINE));
        let dots = means(&marks, across).map(|dot| dot.covered >= COVERED);
        Pointed {
            across,
            dots: dots.collect(),
        }
    }

    fn get(&self, x: u32, y: u32) -> bool {
        let inside = x < self.across && y < self.across;
        inside && self.dots.get((y * self.across + x) as usize) == Some(&true)
    }

    /// Whether a line runs through this dot or beside it.
    pub(super) fn is_near(&self, x: u32, y: u32) -> bool {
        let (left, top) = (x.saturating_sub(1), y.saturating_sub(1));
        (top..=y + 1).any(|y| (left..=x + 1).any(|x| self.get(x, y)))
    }

    /// The dots of the lines in a cell: bit 2y + x for the one at (x, y).
    pub(super) fn lit(&self, column: u32, row: u32) -> u8 {
        pattern(|(x, y)| self.get(column * A_CELL.0 + x, row * A_CELL.1 + y))
    }
}
