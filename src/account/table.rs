//! A table of an account: columns with their names, rows of cells, and the rows as lines.

use super::cell::Cell;
use super::text::{Side, pad, width};

/// Rows that are alike.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// What programs call the list of its rows; empty for what only people are told.
    pub id: &'static str,
    /// The columns; the first says whose row it is.
    pub columns: Vec<Column>,
    /// The rows: a cell for each column.
    pub rows: Vec<Vec<Cell>>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// What programs call it; empty for what only people are told.
    pub id: String,
    /// What stands at its head, on every drawing.
    pub name: String,
    /// Under the head on paper, small: what may be written in a cell.
    pub hint: String,
    /// The side that its cells stand at.
    pub side: Side,
    /// The least width on paper, mm.
    pub millimetres: f64,
    /// Where it is seen.
    pub seen: Seen,
}

/// Where a column is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// Everywhere.
    Always,
    /// In files of cells and by programs alone.
    AsData,
    /// On paper alone, for the pencil.
    OnPaper,
}

/// Between two columns.
const GAP: &str = "  ";

impl Column {
    /// A column of words.
    pub fn words(id: impl Into<String>, name: impl Into<String>) -> Column {
        Column {
            id: id.into(),
            name: name.into(),
            hint: String::new(),
            side: Side::Left,
            millimetres: 0.0,
            seen: Seen::Always,
        }
    }

    /// A column of figures: they stand at the right.
    pub fn figures(id: impl Into<String>, name: impl Into<String>) -> Column {
        Column {
            side: Side::Right,
            ..Column::words(id, name)
        }
    }

    /// The column with its least width on paper, mm.
    pub fn wide(self, millimetres: f64) -> Column {
        Column {
            millimetres,
            ..self
        }
    }

    /// The column, seen here alone.
    pub fn seen(self, seen: Seen) -> Column {
        Column { seen, ..self }
    }

    /// The column with a hint of what may be written in its cells.
    pub fn hinted(self, hint: impl Into<String>) -> Column {
        Column {
            hint: hint.into(),
            ..self
        }
    }
}

impl Table {
    /// A table without rows.
    pub fn of(id: &'static str, columns: impl IntoIterator<Item = Column>) -> Table {
        Table {
            id,
            columns: columns.into_iter().collect(),
            rows: Vec::new(),
        }
    }

    /// A table for programs alone, without rows: its columns by their ids.
    pub fn data<const N: usize>(id: &'static str, columns: [&str; N]) -> Table {
        let columns = columns.map(|id| Column::words(id, id).seen(Seen::AsData));
        Table::of(id, columns)
    }

    /// The table with these rows.
    pub fn with(mut self, rows: impl IntoIterator<Item = Vec<Cell>>) -> Table {
        self.rows.extend(rows);
        self
    }

    /// A row with these cells by the ids of their columns, and nothing in the others.
    pub fn row<const N: usize>(&self, cells: [(&str, Cell); N]) -> Vec<Cell> {
        let cell = |column: &Column| {
            let own = cells.iter().find(|(id, _)| *id == column.id);
            own.map_or(Cell::Nothing, |(_, cell)| cell.clone())
        };
        self.columns.iter().map(cell).collect()
    }

    /// The places of the columns that people see in a text.
    pub fn shown(&self) -> Vec<usize> {
        let seen = |at: &usize| self.columns[*at].seen == Seen::Always;
        (0..self.columns.len()).filter(seen).collect()
    }

    /// The table as lines: the head, if any column has a name, and a line for each row, two spaces between columns that are as
    /// wide as their widest cell.
    pub fn lines(&self) -> Vec<String> {
        let shown = self.shown();
        let names = shown.iter();
        let head: Vec<String> = names.map(|at| self.columns[*at].name.clone()).collect();
        let unnamed = head.iter().all(String::is_empty);
        let mut rows = if unnamed { Vec::new() } else { vec![head] };
        let cells = |row: &Vec<Cell>| shown.iter().map(|at| row[*at].shown()).collect();
        rows.extend(self.rows.iter().map(cells));
        let sides: Vec<Side> = shown.iter().map(|at| self.columns[*at].side).collect();
        aligned(&rows, &sides)
    }
}

/// Rows of texts as lines whose columns stand one under the other, by what is seen and not by how
/// many letters it takes.
fn aligned(rows: &[Vec<String>], sides: &[Side]) -> Vec<String> {
    let widest = |at: usize| {
        rows.iter()
            .filter_map(|row| Some(width(row.get(at)?)))
            .max()
    };
    let widths: Vec<usize> = (0..sides.len()).map(|at| widest(at).unwrap_or(0)).collect();
    let line = |row: &Vec<String>| {
        let cells = row.iter().zip(&widths).zip(sides);
        let cells = cells.map(|((cell, width), side)| pad(cell, *width, *side));
        let line = cells.collect::<Vec<_>>().join(GAP);
        line.trim_end().to_string()
    };
    rows.iter().map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn table() -> Table {
        let columns = [
            Column::figures("no", "no"),
            Column::words("name", "name"),
            Column::words("hidden", "hidden").seen(Seen::AsData),
            Column::words("", "end"),
            Column::words("", "came").seen(Seen::OnPaper),
        ];
        Table::of("rows", columns)
    }

    #[test]
    fn columns_stand_under_their_heads_and_only_what_people_see_is_there() {
        let mut table = table();
        let row = table.row([("no", 100_u64.into()), ("name", "Vœ".into())]);
        table.rows.push(row);
        assert_eq!(table.lines(), [" no  name  end", "100  Vœ"]);
        table.rows[0][3] = "x".into();
        assert_eq!(table.lines(), [" no  name  end", "100  Vœ    x"]);
        table.rows[0][3] = Cell::Nothing;
        for column in &mut table.columns {
            column.name.clear();
        }
        assert_eq!(table.lines(), ["100  Vœ"]);
    }

    proptest! {
        /// Wide letters, letters put together from two, and none at all.
        #[test]
        fn every_column_begins_at_the_same_place(names in prop::collection::vec("[a-z花び\u{e9}e\u{301} ]{0,9}", 1..6)) {
            let rows = names.iter().map(|name| vec![7_u64.into(), name.as_str().into(), Cell::Nothing, "x".into(), Cell::Nothing]);
            let lines = table().with(rows).lines();
            let before = |line: &String| width(line.trim_end_matches("end").trim_end_matches('x'));
            prop_assert!(lines.iter().all(|line| before(line) == before(&lines[0])), "{lines:#?}");
        }
    }
}
