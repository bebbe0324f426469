//! A drawing sampled as dots, and the characters that they make.

use super::drawing::Drawing;
use super::patch::LINE;
use super::raster::Picture;
use crate::colour::Srgb;

/// Samples along each side of a dot or pixel.
pub(super) const FINE: u32 = 3;
/// What lines keep of their width: in full they would darken all of so small a picture.
const THIN: f64 = 0.6;
/// Lines between coloured pixels, in pixels: a thinner one would vanish in the petals' colour.
const SEEN: f64 = 0.45;
/// How far, of 255, such lines may move the colours of a bloom, on average over its pixels.
const MOVED: f64 = 14.0;
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
    /// The mean colour, channels of 0 to 255.
    pub(super) colour: [f64; 3],
}

/// A drawing sampled as dots, so many a cell.
pub(super) struct Dots {
    a_cell: (u32, u32),
    across: u32,
    dots: Vec<Dot>,
}

impl Dots {
    /// Dots that are lit or not, so many a cell.
    pub(super) fn of(drawing: &Drawing, columns: u32, a_cell: (u32, u32)) -> Dots {
        let across = columns * a_cell.0;
        let picture = Picture::thin(drawing, across * FINE, THIN);
        // A line must leave a gap that a dot can fall into.
        let petals = Picture::of_petals(drawing, across * FINE, GAP * f64::from(FINE));
        let dots = means(&picture, across).zip(means(&petals, across));
        let dots = dots.map(|(dot, petal)| Dot {
            clear: petal.covered * petal.colour[0] / 255.0,
            ..dot
        });
        let mut dots = Dots {
            a_cell,
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

    /// Two coloured pixels a cell. Lines are drawn as strong as they may be without turning the
    /// flower's colour into another: where florets are many they would be most of the picture.
    pub(super) fn coloured(drawing: &Drawing, columns: u32) -> Dots {
        let strong = SEEN * 2.0 / LINE / f64::from(columns.max(1));
        let picture = |share| Picture::thin(drawing, columns * FINE, share);
        let (lined, bare) = (picture(strong.max(THIN)), picture(0.0));
        let pairs: Vec<(Dot, Dot)> = means(&lined, columns).zip(means(&bare, columns)).collect();
        let moved = |(lined, bare): &(Dot, Dot)| {
            let channels = lined.colour.iter().zip(bare.colour);
            channels.map(|(a, b)| (a - b).abs()).sum::<f64>() / 3.0
        };
        let filled = || pairs.iter().filter(|(_, bare)| bare.covered >= COVERED);
        let mean = filled().map(moved).sum::<f64>() / filled().count().max(1) as f64;
        let strength = (MOVED / mean.max(1e-9)).min(1.0);
        let dot = |(lined, bare): &(Dot, Dot)| {
            let mut dot = *lined;
            if bare.covered > 0.0 {
                for (own, bare) in dot.colour.iter_mut().zip(bare.colour) {
                    *own = bare + (*own - bare) * strength;
                }
            }
            dot
        };
        Dots {
            a_cell: (1, 2),
            across: columns,
            dots: pairs.iter().map(dot).collect(),
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
        let (wide, high) = self.a_cell;
        let mut bits = 0;
        let mut lit: Vec<Dot> = Vec::new();
        for y in 0..high {
            for x in 0..wide {
                let dot = self.get(column * wide + x, row * high + y);
                if dot.clear >= LIT {
                    bits |= 1 << (2 * y + x);
                    lit.push(dot);
                }
            }
        }
        let mean = |channel: usize| {
            lit.iter().map(|dot| dot.colour[channel]).sum::<f64>() / lit.len().max(1) as f64
        };
        let colour = Dot {
            colour: [mean(0), mean(1), mean(2)],
            ..Dot::default()
        };
        (bits, (!lit.is_empty()).then(|| colour.shown()))
    }

    pub(super) fn braille(&self, column: u32, row: u32) -> Cell {
        let (lit, front) = self.lit(column, row);
        // The dots of U+2800 and on, by their place: three rows of two, then the fourth row.
        const DOTS: [u32; 8] = [0, 3, 1, 4, 2, 5, 6, 7];
        let places = DOTS.iter().enumerate().filter(|(at, _)| lit >> at & 1 == 1);
        let code: u32 = places.map(|(_, dot)| 1 << dot).sum();
        let symbol = if lit == 0 {
            None
        } else {
            char::from_u32(0x2800 + code)
        };
        Cell {
            symbol: symbol.unwrap_or(' '),
            front,
            back: None,
            marked: false,
        }
    }

    pub(super) fn ascii(&self, column: u32, row: u32) -> Cell {
        let (lit, front) = self.lit(column, row);
        let off = |glyph: &&(char, u8)| (glyph.1 ^ lit).count_ones();
        let nearest = GLYPHS.iter().min_by_key(off);
        Cell {
            symbol: nearest.map_or(' ', |glyph| glyph.0),
            front,
            back: None,
            marked: false,
        }
    }
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
fn means(picture: &Picture, across: u32) -> impl Iterator<Item = Dot> {
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
