//! Reads a table from a file that the grower names: CSV in any common shape, XLSX, ODS.

use std::io::Cursor;
use std::path::Path;

use calamine::{Data, Range, Reader, Sheets, open_workbook_auto_from_rs};

use super::names::NAMED;
use super::regular;
use super::system::in_words;
use crate::table::{self, Delimiter, Encoding, Row, Table};

/// A table, and what kind of file it came from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableFile {
    /// Its rows.
    pub table: Table,
    /// How they were written.
    pub source: Source,
}

/// What a table was read from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Source {
    /// Delimited text.
    Text(Encoding, Delimiter),
    /// A workbook's sheet of this name, one of so many.
    Workbook(String, usize),
}

/// Why no table was read.
#[derive(Debug)]
pub enum SheetError {
    /// What was asked for cannot be: a sheet of a text file, or one that is not there.
    Asked(String),
    /// The file cannot be read.
    File(String),
}

/// Reads the file at `path`; of a workbook the first sheet, or the one called `sheet`. What the
/// file is, its first bytes tell, whatever its name.
///
/// # Errors
/// [`SheetError`], one sentence that names the file.
pub fn read(path: &Path, sheet: Option<&str>) -> Result<TableFile, SheetError> {
    let shown = path.display();
    let file = |told: String| SheetError::File(format!("could not read {shown}: {told}"));
    let (bytes, _) = regular::read(path, NAMED).map_err(|error| file(in_words(&error)))?;
    if bytes.starts_with(b"PK\x03\x04") {
        let workbook = open_workbook_auto_from_rs(Cursor::new(bytes.as_slice()))
            .map_err(|_| file("found a packed file, expected a workbook in XLSX or ODS".into()))?;
        return read_workbook(workbook, sheet, &shown.to_string());
    }
    if bytes.starts_with(b"\xd0\xcf\x11\xe0") {
        let told = "found an old or locked workbook, expected one saved as XLSX or ODS, or CSV";
        return Err(file(told.into()));
    }
    if let Some(sheet) = sheet {
        return Err(SheetError::Asked(format!(
            "found --sheet {sheet:?} with {shown}, expected a workbook: a text file has no sheets"
        )));
    }
    let (text, encoding) = table::decode(&bytes).map_err(file)?;
    let (table, delimiter) = table::parse(&text).map_err(|error| file(error.to_string()))?;
    Ok(TableFile {
        table,
        source: Source::Text(encoding, delimiter),
    })
}

fn read_workbook(
    mut workbook: Sheets<Cursor<&[u8]>>,
    wanted: Option<&str>,
    shown: &str,
) -> Result<TableFile, SheetError> {
    let names = workbook.sheet_names();
    let found = match wanted {
        None => names.first(),
        Some(wanted) => names.iter().find(|name| name.as_str() == wanted),
    };
    let Some(name) = found else {
        let names: Vec<String> = names.iter().map(|name| format!("{name:?}")).collect();
        return Err(SheetError::Asked(format!(
            "{shown}: found no sheet {:?}, expected one of {}",
            wanted.unwrap_or_default(),
            names.join(", ")
        )));
    };
    let range = workbook.worksheet_range(name).map_err(|error| {
        SheetError::File(format!("could not read {shown}, sheet {name:?}: {error}"))
    })?;
    Ok(TableFile {
        table: table_of(&range),
        source: Source::Workbook(name.clone(), names.len()),
    })
}

fn table_of(range: &Range<Data>) -> Table {
    let first = range.start().map_or(0, |(row, _)| row as usize);
    let rows = range.rows().enumerate().map(|(at, cells)| Row {
        line: first + at + 1,
        cells: cells.iter().map(text_of).collect(),
    });
    Table {
        rows: rows.filter(|row| !row.is_blank()).collect(),
    }
}

/// A cell as a person would type it: a formula is its value, a date is written 2027-02-28.
fn text_of(cell: &Data) -> String {
    match cell {
        Data::Empty => String::new(),
        Data::String(text) | Data::DurationIso(text) => text.clone(),
        Data::DateTimeIso(text) => text.strip_suffix("T00:00:00").unwrap_or(text).to_string(),
        Data::Bool(true) => "yes".to_string(),
        Data::Bool(false) => "no".to_string(),
        Data::Int(number) => number.to_string(),
        Data::Float(number) => number_text(*number),
        Data::DateTime(when) if when.is_datetime() => {
            let (year, month, day, hour, minute, second, _) = when.to_ymd_hms_milli();
            let date = format!("{year:04}-{month:02}-{day:02}");
            match (hour, minute, second) {
                (0, 0, 0) => date,
                _ => format!("{date} {hour:02}:{minute:02}:{second:02}"),
            }
        }
        Data::DateTime(when) => number_text(when.as_f64()),
        Data::Error(error) => error.to_string(),
    }
}

/// To the 15 digits that a spreadsheet shows: a sum such as 0.1 + 0.2 is 0.3 to its reader.
fn number_text(number: f64) -> String {
    let rounded = format!("{number:.14e}").parse().unwrap_or(number);
    format!("{rounded}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_they_are_shown() {
        assert_eq!(number_text(0.1 + 0.2), "0.3");
        assert_eq!(number_text(4.0), "4");
        assert_eq!(number_text(-12.25), "-12.25");
    }
}
