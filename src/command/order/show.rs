//! The order in plain text.

use std::io::Write;

use anyhow::Result;

use super::asked::{Asked, Surer, Without};
use super::{OrderArguments, Worked};
use crate::account::{Section, lines};
use crate::command::Context;
use crate::order::report::account::{
    causes, dates, figures, mended, needs, notes, planted, promises, risk, shortfall, spreads,
    status, surer,
};
use crate::order::report::{Chart, bed_plan, beds, have, sheet};

/// Columns of what is drawn.
const COLUMNS: usize = 96;

pub(super) fn all(
    arguments: &OrderArguments,
    worked: &Worked,
    context: &Context,
    written: &[String],
    out: &mut dyn Write,
) -> Result<()> {
    let Worked { plan, settled, .. } = worked;
    for line in lines(&[status(plan, settled)], usize::MAX)
        .iter()
        .chain(written)
    {
        writeln!(out, "{line}")?;
    }
    part(out, &[promises(plan, settled)])?;
    let why = causes(plan, settled, &worked.causes);
    match settled.falls_short() {
        true => part(
            out,
            &[shortfall(plan, settled), why, mended(plan, &worked.mends)],
        )?,
        false => part(out, &[why])?,
    }
    let Some(order) = &settled.order else {
        return Ok(());
    };
    for asked in &worked.asked {
        print(&about_variety(asked), out)?;
    }
    let currency = context.contents.settings.currency.as_ref();
    let currency = currency.map(|word| format!("Amounts are in {word}."));
    let currency: Vec<String> = currency.into_iter().collect();
    if arguments.sheet == Some(None) {
        part(out, &sheet(plan, order, &worked.list))?;
        print(&currency, out)?;
    }
    if arguments.chart == Some(None) {
        let chart = Chart::of(plan, settled, worked.chances.as_ref());
        print(
            &chart.map_or_else(Vec::new, |chart| chart.text(COLUMNS)),
            out,
        )?;
    }
    if arguments.beds == Some(None) {
        let stretches = bed_plan(plan, order, &settled.candidates.first_cuts);
        part(out, &beds(plan, &stretches, context.units))?;
    }
    if let Some(Surer { of, steps }) = &worked.surer {
        part(out, &[surer(plan, *of, steps)])?;
    }
    if let Some(chances) = worked.chances.as_ref().filter(|_| arguments.risk) {
        part(out, &[risk(plan, chances, COLUMNS), spreads(plan)])?;
    }
    if let Some(week) = worked.have {
        part(out, &[have(plan, settled, order, &worked.list, week)])?;
    }
    let printed = arguments.sheet == Some(None) || arguments.chart == Some(None);
    let printed = printed || arguments.beds == Some(None);
    let narrowed = printed
        || arguments.risk
        || worked.surer.is_some()
        || worked.have.is_some()
        || !worked.asked.is_empty();
    // Who asked for files wants the files.
    if narrowed || written.len() > usize::from(arguments.save) {
        return Ok(());
    }
    part(out, &sheet(plan, order, &worked.list))?;
    print(&currency, out)?;
    part(
        out,
        &[
            needs(plan, settled, order),
            planted(plan, settled, order),
            dates(plan, settled, &worked.list),
            figures(plan, &worked.list),
            notes(settled),
        ],
    )
}

/// Sections after a blank line.
fn part(out: &mut dyn Write, sections: &[Section]) -> Result<()> {
    print(&lines(sections, COLUMNS), out)
}

/// A blank line, and these after it, if there are any.
fn print(lines: &[String], out: &mut dyn Write) -> Result<()> {
    if !lines.is_empty() {
        writeln!(out)?;
    }
    for line in lines {
        writeln!(out, "{line}")?;
    }
    Ok(())
}

fn about_variety(asked: &Asked) -> Vec<String> {
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
