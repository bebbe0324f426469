//! `trug choose ... --chart`: what was found by its main colours.

use std::io::Write;
use std::path::Path;

use anyhow::{Result, anyhow};
use serde_json::{Map, Value, json};

use super::charted::{self, COLUMNS};
use super::{BadInput, Context, printed};
use crate::chart::{Signs, Stack, Stacks};

/// Shows the chart, or writes it where a file is named. As JSON `families` holds the count of each
/// colour word that was found, family by family.
pub(super) fn run(
    stacks: &Stacks,
    path: Option<&Path>,
    paper: Option<&str>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let paper = printed::paper(paper, context.units)?;
    let files = match path {
        None => Vec::new(),
        Some(_) if stacks.stacks.iter().all(|stack| stack.count() == 0) => {
            return Err(anyhow!(BadInput(
                "found no variety of a known colour, expected one or more to draw: widen what you \
                 ask for"
                    .to_string()
            )));
        }
        Some(path) => {
            let page = stacks.page(&paper)?;
            charted::write(path, &[(stacks.title.clone(), page)], context)?
        }
    };
    if context.json {
        let words = |stack: &Stack| -> Map<String, Value> {
            let present = stack.pieces.iter().filter(|piece| piece.count > 0);
            let counts = present.map(|piece| (piece.name.clone(), json!(piece.count)));
            counts.collect()
        };
        let families = stacks.stacks.iter();
        let families = families.map(|stack| (stack.name.clone(), Value::Object(words(stack))));
        let families: Map<String, Value> = families.collect();
        let files = files.iter().map(|file| file.display().to_string());
        let files: Vec<String> = files.collect();
        context.print(out, json!({ "families": families, "files": files }))?;
    } else if path.is_some() {
        writeln!(out, "Wrote the chart to {}.", charted::named(&files))?;
    } else {
        for note in &stacks.notes {
            writeln!(out, "{note}\n")?;
        }
        for line in stacks.lines(COLUMNS, Signs::Ascii) {
            writeln!(out, "{line}")?;
        }
    }
    Ok(true)
}
