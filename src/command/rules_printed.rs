//! `trug rules chart` and the card as a file: rule sets on paper.

use std::io::Write;
use std::path::Path;

use anyhow::Result;
use serde_json::json;

use super::{Context, printed};
use crate::form::Keyer;
use crate::form::card::Card;
use crate::paper::Page;
use crate::tag;

/// Writes the chart of forms.
pub(super) fn chart(
    path: &Path,
    paper: Option<&str>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let ending = printed::ending(path, &["pdf", "svg"])?;
    let paper = printed::paper(paper, context.units)?;
    let pages = tag::chart(&context.keyer(), context.units, &paper)?;
    let title = format!("Chart of forms: {}", context.set().name);
    written(path, ending, &title, &pages, context, out)
}

/// Writes the field key as one page to be folded.
pub(super) fn card(
    path: &Path,
    paper: Option<&str>,
    keyer: &Keyer,
    card: &Card,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let ending = printed::ending(path, &["pdf", "svg"])?;
    let paper = printed::paper(paper, context.units)?;
    let page = tag::folded(keyer, card, &paper)?;
    written(path, ending, &card.title, &[page], context, out)
}

fn written(
    path: &Path,
    ending: &str,
    title: &str,
    pages: &[Page],
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let files = printed::write(path, ending, title, pages, context.output())?;
    let files: Vec<String> = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    if context.json {
        let object = json!({ "rules": context.set().id, "files": files, "pages": pages.len() });
        context.print(out, object)?;
    } else {
        let count = printed::pages(pages.len());
        writeln!(out, "Wrote {title} to {}, {count}.", files.join(", "))?;
    }
    Ok(true)
}
