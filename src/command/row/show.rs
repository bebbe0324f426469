//! `trug row` and `trug row ID`: the row as a table, and what one subject's entries add up to.

use std::io::Write;

use anyhow::Result;
use serde_json::{Value, json};

use super::super::{Context, today};
use super::{Standing, Workings};
use crate::account::{Section, lines, object};
use crate::trial::account::{Fits, Wording, row_table};
use crate::trial::{Next, each_on_all_cores};

/// One subject in full.
pub(super) fn one(
    id: &str,
    workings: &Workings,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let subject = workings.subject(id)?;
    let standing = workings.standing(&subject, context);
    let account = account(&standing, workings, context);
    if context.json {
        context.print(out, object(&account))?;
        return Ok(true);
    }
    print(&lines(&account, usize::MAX), out)
}

/// Every subject by what needs doing next, and the row as a whole.
pub(super) fn all(workings: &Workings, context: &Context, out: &mut dyn Write) -> Result<bool> {
    let trial = &workings.row.trial;
    let (release, today) = (&context.contents.release, today());
    let mut standings: Vec<(Next, Standing)> = each_on_all_cores(&trial.subjects(), |subject| {
        let standing = workings.standing(subject, context);
        let next = Next::of(&standing.evidence, &standing.advice, release, today);
        (next, standing)
    });
    standings.sort_by(|(a, _), (b, _)| a.before(b));
    let whole = trial.whole().account();
    if context.json {
        let plants = standings.iter().map(|(next, standing)| {
            let mut object = object(&account(standing, workings, context));
            object["next"] = json!(next.told);
            object
        });
        let plants: Vec<Value> = plants.collect();
        let object = json!({ "whole": object(&whole), "plants": plants });
        context.print(out, object)?;
        return Ok(true);
    }
    if standings.is_empty() {
        writeln!(out, "The row is empty: `trug row add` adds a seedling.")?;
        return Ok(true);
    }
    let by = wording(workings, context);
    let cells = |(next, standing): &(Next, Standing)| standing.plant().cells(next, &by);
    print(
        &row_table(by.units)
            .with(standings.iter().map(cells))
            .lines(),
        out,
    )?;
    writeln!(out)?;
    print(&lines(&whole, usize::MAX), out)
}

fn account(standing: &Standing, workings: &Workings, context: &Context) -> Vec<Section> {
    let fits = Fits {
        fits: &workings.fits(&standing.evidence, context),
        uses: context.contents.uses.list(),
    };
    let trial = &workings.row.trial;
    standing
        .plant()
        .account(trial, fits, &wording(workings, context))
}

fn wording<'a>(workings: &'a Workings, context: &Context) -> Wording<'a> {
    Wording {
        keyer: &workings.keyer,
        credence: context.contents.release.least.credence,
        units: context.units,
    }
}

fn print(lines: &[String], out: &mut dyn Write) -> Result<bool> {
    for line in lines {
        writeln!(out, "{line}")?;
    }
    Ok(true)
}
