//! How large a table may be, whatever it comes from. A larger one is no list that a grower keeps: it is
//! refused in one sentence before anything is built of it.

use std::fmt;

/// Rows of one table. A sheet of a spreadsheet ends a little later, at 1,048,576.
pub const MOST_ROWS: usize = 1_000_000;
/// Columns of one table. Of a variety some forty things are kept.
pub const MOST_COLUMNS: usize = 500;
/// Cells of one table, those counted that stand empty before the last of their row: 100,000 varieties with all that
/// is kept of them.
pub const MOST_CELLS: usize = 5_000_000;
/// Bytes in one cell. A spreadsheet takes at most 32,767 characters.
pub const MOST_IN_A_CELL: usize = 64 * 1024;
/// Bytes of a file, of what is packed in it, and of all cells together.
pub const MOST_BYTES: usize = 256 * 1024 * 1024;

/// Which limit a table is past.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TooLarge {
    /// It has more rows.
    Rows,
    /// The row on this line has more columns.
    Columns(usize),
    /// It has more cells.
    Cells,
    /// A cell of the row on this line holds more, or some cell where the line is not known yet.
    Cell(Option<usize>),
    /// It holds more bytes.
    Bytes,
}

impl fmt::Display for TooLarge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mebibytes = MOST_BYTES / (1024 * 1024);
        let kibibytes = MOST_IN_A_CELL / 1024;
        match self {
            TooLarge::Rows => write!(
                f,
                "found more than {MOST_ROWS} rows, expected at most that many"
            ),
            TooLarge::Columns(line) => write!(
                f,
                "line {line}: found more than {MOST_COLUMNS} columns, expected at most that many"
            ),
            TooLarge::Cells => write!(
                f,
                "found more than {MOST_CELLS} cells, expected at most that many"
            ),
            TooLarge::Cell(line) => {
                if let Some(line) = line {
                    write!(f, "line {line}: ")?;
                }
                write!(
                    f,
                    "found a cell of more than {kibibytes} KiB, expected at most that much"
                )
            }
            TooLarge::Bytes => write!(
                f,
                "found more than {mebibytes} MiB, packed or in cells, expected at most that much"
            ),
        }
    }
}

impl std::error::Error for TooLarge {}
