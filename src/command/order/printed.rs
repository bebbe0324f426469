//! The order sheet on paper: a supplier begins a page, and the last column waits for the post.

use anyhow::Result;

use super::bad;
use crate::account::Section;
use crate::account::text::capitalised;
use crate::command::printed::ruled;
use crate::folder::settings::Settings;
use crate::paper::{Margins, Page, Paper, Table};

/// Room at the edges of the page, mm.
const MARGINS: Margins = Margins::even(12.0);

/// The pages of every supplier of whom something is bought.
///
/// # Errors
/// Where a name has a letter that the fonts lack, or the paper is too small.
pub(super) fn pages(sheet: &[Section], paper: &Paper, settings: &Settings) -> Result<Vec<Page>> {
    let mut pages = Vec::new();
    for table in sheet.iter().flat_map(|section| supplier(section, settings)) {
        pages.extend(table.pages(paper, MARGINS, (0.0, 0.0)).map_err(bad)?);
    }
    Ok(pages)
}

/// One supplier's order: its lines, and under them what they come to.
fn supplier(section: &Section, settings: &Settings) -> Option<Table> {
    let mut table = ruled(section.tables().next()?, section.sums());
    table.title = format!("Order to {}", section.head);
    let by = Some(&section.note).filter(|note| !note.is_empty());
    let by = by.map(|note| format!("{}. ", capitalised(note)));
    let told = section.sentences().map(|one| format!("{} ", one.text));
    let currency = settings.currency.as_ref();
    let currency = currency.map(|word| format!("Amounts are in {word}. "));
    let note: String = by.into_iter().chain(told).chain(currency).collect();
    table.note = note.trim_end().to_string();
    table.blanks = vec![(
        "From".to_string(),
        settings
            .grower
            .as_ref()
            .map_or_else(String::new, ToString::to_string),
    )];
    Some(table)
}
