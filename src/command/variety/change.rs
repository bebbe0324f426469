//! `trug variety add`, `set` and `drop`.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::Context;
use super::told::told;
use crate::command::{BadInput, open_to_write};
use crate::folder::contents::{open_varieties, save_varieties};
use crate::folder::names::WORDS;
use crate::folder::order::plan;
use crate::folder::row::row;
use crate::folder::stock::stock;
use crate::folder::{FileGuard, Folder};
use crate::problem::read_ron;
use crate::record::{Fields, Given, given, take_given};
use crate::variety::exchange::OwnWords;
use crate::variety::{Draft, DraftGround, NamesKnown, Varieties, Variety, folded, named_by};

/// What `trug variety add` takes.
#[derive(Debug, clap::Args)]
pub(super) struct AddArguments {
    /// Its name.
    #[arg(value_name = "NAME")]
    name: String,
    /// What is known of it, by the fields below.
    #[arg(value_name = "FIELD=VALUE")]
    fields: Vec<String>,
}

/// What `trug variety set` takes.
#[derive(Debug, clap::Args)]
pub(super) struct SetArguments {
    /// The variety's name.
    #[arg(value_name = "NAME")]
    name: String,
    /// What it has from now on, by the fields below.
    #[arg(value_name = "FIELD=VALUE", required = true)]
    fields: Vec<String>,
    /// Gives it another name though the trial row or the order go by the one that it has.
    #[arg(long)]
    even_so: bool,
}

/// What `trug variety drop` takes.
#[derive(Debug, clap::Args)]
pub(super) struct DropArguments {
    /// The variety's name.
    #[arg(value_name = "NAME")]
    name: String,
    /// Drops it though the trial row or the order go by its name.
    #[arg(long)]
    even_so: bool,
}

/// The list, open to be changed, and what texts are read against.
struct Bench {
    folder: Folder,
    list: Varieties,
    guard: FileGuard,
    known: NamesKnown,
    own: OwnWords,
}

impl Bench {
    fn open(context: &Context, errors: &mut dyn Write) -> Result<Bench> {
        let folder = open_to_write(context.own_folder()?, errors)?;
        let (list, guard) = open_varieties(&folder)?;
        let (own, _) = folder.read(WORDS, |file, text| read_ron::<OwnWords>(file, text))?;
        Ok(Bench {
            known: NamesKnown::default(),
            own: own.unwrap_or_default(),
            folder,
            list,
            guard,
        })
    }

    fn ground<'a>(&'a self, context: &'a Context, row: Option<usize>) -> DraftGround<'a> {
        DraftGround {
            rules: context.set(),
            words: &context.contents.words,
            own: &self.own,
            list: &self.list,
            row,
            known: &self.known,
            units: context.units,
            stems_a_plant: context.contents.settings.stems_a_plant,
        }
    }

    /// The row of a variety.
    fn row(&self, name: &str) -> Result<usize> {
        let found = self.list.find(name);
        found.ok_or_else(|| {
            bad(format!(
                "found {name:?}, expected {}",
                self.list.expected(name)
            ))
        })
    }

    fn save(&mut self) -> Result<()> {
        Ok(save_varieties(&self.folder, &mut self.guard, &self.list)?)
    }
}

pub(super) fn add(
    arguments: &AddArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let mut fields = read(&arguments.fields)?;
    fields.insert(0, (Draft::NAME, arguments.name.trim().to_string()));
    let mut bench = Bench::open(context, errors)?;
    let ground = bench.ground(context, None);
    let record = filled(Draft::new(), &fields, ground)?;
    bench.list.insert(bench.list.len(), record.clone())?;
    bench.save()?;
    let ground = bench.ground(context, None);
    told(
        (None, Some(&record)),
        "added",
        bench.list.len(),
        ground,
        context,
        out,
    )?;
    Ok(true)
}

pub(super) fn set(
    arguments: &SetArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let fields = read(&arguments.fields)?;
    let mut bench = Bench::open(context, errors)?;
    let row = bench.row(&arguments.name)?;
    let before = bench.list.list()[row].clone();
    let record = filled(
        Draft::of(&before),
        &fields,
        bench.ground(context, Some(row)),
    )?;
    if folded(&record.name) != folded(&before.name) && !arguments.even_so {
        refuse_where_named(&before, context)?;
    }
    if record != before {
        bench.list.replace(row, record.clone())?;
        bench.save()?;
    }
    let done = if record == before {
        "is as it was"
    } else {
        "changed"
    };
    let ground = bench.ground(context, Some(row));
    told(
        (Some(&before), Some(&record)),
        done,
        bench.list.len(),
        ground,
        context,
        out,
    )?;
    Ok(true)
}

pub(super) fn drop(
    arguments: &DropArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let mut bench = Bench::open(context, errors)?;
    let row = bench.row(&arguments.name)?;
    let before = bench.list.list()[row].clone();
    if !arguments.even_so {
        refuse_where_named(&before, context)?;
    }
    bench.list.remove(row);
    bench.save()?;
    let ground = bench.ground(context, None);
    told(
        (Some(&before), None),
        "dropped",
        bench.list.len(),
        ground,
        context,
        out,
    )?;
    Ok(true)
}

/// The record with these fields, whole.
fn filled(mut draft: Draft, fields: &[Given], ground: DraftGround<'_>) -> Result<Variety> {
    take_given(&mut draft, fields, &Draft::words(), ground).map_err(bad)?;
    if let Some((key, told)) = draft.wrong(ground) {
        return Err(bad(format!("{key}: {told}")));
    }
    draft
        .record()
        .ok_or_else(|| bad("found half of a record, expected it whole".to_string()))
}

fn read(fields: &[String]) -> Result<Vec<Given>> {
    let words = Draft::words();
    let read = fields.iter().map(|text| given(text, &words).map_err(bad));
    read.collect()
}

/// Refuses to take a name away that the row or the order go by.
fn refuse_where_named(variety: &Variety, context: &Context) -> Result<()> {
    let folder = context.folder.as_deref();
    let trial = row(folder)?.trial;
    let mut things = trial.naming(&variety.name);
    things.extend(stock(folder, &trial)?.stock.naming(&variety.name));
    // An order that cannot be read says nothing.
    let plan = plan(folder).ok().flatten();
    things.extend(plan.and_then(|plan| plan.naming(&variety.name)));
    match named_by(&variety.name, &things) {
        None => Ok(()),
        Some(told) => Err(bad(format!("{told} Nothing is saved: --even-so saves it"))),
    }
}

fn bad(told: String) -> anyhow::Error {
    anyhow!(BadInput(told))
}
