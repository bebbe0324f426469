//! A ruled table to fill in with a pencil, laid out over pages.
//!
//! A table that is wider than the page upright is printed across it; one that is wider still is
//! split into strips, each with the first column, on pages that follow each other. Every page has
//! the head. Columns for the pencil give and take some width, so that pages are filled and few.

use std::fmt;

use super::page::Page;
use super::printable::Unprintable;
use super::setup::{Margins, Orientation, Paper, Setup, SetupError};
use printed::{Printed, ROW};
use sheet::TablePage;
use strips::{Measured, strips};

mod printed;
mod sheet;
mod strips;

pub use printed::{Column, Table};

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
        let sums = printed.rows_of_sums();
        if rows_a_page < sums.max(1) {
            return Err(TableError::NoRow {
                room: room.height(),
                needed: top + tallest + sums.max(1) as f64 * ROW,
            });
        }
        let count = printed.rows.len();
        // A table without rows is a page with a head all the same; sums stand under the last rows.
        let starts: Vec<usize> = (0..(count + sums).max(1)).step_by(rows_a_page).collect();
        let total = starts.len() * strips.len();

        let mut pages = Vec::with_capacity(total);
        for (page, start) in starts.iter().enumerate() {
            let rows = &printed.rows[*start.min(&count)..count.min(start + rows_a_page)];
            for (at, strip) in strips.iter().enumerate() {
                let sheet = TablePage {
                    printed: &printed,
                    room,
                    number: pages.len() + 1,
                    total,
                    follows: at > 0,
                    goes_on: at + 1 < strips.len(),
                    ends: page + 1 == starts.len(),
                };
                pages.push(setup.page(&sheet.items(strip, tallest, rows)?));
            }
        }
        Ok(pages)
    }
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
