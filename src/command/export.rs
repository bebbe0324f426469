//! `trug export FILE.csv`: the grower's list, or what is left of it when it is narrowed, as a table
//! that any spreadsheet reads.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::narrowing::NarrowArguments;
use super::{BadInput, Context};
use crate::folder::Folder;
use crate::folder::contents::open_varieties;
use crate::table;
use crate::variety::Index;
use crate::variety::exchange::export;

/// What `trug export` takes.
#[derive(Debug, clap::Args)]
pub struct ExportArguments {
    /// The file to write: CSV, UTF-8. Several values of one field share a cell, with semicolons
    /// between; a cell that begins like a formula gets an apostrophe in front.
    #[arg(value_name = "FILE.csv")]
    file: PathBuf,
    #[command(flatten)]
    narrow: NarrowArguments,
}

pub(super) fn run(
    arguments: &ExportArguments,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let path = &arguments.file;
    let shown = path.display().to_string();
    let is_csv = path
        .extension()
        .is_some_and(|extension| extension.eq_ignore_ascii_case("csv"));
    if !is_csv {
        let told = format!("found {shown:?}, expected a file name that ends in .csv");
        return Err(anyhow!(BadInput(told)));
    }
    if arguments.narrow.ranks_only() {
        let told = "found --colour without --within, expected a distance too: an export keeps the list's own order";
        return Err(anyhow!(BadInput(told.to_string())));
    }
    let folder = Folder::open_to_read(super::import::own_folder(context)?)?;
    let (list, _) = open_varieties(&folder)?;
    let index = Index::new(&list, context.contents.grounds(context.set()));
    let wanted = index.narrowed(&arguments.narrow.meant(context, &index)?);
    let rows = export(wanted.iter().map(|row| &list.list()[row]));
    let bytes = table::write(rows.iter().map(Vec::as_slice));
    context.output().write(path, &bytes)?;
    if context.json {
        let columns = rows.first().cloned().unwrap_or_default();
        let object = json!({ "file": shown, "varieties": wanted.count(), "columns": columns });
        context.print(out, object)?;
    } else {
        let count = match wanted.count() {
            all if all == list.len() => format!("{all}"),
            some => format!("{some} of {}", list.len()),
        };
        writeln!(out, "Wrote {count} varieties to {shown}.")?;
    }
    Ok(true)
}
