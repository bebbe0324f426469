//! A drawing as characters of a terminal: blocks of two colours, Braille dots, or plain ASCII.

use super::blocks::{self, Parts};
use super::dots::{A_CELL, Cell, Dots, ascii_symbol, braille_symbol};
use super::drawing::Drawing;
use super::pointed::Pointed;

/// With what characters a drawing is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Characters {
    /// Two pixels a cell, each in its colour.
    HalfBlocks,
    /// Four parts a cell, in two colours.
    Quadrants,
    /// Six parts a cell, in two colours; few fonts have them.
    Sextants,
    /// Eight parts a cell, in two colours; fewer fonts have them.
    Octants,
    /// Eight dots a cell: petals are dots, and the lines between them gaps.
    Braille,
    /// Printable ASCII by its shape.
    Ascii,
}

/// A picture in cells, row by row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grid {
    /// Cells in a row.
    pub columns: u16,
    /// Rows.
    pub rows: u16,
    /// `columns` times `rows` cells.
    pub cells: Vec<Cell>,
}

/// A cell is taken to be so many times as high as wide.
const HIGH: u32 = 2;
pub(super) const EMPTY: Cell = Cell {
    symbol: ' ',
    front: None,
    back: None,
    marked: false,
};

impl Characters {
    /// Whether they show colours rather than the shape alone.
    pub fn have_colours(self) -> bool {
        self == Characters::HalfBlocks || self.parts().is_some()
    }

    /// The parts of a cell of two colours.
    fn parts(self) -> Option<Parts> {
        match self {
            Characters::Quadrants => Some(Parts::Quadrants),
            Characters::Sextants => Some(Parts::Sextants),
            Characters::Octants => Some(Parts::Octants),
            Characters::HalfBlocks | Characters::Braille | Characters::Ascii => None,
        }
    }
}

impl Grid {
    /// The drawing as large as it fits, in the middle, and over it the marks of
    /// `trait_id`: the cells that they run through are told. A cell is taken to be twice as high as it is wide.
    pub fn of(
        drawing: &Drawing,
        columns: u16,
        rows: u16,
        characters: Characters,
        trait_id: Option<&str>,
    ) -> Grid {
        Grid::of_circle(columns, rows, |across| {
            let mut dots = match characters {
                Characters::HalfBlocks => Dots::coloured(drawing, across),
                Characters::Quadrants | Characters::Sextants | Characters::Octants => {
                    Dots::coloured(drawing, across * A_CELL.0)
                }
                Characters::Braille | Characters::Ascii => Dots::of(drawing, across),
            };
            let pointed = trait_id.map(|id| Pointed::of(drawing, id, across));
            if let (Some(pointed), false) = (&pointed, characters.have_colours()) {
                dots.stand_off(|x, y| pointed.is_near(x, y));
            }
            move |column, row| {
                let mut cell = match (characters, characters.parts()) {
                    (_, Some(parts)) => blocks::cell(&dots, column, row, parts),
                    (Characters::Braille, _) => dots.braille(column, row),
                    (Characters::Ascii, _) => dots.ascii(column, row),
                    _ => dots.half_block(column, row),
                };
                if let Some(pointed) = &pointed {
                    put(&mut cell, pointed.lit(column, row), characters);
                }
                cell
            }
        })
    }

    /// The square about the largest circle that fits, in the middle, blank where there is no room for
    /// one: `draws` is told how many columns it has, and gives the cell at a column and a row of it.
    pub(super) fn of_circle<C: Fn(u32, u32) -> Cell>(
        columns: u16,
        rows: u16,
        draws: impl FnOnce(u32) -> C,
    ) -> Grid {
        let mut grid = Grid {
            columns,
            rows,
            cells: vec![EMPTY; usize::from(columns) * usize::from(rows)],
        };
        let across = u32::from(columns).min(u32::from(rows) * HIGH);
        if across < HIGH {
            return grid;
        }
        let cell = draws(across);
        let high = across / HIGH;
        let (left, top) = (
            (u32::from(columns) - across) / 2,
            (u32::from(rows) - high) / 2,
        );
        for row in 0..high {
            for column in 0..across {
                let at = (top + row) * u32::from(columns) + left + column;
                if let Some(place) = grid.cells.get_mut(at as usize) {
                    *place = cell(column, row);
                }
            }
        }
        grid
    }

    /// The cells of a row.
    pub fn row(&self, row: u16) -> &[Cell] {
        let from = usize::from(row) * usize::from(self.columns);
        self.cells
            .get(from..from + usize::from(self.columns))
            .unwrap_or_default()
    }

    /// The symbols alone, a line a row, without blanks at the ends of lines.
    pub fn text(&self) -> String {
        let line = |row: u16| {
            let line: String = self.row(row).iter().map(|cell| cell.symbol).collect();
            line.trim_end().to_string() + "\n"
        };
        (0..self.rows).map(line).collect()
    }
}

/// Puts the dots of a line over the drawing into a cell, in place of what stood there; what was
/// behind it stays.
fn put(cell: &mut Cell, lit: u8, characters: Characters) {
    if lit == 0 {
        return;
    }
    cell.marked = true;
    if let Some(parts) = characters.parts() {
        (cell.symbol, cell.front) = (parts.of_dots(lit), None);
        return;
    }
    match characters {
        Characters::Braille => cell.symbol = braille_symbol(lit),
        Characters::Ascii => cell.symbol = ascii_symbol(lit),
        _ => {
            let (upper, lower) = match cell.symbol {
                '\u{2580}' => (cell.front, cell.back),
                '\u{2584}' => (None, cell.front),
                _ => (None, None),
            };
            (cell.symbol, cell.back) = match (lit & 0x0f != 0, lit & 0xf0 != 0) {
                (true, true) => ('\u{2588}', None),
                (true, false) => ('\u{2580}', lower),
                _ => ('\u{2584}', upper),
            };
            cell.front = None;
        }
    }
}
