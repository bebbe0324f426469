//! `trug stock`: the stock book, from lifting to sale.

mod enter;
mod plan;
mod prices;
mod sheet;
mod show;

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};

use super::{BadInput, Context};
use crate::folder::row::row;
use crate::folder::stock::{ReadStock, stock};
use crate::stock::Stock;
use crate::trial::{Subject, Trial};
use crate::variety::Varieties;

/// What `trug stock` takes.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true)]
pub struct StockArguments {
    /// A seedling's number or the name of a variety; without it everybody in the book.
    #[arg(value_name = "PLANT")]
    id: Vec<String>,
    /// Shows what was lifted in this year; without it what of each plant was lifted last.
    #[arg(long, value_name = "YEAR", conflicts_with = "id")]
    year: Option<i16>,
    /// Writes the table as CSV, too.
    #[arg(long, value_name = "FILE.csv", conflicts_with = "id")]
    csv: Option<PathBuf>,
    /// Says by your order how many of each to keep and how many may be sold; of a seedling in how many
    /// years there are enough.
    #[arg(long, conflicts_with_all = ["year", "csv"])]
    plan: bool,
    /// How many tubers of a seedling are enough to offer it, with --plan.
    #[arg(long, value_name = "TUBERS", requires = "plan", value_parser = crate::measure::bounds::read::<u32>)]
    offer: Option<u32>,
    /// What to do with the book.
    #[command(subcommand)]
    what: Option<StockCommand>,
}

/// What can be done with the book.
#[derive(Debug, clap::Subcommand)]
enum StockCommand {
    /// Notes what became of a plant's tubers: lifted, divided, stored, lost, promised, sold ...
    Note(enter::NoteArguments),
    /// Makes a price list of what is free to sell: names, forms, what was seen of them, how many are left.
    Prices(prices::PricesArguments),
    /// Makes a blank table to fill in by pencil.
    Sheet(sheet::SheetArguments),
    /// Takes a filled-in table back as CSV: all of it, or nothing.
    Import(sheet::ImportArguments),
}

pub(super) fn run(
    arguments: &StockArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    match &arguments.what {
        Some(StockCommand::Note(arguments)) => enter::note(arguments, context, out, errors),
        Some(StockCommand::Prices(arguments)) => prices::run(arguments, context, out, errors),
        Some(StockCommand::Sheet(arguments)) => sheet::blank(arguments, context, out, errors),
        Some(StockCommand::Import(arguments)) => sheet::import(arguments, context, out, errors),
        None => {
            let books = Books::new(context)?;
            let id = arguments.id.join(" ");
            let done = match (arguments.id.is_empty(), arguments.plan) {
                (true, false) => show::all(
                    &books,
                    arguments.year,
                    arguments.csv.as_deref(),
                    context,
                    out,
                ),
                (false, false) => show::one(&books.subject(&id)?, &books, context, out),
                (whole, true) => {
                    let of = (!whole).then(|| books.subject(&id)).transpose()?;
                    plan::run(of.as_ref(), arguments.offer, &books, context, out)
                }
            }?;
            tell(&books.read, errors)?;
            Ok(done)
        }
    }
}

/// The stock book beside the row and the list.
struct Books {
    list: Varieties,
    read: ReadStock,
}

impl Books {
    fn new(context: &Context) -> Result<Books> {
        let folder = context.folder.as_deref();
        let trial: Trial = row(folder)?.trial;
        Ok(Books {
            list: context.varieties()?,
            read: stock(folder, &trial)?,
        })
    }

    fn stock(&self) -> &Stock {
        &self.read.stock
    }

    /// Whom an id means: a plant that the book has entries of.
    fn subject(&self, id: &str) -> Result<Subject> {
        let subject: Subject = id.parse().map_err(bad)?;
        let subject = subject.as_listed(&self.list);
        if self.stock().subjects().contains(&subject) {
            return Ok(subject);
        }
        Err(bad(format!(
            "found {subject}, expected a plant of the stock book: `trug stock` lists them"
        )))
    }
}

/// What could not be read of the book, or does not fit together.
fn tell(read: &ReadStock, errors: &mut dyn Write) -> Result<()> {
    for problem in &read.problems {
        writeln!(errors, "trug: {problem}")?;
    }
    Ok(())
}

fn bad(error: impl std::fmt::Display) -> anyhow::Error {
    anyhow!(BadInput(error.to_string()))
}
