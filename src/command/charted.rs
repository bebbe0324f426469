//! Charts as files: PDF and SVG, whose words stay words.

use std::path::{Path, PathBuf};

use anyhow::Result;

use super::Context;
use super::printed::{ending, files};
use crate::paper::{Lettering, Page, pdf, svg};

/// The files that a chart may be.
pub(super) const CHART: &[&str] = &["pdf", "svg"];
/// Columns of a chart in plain text.
pub(super) const COLUMNS: usize = 96;

/// Writes charts, each a page with its title: as one PDF, or as SVG, several each to a file with its
/// number. Gives the files.
///
/// # Errors
/// [`super::BadInput`] of a file name with another ending; else where one of the files is not to be
/// written, and then none is, or cannot be.
pub(super) fn write(
    path: &Path,
    charts: &[(String, Page)],
    context: &Context,
) -> Result<Vec<PathBuf>> {
    let ending = ending(path, CHART)?;
    let files = files(path, ending, charts.len());
    let output = context.output();
    output.check(files.iter().map(PathBuf::as_path))?;
    if ending == "pdf" {
        let title = charts.first().map_or("", |(title, _)| title);
        let pages: Vec<Page> = charts.iter().map(|(_, page)| page.clone()).collect();
        output.write(path, &pdf(title, &pages)?)?;
        return Ok(files);
    }
    for ((title, page), file) in charts.iter().zip(&files) {
        output.write(file, svg(title, page, Lettering::Words)?.as_bytes())?;
    }
    Ok(files)
}

/// The names of files in one phrase.
pub(super) fn named(files: &[PathBuf]) -> String {
    let names = files.iter().map(|file| file.display().to_string());
    names.collect::<Vec<_>>().join(", ")
}
