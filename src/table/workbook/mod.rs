//! A sheet of a workbook, XLSX or ODS, as cells: everything is counted before it is held.

mod opendocument;
mod unpacked;
mod xlsx;

use super::Table;
use super::limits::TooLarge;

/// A sheet that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Its rows.
    pub table: Table,
    /// Its name.
    pub name: String,
    /// How many sheets the workbook has.
    pub of: usize,
}

/// Why no sheet was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WorkbookError {
    /// It is no workbook, or not whole; what was found.
    Broken(&'static str),
    /// It has no such sheet; the names of those that it has.
    NoSheet(Vec<String>),
    /// It is past a limit.
    TooLarge(TooLarge),
}

/// Reads the first sheet of a workbook, or the one called `wanted`.
///
/// # Errors
/// [`WorkbookError`].
pub fn read(bytes: &[u8], wanted: Option<&str>) -> Result<Sheet, WorkbookError> {
    match unpacked::check(bytes)? {
        unpacked::Kind::Xlsx => xlsx::read(bytes, wanted),
        unpacked::Kind::OpenDocument => opendocument::read(bytes, wanted),
    }
}

/// To the 15 digits that a spreadsheet shows: a sum such as 0.1 + 0.2 is 0.3 to its reader.
fn number_text(number: f64) -> String {
    let rounded = format!("{number:.14e}").parse().unwrap_or(number);
    format!("{rounded}")
}

/// A truth as a person would type it.
fn yes_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

/// A moment as a workbook's file has it, `2027-02-28T00:00:00`: at midnight the day alone is meant.
fn day_text(moment: &str) -> &str {
    moment.strip_suffix("T00:00:00").unwrap_or(moment)
}

impl From<TooLarge> for WorkbookError {
    fn from(past: TooLarge) -> WorkbookError {
        WorkbookError::TooLarge(past)
    }
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
