//! `trug name`: checks a name for a new variety.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::Context;

/// Said below every check.
const LAST_WORD: &str = "The registrar has the last word: this checks the Code (ICNCP, 9th edition, 2016) and your own list, not the register.";
/// Said where nothing stands against the name.
const NOT_YET: &str = "One plant is not yet a variety: name it when several plants, increased from it, are alike and stay so.";

/// What `trug name` takes.
#[derive(Debug, clap::Args)]
pub struct NameArguments {
    /// The name, with or without quotation marks round it.
    #[arg(value_name = "NAME", required = true)]
    name: Vec<String>,
}

/// Checks the name. That it is not allowed is an answer, not a failure.
pub(super) fn run(
    arguments: &NameArguments,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let list = context.varieties()?;
    let taken = list.list().iter().map(|one| one.name.as_str());
    let check = context
        .contents
        .naming
        .check(&arguments.name.join(" "), taken);
    if context.json {
        let object = json!({
            "errors": check.errors,
            "warnings": check.warnings,
            "written": check.written,
        });
        context.print(out, object)?;
        return Ok(true);
    }
    if !check.written.is_empty() {
        writeln!(out, "{}", check.written)?;
    }
    for error in &check.errors {
        writeln!(out, "  not allowed: {error}")?;
    }
    for warning in &check.warnings {
        writeln!(out, "  to consider: {warning}")?;
    }
    if check.errors.is_empty() {
        if check.warnings.is_empty() {
            writeln!(out, "  Nothing stands against it.")?;
        }
        writeln!(out, "{NOT_YET}")?;
    }
    writeln!(out, "{LAST_WORD}")?;
    Ok(true)
}
