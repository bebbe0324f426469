//! Arrows and dimension lines over a picture in cells: thin lines of dots that the petals stand off.

use super::dots::FINE;
use super::drawing::Drawing;
use super::raster::Picture;

/// The width of a line in dots.
const LINE: f64 = 1.1;
/// A dot is a line's where so much of it is covered.
const COVERED: f64 = 0.45;
/// Dots of a cell, across and down.
const DOTS: (u32, u32) = (2, 4);

/// The dots of a trait's marks over a drawing.
pub(super) struct Pointed {
    across: u32,
    dots: Vec<bool>,
}

impl Pointed {
    /// Those over a drawing of so many columns.
    pub(super) fn of(drawing: &Drawing, trait_id: &str, columns: u32) -> Pointed {
        let across = columns * DOTS.0;
        let side = across * FINE;
        let marks = Picture::of_marks(drawing, trait_id, side, LINE * f64::from(FINE));
        let dot = |at: u32| {
            let (left, top) = (at % across * FINE, at / across * FINE);
            let places = (top..top + FINE).flat_map(|y| (left..left + FINE).map(move |x| (x, y)));
            let inked = |(x, y): &(u32, u32)| {
                let pixel = marks.pixels.get((y * marks.side + x) as usize);
                pixel.is_some_and(|pixel| pixel[3] > 127)
            };
            places.filter(inked).count() as f64 >= COVERED * f64::from(FINE * FINE)
        };
        Pointed {
            across,
            dots: (0..across * across).map(dot).collect(),
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
        let places = (0..DOTS.1).flat_map(|y| (0..DOTS.0).map(move |x| (x, y)));
        let own = places.filter(|(x, y)| self.get(column * DOTS.0 + x, row * DOTS.1 + y));
        own.map(|(x, y)| 1 << (DOTS.0 * y + x)).sum()
    }
}
