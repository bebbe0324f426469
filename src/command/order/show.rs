//! The order in plain text.

use std::io::Write;

use anyhow::Result;

use super::{Asked, OrderArguments, Without, Worked};
use crate::command::Context;
use crate::order::report::{
    Chart, Lack, aligned, bed_lines, bed_plan, chance_lines, key_dates, lacking, mend_told,
    reckoned, risk_told, sheet, short_lines, status_told, weeks_in_words,
};
use crate::order::{Order, Plan};
use crate::screen::text::wrap;

/// Columns of what is drawn.
const COLUMNS: usize = 96;
/// Before a line of a list, and before what goes on from it.
const INDENT: &str = "  ";
const MORE: &str = "    ";

pub(super) fn all(
    arguments: &OrderArguments,
    worked: &Worked,
    context: &Context,
    written: &[String],
    out: &mut dyn Write,
) -> Result<()> {
    let Worked { plan, settled, .. } = worked;
    if context.contents.demo {
        writeln!(
            out,
            "The demo's order, for there is no folder of your own: `trug start DIR` lays one out."
        )?;
    }
    writeln!(out, "{}", status_told(settled))?;
    for line in written {
        writeln!(out, "{line}")?;
    }
    let mut part = |lines: Vec<String>| -> Result<()> {
        writeln!(out)?;
        for line in lines {
            writeln!(out, "{line}")?;
        }
        Ok(())
    };
    let short = short_lines(plan, settled);
    if !short.is_empty() {
        let head = match settled.order {
            Some(_) => "This order falls short by the fewest stems that were found:",
            None => "There is no order to show:",
        };
        let told = short.into_iter().map(|line| format!("  {line}"));
        part(std::iter::once(head.to_string()).chain(told).collect())?;
        part(mended(worked))?;
    }
    let Some(order) = &settled.order else {
        return Ok(());
    };
    for asked in &worked.asked {
        part(told_of(asked))?;
    }
    if arguments.sheet == Some(None) {
        part(sheet(plan, order, &worked.list))?;
    }
    if arguments.chart == Some(None) {
        let chart = Chart::of(plan, settled, worked.chances.as_ref());
        part(chart.map_or_else(Vec::new, |chart| chart.text(COLUMNS)))?;
    }
    if arguments.beds {
        let stretches = bed_plan(plan, order, &settled.candidates.first_cuts);
        part(bed_lines(plan, &stretches, context.units))?;
    }
    if let Some(chances) = worked.chances.as_ref().filter(|_| arguments.risk) {
        part(chance_lines(plan, chances, COLUMNS))?;
        part(wrap(&risk_told(plan), COLUMNS))?;
    }
    let printed = arguments.sheet == Some(None) || arguments.chart == Some(None);
    let narrowed = printed || arguments.beds || arguments.risk || !worked.asked.is_empty();
    // Who asked for files wants the files.
    if narrowed || written.len() > usize::from(arguments.save) {
        return Ok(());
    }
    part(sheet(plan, order, &worked.list))?;
    part(needs(plan, order, &lacking(settled)))?;
    part(beds_and_spares(plan, order))?;
    let dates = key_dates(plan, settled, &worked.list);
    let dates = dates
        .iter()
        .map(|date| format!("  {}  {}", date.day.strftime("%a %e %b %Y"), date.what));
    part(std::iter::once("Dates:".to_string()).chain(dates).collect())?;
    let figures = reckoned(plan);
    let figures = figures
        .iter()
        .map(|one| format!("  {}: {} ({})", one.name, one.value, one.source));
    part(
        std::iter::once("Reckoned with:".to_string())
            .chain(figures)
            .collect(),
    )?;
    if !settled.candidates.notes.is_empty() {
        part(settled.candidates.notes.clone())?;
    }
    Ok(())
}

fn mended(worked: &Worked) -> Vec<String> {
    if worked.mends.is_empty() {
        return vec![
            "No single change that mends it was found: change two things at once, or ask for less."
                .to_string(),
        ];
    }
    let told = |mend| {
        let lines = wrap(&mend_told(&worked.plan, mend), COLUMNS - MORE.len());
        let indents = std::iter::once(INDENT).chain(std::iter::repeat(MORE));
        let lines = indents.zip(lines);
        lines
            .map(|(indent, line)| format!("{indent}{line}"))
            .collect::<Vec<_>>()
    };
    let told = worked.mends.iter().flat_map(told);
    std::iter::once("Any one of these would mend it, all else as it is:".to_string())
        .chain(told)
        .collect()
}

fn told_of(asked: &Asked) -> Vec<String> {
    let mut lines = asked.lines.clone();
    lines.extend(asked.without.as_ref().map(|without| match without {
        Without::Costs(more) if more.in_hundredths() == 0 => {
            "  doing without it costs no more: others do as well".to_string()
        }
        Without::Costs(more) => {
            format!("  doing without it costs {more} more, as far as was found")
        }
        Without::NotFound => "  no way to meet every need without it was found".to_string(),
    }));
    lines
}

/// Each need, and which varieties give most of it.
fn needs(plan: &Plan, order: &Order, lacks: &[Lack]) -> Vec<String> {
    let mut rows = vec![
        ["need", ">a week", "weeks", "met", "most from"]
            .map(str::to_string)
            .to_vec(),
    ];
    for (at, need) in plan.needs.iter().enumerate() {
        let short = order.short().filter(|one| one.need == at).count();
        let mut gives: Vec<(f64, &str)> = (order.planted.iter())
            .flat_map(|one| {
                one.gives
                    .iter()
                    .map(move |gives| (gives, one.variety.as_str()))
            })
            .filter(|(gives, _)| gives.need == at)
            .map(|(gives, variety)| (gives.stems, variety))
            .collect();
        gives.sort_by(|one, other| other.0.total_cmp(&one.0));
        let all: f64 = gives.iter().map(|(stems, _)| stems).sum();
        let most = gives
            .iter()
            .take(2)
            .map(|(stems, variety)| format!("{variety} {:.0} %", stems / all * 100.0));
        let weeks: Vec<u8> = (need.weeks.0..=need.weeks.1).collect();
        rows.push(vec![
            need.name.to_string(),
            need.stems.to_string(),
            weeks_in_words(&weeks),
            match short {
                0 if lacks.iter().any(|lack| lack.need == Some(at)) => "too few kinds".to_string(),
                0 => "yes".to_string(),
                short => format!("short, {short} w"),
            },
            most.collect::<Vec<_>>().join(", "),
        ]);
    }
    aligned(&rows)
}

fn beds_and_spares(plan: &Plan, order: &Order) -> Vec<String> {
    let mut lines = vec![format!(
        "{} plants in {} places; {}.",
        order.plants,
        plan.places(),
        plan.money
            .map_or("no limit of money".to_string(), |money| format!(
                "{} of {money}",
                order.cost
            ))
    )];
    let told = |list: Vec<String>, lead: &str| match list.is_empty() {
        true => Vec::new(),
        false => wrap(&format!("{lead}: {}.", list.join(", ")), COLUMNS),
    };
    let spare = order.planted.iter().filter(|one| one.spare > 0);
    lines.extend(told(
        spare
            .map(|one| format!("{} {}", one.variety, one.spare))
            .collect(),
        "Spare tubers",
    ));
    let own = order
        .planted
        .iter()
        .filter(|one| one.on_hand > 0 && one.plants > 0);
    lines.extend(told(
        own.map(|one| format!("{} {}", one.variety, one.plants.min(one.on_hand)))
            .collect(),
        "From your own store (what is expected to keep)",
    ));
    lines
}
