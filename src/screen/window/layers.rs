//! The shapes of a window, gathered by their colour: what lies behind, blocks, dots and lines.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::cell::Shown;
use super::paint::{CELL, Paint};
use super::symbol::Symbol;
use crate::colour::Srgb;

/// How wide a line is, and a dot of Braille.
const LINE: f64 = 1.3;
const DOT: f64 = 3.2;

/// A filled part of the window.
#[derive(Debug, Clone, Copy)]
struct Block {
    left: f64,
    top: f64,
    width: f64,
    height: f64,
}

/// The shapes by colour, in the order of colours, so that the same cells give the same text.
#[derive(Debug, Default)]
pub(super) struct Layers {
    backs: BTreeMap<[u8; 3], Vec<Block>>,
    blocks: BTreeMap<[u8; 3], Vec<Block>>,
    dots: BTreeMap<[u8; 3], String>,
    lines: BTreeMap<[u8; 3], String>,
}

impl Layers {
    /// Takes in what a cell at a place has beside letters.
    pub(super) fn take(&mut self, cell: &Shown<'_>, (x, y): (f64, f64), paint: Paint) {
        let (front, behind) = (key(cell.front), cell.back.unwrap_or(paint.ground));
        if let Some(back) = cell.back {
            let whole = part([0.0, 0.0, 1.0, 1.0], x, y);
            add(self.backs.entry(key(back)).or_default(), whole);
        }
        match &cell.symbol {
            Symbol::Blank | Symbol::Letter(_) => {}
            Symbol::Blocks(parts) => {
                let own = self.blocks.entry(front).or_default();
                parts.iter().for_each(|sides| add(own, part(*sides, x, y)));
            }
            Symbol::Shade(share) => {
                let own = key(behind.toward(cell.front, *share));
                let whole = part([0.0, 0.0, 1.0, 1.0], x, y);
                add(self.blocks.entry(own).or_default(), whole);
            }
            Symbol::Dots(bits) => dots(self.dots.entry(front).or_default(), *bits, x, y),
            Symbol::Lines(sides) => lines(self.lines.entry(front).or_default(), *sides, x, y),
        }
        if cell.underlined {
            let own = self.lines.entry(front).or_default();
            let _ = write!(own, "M{} {}h{}", Number(x), Number(y + 18.0), CELL.0);
        }
    }

    /// Writes them, what lies behind first.
    pub(super) fn write(&self, text: &mut String) {
        text.push_str("<g shape-rendering=\"crispEdges\">\n");
        for layer in [&self.backs, &self.blocks] {
            for (colour, blocks) in layer {
                let _ = write!(text, "<path fill=\"{}\" d=\"", colour_of(*colour));
                for block in blocks {
                    let [left, top, width, height] =
                        [block.left, block.top, block.width, block.height].map(Number);
                    let _ = write!(text, "M{left} {top}h{width}v{height}h-{width}z");
                }
                text.push_str("\"/>\n");
            }
        }
        text.push_str("</g>\n");
        strokes(text, &self.lines, LINE, "butt");
        strokes(text, &self.dots, DOT, "round");
    }
}

/// A dot is a line of no length with round ends: the shortest that every viewer draws.
fn strokes(text: &mut String, layer: &BTreeMap<[u8; 3], String>, width: f64, ends: &str) {
    for (colour, path) in layer {
        let _ = writeln!(
            text,
            "<path fill=\"none\" stroke=\"{}\" stroke-width=\"{width}\" stroke-linecap=\"{ends}\" d=\"{path}\"/>",
            colour_of(*colour)
        );
    }
}

/// The part of a cell between these shares of its sides.
fn part([left, top, right, bottom]: [f64; 4], x: f64, y: f64) -> Block {
    Block {
        left: x + left * CELL.0,
        top: y + top * CELL.1,
        width: (right - left) * CELL.0,
        height: (bottom - top) * CELL.1,
    }
}

/// Adds a block, or widens one that it goes on from. Cells come row by row: it is among the last.
fn add(blocks: &mut Vec<Block>, block: Block) {
    const PARTS_OF_A_CELL: usize = 8;
    let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let goes_on = |one: &&mut Block| {
        same(one.top, block.top)
            && same(one.height, block.height)
            && same(one.left + one.width, block.left)
    };
    let last = blocks.iter_mut().rev().take(PARTS_OF_A_CELL).find(goes_on);
    match last {
        Some(one) => one.width += block.width,
        None => blocks.push(block),
    }
}

/// The dots of a Braille pattern: bits 0 to 2 and 6 down the left, 3 to 5 and 7 down the right.
fn dots(path: &mut String, bits: u8, x: f64, y: f64) {
    const PLACES: [(f64, f64); 8] = [
        (0.0, 0.0),
        (0.0, 1.0),
        (0.0, 2.0),
        (1.0, 0.0),
        (1.0, 1.0),
        (1.0, 2.0),
        (0.0, 3.0),
        (1.0, 3.0),
    ];
    for (bit, (right, down)) in PLACES.into_iter().enumerate() {
        if bits & (1 << bit) != 0 {
            let (x, y) = (x + 2.5 + right * 5.0, y + 2.5 + down * 5.0);
            let _ = write!(path, "M{} {}h0", Number(x), Number(y));
        }
    }
}

/// Lines from the middle of a cell to its sides.
fn lines(path: &mut String, [left, right, up, down]: [bool; 4], x: f64, y: f64) {
    let (middle, low) = (x + CELL.0 / 2.0, y + CELL.1 / 2.0);
    let mut go = |from: (f64, f64), way: String| {
        let _ = write!(path, "M{} {}{way}", Number(from.0), Number(from.1));
    };
    match (left, right) {
        (true, true) => go((x, low), format!("h{}", CELL.0)),
        (true, false) => go((x, low), format!("h{}", CELL.0 / 2.0)),
        (false, true) => go((middle, low), format!("h{}", CELL.0 / 2.0)),
        (false, false) => {}
    }
    match (up, down) {
        (true, true) => go((middle, y), format!("v{}", CELL.1)),
        (true, false) => go((middle, y), format!("v{}", CELL.1 / 2.0)),
        (false, true) => go((middle, low), format!("v{}", CELL.1 / 2.0)),
        (false, false) => {}
    }
}

fn key(colour: Srgb) -> [u8; 3] {
    [colour.r, colour.g, colour.b]
}

fn colour_of([r, g, b]: [u8; 3]) -> Srgb {
    Srgb::new(r, g, b)
}

/// A number to a hundredth, without idle zeros.
pub(super) struct Number(pub(super) f64);

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // Zero has no sign.
        ((self.0 * 100.0).round() / 100.0 + 0.0).fmt(f)
    }
}
