//! Pages of cells with a title, in a grid or one under the other: charts, look-books, price lists.

use std::fmt;

use kurbo::{Affine, Rect};

use super::flow::curly;
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::paper::{
    Align, Item, Margins, Orientation, Page, Paper, Printable, Setup, SetupError, Style, TextLine,
    Unprintable,
};

const MARGINS: Margins = Margins::even(10.0);
/// Between two cells, in mm.
const GUTTER: f64 = 4.0;
const TITLE: Style = Style::bold(15.0);
const NOTE: Style = Style::regular(8.5);
/// What the number of a page takes beside the title, and a scale bar beside the note, in mm.
const NUMBER: f64 = 20.0;
const BAR: f64 = 45.0;
const RULE: Stroke = Stroke::new(Srgb::grey(120), 0.15);

/// What stands at the head of every page.
pub(super) struct Poster {
    pub title: String,
    /// A line under the title; it leaves room for a scale bar at its right.
    pub note: String,
    /// Whether the note stands on the first page alone, over its full width.
    pub once: bool,
}

/// What is drawn about its own upper left corner, and how far down it goes, in mm.
type Cell = (Vec<Item>, f64);

/// Why something cannot be printed, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum PosterError {
    /// The paper has no room.
    Setup(SetupError),
    /// A text cannot be set.
    Text(Unprintable),
    /// A cell does not hold what it should, at the least size of letters.
    Full {
        /// What it needs, in mm.
        needed: f64,
        /// What it has.
        room: f64,
    },
}

impl Poster {
    /// The pages with so many cells, so many side by side and one below the other on each. `cell` draws one
    /// by its number, in a width and with letters of a size in points. All letters of a page are of the
    /// largest of the `sizes` at which each of its cells fits.
    pub(super) fn grid(
        &self,
        paper: &Paper,
        (across, down): (usize, usize),
        count: usize,
        sizes: &[f64],
        mut cell: impl FnMut(usize, f64, f64) -> Result<Cell, PosterError>,
    ) -> Result<Vec<Page>, PosterError> {
        let (setup, room, top) = room_of(paper)?;
        let share =
            |whole: f64, parts: usize| (whole - GUTTER * (parts as f64 - 1.0)) / parts as f64;
        let width = share(room.width(), across);
        let height = share(room.y1 - top, down);
        let on_page = across * down;
        let mut pages: Vec<Page> = Vec::new();
        for first in (0..count).step_by(on_page) {
            let cells = first..count.min(first + on_page);
            let cells = first_that_fits(sizes, height, |points| {
                let drawn = cells.clone().map(|number| cell(number, width, points));
                drawn.collect()
            })?;
            let (number, all) = (first / on_page + 1, count.div_ceil(on_page));
            let mut page = setup.page(&self.head(room, number, all)?);
            for (at, items) in cells.iter().enumerate() {
                let (column, row) = ((at % across) as f64, (at / across) as f64);
                let x = room.x0 + column * (width + GUTTER);
                let y = top + row * (height + GUTTER);
                put(&mut page, items, (x, y), (row > 0.0).then_some(width));
            }
            pages.push(page);
        }
        Ok(pages)
    }

    /// The pages with so many cells, one under the other over the whole width, each as high as it is. `cell`
    /// draws one by its number, where it may be the first of its page, in a width.
    pub(super) fn run(
        &self,
        paper: &Paper,
        count: usize,
        mut cell: impl FnMut(usize, bool, f64) -> Result<Cell, PosterError>,
    ) -> Result<Vec<Page>, PosterError> {
        let (setup, room, top) = room_of(paper)?;
        // By page, what is on it, and where.
        let mut laid: Vec<Vec<(Vec<Item>, f64)>> = Vec::new();
        let mut y = f64::INFINITY;
        for at in 0..count {
            let (mut items, mut height) = cell(at, false, room.width())?;
            if y + height > room.y1 {
                (items, height) = cell(at, true, room.width())?;
                laid.push(Vec::new());
                y = top;
            }
            if y + height > room.y1 {
                return Err(PosterError::Full {
                    needed: height,
                    room: room.y1 - top,
                });
            }
            // OK because the first is higher than what is left of no page.
            if let Some(page) = laid.last_mut() {
                page.push((items, y));
            }
            y += height + GUTTER;
        }
        let all = laid.len();
        let pages = laid.iter().enumerate().map(|(at, cells)| {
            let mut page = setup.page(&self.head(room, at + 1, all)?);
            for (place, (items, y)) in cells.iter().enumerate() {
                let ruled = (place > 0).then_some(room.width());
                put(&mut page, items, (room.x0, *y), ruled);
            }
            Ok(page)
        });
        pages.collect()
    }

    /// Title, number and note of a page.
    fn head(&self, room: Rect, number: usize, all: usize) -> Result<Vec<Item>, PosterError> {
        let title = Printable::new(&curly(&self.title))?;
        let style = title.shrunk(TITLE, 8.0, room.width() - NUMBER)?;
        let base = room.y0 + TITLE.capital();
        let mut items: Vec<Item> = vec![TextLine::new(title, style, (room.x0, base)).into()];
        if all > 1 {
            let told = Printable::new(&format!("{number} of {all}"))?;
            let told = TextLine::new(told, NOTE, (room.x1, base));
            items.push(told.aligned(Align::Right).into());
        }
        if self.once && number > 1 {
            return Ok(items);
        }
        let width = match self.once {
            true => room.width(),
            false => room.width() - BAR,
        };
        let (style, lines) = Printable::new(&curly(&self.note))?.fitted(NOTE, 6.0, width, 2)?;
        for (at, line) in lines.into_iter().enumerate() {
            let y = base + 5.0 + style.line() * at as f64;
            items.push(TextLine::new(line, style, (room.x0, y)).into());
        }
        Ok(items)
    }
}

/// The page of this paper upright, what of it may be printed on, and where cells begin below the head.
fn room_of(paper: &Paper) -> Result<(Setup, Rect, f64), SetupError> {
    let setup = Setup::new(paper, Orientation::Portrait, MARGINS, (0.0, 0.0))?;
    let room = setup.room();
    Ok((setup, room, room.y0 + head_height()))
}

/// Puts a cell in its place, under a rule of so many mm where it has one.
fn put(page: &mut Page, items: &[Item], (x, y): (f64, f64), ruled: Option<f64>) {
    if let Some(width) = ruled {
        let ends = [x, x + width].map(|x| (x, y - GUTTER / 2.0));
        page.items
            .push(Outline::line(ends[0], ends[1], RULE).into());
    }
    let place = Affine::translate((x, y));
    page.items
        .extend(items.iter().map(|item| item.placed(place)));
}

fn head_height() -> f64 {
    TITLE.capital() + 5.0 + 2.0 * NOTE.line() + 2.5
}

/// The right end of a scale bar beside the note of a page on this paper.
pub(super) fn bar_place(paper: &Paper) -> (f64, f64) {
    let right = paper.width.min(paper.height) - MARGINS.right;
    (right, MARGINS.top + TITLE.capital() + 5.0)
}

/// What the largest of the `sizes` of letters draws where nothing needs more than `height`.
fn first_that_fits(
    sizes: &[f64],
    height: f64,
    mut drawn: impl FnMut(f64) -> Result<Vec<(Vec<Item>, f64)>, PosterError>,
) -> Result<Vec<Vec<Item>>, PosterError> {
    let full = |needed| PosterError::Full {
        needed,
        room: height,
    };
    let mut last = full(0.0);
    for points in sizes {
        match drawn(*points) {
            Ok(cells) => {
                let needed = cells.iter().map(|cell| cell.1).fold(0.0, f64::max);
                if needed <= height {
                    return Ok(cells.into_iter().map(|cell| cell.0).collect());
                }
                last = full(needed);
            }
            Err(error) => last = error,
        }
    }
    Err(last)
}

impl From<SetupError> for PosterError {
    fn from(error: SetupError) -> PosterError {
        PosterError::Setup(error)
    }
}

impl From<Unprintable> for PosterError {
    fn from(error: Unprintable) -> PosterError {
        PosterError::Text(error)
    }
}

impl fmt::Display for PosterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PosterError::Setup(error) => error.fmt(f),
            PosterError::Text(error) => error.fmt(f),
            PosterError::Full { needed, room } => write!(
                f,
                "found {needed:.0} mm of words and drawings, expected {room:.0} mm at most"
            ),
        }
    }
}

impl std::error::Error for PosterError {}
