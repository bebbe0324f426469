//! Files to be printed: what a file's ending asks for, the paper, pages as PDF or SVG.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::BadInput;
use super::output::Output;
use crate::account::text::Side;
use crate::account::{Cell, Pair, Seen, Table};
use crate::measure::SizeUnits;
use crate::paper::{self, Lettering, Page, Paper, pdf, svg};

/// The ending of a file's name, in lower case, where it is one of these.
///
/// # Errors
/// [`BadInput`] that names them.
pub(super) fn ending<'a>(path: &Path, expected: &[&'a str]) -> Result<&'a str> {
    let own = path.extension().map(|ending| ending.to_ascii_lowercase());
    let own = own.as_ref().and_then(|ending| ending.to_str());
    let found = expected.iter().find(|one| Some(**one) == own);
    found.copied().ok_or_else(|| {
        let dotted: Vec<String> = expected.iter().map(|one| format!(".{one}")).collect();
        anyhow!(BadInput(format!(
            "found the file name {}, expected one that ends in {}",
            path.display(),
            dotted.join(" or ")
        )))
    })
}

/// The paper with this id; where none is named, the usual one of those who measure so.
///
/// # Errors
/// [`BadInput`] that names the sizes there are.
pub(super) fn paper(id: Option<&str>, units: SizeUnits) -> Result<Paper> {
    let id = id.unwrap_or_else(|| usual(units));
    Paper::named(id).ok_or_else(|| {
        let known: Vec<String> = Paper::embedded().into_iter().map(|one| one.id).collect();
        anyhow!(BadInput(format!(
            "found the paper {id:?}, expected one of {}",
            known.join(", ")
        )))
    })
}

/// The id of the usual paper of those who measure so.
pub(super) fn usual(units: SizeUnits) -> &'static str {
    match units {
        SizeUnits::In => "letter",
        SizeUnits::Mm => "a4",
    }
}

/// Writes pages as one PDF, or as SVG: with one page to the file of this name, with several each to
/// one with its number before the ending. Gives the files.
///
/// # Errors
/// Where one of the files is not to be written, and then none is; or where one cannot be written, and
/// then those before it are there.
pub(super) fn write(
    path: &Path,
    ending: &str,
    title: &str,
    pages: &[Page],
    output: Output<'_>,
) -> Result<Vec<PathBuf>> {
    let files = files(path, ending, pages.len());
    output.check(files.iter().map(PathBuf::as_path))?;
    if ending != "svg" {
        output.write(path, &pdf(title, pages)?)?;
        return Ok(files);
    }
    for (page, file) in pages.iter().zip(&files) {
        output.write(file, svg(title, page, Lettering::Outlines)?.as_bytes())?;
    }
    Ok(files)
}

/// The files that so many pages are written to.
pub(super) fn files(path: &Path, ending: &str, pages: usize) -> Vec<PathBuf> {
    match (ending, pages) {
        ("svg", 2..) => (1..=pages).map(|page| numbered(path, page)).collect(),
        _ => vec![path.to_path_buf()],
    }
}

/// A table of an account as a ruled one: the columns that people see and those for the pencil, and
/// under the rows what they come to.
pub(super) fn ruled<'a>(table: &Table, sums: impl IntoIterator<Item = &'a Pair>) -> paper::Table {
    let seen = |at: &usize| table.columns[*at].seen != Seen::AsData;
    let seen: Vec<usize> = (0..table.columns.len()).filter(seen).collect();
    let columns = seen.iter().map(|at| &table.columns[*at]);
    let row = |row: &Vec<Cell>| seen.iter().map(|at| row[*at].shown()).collect();
    let sum = |pair: &Pair| {
        let name = match pair.note.as_str() {
            "" => pair.name.to_string(),
            note => format!("{} ({note})", pair.name),
        };
        (name, pair.cell.shown())
    };
    let sums = sums.into_iter().filter(|pair| !pair.name.is_empty());
    paper::Table {
        title: String::new(),
        note: String::new(),
        blanks: Vec::new(),
        columns: columns
            .map(|one| paper::Column {
                heading: one.name.clone(),
                hint: one.hint.clone(),
                width: one.millimetres,
                figures: one.side == Side::Right && one.seen != Seen::OnPaper,
            })
            .collect(),
        rows: table.rows.iter().map(row).collect(),
        sums: sums.map(sum).collect(),
    }
}

/// `1 page`, `3 pages`.
pub(super) fn pages(count: usize) -> String {
    match count {
        1 => "1 page".to_string(),
        count => format!("{count} pages"),
    }
}

/// `tags.svg` as `tags-2.svg`.
fn numbered(path: &Path, number: usize) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!("{stem}-{number}.{ending}"))
}
