//! `trug order --season YEAR`: what came in against what was planned; of the plan's own year also what is
//! left of it. Shares are of the plan, chances 0 to 1.
//!
//! | key | holds |
//! |---|---|
//! | `varieties` | `variety`, `plants`, `stems`, `a_plant`, `planned` (stems a plant), `weeks` [[week, stems]] |
//! | `season`, `taken` | the year; how many counts were saved |
//! | `day`, `told` | up to which day counts are taken; how the season goes, in sentences |
//! | `season_likely`, `seasons` | the season's yield: low, middle, high of nine in ten; ends of it drawn |
//! | `weeks` | `week`, `monday`, `planned`, `planned_of_counted`, `cut` |
//! | `counted` | `variety`, `last` (count), `planned` (by then), `cut`, `likely`, `low`, `high` |
//! | `promises` | `need`, `weeks` left [[week, chance]], `chance` (in all of them) |
//! | `free` | `week`, `monday`, `expected`, `promised`, `free`, `of` [[variety, stems]] |

use std::io::Write;

use anyhow::Result;
use jiff::civil::Date;
use serde_json::json;

use super::tried::whole;
use super::{OrderArguments, against, bad, index, plan, plan_to_save, settling, unanswered};
use crate::account::{self, Section};
use crate::command::Context;
use crate::folder::row::row;
use crate::measure::day;
use crate::order::report::{brought, counts, harvest_section, season_so_far};
use crate::order::{Candidates, Cut, Plan, RowCount, SeasonSoFar};

pub(super) fn run(
    year: i16,
    arguments: &OrderArguments,
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
    let until = until(arguments, context, year, errors)?;
    let cut = read.trial.cut_of_varieties();
    let mut cuts: Vec<Cut> = cut
        .map(|(name, day, counts)| Cut::of(&list, name, day, counts))
        .collect();
    cuts.retain(|cut| until.is_none_or(|until| cut.day <= until));
    let seasons = brought(&planned, &list, context.set(), &cuts, year);
    let counts = counts(&planned, &seasons, year);
    // What was counted in other years stays, and weighs with it.
    let same = |new: &RowCount, old: &RowCount| {
        new.variety == old.variety && old.year.is_none_or(|own| own == year)
    };
    let take = arguments.take_counts;
    if take {
        let (mut plan, folder, mut file) = plan_to_save(context, errors)?;
        plan.season
            .counted
            .retain(|old| counts.iter().all(|new| !same(new, old)));
        plan.season.counted.extend(counts.iter().cloned());
        file.save(&folder, &plan)?;
    }
    let under_way = match planned.season.weeks_of() == year && !seasons.is_empty() {
        true => so_far((&planned, &cuts, until), arguments, context, errors)?,
        false => Vec::new(),
    };
    let account = [under_way, vec![harvest_section(&seasons, year)]].concat();
    if context.json {
        let mut object = account::object(&account);
        object["taken"] = json!(if take { counts.len() } else { 0 });
        context.print(out, object)?;
        return Ok(true);
    }
    for line in account::lines(&account, usize::MAX) {
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

/// The day up to which counts are taken, where one is named.
fn until(
    arguments: &OrderArguments,
    context: &Context,
    year: i16,
    errors: &mut dyn Write,
) -> Result<Option<Date>> {
    let Some(typed) = &arguments.date else {
        return Ok(None);
    };
    let day = day::typed(typed, &context.calendar().planning(year));
    let day = day.map_err(|told| bad(format!("--date: {told}")))?;
    if let Some(told) = day.told() {
        writeln!(errors, "trug: date: {told}")?;
    }
    Ok(Some(day.day))
}

/// How the plan's own season goes: what the order plants, which is settled first; nothing where no count is
/// of what it plants.
fn so_far(
    (plan, cuts, until): (&Plan, &[Cut], Option<Date>),
    arguments: &OrderArguments,
    context: &Context,
    errors: &mut dyn Write,
) -> Result<Vec<Section>> {
    let list = context.varieties_with_evidence()?;
    let index = index(&list, context);
    let against = against(&list, &index, context);
    let planned = whole(arguments, plan, against, context)?;
    let planned = planned.before_its_season();
    let candidates = Candidates::of(&planned, against);
    let unread = |wrong| unanswered(arguments, context, planned.in_file(wrong));
    let candidates = candidates.map_err(unread)?;
    let from = (&planned, candidates, &list);
    let (candidates, order) = settling::planted(arguments, from, context, errors)?;
    let (Some(order), candidates) = (&order, &candidates) else {
        return Ok(Vec::new());
    };
    let so_far = SeasonSoFar::of(&planned, candidates, &list, order, cuts, until);
    Ok(so_far.map_or_else(Vec::new, |one| season_so_far(&planned, &one)))
}
