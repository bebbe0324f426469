//! A ruled table to fill in with a pencil, laid out over pages.
//!
//! A table that is wider than the page upright is printed across it; one that is wider still is
//! split into strips, each with the first column, on pages that follow each other. Every page has
//! the head. Columns for the pencil give and take some width, so that pages are filled and few.

use std::fmt;

use kurbo::Rect;

use super::font::Style;
use super::page::Page;
use super::printable::{Printable, Unprintable};
use super::setup::{Margins, Orientation, Paper, Setup, SetupError};
use sheet::Sheet;
use strips::{Measured, strips};

mod sheet;
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
const ROW: f64 = 9.0;
/// Room under the title and above the table.
const GAP: f64 = 2.0;
/// Room between a rule and the text beside it.
const PAD: f64 = 1.2;
const TITLE: Style = Style::bold(14.0);
const SMALL: Style = Style::regular(8.5);
const HEADING: Style = Style::bold(8.5);
const HINT: Style = Style::regular(7.5);
const CELL: Style = Style::regular(10.0);
const FIRST_CELL: Style = Style::bold(10.0);
/// The least size of a printed cell on one line; smaller, it is set on two.
const LEAST_LINE: f64 = 8.5;
/// The size of a cell on two lines, and the least it shrinks to.
const TWO_LINES: f64 = 8.0;
const LEAST: f64 = 6.5;

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
        let measured = Measured::of(&printed, across.room().width() / 2.0)?;
        let setup = match measured.tightest() <= upright.room().width() {
            true => upright,
            false => across,
        };
        let room = setup.room();
        let strips = strips(&measured, room.width());

        let top = printed.top(room, strips.len() > 1)?;
        let tallest = strips
            .iter()
            .map(|strip| printed.head_height(strip))
            .try_fold(0.0, |tallest, height| Ok(f64::max(tallest, height?)))
            .map_err(TableError::Text)?;
        let rows_a_page = ((room.height() - top - tallest) / ROW).floor() as usize;
        if rows_a_page == 0 {
            return Err(TableError::NoRow {
                room: room.height(),
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
struct Printed {
    title: Printable,
    note: Printable,
    pub headings: Vec<Printable>,
    pub hints: Vec<Printable>,
    pub widths: Vec<f64>,
    pub rows: Vec<Vec<Printable>>,
}

/// Some of the columns, side by side on one page: which, and how wide.
type Strip = Vec<(usize, f64)>;

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

    /// The height of title and note, down to the table; `parted` tables say where they go on.
    fn top(&self, room: Rect, parted: bool) -> Result<f64, Unprintable> {
        let lines = self.note.wrapped(SMALL, room.width())?.len() + usize::from(parted);
        Ok(TITLE.line() + 2.0 * GAP + lines as f64 * SMALL.line())
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

/// The lines of a printed cell: one, or two of smaller letters.
fn cell_lines(
    text: &Printable,
    first: bool,
    width: f64,
) -> Result<(Style, Vec<Printable>), Unprintable> {
    let style = if first { FIRST_CELL } else { CELL };
    text.fitted(style, LEAST_LINE, width, 1).or_else(|_| {
        let smaller = Style {
            points: TWO_LINES,
            ..style
        };
        text.fitted(smaller, LEAST, width, 2)
    })
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
