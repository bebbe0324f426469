//! A ruled table to fill in with a pencil, laid out over pages.
//!
//! A table that is wider than the page upright is printed across it; one that is wider still is
//! split into strips, each with the first column, on pages that follow each other. Every page has
//! the head.

use std::fmt;

use super::font::Style;
use super::outline::{Ink, Outline, Point, Stroke};
use super::page::{Align, Item, Line, Page};
use super::place::Rectangle;
use super::printable::{Printable, Unprintable};
use super::setup::{Margins, Orientation, Paper, Setup, SetupError};
use strips::{Measured, strips};

mod strips;

/// A table: what is printed, and what is left for the pencil.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// What it is called, at the head of every page.
    pub title: String,
    /// A line under the title: how to fill it in. May be empty.
    pub note: String,
    /// The columns; the first says whose row it is and is repeated in every strip.
    pub columns: Vec<Column>,
    /// The rows: the text of each cell from the left. Cells that are left out or empty are blank.
    pub rows: Vec<Vec<String>>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// What stands at its head.
    pub heading: String,
    /// Under it, small: what may be written in a cell.
    pub hint: String,
    /// The width in mm that a pencil needs. It is made wider where the words of the heading or the
    /// printed cells need it, and where the page has room to spare.
    pub width: f64,
}

/// Why a table cannot be laid out, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum TableError {
    /// The page cannot be set up.
    Setup(SetupError),
    /// A text cannot be printed.
    Text(Unprintable),
    /// Title and head leave no room for a row.
    NoRow {
        /// What the page has from margin to margin, in mm.
        room: f64,
        /// What title, head and one row need, in mm.
        needed: f64,
    },
}

/// The height of a row, for a hand that writes with a pencil outdoors.
pub(super) const ROW: f64 = 9.0;
/// Room between a rule and the text beside it.
pub(super) const PAD: f64 = 1.2;
const TITLE: Style = Style::bold(14.0);
const SMALL: Style = Style::regular(8.5);
pub(super) const HEADING: Style = Style::bold(8.5);
pub(super) const HINT: Style = Style::regular(6.5);
/// Printed cells, and the least size they shrink to.
pub(super) const CELL: Style = Style::regular(10.0);
pub(super) const FIRST_CELL: Style = Style::bold(10.0);
pub(super) const LEAST: f64 = 6.5;
/// Lines in a printed cell.
pub(super) const CELL_LINES: usize = 2;

/// Dark enough for a photocopy.
const QUIET: Ink = Ink::grey(80);
const HAIR: Stroke = Stroke::new(Ink::grey(90), 0.15);
/// After every fifth row and around the table, so that the eye keeps its row.
const STRONG: Stroke = Stroke::new(Ink::BLACK, 0.3);
const HEAVY: Stroke = Stroke::new(Ink::BLACK, 0.5);
const GROUP: usize = 5;

impl Table {
    /// The pages of the table on this paper, upright where it is narrow enough.
    ///
    /// # Errors
    /// [`TableError`] where the margins or the offset leave no page, where a text cannot be
    /// printed or is too long for half the page, and where the head leaves no room for a row.
    pub fn pages(
        &self,
        paper: &Paper,
        margins: Margins,
        offset: (f64, f64),
    ) -> Result<Vec<Page>, TableError> {
        let upright = Setup::new(paper, Orientation::Portrait, margins, offset)?;
        let across = Setup::new(paper, Orientation::Landscape, margins, offset)?;
        let printed = Printed::of(self)?;
        let measured = Measured::of(&printed, across.room().width / 2.0)?;
        let setup = match measured.total() <= upright.room().width {
            true => upright,
            false => across,
        };
        let room = setup.room();
        let strips = strips(&measured, room.width)?;

        let top = printed.top(room)?;
        let tallest = strips
            .iter()
            .map(|strip| printed.head_height(strip))
            .try_fold(0.0, |tallest, height| Ok(f64::max(tallest, height?)))
            .map_err(TableError::Text)?;
        let rows_a_page = ((room.height - top - tallest) / ROW).floor() as usize;
        if rows_a_page == 0 {
            return Err(TableError::NoRow {
                room: room.height,
                needed: top + tallest + ROW,
            });
        }
        let count = printed.rows.len();
        // A table without rows is a page with a head all the same.
        let starts: Vec<usize> = (0..count.max(1)).step_by(rows_a_page).collect();
        let total = starts.len() * strips.len();

        let mut pages = Vec::with_capacity(total);
        for start in starts {
            let rows = &printed.rows[start..count.min(start + rows_a_page)];
            for (at, strip) in strips.iter().enumerate() {
                let sheet = Sheet {
                    printed: &printed,
                    room,
                    number: pages.len() + 1,
                    total,
                    follows: at > 0,
                    goes_on: at + 1 < strips.len(),
                };
                pages.push(setup.page(&sheet.items(strip, tallest, rows)?));
            }
        }
        Ok(pages)
    }
}

/// The table with every text printable.
pub(super) struct Printed {
    title: Printable,
    note: Printable,
    pub headings: Vec<Printable>,
    pub hints: Vec<Printable>,
    pub widths: Vec<f64>,
    pub rows: Vec<Vec<Printable>>,
}

/// Some of the columns, side by side on one page: which, and how wide.
pub(super) type Strip = Vec<(usize, f64)>;

impl Printed {
    fn of(table: &Table) -> Result<Printed, Unprintable> {
        let columns = || table.columns.iter();
        let all = |texts: Vec<&str>| {
            let printable = texts.into_iter().map(Printable::new);
            printable.collect::<Result<Vec<_>, _>>()
        };
        let row = |row: &Vec<String>| {
            all(row
                .iter()
                .take(table.columns.len())
                .map(String::as_str)
                .collect())
        };
        Ok(Printed {
            title: Printable::new(&table.title)?,
            note: Printable::new(&table.note)?,
            headings: all(columns().map(|one| one.heading.as_str()).collect())?,
            hints: all(columns().map(|one| one.hint.as_str()).collect())?,
            widths: columns().map(|one| one.width).collect(),
            rows: table.rows.iter().map(row).collect::<Result<_, _>>()?,
        })
    }

    /// The height of title and note, down to the table.
    fn top(&self, room: Rectangle) -> Result<f64, Unprintable> {
        let lines = self.note.wrapped(SMALL, room.width)?.len();
        Ok(TITLE.line() + 1.5 + (lines + 1) as f64 * SMALL.line() + 1.5)
    }

    /// The height of the head that holds every heading and hint of a strip.
    fn head_height(&self, strip: &Strip) -> Result<f64, Unprintable> {
        let mut tallest = 0.0;
        for (column, width) in strip {
            let inside = width - 2.0 * PAD;
            let heading = self.headings[*column].wrapped(HEADING, inside)?.len() as f64;
            let hint = self.hints[*column].wrapped(HINT, inside)?.len() as f64;
            tallest = f64::max(tallest, heading * HEADING.line() + hint * HINT.line());
        }
        Ok(tallest + 2.0 * PAD)
    }
}

/// One page on its way.
struct Sheet<'a> {
    printed: &'a Printed,
    room: Rectangle,
    /// Its number and how many there are.
    number: usize,
    total: usize,
    /// Whether the page before has the columns to the left, and the next those to the right.
    follows: bool,
    goes_on: bool,
}

impl Sheet<'_> {
    fn items(
        &self,
        strip: &Strip,
        head: f64,
        rows: &[Vec<Printable>],
    ) -> Result<Vec<Item>, TableError> {
        let mut items = Vec::new();
        let top = self.title(&mut items)?;
        let mut x = self.room.x;
        for (column, width) in strip {
            self.head(&mut items, *column, x + PAD, top + PAD, width - 2.0 * PAD)?;
            for (at, row) in rows.iter().enumerate() {
                if let Some(text) = row.get(*column) {
                    let style = if *column == 0 { FIRST_CELL } else { CELL };
                    let y = top + head + at as f64 * ROW;
                    cell(&mut items, text, style, x + PAD, y, width - 2.0 * PAD)?;
                }
            }
            x += width;
        }
        let widths = strip.iter().map(|(_, width)| *width);
        rules(&mut items, self.room.x, top, head, widths, rows.len());
        Ok(items)
    }

    /// Title, page and note; gives where the table begins.
    fn title(&self, items: &mut Vec<Item>) -> Result<f64, TableError> {
        let (left, right) = (self.room.x, self.room.right());
        let mut y = self.room.y + TITLE.line();
        let number = format!("page {} of {}", self.number, self.total);
        let number = Printable::new(&number)?;
        let beside = self.room.width - number.width(SMALL) - 5.0;
        let style = self.printed.title.shrunk(TITLE, LEAST, beside)?;
        items.push(Line::new(self.printed.title.clone(), style, Point::new(left, y)).into());
        let number = Line::new(number, SMALL, Point::new(right, y));
        items.push(number.aligned(Align::Right).into());
        y += 1.5;
        for line in self.printed.note.wrapped(SMALL, self.room.width)? {
            y += SMALL.line();
            items.push(Line::new(line, SMALL, Point::new(left, y)).into());
        }
        y += SMALL.line();
        let (before, after) = (self.number.saturating_sub(1), self.number + 1);
        let turn = match (self.follows, self.goes_on) {
            (false, false) => String::new(),
            (false, true) => format!("More columns of these rows are on page {after}."),
            (true, false) => format!("The first columns of these rows are on page {before}."),
            (true, true) => {
                format!("Columns before these are on page {before}, more of them on page {after}.")
            }
        };
        if !turn.is_empty() {
            let line = Line::new(Printable::new(&turn)?, SMALL, Point::new(left, y));
            items.push(line.inked(QUIET).into());
        }
        Ok(y + 1.5)
    }

    fn head(
        &self,
        items: &mut Vec<Item>,
        column: usize,
        x: f64,
        top: f64,
        width: f64,
    ) -> Result<(), TableError> {
        let mut y = top - 0.5;
        let texts = [
            (&self.printed.headings[column], HEADING, Ink::BLACK),
            (&self.printed.hints[column], HINT, QUIET),
        ];
        for (text, style, ink) in texts {
            for line in text.wrapped(style, width)? {
                y += style.line();
                items.push(Line::new(line, style, Point::new(x, y)).inked(ink).into());
            }
        }
        Ok(())
    }
}

/// A printed cell, in the middle of its row's height.
fn cell(
    items: &mut Vec<Item>,
    text: &Printable,
    style: Style,
    x: f64,
    top: f64,
    width: f64,
) -> Result<(), TableError> {
    let (style, lines) = text.fitted(style, LEAST, width, CELL_LINES)?;
    let between = style.line() * (lines.len().max(1) - 1) as f64;
    let mut y = top + (ROW - between + style.capital()) / 2.0;
    for line in lines {
        items.push(Line::new(line, style, Point::new(x, y)).into());
        y += style.line();
    }
    Ok(())
}

/// The rules: around the table, under the head, between rows and columns.
fn rules(
    items: &mut Vec<Item>,
    left: f64,
    top: f64,
    head: f64,
    widths: impl Iterator<Item = f64>,
    rows: usize,
) {
    let edges: Vec<f64> = widths
        .scan(left, |x, width| {
            *x += width;
            Some(*x)
        })
        .collect();
    let Some(right) = edges.last().copied() else {
        return;
    };
    let bottom = top + head + rows as f64 * ROW;
    let mut across = |y, stroke| {
        items.push(Outline::line(Point::new(left, y), Point::new(right, y), stroke).into());
    };
    for row in 1..rows {
        let stroke = if row % GROUP == 0 { STRONG } else { HAIR };
        across(top + head + row as f64 * ROW, stroke);
    }
    across(top + head, HEAVY);
    for x in &edges[..edges.len() - 1] {
        items.push(Outline::line(Point::new(*x, top), Point::new(*x, bottom), HAIR).into());
    }
    let frame = Rectangle::new(left, top, right - left, bottom - top);
    items.push(Outline::rectangle(frame, None, Some(STRONG)).into());
}

impl From<SetupError> for TableError {
    fn from(error: SetupError) -> TableError {
        TableError::Setup(error)
    }
}

impl From<Unprintable> for TableError {
    fn from(error: Unprintable) -> TableError {
        TableError::Text(error)
    }
}

impl fmt::Display for TableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TableError::Setup(error) => error.fmt(f),
            TableError::Text(error) => error.fmt(f),
            TableError::NoRow { room, needed } => write!(
                f,
                "found a page with {room:.0} mm between its margins, expected {needed:.0} mm or \
                 more for the title, the head and one row"
            ),
        }
    }
}

impl std::error::Error for TableError {}
