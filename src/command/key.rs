//! `trug key`: one bloom from its answers.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};

use super::{BadInput, Context, key_csv};
use crate::account;
use crate::form::Answers;

/// What `trug key` takes.
#[derive(Debug, clap::Args)]
pub struct KeyArguments {
    /// What you see of the bloom: rows=5, 'tip=rounded|pointed', rows=4..7, rows=10+, rolled=1/4,
    /// diameter=98mm,3.9in, and rows=? for cannot tell. `trug rules words` explains the words.
    #[arg(value_name = "TRAIT=VALUE")]
    answers: Vec<String>,
    /// Keys every bloom of a CSV file (a heading for each trait, a bloom a line) and prints the table
    /// with its form added.
    #[arg(long, value_name = "FILE.csv", conflicts_with = "answers")]
    from: Option<PathBuf>,
    /// Expects the forms of your list more often than others; without it all forms are alike before
    /// the first answer.
    #[arg(long, conflicts_with = "from")]
    pub(super) by_list: bool,
}

pub(super) fn run(
    arguments: &KeyArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    if let Some(path) = &arguments.from {
        return key_csv::run(path, context, out, errors);
    }
    let set = context.set();
    let answers = Answers::read(&arguments.answers, &set.traits)
        .map_err(|error| anyhow!(BadInput(error.to_string())))?;
    let keyer = if arguments.by_list {
        context.keyer_by_list()?
    } else {
        context.keyer()
    };
    let reading = keyer.read(&answers);
    let account = keyer.account(&reading, context.units);
    if context.json {
        context.print(out, account::object(&account))?;
        return Ok(true);
    }
    for line in account::lines(&account, usize::MAX) {
        writeln!(out, "{line}")?;
    }
    Ok(true)
}
