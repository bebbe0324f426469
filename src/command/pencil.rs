//! Sheets for the pencil, whatever book they are of: the blank one written, and what a filled one gave told.

use std::io::Write;
use std::path::Path;

use anyhow::{Result, anyhow};
use jiff::civil::Date;
use serde_json::json;

use super::{BadInput, Context, printed};
use crate::account::text::counted;
use crate::book::sheet::{BadRow, FieldSheet};
use crate::measure::day::{self, Calendar};
use crate::paper::{self, Margins, pdf};
use crate::table;

/// Where a blank sheet goes.
pub(super) struct Blank<'a> {
    pub(super) sheet: &'a FieldSheet,
    pub(super) path: Option<&'a Path>,
    pub(super) paper: Option<&'a str>,
    /// How many plants it is of.
    pub(super) plants: usize,
}

/// What a filled sheet gave.
pub(super) struct Given<'a> {
    pub(super) file: &'a Path,
    pub(super) preview: bool,
    /// New entries.
    pub(super) new: usize,
    /// Rows that the book has already.
    pub(super) same: usize,
    /// Rows in which nothing was written.
    pub(super) blank: usize,
}

/// Writes a blank sheet as PDF, CSV or text, or shows it.
pub(super) fn write(blank: &Blank<'_>, context: &Context, out: &mut dyn Write) -> Result<bool> {
    let sheet = blank.sheet;
    let Some(path) = blank.path else {
        write!(out, "{}", sheet.text())?;
        return Ok(true);
    };
    let ending = path.extension().map(|ending| ending.to_ascii_lowercase());
    let (shown, output) = (path.display(), context.output());
    match ending.as_ref().and_then(|ending| ending.to_str()) {
        Some("csv") => {
            let rows = sheet.in_a_file();
            output.write(path, &table::write(rows.iter().map(Vec::as_slice)))?;
        }
        Some("pdf") => {
            let paper = printed::paper(blank.paper, context.units)?;
            let table = paper::Table {
                title: sheet.title.clone(),
                ..printed::ruled(&sheet.table, [])
            };
            let pages = table.pages(&paper, MARGINS, (0.0, 0.0)).map_err(bad)?;
            output.write(path, &pdf(&sheet.title, &pages).map_err(bad)?)?;
        }
        Some("txt") => output.write(path, sheet.text().as_bytes())?,
        _ => {
            return Err(bad(format!(
                "found the file name {shown}, expected one that ends in .pdf, .csv or .txt"
            )));
        }
    }
    writeln!(out, "{shown} is written: {} plants.", blank.plants)?;
    Ok(true)
}

/// The day of rows that name none, where one was typed.
///
/// # Errors
/// Where it is no day.
pub(super) fn day(typed: Option<&str>, calendar: &Calendar) -> Result<Option<Date>> {
    let day = typed.map(|typed| day::typed(typed, calendar)).transpose();
    let day = day.map_err(|told| bad(format!("--date: {told}")))?;
    Ok(day.map(|typed| typed.day))
}

/// Tells what is wrong with the rows of a filled sheet, of which nothing is taken.
pub(super) fn refused(
    file: &Path,
    rows: &[BadRow],
    errors: &mut dyn Write,
) -> Result<anyhow::Error> {
    let file = file.display();
    for BadRow { line, told } in rows {
        writeln!(errors, "trug: {file}, line {line}: {told}")?;
    }
    let rows = match rows.len() {
        1 => "1 row".to_string(),
        count => format!("{count} rows"),
    };
    Ok(bad(format!(
        "{file}: {rows} could not be read, so nothing was taken"
    )))
}

/// Tells what is strange in a filled sheet.
///
/// # Errors
/// Where it is, and neither `meant` nor only looked at.
pub(super) fn strange(
    file: &Path,
    strange: &[BadRow],
    meant: bool,
    errors: &mut dyn Write,
) -> Result<()> {
    let file = file.display();
    for BadRow { line, told } in strange {
        writeln!(errors, "trug: {file}, line {line}, to check: {told}")?;
    }
    if !strange.is_empty() && !meant {
        let odd = counted(strange.len(), "thing");
        return Err(bad(format!(
            "{file}: {odd} to check, so nothing was taken: --even-so takes all as it is"
        )));
    }
    Ok(())
}

/// Tells what was taken of a filled sheet.
pub(super) fn told(given: &Given<'_>, context: &Context, out: &mut dyn Write) -> Result<bool> {
    let Given {
        new, same, blank, ..
    } = *given;
    if context.json {
        let object = json!({
            "taken": if given.preview { 0 } else { new },
            "new": new,
            "same": same,
            "blank": blank,
        });
        context.print(out, object)?;
        return Ok(true);
    }
    let did = if given.preview {
        "would be saved"
    } else {
        "saved"
    };
    writeln!(
        out,
        "{}: {new} entries {did}, {same} in the book already, {blank} rows blank.",
        given.file.display()
    )?;
    Ok(true)
}

fn bad(error: impl std::fmt::Display) -> anyhow::Error {
    anyhow!(BadInput(error.to_string()))
}

/// Room at the edges of a printed sheet, mm.
const MARGINS: Margins = Margins {
    top: 12.0,
    right: 10.0,
    bottom: 12.0,
    left: 10.0,
};
