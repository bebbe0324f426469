//! Which column is which field, told by its heading.

use super::either::Either;
use super::field::Field;
use super::kind::Kind;
use super::own_words::{OwnWords, UNKNOWN};
use crate::measure::LengthUnit;
use crate::measure::brief;
use crate::table::{Row, Table};
use crate::variety::text::plain;

/// One column of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its heading as written.
    pub heading: String,
    /// What it is read as; `None` where it is not read.
    pub field: Option<Field>,
    /// The unit of its bare numbers, where the heading names one.
    pub unit: Option<LengthUnit>,
}

/// The columns of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Columns {
    /// In the file's order.
    pub columns: Vec<Column>,
    /// Index of the heading row in the table.
    pub heading_row: usize,
}

/// Headings that are said again where the one for the name is not among them.
const MOST_HEADINGS: usize = 6;
/// Rows that may stand above the heading: a title, a date.
const MOST_TITLE_ROWS: usize = 10;

impl Columns {
    /// Finds the heading row and reads it.
    ///
    /// # Errors
    /// One clause with what was found and what was expected: no heading for the name, one that may
    /// mean either of two fields, or two headings for one field.
    pub fn of(table: &Table, own: &OwnWords) -> Result<Columns, String> {
        let Some(first) = table.rows.first() else {
            return Err("found no rows, expected a heading and a row a variety".to_string());
        };
        let named = |row: &Row| {
            read(row, own)
                .iter()
                .any(|one| one.field == Some(Field::Name))
        };
        let heading_row = table.rows.iter().take(MOST_TITLE_ROWS).position(named);
        let Some(heading_row) = heading_row else {
            let found: Vec<String> = first
                .cells
                .iter()
                .take(MOST_HEADINGS)
                .map(|cell| format!("{:?}", brief(plain(cell))))
                .collect();
            return Err(format!(
                "line {}: found the headings {}, expected one for the name such as name, variety or cultivar; say which by --map heading:\"your heading\"=name",
                first.line,
                found.join(", ")
            ));
        };
        let row = &table.rows[heading_row];
        let asked = row.cells.iter().filter_map(|cell| question(cell, own));
        let asked: Vec<String> = asked.collect();
        if !asked.is_empty() {
            return Err(format!("line {}: found {}", row.line, asked.join("; and ")));
        }
        let columns = read(row, own);
        for (at, column) in columns.iter().enumerate() {
            let same = |other: &&Column| column.field.is_some() && other.field == column.field;
            if let Some(other) = columns[..at].iter().find(same) {
                return Err(format!(
                    "line {}: found the headings {:?} and {:?} for the same thing, expected one; leave one out by --map heading:{:?}=unknown",
                    row.line,
                    brief(&other.heading),
                    brief(&column.heading),
                    brief(&column.heading)
                ));
            }
        }
        Ok(Columns {
            columns,
            heading_row,
        })
    }

    /// The rows below the heading.
    pub fn rows<'a>(&self, table: &'a Table) -> &'a [Row] {
        table.rows.get(self.heading_row + 1..).unwrap_or_default()
    }

    /// Whether the file has a field.
    pub fn has(&self, field: Field) -> bool {
        self.columns
            .iter()
            .any(|column| column.field == Some(field))
    }
}

fn read(row: &Row, own: &OwnWords) -> Vec<Column> {
    let column = |at: usize| {
        let heading = plain(row.cell(at));
        let (words, unit) = split_unit(&heading);
        let mapped = own.find(Kind::Heading, &heading);
        let field = match mapped {
            Some(UNKNOWN) => None,
            Some(term) => Field::of_heading(term),
            None => Field::of_heading(&heading).or_else(|| Field::of_heading(&words)),
        };
        Column {
            unit: unit.filter(|_| field.is_some_and(Field::is_length)),
            heading,
            field,
        }
    };
    (0..row.cells.len()).map(column).collect()
}

/// What to ask of a heading that may mean either of two fields; `None` where it or the grower's own
/// words say.
fn question(cell: &str, own: &OwnWords) -> Option<String> {
    let heading = plain(cell);
    let (words, _) = split_unit(&heading);
    let either = match own.find(Kind::Heading, &heading) {
        // A term that was remembered when it still meant one thing.
        Some(term) => Either::of(term),
        None => Either::of(&heading).or_else(|| Either::of(&words)),
    };
    either.map(|either| either.question(&heading))
}

/// `height (cm)`, `height [cm]`, `height, cm`, `height in cm`: the words, and the unit.
fn split_unit(heading: &str) -> (String, Option<LengthUnit>) {
    let text = heading.trim().trim_end_matches([')', ']']);
    let Some((words, last)) = text.rsplit_once([' ', '(', '[', ',', '/', '_']) else {
        return (heading.to_string(), None);
    };
    let Some(unit) = LengthUnit::named(&last.to_lowercase()) else {
        return (heading.to_string(), None);
    };
    let words = words.trim_end_matches([' ', '(', '[', ',', '/', '_']);
    (
        words.strip_suffix(" in").unwrap_or(words).to_string(),
        Some(unit),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heading_gives_its_column_a_unit() {
        for (heading, field, unit) in [
            (
                "Height (cm)",
                Some(Field::Height),
                Some(LengthUnit::Centimetre),
            ),
            (
                "stem length in inches",
                Some(Field::Stem),
                Some(LengthUnit::Inch),
            ),
            (
                "BLOOM_SIZE [mm]",
                Some(Field::Size),
                Some(LengthUnit::Millimetre),
            ),
            (
                "Measured diameter, in",
                Some(Field::Diameters),
                Some(LengthUnit::Inch),
            ),
            ("Type", Some(Field::Form), None),
            ("Photo", None, None),
        ] {
            let row = Row {
                line: 1,
                cells: vec![heading.to_string()],
            };
            let column = &read(&row, &OwnWords::default())[0];
            assert_eq!((column.field, column.unit), (field, unit), "{heading}");
        }
    }
}
