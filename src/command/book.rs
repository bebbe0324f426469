//! `trug choose ... --book`: what was found, as pages to leaf through by colour.

use std::io::Write;
use std::path::Path;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::said::with_grounds;
use super::{BadInput, Context, printed};
use crate::tag;
use crate::trial::Subject;
use crate::variety::Text;

/// Writes the book of the varieties with these names.
pub(super) fn run(
    path: &Path,
    paper: Option<&str>,
    names: &[Text],
    shortlist: bool,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let ending = printed::ending(path, &["pdf", "svg"])?;
    let paper = printed::paper(paper, context.units)?;
    if names.is_empty() {
        return Err(anyhow!(BadInput(
            "found no variety, expected one or more to print: widen what you ask for, or mark some \
             for the shortlist"
                .to_string()
        )));
    }
    let varieties: Vec<Subject> = names.iter().cloned().map(Subject::Variety).collect();
    let says = with_grounds(context, |grounds| Ok(grounds.of_all(&varieties)))?;
    let title = match names {
        [one] => one.to_string(),
        _ if shortlist => "Shortlist by colour".to_string(),
        more => format!("{} dahlias by colour", more.len()),
    };
    let pages = tag::book(&title, &says, &context.contents.words, &paper)?;
    let files = printed::write(path, ending, &title, &pages, context.output())?;
    let files: Vec<String> = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    if context.json {
        let object = json!({ "varieties": names.iter().map(Text::as_str).collect::<Vec<_>>(), "files": files, "pages": pages.len() });
        context.print(out, object)?;
    } else {
        let count = printed::pages(pages.len());
        let varieties = match names.len() {
            1 => "1 variety".to_string(),
            more => format!("{more} varieties"),
        };
        writeln!(out, "Wrote {varieties} to {}, {count}.", files.join(", "))?;
    }
    Ok(true)
}
