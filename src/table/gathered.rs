//! Cells as a workbook gives them, each with its place, counted before rows are made of them.

use super::limits::{MOST_BYTES, MOST_CELLS, MOST_COLUMNS, MOST_IN_A_CELL, MOST_ROWS, TooLarge};
use super::{Row, Table};

/// Cells with their places.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    cells: Vec<Cell>,
    bytes: usize,
}

/// A cell at its place, as small as it can be: there may be millions.
#[derive(Debug)]
struct Cell {
    row: u32,
    column: u32,
    text: Box<str>,
}

impl Cell {
    fn place(&self) -> (u32, u32) {
        (self.row, self.column)
    }
}

impl Gathered {
    /// Takes the cell of a row and a column, both from 0. A blank one is no cell.
    pub(super) fn place(
        &mut self,
        row: usize,
        column: usize,
        text: impl AsRef<str> + Into<Box<str>>,
    ) -> Result<(), TooLarge> {
        let length = text.as_ref().len();
        if text.as_ref().trim().is_empty() {
            return Ok(());
        }
        if row >= MOST_ROWS {
            return Err(TooLarge::Rows);
        }
        if column >= MOST_COLUMNS {
            return Err(TooLarge::Columns(row + 1));
        }
        if length > MOST_IN_A_CELL {
            return Err(TooLarge::Cell(Some(row + 1)));
        }
        if self.cells.len() >= MOST_CELLS {
            return Err(TooLarge::Cells);
        }
        self.bytes += length;
        if self.bytes > MOST_BYTES {
            return Err(TooLarge::Bytes);
        }
        // OK because both are under their limits.
        self.cells.push(Cell {
            row: row as u32,
            column: column as u32,
            text: text.into(),
        });
        Ok(())
    }

    /// The rows with anything in them, from the first column that has. Of two cells in one place the
    /// later one counts.
    pub(super) fn table(mut self) -> Result<Table, TooLarge> {
        if !self.cells.is_sorted_by_key(Cell::place) {
            self.cells.sort_by_key(Cell::place);
        }
        let first = self.cells.iter().map(|cell| cell.column).min().unwrap_or(0);
        let ends = self.cells.chunk_by(|one, next| one.row == next.row);
        let widths = ends
            .filter_map(|row| row.last())
            .map(|cell| (cell.column - first + 1) as usize);
        let widths: Vec<usize> = widths.collect();
        if widths.iter().sum::<usize>() > MOST_CELLS {
            return Err(TooLarge::Cells);
        }
        let mut rows: Vec<Row> = Vec::with_capacity(widths.len());
        for cell in self.cells {
            let line = cell.row as usize + 1;
            if rows.last().is_none_or(|last| last.line != line) {
                let cells = Vec::with_capacity(widths[rows.len()]);
                rows.push(Row { line, cells });
            }
            if let Some(last) = rows.last_mut() {
                let at = (cell.column - first) as usize;
                let room = last.cells.len().max(at + 1);
                last.cells.resize(room, String::new());
                last.cells[at] = cell.text.into_string();
            }
        }
        Ok(Table {
            rows,
            is_sheet: true,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_come_in_any_order_and_rows_begin_at_the_first_column_that_has_any() {
        let mut gathered = Gathered::default();
        for (row, column, text) in [
            (4, 3, "d"),
            (2, 2, "a"),
            (2, 4, "old"),
            (2, 4, "c"),
            (3, 1, " "),
        ] {
            assert_eq!(gathered.place(row, column, text), Ok(()));
        }
        let table = gathered.table().expect("a small table");
        let rows: Vec<_> = table
            .rows
            .iter()
            .map(|row| (row.line, row.cells.join("|")))
            .collect();
        assert_eq!(rows, [(3, "a||c".to_string()), (5, "|d".to_string())]);
    }

    #[test]
    fn a_cell_past_a_limit_is_refused_at_once() {
        let mut gathered = Gathered::default();
        let mut place = |row, column, text: &str| gathered.place(row, column, text);
        assert_eq!(place(MOST_ROWS - 1, MOST_COLUMNS - 1, "last"), Ok(()));
        assert_eq!(place(MOST_ROWS, 0, "x"), Err(TooLarge::Rows));
        assert_eq!(place(6, MOST_COLUMNS, "x"), Err(TooLarge::Columns(7)));
        let long = "x".repeat(MOST_IN_A_CELL + 1);
        assert_eq!(place(6, 0, &long), Err(TooLarge::Cell(Some(7))));
        assert_eq!(place(6, 0, &long[1..]), Ok(()));
    }

    /// A cell in the last column of every row would stand behind hundreds of empty ones.
    #[test]
    fn empty_cells_before_the_last_of_a_row_count_too() {
        let mut gathered = Gathered::default();
        gathered.place(0, 0, "x").expect("within");
        for row in 0..MOST_CELLS / MOST_COLUMNS {
            gathered.place(row, MOST_COLUMNS - 1, "x").expect("within");
        }
        gathered.place(30_000, 0, "x").expect("within");
        assert_eq!(gathered.table(), Err(TooLarge::Cells));
    }
}
