//! `trug stock prices`: what is for sale, as a list for buyers. What programs get:
//!
//! `offers` [`plant`, `name`, `colour` (family), `form`, `size`, `evidence`, `licence`, `left`, `price`,
//! `currency`, `counted` (day)], `withheld` [`plant`, `why`], `warned` [`plant`, `why`], `counted_on` (by the order)
//! [`plant`, `may_be_sold`], `files`.

use std::collections::BTreeMap;
use std::io::Write;
use std::path::PathBuf;

use anyhow::Result;
use jiff::civil::Date;
use serde_json::{Value, json};

use super::super::order::{Last, last, season_year};
use super::super::said::{NONE_FREE, named_or_kept, with_grounds};
use super::super::{Context, printed};
use super::plan::from_store;
use super::{bad, tell};
use crate::account::{Section, lines, object};
use crate::folder::stock::stock;
use crate::stock::Stock;
use crate::table;
use crate::tag::{Offer, Sale, SaleOrder};
use crate::trial::Subject;

/// What stands over the list on paper.
const TITLE: &str = "Dahlias for sale";

/// What `trug stock prices` takes.
#[derive(Debug, clap::Args)]
pub(super) struct PricesArguments {
    /// The plants; without any, all of the book.
    #[arg(value_name = "PLANT")]
    ids: Vec<String>,
    /// How they are ordered: colour (from white to dark) or name.
    #[arg(long, value_name = "colour|name", default_value = SaleOrder::Colour.word(), value_parser = SaleOrder::read)]
    by: SaleOrder,
    /// Writes this file: .pdf or .svg with drawings, or .csv; without it the list is shown here.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// The paper, such as a4 or letter.
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
}

pub(super) fn run(
    arguments: &PricesArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let ending = { arguments.out.as_deref() }
        .map(|path| printed::ending(path, &["pdf", "svg", "csv"]))
        .transpose()?;
    let paper = printed::paper(arguments.paper.as_deref(), context.units)?;
    let (sale, counted_on) = with_grounds(context, |grounds| {
        let read = stock(context.folder.as_deref(), grounds.trial)?;
        tell(&read, errors)?;
        let named = match arguments.ids.is_empty() {
            true => None,
            false => Some(named_or_kept(&arguments.ids, &grounds)?),
        };
        let sale = grounds.on_sale(&read.stock, named.as_deref(), arguments.by);
        let counted_on = counted_on(&sale, &read.stock, context)?;
        Ok((sale, counted_on))
    })?;
    let account = sale.account();
    let practice = &context.contents.tags.practice;
    let files = match (&arguments.out, ending) {
        _ if sale.offers.is_empty() => Vec::new(),
        (Some(path), Some("csv")) => {
            let rows = sale.cells();
            let bytes = table::write(rows.iter().map(Vec::as_slice));
            context.output().write(path, &bytes)?;
            vec![path.clone()]
        }
        (Some(path), Some(ending)) => {
            let selling = context.contents.settings.selling();
            let pages = sale.pages(TITLE, &selling, practice, &paper).map_err(bad)?;
            printed::write(path, ending, TITLE, &pages, context.output())?
        }
        _ => Vec::new(),
    };
    if context.json {
        context.print(out, whole(&account, &sale, &counted_on, &files))?;
        return Ok(true);
    }
    match (sale.offers.is_empty(), files.first()) {
        (true, _) => writeln!(out, "{NONE_FREE}")?,
        (false, None) => {
            for line in lines(&account, usize::MAX) {
                writeln!(out, "{line}")?;
            }
        }
        (false, Some(first)) => {
            let more = match files.len() {
                1 => String::new(),
                files => format!(" and {} more", files - 1),
            };
            let (plants, first) = (sale.counted(), first.display());
            writeln!(out, "Wrote a price list of {plants} to {first}{more}.")?;
            writeln!(out, "{}", practice.selling)?;
        }
    }
    for one in &sale.withheld {
        writeln!(errors, "trug: not for sale: {one}.")?;
    }
    for one in &counted_on {
        writeln!(errors, "trug: {}.", one.told())?;
    }
    // What is to be asked of many is told once.
    let mut warned: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (subject, why) in sale.warned() {
        warned.entry(why).or_default().push(subject.to_string());
    }
    for (why, plants) in warned {
        let plants = plants.join(", ");
        writeln!(errors, "trug: before you sell {plants}: {why}.")?;
    }
    Ok(true)
}

/// An offer of tubers that the grower's own order counts on.
struct CountedOn {
    subject: Subject,
    left: u64,
    /// How many the order lets be sold.
    sell: u64,
    /// The day on which it was settled.
    on: Date,
}

impl CountedOn {
    fn told(&self) -> String {
        let CountedOn {
            subject,
            left,
            sell,
            on,
        } = self;
        format!(
            "{left} of {subject} are offered, and by the order settled on {on} only {sell} may be sold: \
             `trug stock --plan` says how many to keep"
        )
    }
}

/// Of what is offered that of which the order that was settled last plants more than would be left.
fn counted_on(sale: &Sale, stock: &Stock, context: &Context) -> Result<Vec<CountedOn>> {
    let last = match season_year(context)? {
        Some(_) => last(context)?,
        None => None,
    };
    let Some(Last { order, on, .. }) = last else {
        return Ok(Vec::new());
    };
    let (losses, sure) = (stock.losses(), context.contents.settings.sure);
    let of = |one: &Offer| {
        let subject = &one.says.subject;
        let planted = from_store(&order, subject);
        // Of what it does not plant the book's own word counts.
        let sell = stock.to_keep(subject, planted, sure, &losses).sell();
        (planted > 0 && one.left > sell).then(|| CountedOn {
            subject: subject.clone(),
            left: one.left,
            sell,
            on,
        })
    };
    Ok(sale.offers.iter().filter_map(of).collect())
}

/// All of it for another program.
fn whole(account: &[Section], sale: &Sale, counted_on: &[CountedOn], files: &[PathBuf]) -> Value {
    let mut whole = object(account);
    let warned = sale.warned();
    let warned = warned.map(|(subject, why)| json!({ "plant": subject.to_string(), "why": why }));
    whole["warned"] = warned.collect();
    let counted_on = counted_on.iter();
    let counted_on =
        counted_on.map(|one| json!({ "plant": one.subject.to_string(), "may_be_sold": one.sell }));
    whole["counted_on"] = counted_on.collect();
    whole["files"] = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    whole
}
