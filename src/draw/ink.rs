//! A line drawing in dots of a terminal: its lines are dots, its darker fills a sparse pattern.
//!
//! Where petals are filled with dots and the lines between them are gaps (`dots`), a whole bloom is
//! seen best; the few lines of one feature want to be lines.

use super::cells::{EMPTY, Grid};
use super::dots::{A_CELL, Cell, Dot as Mean, FINE, braille_symbol, means, pattern};
use super::drawing::Drawing;
use super::raster::Picture;

/// The width of a line in dots: a little more than one, or a line between two would be lost.
const LINE: f64 = 1.15;
/// What is less than so many dots wide and high has no line around it.
const SMALL: f64 = 2.2;
/// A dot is a line's where so much of it is dark.
const DARK: f64 = 0.5;
/// A fill as dark as this is every other dot, a paler one every fourth, and one paler yet none.
const DEEP: f64 = 0.3;
const PALE: f64 = 0.1;

impl Grid {
    /// A line drawing as large as it fits, in the middle, in Braille dots; arrows and dimension
    /// lines are told cell by cell. A cell is taken to be twice as high as it is wide.
    pub fn of_lines(drawing: &Drawing, columns: u16, rows: u16) -> Grid {
        Grid::of_circle(columns, rows, |across| {
            let dots = Ink::of(drawing, across * A_CELL.0);
            move |column, row| Cell {
                symbol: braille_symbol(dots.pattern(column, row, |dot| dot != Dot::Blank)),
                marked: dots.pattern(column, row, |dot| dot == Dot::Pointer) != 0,
                ..EMPTY
            }
        })
    }
}

/// One dot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Dot {
    Blank,
    Fill,
    Line,
    Pointer,
}

/// The dots of a square picture, row by row.
struct Ink {
    side: u32,
    dots: Vec<Dot>,
}

impl Ink {
    fn of(drawing: &Drawing, side: u32) -> Ink {
        let pixels = side * FINE;
        let line = LINE * f64::from(FINE);
        let lined = darkness(
            &Picture::of_lines(drawing, pixels, line, SMALL * f64::from(FINE)),
            side,
        );
        let filled = darkness(&Picture::thin(drawing, pixels, 0.0), side);
        let pointers = darkness(&Picture::of_pointers(drawing, pixels, line), side);
        let dots = (0..side * side).map(|at| {
            let dark = |of: &[f64]| of.get(at as usize).copied().unwrap_or_default();
            let (x, y) = (at % side, at / side);
            let patterned = match dark(&filled) {
                deep if deep >= DEEP => (x + y) % 2 == 0,
                pale if pale >= PALE => x % 2 == 0 && (y + x / 2 % 2 * 2) % 4 == 0,
                _ => false,
            };
            match (dark(&pointers) >= DARK, dark(&lined) >= DARK, patterned) {
                (true, ..) => Dot::Pointer,
                (_, true, _) => Dot::Line,
                (_, _, true) => Dot::Fill,
                _ => Dot::Blank,
            }
        });
        let mut ink = Ink {
            side,
            dots: dots.collect(),
        };
        ink.clear_beside_lines();
        ink
    }

    /// A fill's dot beside a line would only thicken it.
    fn clear_beside_lines(&mut self) {
        let beside = |at: u32| {
            let (x, y) = (at % self.side, at / self.side);
            let around = [
                (x.wrapping_sub(1), y),
                (x + 1, y),
                (x, y.wrapping_sub(1)),
                (x, y + 1),
            ];
            let is_line = |(x, y): (u32, u32)| matches!(self.get(x, y), Dot::Line | Dot::Pointer);
            self.get(x, y) == Dot::Fill && around.into_iter().any(is_line)
        };
        let thick: Vec<u32> = (0..self.side * self.side)
            .filter(|at| beside(*at))
            .collect();
        for at in thick {
            if let Some(dot) = self.dots.get_mut(at as usize) {
                *dot = Dot::Blank;
            }
        }
    }

    fn get(&self, x: u32, y: u32) -> Dot {
        let inside = x < self.side && y < self.side;
        let dot = inside.then(|| self.dots.get((y * self.side + x) as usize));
        dot.flatten().copied().unwrap_or(Dot::Blank)
    }

    /// Which dots of a cell are so: bit 2y + x.
    fn pattern(&self, column: u32, row: u32, is: impl Fn(Dot) -> bool) -> u8 {
        pattern(|(x, y)| is(self.get(column * A_CELL.0 + x, row * A_CELL.1 + y)))
    }
}

/// How dark each dot is on white, 0 to 1.
fn darkness(picture: &Picture, side: u32) -> Vec<f64> {
    let dark = |dot: Mean| dot.covered * (1.0 - dot.colour.iter().sum::<f64>() / (3.0 * 255.0));
    means(picture, side).map(dark).collect()
}
