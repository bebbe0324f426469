//! `trug row add`: a seedling to the row.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::super::{Context, open_to_write, today};
use super::{bad, tell};
use crate::folder::row::open_row;
use crate::measure::day::Calendar;
use crate::trial::{Number, Seedling, Sown};
use crate::variety::Text;

/// What `trug row add` takes.
#[derive(Debug, clap::Args)]
pub(super) struct AddArguments {
    /// Its number, such as 26-014; without it the next number of this year.
    #[arg(value_name = "NUMBER")]
    number: Option<String>,
    /// The plant that bore the seed: a variety, a seedling's number, or unknown.
    #[arg(long, value_name = "PARENT")]
    seed: Option<String>,
    /// The plant that gave the pollen: the same, or open-pollinated.
    #[arg(long, value_name = "PARENT")]
    pollen: Option<String>,
    /// The day or the year of sowing.
    #[arg(long, value_name = "DATE")]
    sown: Option<String>,
    /// The bed or row that it stands in.
    #[arg(long, value_name = "NAME")]
    row: Option<String>,
    /// Its place in the row, counted from the start.
    #[arg(long, value_name = "PLACE", value_parser = crate::measure::bounds::read::<u32>)]
    place: Option<u32>,
    /// How many plants of it there are.
    #[arg(long, value_name = "COUNT", value_parser = crate::measure::bounds::read::<std::num::NonZeroU32>)]
    plants: Option<std::num::NonZeroU32>,
}

pub(super) fn run(
    arguments: &AddArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let folder = open_to_write(context.own_folder()?, errors)?;
    let (mut row, mut files) = open_row(&folder)?;
    tell(&row, errors)?;
    let number = match &arguments.number {
        Some(number) => number.parse::<Number>().map_err(bad)?,
        None => row
            .trial
            .next_number(today().year())
            .ok_or_else(|| bad("the year's numbers are used up: give one, such as 26-014"))?,
    };
    let seedling = seedling(number, arguments, &context.calendar())?;
    row.trial.add_seedling(seedling).map_err(bad)?;
    files.save_seedlings(&folder, row.trial.seedlings())?;
    if context.json {
        context.print(out, json!({ "number": number.to_string() }))?;
    } else {
        writeln!(
            out,
            "{number} is in the row, saved; it holds {} now.",
            row.trial.seedlings().len()
        )?;
    }
    Ok(true)
}

fn seedling(number: Number, arguments: &AddArguments, calendar: &Calendar) -> Result<Seedling> {
    let mut seedling = Seedling::numbered(number);
    if let Some(parent) = &arguments.seed {
        seedling.seed_parent = parent.parse().map_err(bad)?;
    }
    if let Some(parent) = &arguments.pollen {
        seedling.pollen_parent = parent.parse().map_err(bad)?;
    }
    if let Some(sown) = &arguments.sown {
        seedling.sown =
            Some(Sown::typed(sown, calendar).map_err(|told| bad(format!("--sown: {told}")))?);
    }
    seedling.row = arguments
        .row
        .as_ref()
        .map(Text::new)
        .transpose()
        .map_err(bad)?;
    seedling.place = arguments.place;
    seedling.plants = arguments.plants;
    Ok(seedling)
}
