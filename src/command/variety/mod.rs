//! `trug variety`: a variety of the list added, changed or dropped, and its life.

mod change;
mod life;
mod told;

use std::io::Write;

use anyhow::Result;

use super::Context;

/// What `trug variety` takes.
#[derive(Debug, clap::Args)]
pub struct VarietyArguments {
    /// What to do with the list.
    #[command(subcommand)]
    what: VarietyCommand,
}

/// What can be done to the list.
#[derive(Debug, clap::Subcommand)]
enum VarietyCommand {
    /// Adds a variety to your list.
    Add(change::AddArguments),
    /// Changes fields of a variety; an empty value is not known.
    Set(change::SetArguments),
    /// Drops a variety from your list.
    Drop(change::DropArguments),
    /// Shows the whole life of a variety: bought, planted, cut, lifted, stored and sold.
    Life(life::LifeArguments),
}

pub(super) fn run(
    arguments: &VarietyArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    match &arguments.what {
        VarietyCommand::Add(arguments) => change::add(arguments, context, out, errors),
        VarietyCommand::Set(arguments) => change::set(arguments, context, out, errors),
        VarietyCommand::Life(arguments) => life::life(arguments, context, out, errors),
        VarietyCommand::Drop(arguments) => change::drop(arguments, context, out, errors),
    }
}
