//! `trug row`: the trial row, what was seen of it, and what it adds up to.

mod add;
mod enter;

use std::io::Write;

use anyhow::Result;

use super::Context;

/// What `trug row` takes.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true)]
pub struct RowArguments {
    /// A seedling's number, or the name of a variety under trial; the whole row if left out.
    #[arg(value_name = "ID")]
    id: Vec<String>,
    /// What to add to the row.
    #[command(subcommand)]
    what: Option<RowCommand>,
}

/// What can be done to the row.
#[derive(Debug, clap::Subcommand)]
enum RowCommand {
    /// Adds a seedling.
    Add(add::AddArguments),
    /// Notes what was seen: traits, diameters, vase, weather, colour ...
    Note(enter::NoteArguments),
    /// Notes what you decided: keep, hold or cull.
    Decide(enter::DecideArguments),
}

pub(super) fn run(
    arguments: &RowArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    match &arguments.what {
        Some(RowCommand::Add(arguments)) => add::run(arguments, context, out, errors),
        Some(RowCommand::Note(arguments)) => enter::note(arguments, context, out, errors),
        Some(RowCommand::Decide(arguments)) => enter::decide(arguments, context, out, errors),
        None => Ok(true),
    }
}
