//! The plan as the command line changes it: figures set, needs added and dropped, tubers fixed.

use std::io::Write;

use anyhow::Result;

use super::{OrderArguments, bad, found};
use crate::command::Context;
use crate::measure::{day, same_id};
use crate::order::{Bed, Item, Need, Plan, Terms};
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
