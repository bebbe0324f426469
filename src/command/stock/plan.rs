//! `trug stock --plan`: how many of each to keep for the next order and how many may be sold, and in how
//! many years there are enough of a seedling.

use std::io::Write;

use anyhow::Result;

use super::super::Context;
use super::super::order::{Last, last};
use super::{Books, bad};
use crate::account::{lines, object};
use crate::order::Order;
use crate::stock::Increase;
use crate::stock::account::plan_account;
use crate::trial::Subject;

/// Tubers of a seedling that are enough to offer it, where nobody says how many. Our choice.
const OFFERED: u32 = 100;

pub(super) fn run(
    of: Option<&Subject>,
    offer: Option<u32>,
    books: &Books,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let last = last(context)?.ok_or_else(|| {
        bad("found no order that was settled, expected one to keep tubers for: `trug order` settles it")
    })?;
    let Last { plan, order, .. } = &last;
    let stock = books.stock();
    let losses = stock.losses();
    let subjects: Vec<Subject> = match of {
        Some(one) => vec![one.clone()],
        None => stock.subjects(),
    };
    let sure = context.contents.settings.sure;
    let sell = subjects
        .iter()
        .map(|one| stock.to_keep(one, from_store(order, one), sure, &losses));
    let sell: Vec<_> = sell.filter(|one| one.own > 0).collect();
    let (stands, keeps) = (plan.season.plants_kept(), plan.storage() / 100.0);
    let seedlings = subjects
        .iter()
        .filter(|one| matches!(one, Subject::Seedling(_)));
    let grown = seedlings.map(|one| stock.increase(one, stands, keeps, &losses));
    let grown: Vec<Increase> = grown.filter(|one| one.from > 0).collect();
    let mut notes = vec![format!(
        "By the order settled on {} for {}; spares so that with a chance of {:.0} in 100 as many are sound as it plants.",
        last.on,
        plan.season.planted.year(),
        sure * 100.0
    )];
    if !last.is_current {
        notes.push(
            "What it was settled from has changed since: `trug order` settles it again.".into(),
        );
    }
    let wanted = offer.unwrap_or(OFFERED);
    let account = plan_account(&sell, &grown, wanted.into(), notes);
    if context.json {
        context.print(out, object(&account))?;
        return Ok(true);
    }
    for line in lines(&account, usize::MAX) {
        writeln!(out, "{line}")?;
    }
    Ok(true)
}

/// How many tubers of its own store an order plants of a plant.
pub(super) fn from_store(order: &Order, subject: &Subject) -> u64 {
    let name = subject.to_string();
    let own = order.planted.iter().find(|one| one.variety == name);
    own.map_or(0, |one| one.plants.min(one.on_hand))
}
