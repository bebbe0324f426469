//! A line drawing in dots of a terminal: its lines are dots, its darker fills a sparse pattern.
//!
//! Where petals are filled with dots and the lines between them are gaps (`dots`), a whole bloom is
//! seen best; the few lines of one feature want to be lines.

use super::cells::{Grid, HIGH};
use super::dots::{FINE, braille_symbol};
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
/// Dots of a cell, across and down.
const ACROSS: u32 = 2;
const DOWN: u32 = 4;

impl Grid {
    /// A line drawing as large as it fits, in the middle, in Braille dots; arrows and dimension
    /// lines are told cell by cell. A cell is taken to be twice as high as it is wide.
    pub fn of_lines(drawing: &Drawing, columns: u16, rows: u16) -> Grid {
        let mut grid = Grid::empty(columns, rows);
        let across = u32::from(columns).min(u32::from(rows) * HIGH);
        if across < HIGH {
            return grid;
        }
        let dots = Ink::of(drawing, across * ACROSS);
        let corner = (
            (u32::from(columns) - across) / 2,
            (u32::from(rows) - across / HIGH) / 2,
        );
        for row in 0..across / HIGH {
            for column in 0..across {
                let (x, y) = (column * ACROSS, row * DOWN);
                let pointed = dots.pattern(x, y, |dot| dot == Dot::Pointer);
                let lit = dots.pattern(x, y, |dot| dot != Dot::Blank);
                let at = (corner.1 + row) * u32::from(columns) + corner.0 + column;
                if let Some(cell) = grid.cells.get_mut(at as usize) {
                    cell.symbol = braille_symbol(lit);
                    cell.marked = pointed != 0;
                }
            }
        }
        grid
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

    /// Which dots of the cell at (x, y) are so: bit 2y + x.
    fn pattern(&self, x: u32, y: u32, is: impl Fn(Dot) -> bool) -> u8 {
        let places = (0..DOWN).flat_map(|down| (0..ACROSS).map(move |across| (across, down)));
        let own = places.filter(|(across, down)| is(self.get(x + across, y + down)));
        own.map(|(across, down)| 1 << (ACROSS * down + across))
            .sum()
    }
}

/// How dark each dot is on white, 0 to 1.
fn darkness(picture: &Picture, side: u32) -> Vec<f64> {
    let fine = picture.side / side.max(1);
    let dark = |at: u32| {
        let (left, top) = (at % side * fine, at / side * fine);
        let places = (top..top + fine).flat_map(|y| (left..left + fine).map(move |x| (x, y)));
        let pixels =
            places.filter_map(|(x, y)| picture.pixels.get((y * picture.side + x) as usize));
        let ink = pixels.map(|[r, g, b, opacity]| {
            let light = (f64::from(*r) + f64::from(*g) + f64::from(*b)) / (3.0 * 255.0);
            (1.0 - light) * f64::from(*opacity) / 255.0
        });
        ink.sum::<f64>() / f64::from((fine * fine).max(1))
    };
    (0..side * side).map(dark).collect()
}
