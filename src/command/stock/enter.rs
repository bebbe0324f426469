//! `trug stock note`: one entry in the stock book.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::super::{Context, open_to_write, today};
use super::{bad, tell};
use crate::folder::row::row;
use crate::folder::stock::open_stock;
use crate::measure::day::TypedDay;
use crate::stock::read::Draft;
use crate::stock::{Entry, StockContext, What};
use crate::trial::Subject;

/// What `trug stock note` takes.
#[derive(Debug, clap::Args)]
pub(super) struct NoteArguments {
    /// A seedling's number, such as 26-014, or the name of a variety of your list.
    #[arg(value_name = "PLANT")]
    id: String,
    /// What happened, by the words below; today unless date= says another day.
    #[arg(value_name = "WORD=VALUE", required_unless_present = "withdraw")]
    words: Vec<String>,
    /// Withdraws an earlier entry of the plant: it counts as if it had never been made.
    #[arg(long, value_name = "ENTRY", conflicts_with = "words")]
    withdraw: Option<u32>,
    /// Saves what is odd all the same, such as far more tubers than clumps give.
    #[arg(long)]
    even_so: bool,
}

/// Puts the entry on the disk, and only then says so. What is odd is saved where that is meant.
pub(super) fn note(
    arguments: &NoteArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let mut words = arguments.words.clone();
    words.extend(arguments.withdraw.map(|entry| format!("withdraw={entry}")));
    let draft = Draft::read(&words, &context.calendar()).map_err(bad)?;
    let list = context.varieties()?;
    let dir = context.own_folder()?;
    let folder = open_to_write(dir, errors)?;
    let subject: Subject = arguments.id.parse().map_err(bad)?;
    let subject = subject.as_listed(&list);
    let trial = row(Some(dir))?.trial;
    let (read, mut file) = open_stock(&folder, &trial)?;
    tell(&read, errors)?;
    let today = today();
    let grounds = StockContext {
        trial: &trial,
        list: &list,
        today,
    };
    let taken = draft.date.as_ref().and_then(TypedDay::told);
    let entry = draft.entry(file.next_id(&read.stock), subject, today);
    let doubts = read.stock.check(&entry, &grounds);
    if let Some(doubt) = doubts.iter().find(|doubt| doubt.refuses) {
        return Err(bad(&doubt.told));
    }
    let doubts: Vec<&str> = doubts.iter().map(|doubt| doubt.told.as_str()).collect();
    if !doubts.is_empty() && !arguments.even_so {
        return Err(bad(format!(
            "{}; nothing is saved: --even-so saves it as it is",
            doubts.join("; ")
        )));
    }
    file.enter(&folder, &entry)?;
    let mut stock = read.stock;
    // OK because it was checked.
    let _ = stock.add(entry.clone());
    let lifting = { stock.liftings(&entry.of).into_iter() }.find(|one| one.year == entry.lifting());
    let lifting = lifting.filter(|_| entry.what != What::Withdrawn);
    let left = lifting.map(|one| (one.here(), one.free()));
    print(&entry, left, taken, &doubts, context, out)
}

fn print(
    entry: &Entry,
    left: Option<(u64, u64)>,
    taken: Option<String>,
    doubts: &[&str],
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    if context.json {
        let object = json!({
            "entry": entry.id,
            "of": entry.of.to_string(),
            "words": entry.words(),
            "here": left.map(|(here, _)| here),
            "free": left.map(|(_, free)| free),
            "doubts": doubts,
        });
        context.print(out, object)?;
        return Ok(true);
    }
    let (of, id) = (&entry.of, entry.id);
    writeln!(out, "{of}, entry {id}, saved: {}", entry.print())?;
    if let Some(taken) = taken {
        writeln!(out, "  date: {taken}")?;
    }
    if let Some((here, free)) = left {
        let year = entry.lifting();
        writeln!(out, "  lifted in {year}: {here} here, {free} free to sell")?;
    }
    for doubt in doubts {
        writeln!(
            out,
            "  to check: {doubt}. If it is wrong: trug stock note {of} corrects={id} ..."
        )?;
    }
    Ok(true)
}
