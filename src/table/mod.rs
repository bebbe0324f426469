//! A table of text cells, wherever it came from: lines with numbers, cells as they were written.
//!
//! Pure: bytes or text in, cells out. What a cell means is the business of who reads the table.

mod counted;
mod delimited;
mod encoding;
mod gathered;
pub mod guard;
pub mod limits;
pub mod workbook;

pub use delimited::{Delimiter, TableError, parse, write};
pub use encoding::{Encoding, decode};

/// Rows of cells, blank rows left out.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// The rows, the heading among them.
    pub rows: Vec<Row>,
    /// Whether it is of a sheet, where each cell has its place: the last of a row may be empty and are then
    /// not there. In text a row that is too short has lost a cell somewhere.
    pub is_sheet: bool,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The line of the file, or the row of the sheet, that it begins on; from 1.
    pub line: usize,
    /// The cells as written.
    pub cells: Vec<String>,
}

impl Row {
    /// The cell in a column, without space at its ends; empty where the row is shorter.
    pub fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", |cell| cell.trim())
    }

    /// Whether nothing is written in any cell.
    pub fn is_blank(&self) -> bool {
        self.cells.iter().all(|cell| cell.trim().is_empty())
    }
}
