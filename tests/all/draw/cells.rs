//! The shapes told apart in 24 by 12 cells of two colours, as they are seen on a screen.

use std::sync::Arc;

use ratatui::symbols::pixel::{OCTANTS, QUADRANTS, SEXTANTS};
use trug::colour::{Lab, Part, Pattern, Srgb};
use trug::draw::{Cell, Characters, Drawing, Grid, Paint};
use trug::screen::abilities::{Pixels, Protocol};
use trug::screen::picture::Request;

use super::{blurred, blurred_shades, grey, told_apart, told_apart_in};

/// Dots of a cell, of which every kind of part is made: two to a row of parts, and rows by twos,
/// threes and fours.
const CELL: (usize, usize) = (6, 12);
const GRID: (u16, u16) = (24, 12);

/// Which parts of a character are in front, and in how many rows of two, by tables that are not ours.
fn parts(symbol: char) -> (usize, usize) {
    for (table, rows) in [(&QUADRANTS[..], 2), (&SEXTANTS[..], 3), (&OCTANTS[..], 4)] {
        if let Some(pattern) = table.iter().position(|one| *one == symbol) {
            return (pattern, rows);
        }
    }
    panic!("{symbol:?} has no parts");
}

/// How light a dot of a cell is, on a white screen.
fn lightness(cell: &Cell, (x, y): (usize, usize)) -> f64 {
    let (pattern, rows) = parts(cell.symbol);
    let part = y * rows / CELL.1 * 2 + x * 2 / CELL.0;
    let seen = if pattern >> part & 1 == 1 {
        cell.front
    } else {
        cell.back
    };
    seen.map_or(1.0, |Srgb { r, g, b }| grey([r, g, b, 255]))
}

/// A drawing in cells as dots.
fn seen(drawing: &Drawing, characters: Characters) -> Vec<f64> {
    let grid = Grid::of(drawing, GRID.0, GRID.1, characters, None);
    let side = usize::from(GRID.0) * CELL.0;
    let dot = |at: usize| {
        let (x, y) = (at % side, at / side);
        let cell = &grid.cells[y / CELL.1 * usize::from(GRID.0) + x / CELL.0];
        lightness(cell, (x % CELL.0, y % CELL.1))
    };
    (0..side * side).map(dot).collect()
}

/// A picture as the eye has it that got used to how light a screen is: from 0 for its darkest parts to 1
/// for its lightest, a twentieth of them at either end.
fn stretched(seen: &[f64]) -> Vec<f64> {
    let mut sorted = seen.to_vec();
    sorted.sort_by(f64::total_cmp);
    let (low, high) = (sorted[sorted.len() / 20], sorted[sorted.len() * 19 / 20]);
    let share = |lightness: &f64| ((lightness - low) / (high - low).max(1e-9)).clamp(0.0, 1.0);
    seen.iter().map(share).collect()
}

/// Cells of two colours show blooms whose colour is known: here one that is light, and one that is dark,
/// whose lines stand off less from its petals.
#[test]
fn shapes_are_told_apart_in_24_by_12_cells_of_two_colours() {
    let of = |colour: Lab| Paint::of(&[(colour, Part::Main, Pattern::SelfColoured)]);
    const ALL: [Characters; 4] = [
        Characters::HalfBlocks,
        Characters::Quadrants,
        Characters::Sextants,
        Characters::Octants,
    ];
    let light = (of(Lab::new(70.0, 35.0, 25.0)), (0.09, 1.2), &ALL[..]);
    // Of the dark one the cells with the fewest parts: the others take a minute more.
    let dark = (of(Lab::new(30.0, 35.0, 5.0)), (0.05, 1.1), &ALL[..2]);
    std::thread::scope(|scope| {
        for (paint, least, all) in [light, dark] {
            scope.spawn(move || {
                for &characters in all {
                    let see = |drawing: &Drawing| {
                        blurred_shades(&stretched(&seen(drawing, characters)), 3)
                    };
                    told_apart_in(&paint, see, least);
                }
            });
        }
    });
}

/// In cells of 10 by 20 pixels, black and white as on a tag. What kitty's and iTerm2's forms bring are these
/// very pixels, see `screen::picture`, and what sixels bring is within 2 of them.
#[test]
fn shapes_are_told_apart_in_the_pixels_of_24_by_12_cells() {
    let raster = |drawing: &Drawing| {
        let request = Request {
            drawing: Arc::new(drawing.clone()),
            asked: None,
            size: GRID,
            pixels: Pixels {
                protocol: Protocol::Kitty,
                cell: (10, 20),
            },
            ground: None,
        };
        let raster = request.raster();
        raster
            .pixels()
            .map(|pixel| grey(pixel.0) < 0.5)
            .collect::<Vec<bool>>()
    };
    told_apart(|drawing| blurred(&raster(drawing), 5), 0.09, 1.2);
}
