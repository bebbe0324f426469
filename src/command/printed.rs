//! Files to be printed: what a file's ending asks for, the paper, pages as PDF or SVG.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::BadInput;
use crate::folder::store;
use crate::measure::SizeUnits;
use crate::paper::{Lettering, Page, Paper, pdf, svg};

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
/// Where the pages cannot be written; files before it are then there.
pub(super) fn write(
    path: &Path,
    ending: &str,
    title: &str,
    pages: &[Page],
) -> Result<Vec<PathBuf>> {
    if ending != "svg" {
        store::export(path, &pdf(title, pages)?)?;
        return Ok(vec![path.to_path_buf()]);
    }
    let mut files = Vec::new();
    for (at, page) in pages.iter().enumerate() {
        let file = match pages.len() {
            1 => path.to_path_buf(),
            _ => numbered(path, at + 1),
        };
        store::export(&file, svg(title, page, Lettering::Outlines)?.as_bytes())?;
        files.push(file);
    }
    Ok(files)
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
