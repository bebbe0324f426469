//! Rows and columns, and how free MPS writes them.

use std::fmt::Write;

/// Rows and columns gathered before they are written.
#[derive(Default)]
pub(super) struct ModelText {
    /// Kind (`L` or `G`), name, right-hand side in thousandths.
    rows: Vec<(char, String, i128)>,
    pub(super) columns: Vec<Column>,
}

pub(super) struct Column {
    name: String,
    whole: bool,
    /// Hundredths of money.
    pub(super) cost: i128,
    most: Option<u64>,
    least: u64,
    /// Row and thousandths.
    cells: Vec<(usize, i128)>,
}

impl ModelText {
    pub(super) fn row(&mut self, kind: char, name: String, rhs: i128) -> usize {
        self.rows.push((kind, name, rhs));
        self.rows.len() - 1
    }

    pub(super) fn whole(
        &mut self,
        name: String,
        least: u64,
        most: Option<u64>,
        cost: u64,
    ) -> usize {
        let (whole, cells) = (true, Vec::new());
        self.columns.push(Column {
            name,
            whole,
            cost: cost.into(),
            most,
            least,
            cells,
        });
        self.columns.len() - 1
    }

    pub(super) fn column(&mut self, name: String, most: Option<u64>) -> usize {
        let (whole, cells) = (false, Vec::new());
        self.columns.push(Column {
            name,
            whole,
            cost: 0,
            most,
            least: 0,
            cells,
        });
        self.columns.len() - 1
    }

    pub(super) fn put(&mut self, column: usize, row: usize, thousandths: i128) {
        if thousandths != 0 {
            self.columns[column].cells.push((row, thousandths));
        }
    }

    pub(super) fn text(&self) -> String {
        // OK because writing to a String cannot fail.
        self.write().unwrap_or_default()
    }

    fn write(&self) -> Result<String, std::fmt::Error> {
        let mut text = String::from("NAME order\nROWS\n N cost\n");
        for (kind, name, _) in &self.rows {
            writeln!(text, " {kind} {name}")?;
        }
        text.push_str("COLUMNS\n");
        let mut whole = false;
        for (at, column) in self.columns.iter().enumerate() {
            if column.whole != whole {
                let mark = if column.whole { "INTORG" } else { "INTEND" };
                writeln!(text, " mark{at} 'MARKER' '{mark}'")?;
                whole = column.whole;
            }
            // A column without a cell is named all the same, or it would not be there.
            writeln!(text, " {} cost {}", column.name, decimal(column.cost * 10))?;
            for (row, value) in &column.cells {
                writeln!(
                    text,
                    " {} {} {}",
                    column.name,
                    self.rows[*row].1,
                    decimal(*value)
                )?;
            }
        }
        if whole {
            text.push_str(" markend 'MARKER' 'INTEND'\n");
        }
        text.push_str("RHS\n");
        for (_, name, rhs) in self.rows.iter().filter(|row| row.2 != 0) {
            writeln!(text, " rhs {name} {}", decimal(*rhs))?;
        }
        text.push_str("BOUNDS\n");
        for column in &self.columns {
            writeln!(text, " LO bound {} {}", column.name, column.least)?;
            match column.most {
                Some(most) => writeln!(text, " UP bound {} {most}", column.name)?,
                None => writeln!(text, " PL bound {}", column.name)?,
            }
        }
        text.push_str("ENDATA\n");
        Ok(text)
    }
}

/// Thousandths as a decimal, exactly.
fn decimal(thousandths: i128) -> String {
    let sign = if thousandths < 0 { "-" } else { "" };
    let size = thousandths.unsigned_abs();
    let text = format!("{sign}{}.{:03}", size / 1000, size % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}
