//! XLSX, cell by cell: the sheet is never laid out as large as its last cell says.

use std::io::Cursor;
use std::panic::catch_unwind;

use calamine::{Data, Reader, Xlsx};

use super::unpacked::NO_WORKBOOK;
use super::{Sheet, WorkbookError, day_text, number_text, yes_no};
use crate::table::gathered::Gathered;

/// What a workbook is that ends before its last mark.
const NOT_WHOLE: WorkbookError = WorkbookError::Broken("a workbook that is not whole");

/// Reads a sheet. The crate that takes the file apart reckons with places in it unchecked, and where
/// they make no sense may panic: that is a file that is not whole, like any other.
pub(super) fn read(bytes: &[u8], wanted: Option<&str>) -> Result<Sheet, WorkbookError> {
    // OK because nothing that the reading touched is used after it.
    catch_unwind(|| taken_apart(bytes, wanted)).unwrap_or(Err(NOT_WHOLE))
}

fn taken_apart(bytes: &[u8], wanted: Option<&str>) -> Result<Sheet, WorkbookError> {
    let workbook = Xlsx::new(Cursor::new(bytes));
    let mut workbook = workbook.map_err(|_| NO_WORKBOOK)?;
    let names = workbook.sheet_names();
    let found = match wanted {
        None => names.first(),
        Some(wanted) => names.iter().find(|name| name.as_str() == wanted),
    };
    let Some(name) = found.cloned() else {
        return Err(WorkbookError::NoSheet(names));
    };
    let mut cells = workbook
        .worksheet_cells_reader(&name)
        .map_err(|_| NOT_WHOLE)?;
    let mut gathered = Gathered::default();
    while let Some(cell) = cells.next_cell().map_err(|_| NOT_WHOLE)? {
        let (row, column) = cell.get_position();
        let text = text_of(&cell.get_value().clone().into());
        gathered.place(row as usize, column as usize, text)?;
    }
    Ok(Sheet {
        table: gathered.table()?,
        name,
        of: names.len(),
    })
}

/// A cell as a person would type it: a formula is its value, a date is written 2027-02-28.
fn text_of(cell: &Data) -> String {
    match cell {
        Data::Empty => String::new(),
        Data::String(text) | Data::DurationIso(text) => text.clone(),
        Data::DateTimeIso(text) => day_text(text).to_string(),
        Data::Bool(yes) => yes_no(*yes).to_string(),
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
