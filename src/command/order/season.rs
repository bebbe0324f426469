//! `trug order --season YEAR`: what came in against what was planned.

use std::io::Write;

use anyhow::Result;
use serde_json::json;

use super::{plan, plan_to_save};
use crate::account;
use crate::command::Context;
use crate::folder::row::row;
use crate::order::RowCount;
use crate::order::report::{Cut, brought, counts, harvest_section};
use crate::trial::{Subject, Trial};
use crate::variety::Varieties;

pub(super) fn run(
    year: i16,
    take: bool,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let list = context.varieties()?;
    let read = row(context.folder.as_deref())?;
    for problem in &read.problems {
        writeln!(errors, "trug: {problem}")?;
    }
    let planned = plan(context)?;
    let cuts = cuts(&read.trial, &list);
    let seasons = brought(&planned, &list, context.set(), &cuts, year);
    let counts = counts(&planned, &seasons, year);
    // What was counted in other years stays, and weighs with it.
    let same = |new: &RowCount, old: &RowCount| {
        new.variety == old.variety && old.year.is_none_or(|own| own == year)
    };
    if take {
        let (mut plan, folder, mut file) = plan_to_save(context, errors)?;
        plan.season
            .counted
            .retain(|old| counts.iter().all(|new| !same(new, old)));
        plan.season.counted.extend(counts.iter().cloned());
        file.save(&folder, &plan)?;
    }
    let account = harvest_section(&seasons, year);
    if context.json {
        let mut object = account::object(&[account]);
        object["taken"] = json!(if take { counts.len() } else { 0 });
        context.print(out, object)?;
        return Ok(true);
    }
    for line in account::section_lines(&account, usize::MAX) {
        writeln!(out, "{line}")?;
    }
    if take {
        writeln!(
            out,
            "\nThe counts of {} varieties are in your order, saved: the next plan reckons with them.",
            counts.len()
        )?;
    } else if !counts.is_empty() {
        writeln!(
            out,
            "\n--take-counts saves them in your order, and the next plan reckons with them."
        )?;
    }
    Ok(true)
}

/// The row's counts of varieties of the list, by the names that the list has for them.
fn cuts(trial: &Trial, list: &Varieties) -> Vec<Cut> {
    let mut cuts = Vec::new();
    for subject in trial.subjects() {
        let Subject::Variety(name) = &subject else {
            continue;
        };
        let name = list.find(name).map_or(name, |row| &list.list()[row].name);
        for (entry, seen) in trial.observations(&subject) {
            if seen.cut.is_some() || seen.plants.is_some() {
                cuts.push(Cut {
                    variety: name.clone(),
                    day: entry.date,
                    stems: seen.cut,
                    plants: seen.plants,
                });
            }
        }
    }
    cuts
}
