//! The files that `trug order` writes, each whole or not at all.

use crate::account::text::counted;
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::{OrderArguments, Worked, bad, beds, printed};
use crate::command::printed::{ending, pages as told_pages, paper, write as write_pages};
use crate::command::{Context, today};
use crate::folder::order::ORDER;
use crate::order::Settled;
use crate::order::report::{Chart, calendar, key_dates, sheet, sheet_rows};
use crate::paper::{Lettering, pdf, svg};
use crate::table;

/// What the order sheet is called.
const SHEET: &str = "Order sheet";

/// What the plan of the beds is called.
const BEDS: &str = "What grows where";

/// The files that a drawing may be.
const DRAWN: &[&str] = &["pdf", "svg"];

/// Refuses a file name with the wrong ending, or of a file that is not to be written over, before
/// anything is worked out.
pub(super) fn check(arguments: &OrderArguments, context: &Context) -> Result<()> {
    let chart = arguments.chart.as_ref().and_then(Option::as_ref);
    let sheet = arguments.sheet.as_ref().and_then(Option::as_ref);
    let beds = arguments.beds.as_ref().and_then(Option::as_ref);
    paper(arguments.paper.as_deref(), context.units)?;
    for (path, endings) in [
        (chart, DRAWN),
        (beds, DRAWN),
        (sheet, &["pdf"]),
        (arguments.calendar.as_ref(), &["ics"]),
        (arguments.csv.as_ref(), &["csv"]),
    ] {
        path.map(|path| ending(path, endings)).transpose()?;
    }
    let all = [
        chart,
        sheet,
        beds,
        arguments.calendar.as_ref(),
        arguments.csv.as_ref(),
        arguments.model.as_ref(),
    ];
    let all = all.into_iter().flatten().map(PathBuf::as_path);
    context.output().check(all)
}

/// Writes what was asked for; a sentence for each file.
pub(super) fn write(
    arguments: &OrderArguments,
    worked: &Worked,
    context: &Context,
) -> Result<Vec<String>> {
    let Worked {
        plan,
        list,
        settled,
        chances,
        ..
    } = worked;
    let mut written = Vec::new();
    if arguments.save {
        written.push(format!("{ORDER} is saved."));
    }
    let mut put = |path: &Path, bytes: &[u8], what: String| -> Result<()> {
        context.output().write(path, bytes)?;
        written.push(format!("{} is written: {what}.", path.display()));
        Ok(())
    };
    if let (Some(path), Some(model)) = (&arguments.model, &worked.model) {
        let what = format!(
            "the plan with all {} offers that are open and {} varieties",
            model.offers.len(),
            model.varieties.len()
        );
        put(path, model.to_mps().as_bytes(), what)?;
    }
    if let Some(path) = &arguments.calendar {
        let dates = key_dates(plan, settled, list);
        let text = calendar(&dates, plan.season.planted.year(), super::super::now_utc());
        put(path, text.as_bytes(), counted(dates.len(), "date"))?;
    }
    if let Some(path) = &arguments.csv {
        let rows = sheet_rows(&sheet(plan, ordered(settled)?, list));
        put(
            path,
            &table::write(rows.iter().map(Vec::as_slice)),
            counted(rows.len(), "row"),
        )?;
    }
    if let Some(Some(path)) = &arguments.sheet {
        let pages = printed::pages(
            &sheet(plan, ordered(settled)?, list),
            &paper(arguments.paper.as_deref(), context.units)?,
            &context.contents.settings,
            today(),
        )?;
        if pages.is_empty() {
            return Err(anyhow!(
                "nothing is to be bought, so there is no order sheet"
            ));
        }
        let bytes = pdf(SHEET, &pages).map_err(bad)?;
        put(path, &bytes, told_pages(pages.len()))?;
    }
    if let Some(Some(path)) = &arguments.chart {
        ordered(settled)?;
        if let Some(chart) = Chart::of(plan, settled, chances.as_ref()) {
            let what = counted(chart.weeks.len(), "week");
            let page = chart.page(&paper(arguments.paper.as_deref(), context.units)?)?;
            let bytes = match ending(path, DRAWN)? {
                "svg" => svg(Chart::TITLE, &page, Lettering::Words)?.into_bytes(),
                _ => pdf(Chart::TITLE, &[page])?,
            };
            put(path, &bytes, what)?;
        }
    }
    if let Some(Some(path)) = &arguments.beds {
        let pages = beds::pages(
            ordered(settled)?,
            worked,
            arguments.paper.as_deref(),
            context,
        )?;
        let ending = ending(path, DRAWN)?;
        let files = write_pages(path, ending, BEDS, &pages, context.output())?;
        let told = told_pages(pages.len());
        let more = files.last().filter(|_| files.len() > 1);
        let more = more.map_or(String::new(), |last| format!(" to {}", last.display()));
        let first = files.first().unwrap_or(path).display();
        written.push(format!("{first}{more}: written, {told}."));
    }
    Ok(written)
}

fn ordered(settled: &Settled) -> Result<&crate::order::Order> {
    let order = settled.order.as_ref();
    order.ok_or_else(|| anyhow!("no order was found in the time: --seconds gives it more"))
}
