//! `--copies stock`: as many tags of each plant as the stock book has free to sell, at the price that it asks.

use std::io::Write;

use anyhow::Result;

use super::arguments::TagArguments;
use crate::command::Context;
use crate::command::said::named_or_kept;
use crate::folder::stock::stock;
use crate::tag::{ClaimSources, PerPlant, Refused, Selling};
use crate::trial::Subject;

/// What is typed for as many as there are.
const STOCK: &str = "stock";

/// Whether as many are asked for as there are, and what was typed beside that.
pub(super) fn split(typed: &[String]) -> (bool, Vec<String>) {
    let is_stock = |one: &&String| one.trim().eq_ignore_ascii_case(STOCK);
    let others = typed.iter().filter(|one| !is_stock(one)).cloned();
    (typed.iter().any(|one| is_stock(&one)), others.collect())
}

/// The plants of which there are any, how many, and those that were named of which there are none.
#[derive(Default)]
pub(super) struct ForSale {
    pub(super) subjects: Vec<Subject>,
    pub(super) none: Vec<Refused>,
}

/// Of the plants that were named, or of all in the book, those that may be sold, with their numbers and prices.
pub(super) fn for_sale(
    arguments: &TagArguments,
    grounds: &ClaimSources<'_>,
    (copies, selling): (&mut PerPlant<u32>, &mut Selling),
    context: &Context,
    errors: &mut dyn Write,
) -> Result<ForSale> {
    let read = stock(context.folder.as_deref(), grounds.trial)?;
    for problem in &read.problems {
        writeln!(errors, "trug: {problem}")?;
    }
    let named = !arguments.ids.is_empty();
    // A price that was typed for all is for all.
    let by_stock = arguments.price.iter().all(|typed| typed.contains('='));
    let subjects = match named {
        true => named_or_kept(&arguments.ids, grounds)?,
        false => { read.stock.subjects().into_iter() }
            .filter_map(|subject| grounds.find(&subject))
            .collect(),
    };
    let (mut free, mut none) = (Vec::new(), Vec::new());
    for subject in subjects {
        match grounds.free(&read.stock, &subject) {
            Ok(own) => free.push((subject, own)),
            Err(why) if named => none.push(why),
            // Nobody asked for it.
            Err(_) => {}
        }
    }
    let own = || free.iter().map(|(subject, own)| (subject, own));
    own().for_each(|(subject, own)| copies.set(Some(subject.clone()), own.copies()));
    if by_stock {
        *selling = selling.priced_by(own());
    }
    Ok(ForSale {
        subjects: free.into_iter().map(|(subject, _)| subject).collect(),
        none,
    })
}
