//! Reads a table from a file that the grower names: CSV in any common shape, XLSX, ODS.

use std::path::Path;

use super::names::NAMED;
use super::regular;
use super::system::in_words;
use crate::table::workbook::{self, WorkbookError};
use crate::table::{self, Delimiter, Encoding, Table};

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
        return read_workbook(&bytes, sheet, &shown.to_string());
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

fn read_workbook(bytes: &[u8], wanted: Option<&str>, shown: &str) -> Result<TableFile, SheetError> {
    let sheet = workbook::read(bytes, wanted).map_err(|error| {
        let told = match error {
            WorkbookError::Broken(found) => {
                format!("found {found}, expected a workbook in XLSX or ODS")
            }
            WorkbookError::TooLarge(past) => past.to_string(),
            WorkbookError::NoSheet(names) => {
                let names: Vec<String> = names.iter().map(|name| format!("{name:?}")).collect();
                return SheetError::Asked(format!(
                    "{shown}: found no sheet {:?}, expected one of {}",
                    wanted.unwrap_or_default(),
                    names.join(", ")
                ));
            }
        };
        SheetError::File(format!("could not read {shown}: {told}"))
    })?;
    Ok(TableFile {
        table: sheet.table,
        source: Source::Workbook(sheet.name, sheet.of),
    })
}
