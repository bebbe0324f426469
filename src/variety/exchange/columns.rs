//! Which column is which field, told by its heading.

use super::either::Either;
use super::field::Field;
use super::kind::Kind;
use super::looked_up::bare;
use super::own_words::{OwnWords, UNKNOWN};
use crate::measure::LengthUnit;
use crate::measure::brief;
use crate::table::{Row, Table};
use crate::variety::text::{Text, plain};

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
    /// What is to be known of the headings.
    pub notes: Vec<String>,
    /// Whether they are of a sheet, where a row may be shorter or longer than its heading.
    pub is_sheet: bool,
}

/// A heading of which only the grower can say what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Open {
    /// Either of two fields.
    Either(&'static Either),
    /// The field that the column at this place has already.
    Same(usize),
    /// No field that is known.
    Unread,
}

/// The columns as far as the headings tell, and those to be asked about.
#[derive(Debug, Clone)]
pub(super) struct LaidOut {
    pub(super) columns: Columns,
    /// Each with the place of its column.
    pub(super) open: Vec<(usize, Open)>,
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
        let LaidOut { columns, open } = Columns::laid_out(table, own)?;
        let row = &table.rows[columns.heading_row];
        if !columns.has(Field::Name) {
            return Err(no_name(row));
        }
        let heading = |at: usize| columns.columns[at].heading.as_str();
        let asked = open.iter().filter_map(|(at, open)| match open {
            Open::Either(either) => Some(either.question(heading(*at))),
            Open::Same(_) | Open::Unread => None,
        });
        let asked: Vec<String> = asked.collect();
        if !asked.is_empty() {
            return Err(format!("line {}: found {}", row.line, asked.join("; and ")));
        }
        let mut same = open.iter().filter_map(|(at, open)| match open {
            Open::Same(first) => Some((heading(*first), heading(*at))),
            Open::Either(_) | Open::Unread => None,
        });
        match same.next() {
            None => Ok(columns),
            Some((first, second)) => Err(format!(
                "line {}: found the headings {:?} and {:?} for the same thing, expected one; leave one out by --map heading:{:?}=unknown",
                row.line,
                brief(first),
                brief(second),
                brief(second)
            )),
        }
    }

    /// The columns as far as the headings tell. Where none is for the name, the heading row is the one with
    /// most headings that are known.
    ///
    /// # Errors
    /// Where there are no rows.
    pub(super) fn laid_out(table: &Table, own: &OwnWords) -> Result<LaidOut, String> {
        if table.rows.is_empty() {
            return Err("found no rows, expected a heading and a row a variety".to_string());
        }
        let top = table.rows.iter().take(MOST_TITLE_ROWS).enumerate();
        let is_name = |one: &Column| one.field == Some(Field::Name);
        let named = top
            .clone()
            .find(|(_, row)| read(row, own).iter().any(is_name));
        let known = |row: &Row| {
            let columns = read(row, own);
            let fields = columns.iter().filter(|one| one.field.is_some()).count();
            (
                fields,
                columns.iter().filter(|one| !one.heading.is_empty()).count(),
            )
        };
        // Of rows that know as much the first: those below it are varieties.
        let best = || top.rev().max_by_key(|(_, row)| known(row));
        let heading_row = named.or_else(best).map_or(0, |(at, _)| at);
        let row = &table.rows[heading_row];
        let mut columns = Columns {
            columns: read(row, own),
            heading_row,
            notes: Vec::new(),
            is_sheet: table.is_sheet,
        };
        let mut open = Vec::new();
        for at in 0..columns.columns.len() {
            if let Some(one) = columns.open_at(at, own) {
                open.push((at, one));
                columns.columns[at].field = None;
            }
        }
        Ok(LaidOut { columns, open })
    }

    /// What is to be asked about a column; `None` where its heading, or the grower's own words, say all.
    fn open_at(&mut self, at: usize, own: &OwnWords) -> Option<Open> {
        let Column { heading, field, .. } = self.columns[at].clone();
        let mapped = own.find(Kind::Heading, &heading);
        if let Some(either) = asked_about(&heading, mapped) {
            return Some(Open::Either(either));
        }
        let Some(field) = field else {
            // One that is longer than any word that could be remembered is not asked about either.
            let says = mapped == Some(UNKNOWN)
                || Text::cleaned(&heading).is_none_or(|kept| bare(&kept) != bare(&heading));
            return (!says).then_some(Open::Unread);
        };
        let before = &self.columns[..at];
        let first = before.iter().position(|other| other.field == Some(field))?;
        if bare(&before[first].heading) == bare(&heading) {
            // No answer could tell the two apart.
            self.columns[at].field = None;
            self.notes.push(format!(
                "the heading {:?} stands twice: its first column is read",
                brief(&heading)
            ));
            return None;
        }
        Some(Open::Same(first))
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

fn no_name(row: &Row) -> String {
    let found: Vec<String> = row
        .cells
        .iter()
        .take(MOST_HEADINGS)
        .map(|cell| format!("{:?}", brief(plain(cell))))
        .collect();
    format!(
        "line {}: found the headings {}, expected one for the name such as name, variety or cultivar; say which by --map heading:\"your heading\"=name",
        row.line,
        found.join(", ")
    )
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

/// The two fields that a heading may mean; `None` where it or the grower's own words say.
fn asked_about(heading: &str, mapped: Option<&str>) -> Option<&'static Either> {
    let (words, _) = split_unit(heading);
    match mapped {
        // A term that was remembered when it still meant one thing.
        Some(term) => Either::of(term),
        None => Either::of(heading).or_else(|| Either::of(&words)),
    }
}

/// `height (cm)`, `height [cm]`, `height, cm`, `height in cm`: the words, and the unit.
pub(super) fn split_unit(heading: &str) -> (String, Option<LengthUnit>) {
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
