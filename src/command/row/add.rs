//! `trug row add`: seedlings to the row.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::super::{Context, open_to_write, today};
use super::{bad, tell};
use crate::folder::row::open_row;
use crate::record::{Fields, Given, Key, given, take_given};
use crate::trial::{Numbers, SeedlingEdit, Sowing, SowingGround};

/// What `trug row add` takes.
#[derive(Debug, clap::Args)]
pub(super) struct AddArguments {
    /// Its number, such as 26-014, or several of one cross, such as 26-014..26-020; without it the
    /// next number of this year.
    #[arg(value_name = "NUMBER")]
    number: Option<String>,
    /// What is known of it, by the fields below, as the options too say it.
    #[arg(value_name = "FIELD=VALUE")]
    fields: Vec<String>,
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
    /// Its place in the row, counted from the start; of several that of the first.
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
    let (numbers, fields) = arguments.given()?;
    let numbers = match numbers {
        Some(numbers) => numbers,
        None => {
            let next = row.trial.next_number(today().year());
            let used_up = || bad("the year's numbers are used up: give one, such as 26-014");
            next.map(Numbers::from).ok_or_else(used_up)?
        }
    };
    let list = context.varieties()?;
    let ground = SowingGround {
        trial: &row.trial,
        list: &list,
        changed: None,
        days: context.calendar(),
    };
    let mut sowing = Sowing::new(Some(numbers));
    take_given(&mut sowing, &fields, &Sowing::words(), ground).map_err(bad)?;
    if let Some((key, told)) = sowing.wrong(ground) {
        return Err(bad(format!("{key}: {told}")));
    }
    row.trial.edit(SeedlingEdit::add(sowing.seedlings()));
    files.save_seedlings(&folder, row.trial.seedlings())?;
    let numbers = sowing.numbers().unwrap_or(numbers);
    if context.json {
        let each = numbers.each().map(|number| number.to_string());
        let object = json!({
            "number": numbers.first().to_string(),
            "numbers": each.collect::<Vec<_>>(),
        });
        context.print(out, object)?;
    } else {
        let are = if numbers.count() == 1 { "is" } else { "are" };
        writeln!(
            out,
            "{numbers} {are} in the row, saved; it holds {} now.",
            row.trial.seedlings().len()
        )?;
    }
    Ok(true)
}

impl AddArguments {
    /// The numbers, and all that is known of the seedlings as fields. The first word may be a field
    /// already.
    fn given(&self) -> Result<(Option<Numbers>, Vec<Given>)> {
        let words = Sowing::words();
        let is_field = |text: &&String| text.contains('=');
        let first = self.number.iter().filter(is_field);
        let fields = first
            .chain(&self.fields)
            .map(|text| given(text, &words).map_err(bad));
        let mut fields = fields.collect::<Result<Vec<Given>>>()?;
        let number = self.number.as_ref().filter(|text| !is_field(text));
        let number = number
            .map(|text| text.parse::<Numbers>().map_err(bad))
            .transpose()?;
        for (word, text) in [
            ("seed", self.seed.clone()),
            ("pollen", self.pollen.clone()),
            ("sown", self.sown.clone()),
            ("row", self.row.clone()),
            ("place", self.place.map(|place| place.to_string())),
            ("plants", self.plants.map(|plants| plants.to_string())),
        ] {
            fields.extend(text.map(|text| (Key::of(word), text)));
        }
        Ok((number, fields))
    }
}
