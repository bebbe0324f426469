//! `trug row set` and `trug row drop`: seedlings of the row changed and dropped.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::super::{Context, open_to_write};
use super::{bad, tell};
use crate::command::field_changed::field_changed;
use crate::folder::row::open_row;
use crate::record::{Fields, given, take_given};
use crate::trial::{Number, Seedling, SeedlingEdit, Sowing, SowingGround};

/// What `trug row set` takes.
#[derive(Debug, clap::Args)]
pub(super) struct SetArguments {
    /// The seedling's number, such as 26-014.
    #[arg(value_name = "NUMBER")]
    number: String,
    /// What it has from now on, by the fields below; an empty value is not known.
    #[arg(value_name = "FIELD=VALUE", required = true)]
    fields: Vec<String>,
}

/// What `trug row drop` takes.
#[derive(Debug, clap::Args)]
pub(super) struct DropArguments {
    /// Seedlings' numbers, such as 26-014.
    #[arg(value_name = "NUMBER", required = true)]
    numbers: Vec<String>,
}

pub(super) fn set(
    arguments: &SetArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let words = Sowing::words();
    let fields = arguments
        .fields
        .iter()
        .map(|text| given(text, &words).map_err(bad));
    let fields = fields.collect::<Result<Vec<_>>>()?;
    let number: Number = arguments.number.parse().map_err(bad)?;
    let list = context.varieties()?;
    let folder = open_to_write(context.own_folder()?, errors)?;
    let (mut row, mut files) = open_row(&folder)?;
    tell(&row, errors)?;
    let before = row
        .trial
        .seedling(number)
        .ok_or_else(|| not_there(number))?;
    let ground = SowingGround {
        trial: &row.trial,
        list: &list,
        changed: Some(number),
        days: context.calendar(),
    };
    let mut sowing = Sowing::of(before);
    take_given(&mut sowing, &fields, &words, ground).map_err(bad)?;
    if let Some((key, told)) = sowing.wrong(ground) {
        return Err(bad(format!("{key}: {told}")));
    }
    let (before, after) = (Sowing::of(before), sowing.clone());
    if let Some(seedling) = sowing.seedlings().pop().filter(|_| before != after) {
        row.trial.edit(SeedlingEdit::Put { number, seedling });
        files.save_seedlings(&folder, row.trial.seedlings())?;
    }
    let ground = SowingGround {
        trial: &row.trial,
        list: &list,
        changed: Some(number),
        days: context.calendar(),
    };
    let texts = before.fields(ground).into_iter().zip(after.fields(ground));
    let changed = texts.filter(|(before, after)| before.text != after.text);
    let changed: Vec<_> = changed
        .map(|(one, other)| (one.key, one.text, other.text))
        .collect();
    if context.json {
        let fields = changed.iter().map(|(key, before, after)| {
            json!({ "field": key.to_string(), "before": before, "after": after })
        });
        let object = json!({ "number": number.to_string(), "fields": fields.collect::<Vec<_>>() });
        context.print(out, object)?;
        return Ok(true);
    }
    if changed.is_empty() {
        writeln!(out, "{number} is as it was.")?;
        return Ok(true);
    }
    writeln!(out, "{number} changed, saved.")?;
    for (key, before, after) in changed {
        writeln!(out, "{}", field_changed(&key.to_string(), &before, &after))?;
    }
    Ok(true)
}

pub(super) fn drop(
    arguments: &DropArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let numbers = arguments
        .numbers
        .iter()
        .map(|text| text.parse::<Number>().map_err(bad));
    let numbers = numbers.collect::<Result<Vec<_>>>()?;
    let folder = open_to_write(context.own_folder()?, errors)?;
    let (mut row, mut files) = open_row(&folder)?;
    tell(&row, errors)?;
    for number in &numbers {
        row.trial
            .seedling(*number)
            .ok_or_else(|| not_there(*number))?;
        if let Some(told) = row.trial.why_stays(*number) {
            return Err(bad(format!(
                "{told}; nothing is dropped: `trug row decide {number} cull` gives it up, and its notes stay"
            )));
        }
    }
    row.trial.edit(SeedlingEdit::Remove(numbers.clone()));
    files.save_seedlings(&folder, row.trial.seedlings())?;
    let left: &[Seedling] = row.trial.seedlings();
    let named: Vec<String> = numbers.iter().map(Number::to_string).collect();
    if context.json {
        context.print(out, json!({ "dropped": named, "seedlings": left.len() }))?;
    } else {
        writeln!(
            out,
            "{} dropped, saved; the row holds {} now.",
            named.join(", "),
            left.len()
        )?;
    }
    Ok(true)
}

fn not_there(number: Number) -> anyhow::Error {
    bad(format!(
        "found {number}, expected a seedling of the row: `trug row` lists them"
    ))
}
