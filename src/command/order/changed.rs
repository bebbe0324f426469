//! The plan as the command line changes it: figures set, needs added and dropped, tubers fixed.

use std::io::Write;

use anyhow::Result;
use jiff::civil::Date;

use super::{OrderArguments, bad, found};
use crate::command::Context;
use crate::measure::{day, same_id};
use crate::order::{Bed, Item, Need, Plan, Terms, Work};
use crate::variety::{Text, Varieties};

/// The week of the plan's year that a day or a week lies in.
///
/// # Errors
/// Bad input where it is none, or several.
pub(super) fn one_week(typed: &str, plan: &Plan, context: &Context) -> Result<u8> {
    let days = context.calendar().planning(plan.season.weeks_of());
    let weeks = day::weeks(typed, &days).map_err(|told| bad(format!("--have: {told}")))?;
    match weeks.first == weeks.last {
        true => Ok(weeks.first),
        false => Err(bad(format!(
            "--have: found weeks {} to {}, expected one day or one week",
            weeks.first, weeks.last
        ))),
    }
}

/// The plan with every change that was asked for, in the order: needs, beds and suppliers dropped and
/// added, figures set, tubers fixed. `errors` is told what was taken of days that were not typed in full.
///
/// # Errors
/// Bad input where a change means nothing, or the plan then makes no sense.
pub(super) fn changed(
    arguments: &OrderArguments,
    mut plan: Plan,
    list: &Varieties,
    context: &Context,
    errors: &mut dyn Write,
) -> Result<Plan> {
    let days = context.calendar().planning(plan.season.weeks_of());
    for name in &arguments.drop {
        drop_named(&mut plan.needs, |need| &need.name, name, "--drop", "a need")?;
    }
    for (names, of_events, option) in [
        (&arguments.drop_event, true, "--drop-event"),
        (&arguments.drop_round, false, "--drop-round"),
    ] {
        for name in names {
            drop_work(&mut plan, name, of_events, option)?;
        }
    }
    for name in &arguments.drop_bed {
        drop_named(&mut plan.beds, |bed| &bed.name, name, "--drop-bed", "a bed")?;
    }
    for name in &arguments.drop_supplier {
        let expected = "a supplier with terms";
        let option = "--drop-supplier";
        drop_named(
            &mut plan.suppliers,
            |terms| &terms.name,
            name,
            option,
            expected,
        )?;
    }
    for bed in &arguments.add_bed {
        let bed = Bed::read(bed).map_err(|told| bad(format!("--add-bed: {told}")))?;
        plan.beds.push(bed);
    }
    for terms in &arguments.add_supplier {
        let terms =
            Terms::read(terms, &days).map_err(|told| bad(format!("--add-supplier: {told}")))?;
        plan.suppliers.push(terms);
    }
    for need in &arguments.add {
        let added = Need::read(need, &days).map_err(|told| bad(format!("--add: {told}")))?;
        let words = need.split_once(':').map_or("", |(_, words)| words);
        if let Some(weeks) = added.weeks_taken(words, &days, plan.season.weeks_of()) {
            writeln!(errors, "trug: {}: {weeks}", added.name)?;
        }
        plan.needs.push(added);
    }
    for event in &arguments.add_event {
        let event =
            Work::read_event(event, &days).map_err(|told| bad(format!("--add-event: {told}")))?;
        tell_day(&event, &arguments.add_event, errors)?;
        plan.work.push(event);
    }
    for round in &arguments.add_round {
        let round =
            Work::read_round(round, &days).map_err(|told| bad(format!("--add-round: {told}")))?;
        tell_day(&round, &arguments.add_round, errors)?;
        plan.work.push(round);
    }
    for set in &arguments.set {
        let (name, value) = set.split_once('=').ok_or_else(|| {
            bad(format!(
                "--set: found {set:?}, expected a figure and its value, such as money=450"
            ))
        })?;
        let item = Item::named(&plan, name).ok_or_else(|| {
            let known: Vec<String> = (Item::all(&plan).iter())
                .map(|item| {
                    format!(
                        "{} = {}",
                        item.name(&plan),
                        item.value(&plan, context.units)
                    )
                })
                .collect();
            bad(format!(
                "--set: found {:?}, expected one of {}",
                name.trim(),
                known.join("; ")
            ))
        })?;
        let set = item.set(&plan, value.trim(), &days);
        plan = set.map_err(|told| bad(format!("--set: {}: {told}", item.name(&plan))))?;
        if let Some(taken) = item.taken(&plan, value, &days) {
            writeln!(errors, "trug: {}: {taken}", item.name(&plan))?;
        }
    }
    for fix in &arguments.fix {
        let (name, tubers) = fix.rsplit_once('=').unwrap_or((fix, "?"));
        let variety = &list.list()[found(list, name.trim(), "--fix")?];
        if tubers.trim().is_empty() {
            plan.unfix(variety);
            continue;
        }
        let tubers = tubers.trim().parse::<u32>().map_err(|_| {
            bad(format!(
                "--fix: found {fix:?}, expected a variety and its tubers such as {:?}",
                format!("{}=10", variety.name)
            ))
        })?;
        let fixed = plan.fix(variety, tubers);
        fixed.map_err(|told| bad(format!("--fix: {told}")))?;
    }
    plan.shortlist_only |= arguments.shortlist;
    match plan.problems().into_iter().next() {
        Some(problem) => Err(bad(problem)),
        None => Ok(plan),
    }
}

/// Tells the days that were taken where they were not typed in full.
fn tell_day(work: &Work, typed: &[String], errors: &mut dyn Write) -> Result<()> {
    let days = work.when.dates();
    let in_full = |day: &Date| typed.iter().any(|typed| typed.contains(&day.to_string()));
    if !days.iter().all(in_full) {
        writeln!(errors, "trug: {}: {}", work.name, work.when.told())?;
    }
    Ok(())
}

/// Takes an event or a round out of the plan.
fn drop_work(plan: &mut Plan, name: &str, of_events: bool, option: &str) -> Result<()> {
    let own = |work: &&Work| work.is_event() == of_events;
    let named = |work: &Work| own(&work) && same_id(name, work.name.as_str());
    let Some(at) = plan.work.iter().position(named) else {
        let names: Vec<&str> = plan
            .work
            .iter()
            .filter(own)
            .map(|work| work.name.as_str())
            .collect();
        let kind = if of_events { "an event" } else { "a round" };
        let known = match names.is_empty() {
            true => "and there is none".to_string(),
            false => format!("one of {}", names.join(", ")),
        };
        return Err(bad(format!(
            "{option}: found {name:?}, expected {kind}: {known}"
        )));
    };
    plan.work.remove(at);
    Ok(())
}

/// Takes the one of this name out of a list, in any case of letters.
fn drop_named<T>(
    list: &mut Vec<T>,
    name_of: impl for<'a> Fn(&'a T) -> &'a Text,
    name: &str,
    option: &str,
    expected: &str,
) -> Result<()> {
    let named = |one: &T| same_id(name, name_of(one).as_str());
    let Some(at) = list.iter().position(named) else {
        let names: Vec<&str> = list.iter().map(|one| name_of(one).as_str()).collect();
        return Err(bad(format!(
            "{option}: found {name:?}, expected {expected}: {}",
            names.join(", ")
        )));
    };
    list.remove(at);
    Ok(())
}
