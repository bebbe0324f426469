//! `trug row note` and `trug row decide`: one entry in the row's book.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::super::{Context, open_to_write, today};
use super::{bad, grounds, tell};
use crate::folder::row::open_row_of;
use crate::measure::day;
use crate::trial::read::{Draft, Reader};
use crate::trial::{Decision, Entry, EntryContext, Fate, Subject, What};
use crate::variety::Text;

/// What `trug row note` takes.
#[derive(Debug, clap::Args)]
pub(super) struct NoteArguments {
    /// A seedling's number, such as 26-014, or the name of a variety of your list.
    #[arg(value_name = "PLANT")]
    id: String,
    /// What you saw, by the words below; today unless date= says another day.
    #[arg(value_name = "WORD=VALUE", required = true)]
    words: Vec<String>,
    /// Saves what is odd all the same, such as a bloom far wider than the others of its plant.
    #[arg(long)]
    even_so: bool,
}

/// What `trug row decide` takes.
#[derive(Debug, clap::Args)]
pub(super) struct DecideArguments {
    /// A seedling's number, such as 26-014, or the name of a variety on trial.
    #[arg(value_name = "PLANT")]
    id: String,
    /// keep, hold or cull.
    #[arg(value_name = "keep|hold|cull")]
    fate: String,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    reason: Option<String>,
    /// The day on which it was decided, such as 20 Aug; without it today.
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
}

pub(super) fn note(
    arguments: &NoteArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let reader = Reader {
        traits: &context.set().traits,
        bare: Some(context.units),
        days: context.calendar(),
    };
    let draft = reader.read(&arguments.words).map_err(bad)?;
    enter(
        &arguments.id,
        draft,
        arguments.even_so,
        context,
        out,
        errors,
    )
}

pub(super) fn decide(
    arguments: &DecideArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let fate: Fate = arguments.fate.parse().map_err(bad)?;
    let reason = arguments.reason.as_ref().map(Text::new);
    let reason = reason.transpose().map_err(bad)?;
    let calendar = context.calendar();
    let date = { arguments.date.as_ref() }.map(|date| day::typed(date, &calendar));
    let draft = Draft {
        date: date
            .transpose()
            .map_err(|told| bad(format!("--date: {told}")))?,
        by: None,
        corrects: None,
        what: What::Decided(Decision { fate, reason }),
    };
    enter(&arguments.id, draft, false, context, out, errors)
}

/// Puts the entry on the disk, and only then says so. What is odd is saved where `even_so` says that it
/// is meant.
fn enter(
    id: &str,
    draft: Draft,
    even_so: bool,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let list = context.varieties()?;
    let folder = open_to_write(context.own_folder()?, errors)?;
    let subject: Subject = id.parse().map_err(bad)?;
    let subject = subject.as_listed(&list);
    let (row, mut files) = open_row_of(&folder, &subject, draft.corrects)?;
    tell(&row, errors)?;
    let today = today();
    let grounds = EntryContext {
        day_is_told: draft.date.is_some(),
        ..grounds(context, &list, today)
    };
    let taken = draft.date.as_ref().and_then(day::TypedDay::told);
    let entry = draft.entry(files.next_id(&row.trial), subject, today);
    let doubts = row.trial.check(&entry, &grounds);
    if let Some(doubt) = doubts.iter().find(|doubt| doubt.refuses) {
        return Err(bad(&doubt.told));
    }
    if !doubts.is_empty() && !even_so {
        let told: Vec<&str> = doubts.iter().map(|doubt| doubt.told.as_str()).collect();
        return Err(bad(format!(
            "{}; nothing is saved: --even-so saves it as it is",
            told.join("; ")
        )));
    }
    files.enter(&folder, &entry)?;
    let doubts: Vec<&str> = doubts.iter().map(|doubt| doubt.told.as_str()).collect();
    print_entry(&entry, taken, &doubts, context, out)?;
    Ok(true)
}

fn print_entry(
    entry: &Entry,
    taken: Option<String>,
    doubts: &[&str],
    context: &Context,
    out: &mut dyn Write,
) -> Result<()> {
    if context.json {
        let object = json!({
            "entry": entry.id,
            "of": entry.of.to_string(),
            "words": entry.words(),
            "doubts": doubts,
        });
        return context.print(out, object);
    }
    writeln!(
        out,
        "{}, entry {}, saved: {}",
        entry.of,
        entry.id,
        entry.print()
    )?;
    if let Some(taken) = taken {
        writeln!(out, "  date: {taken}")?;
    }
    for doubt in doubts {
        writeln!(
            out,
            "  to check: {doubt}. If it is wrong: trug row note {} corrects={} ...",
            entry.of, entry.id
        )?;
    }
    Ok(())
}
