//! A drawing sampled as dots, and the characters that they make.

use super::drawing::Drawing;
use super::raster::Picture;
use super::shades::{Shade, shades};
use crate::colour::Srgb;

/// Samples along each side of a dot or pixel.
pub(super) const FINE: u32 = 3;
/// Dots of a cell, across and down.
pub(super) const A_CELL: (u32, u32) = (2, 4);
/// What lines keep of their width: in full they would darken all of so small a picture.
const THIN: f64 = 0.6;
/// The gap around a petal that lies over another, in dots.
const GAP: f64 = 0.8;
/// A pixel is shown where so much of it is covered.
const COVERED: f64 = 0.35;
/// A dot is lit where so much of it is petal.
const LIT: f64 = 0.5;

/// One cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// What stands in it.
    pub symbol: char,
    /// The colour of the symbol.
    pub front: Option<Srgb>,
    /// The colour behind it.
    pub back: Option<Srgb>,
    /// Whether the mark of a trait runs through it.
    pub marked: bool,
}

/// One dot, 0 to 1 each: how much of it is covered, and how much is neither line nor hollow.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Dot {
    pub(super) covered: f64,
    clear: f64,
    /// The mean colour of what is covered, channels of 0 to 255.
    pub(super) colour: [f64; 3],
}

/// A drawing sampled as dots.
pub(super) struct Dots {
    across: u32,
    dots: Vec<Dot>,
}

impl Dots {
    /// Dots that are lit or not, [`A_CELL`] of them in each of so many columns.
    pub(super) fn of(drawing: &Drawing, columns: u32) -> Dots {
        let across = columns * A_CELL.0;
        let picture = Picture::thin(drawing, across * FINE, THIN);
        // A line must leave a gap that a dot can fall into.
        let petals = Picture::of_petals(drawing, across * FINE, GAP * f64::from(FINE));
        let dots = means(&picture, across).zip(means(&petals, across));
        let dots = dots.map(|(dot, petal)| Dot {
            clear: petal.covered * petal.colour[0] / 255.0,
            ..dot
        });
        let mut dots = Dots {
            across,
            dots: dots.collect(),
        };
        dots.stipple();
        dots
    }

    /// Lights every other dot where lines lie so near each other that they left none.
    fn stipple(&mut self) {
        let bare = |at: u32| {
            let (x, y) = (at % self.across, at / self.across);
            let (left, top) = (x.saturating_sub(1), y.saturating_sub(1));
            let mut around = (top..=y + 1).flat_map(|y| (left..=x + 1).map(move |x| (x, y)));
            let covered = self.get(x, y).covered >= COVERED;
            (x + y) % 2 == 0 && covered && !around.any(|(x, y)| self.get(x, y).clear >= LIT)
        };
        let bare: Vec<u32> = (0..self.across * self.across)
            .filter(|at| bare(*at))
            .collect();
        for at in bare {
            if let Some(dot) = self.dots.get_mut(at as usize) {
                dot.clear = 1.0;
            }
        }
    }

    /// Puts out the dots where a line over the drawing runs, and those beside it.
    pub(super) fn stand_off(&mut self, is_near: impl Fn(u32, u32) -> bool) {
        let across = self.across;
        let dots = (0..).zip(self.dots.iter_mut());
        let near = dots.filter(|(at, _)| is_near(at % across, at / across));
        near.for_each(|(_, dot)| dot.clear = 0.0);
    }

    /// Coloured pixels, so many across, each in one of the bloom's own colours (`shades`).
    pub(super) fn coloured(drawing: &Drawing, across: u32) -> Dots {
        let dot = |shade: Shade| Dot {
            covered: shade.covered,
            colour: [shade.colour.r, shade.colour.g, shade.colour.b].map(f64::from),
            ..Dot::default()
        };
        Dots {
            across,
            dots: shades(drawing, across).into_iter().map(dot).collect(),
        }
    }

    pub(super) fn get(&self, x: u32, y: u32) -> Dot {
        let at = (y * self.across + x) as usize;
        self.dots.get(at).copied().unwrap_or_default()
    }

    pub(super) fn half_block(&self, column: u32, row: u32) -> Cell {
        let [upper, lower] = [0, 1].map(|half| {
            let dot = self.get(column, row * 2 + half);
            dot.is_shown().then(|| dot.shown())
        });
        let (symbol, front, back) = match (upper, lower) {
            (None, None) => (' ', None, None),
            (Some(_), _) => ('▀', upper, lower),
            (None, Some(_)) => ('▄', lower, None),
        };
        Cell {
            symbol,
            front,
            back,
            marked: false,
        }
    }

    /// Which of a cell's dots are lit: bit 2y + x for the dot at (x, y). A dot is lit where a
    /// petal covers it and no line runs through it.
    fn lit(&self, column: u32, row: u32) -> (u8, Option<Srgb>) {
        let dot = |(x, y)| self.get(column * A_CELL.0 + x, row * A_CELL.1 + y);
        let is_lit = |at| dot(at).clear >= LIT;
        let lit: Vec<Dot> = { places() }.filter(|at| is_lit(*at)).map(dot).collect();
        let mean = |channel: usize| {
            lit.iter().map(|dot| dot.colour[channel]).sum::<f64>() / lit.len().max(1) as f64
        };
        let colour = Dot {
            colour: [mean(0), mean(1), mean(2)],
            ..Dot::default()
        };
        (pattern(is_lit), (!lit.is_empty()).then(|| colour.shown()))
    }

    pub(super) fn braille(&self, column: u32, row: u32) -> Cell {
        let (lit, front) = self.lit(column, row);
        Cell {
            symbol: braille_symbol(lit),
            front,
            back: None,
            marked: false,
        }
    }

    pub(super) fn ascii(&self, column: u32, row: u32) -> Cell {
        let (lit, front) = self.lit(column, row);
        Cell {
            symbol: ascii_symbol(lit),
            front,
            back: None,
            marked: false,
        }
    }
}

/// The places of a cell's dots, as one reads.
fn places() -> impl Iterator<Item = (u32, u32)> {
    (0..A_CELL.1).flat_map(|y| (0..A_CELL.0).map(move |x| (x, y)))
}

/// Which dots of a cell are so: bit 2y + x for the one at (x, y).
pub(super) fn pattern(is: impl Fn((u32, u32)) -> bool) -> u8 {
    let own = places().filter(|at| is(*at));
    own.map(|(x, y)| 1 << (A_CELL.0 * y + x)).sum()
}

/// The character of a cell of dots, bit 2y + x for the dot at (x, y); a blank where none is lit.
pub(super) fn braille_symbol(lit: u8) -> char {
    // The dots of U+2800 and on, by their place: three rows of two, then the fourth row.
    const DOTS: [u32; 8] = [0, 3, 1, 4, 2, 5, 6, 7];
    let places = DOTS.iter().enumerate().filter(|(at, _)| lit >> at & 1 == 1);
    let code: u32 = places.map(|(_, dot)| 1 << dot).sum();
    let symbol = (lit != 0).then(|| char::from_u32(0x2800 + code));
    symbol.flatten().unwrap_or(' ')
}

/// The ASCII character that looks most like a cell of dots.
pub(super) fn ascii_symbol(lit: u8) -> char {
    let off = |glyph: &&(char, u8)| (glyph.1 ^ lit).count_ones();
    let nearest = GLYPHS.iter().min_by_key(off);
    nearest.map_or(' ', |glyph| glyph.0)
}

/// ASCII characters by the dots that they cover, as rows of two from the top: our own reading of
/// a common terminal font.
const GLYPHS: [(char, u8); 22] = [
    (' ', 0b00_00_00_00),
    ('.', 0b01_00_00_00),
    ('_', 0b11_00_00_00),
    (',', 0b10_10_00_00),
    ('\'', 0b00_00_01_01),
    ('`', 0b00_00_00_01),
    ('"', 0b00_00_11_11),
    ('-', 0b00_11_00_00),
    ('=', 0b11_00_11_00),
    ('~', 0b00_01_10_00),
    ('/', 0b01_01_10_10),
    ('\\', 0b10_10_01_01),
    ('|', 0b01_01_01_01),
    (':', 0b01_00_01_00),
    ('o', 0b11_11_00_00),
    ('c', 0b11_01_11_00),
    ('F', 0b01_11_01_11),
    ('P', 0b01_11_11_11),
    ('d', 0b11_11_11_10),
    ('b', 0b11_11_11_01),
    ('L', 0b11_01_01_01),
    ('#', 0b11_11_11_11),
];

/// The dots of a picture with so many across, row by row; none of them is clear.
pub(super) fn means(picture: &Picture, across: u32) -> impl Iterator<Item = Dot> {
    let fine = picture.side / across.max(1);
    (0..across * across).map(move |at| {
        let (left, top) = (at % across * fine, at / across * fine);
        let places = (top..top + fine).flat_map(|y| (left..left + fine).map(move |x| (x, y)));
        let mut dot = Dot::default();
        for at in places.map(|(x, y)| (y * picture.side + x) as usize) {
            let Some([r, g, b, a]) = picture.pixels.get(at) else {
                continue;
            };
            let share = f64::from(*a) / 255.0;
            dot.covered += share;
            for (sum, channel) in dot.colour.iter_mut().zip([r, g, b]) {
                *sum += share * f64::from(*channel);
            }
        }
        dot.colour = dot.colour.map(|sum| sum / dot.covered.max(1e-9));
        dot.covered /= f64::from((fine * fine).max(1));
        dot
    })
}

impl Dot {
    /// Whether so much of it is covered that it is shown.
    pub(super) fn is_shown(&self) -> bool {
        self.covered >= COVERED
    }

    pub(super) fn shown(&self) -> Srgb {
        let [r, g, b] = self
            .colour
            .map(|channel| channel.round().clamp(0.0, 255.0) as u8);
        Srgb { r, g, b }
    }
}
