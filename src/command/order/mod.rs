//! `trug order`: the order settled, and what it prints.

mod changed;
mod files;
mod object;
mod printed;
mod season;
mod show;
#[cfg(test)]
mod tests;

use std::io::Write;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use anyhow::{Result, anyhow};

use super::{BadInput, Context, now, season_ahead};
use crate::folder::order::{OrderFile, open_plan};
use crate::folder::{Folder, FolderError, order};
use crate::order::model::Model;
use crate::order::solve::Progress;
use crate::order::{
    Against, Candidates, Chances, Mend, Plan, SEASONS, Settled, Status, chances, mends,
    settle_candidates, without,
};
use crate::variety::{Index, Money, Varieties};

/// What `trug order` takes.
#[derive(Debug, clap::Args)]
pub struct OrderArguments {
    /// Prints the order by supplier alone: packs, cost, postage; or writes it as PDF, a supplier a page.
    #[arg(long, value_name = "FILE.pdf", num_args = 0..=1)]
    sheet: Option<Option<PathBuf>>,
    /// The paper of a PDF, such as a4 or letter.
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
    /// Prints stems needed against expected by week, or writes the chart as SVG.
    #[arg(long, value_name = "FILE.svg", num_args = 0..=1)]
    chart: Option<Option<PathBuf>>,
    /// Prints which stretch of which bed each variety takes.
    #[arg(long)]
    beds: bool,
    /// Prints the chance that each need is met in each week.
    #[arg(long)]
    risk: bool,
    /// Prints which needs and weeks a variety serves, and what it would cost to do without it.
    #[arg(long, value_name = "VARIETY")]
    why: Vec<String>,
    /// Writes the key dates as iCalendar: order by, pot up, plant, pinch, first cut, lift.
    #[arg(long, value_name = "FILE.ics")]
    calendar: Option<PathBuf>,
    /// Writes the order sheet as CSV.
    #[arg(long, value_name = "FILE.csv")]
    csv: Option<PathBuf>,
    /// Writes the plan as an integer program in free MPS, with every offer that is open and the
    /// objective in money, for any solver to check.
    #[arg(long, value_name = "FILE")]
    model: Option<PathBuf>,
    /// Buys exactly so many tubers of a variety and solves the rest; with nothing after = it is
    /// chosen again.
    #[arg(long, value_name = "VARIETY=TUBERS")]
    fix: Vec<String>,
    /// Changes a figure: money=450, 'sea wall=20m', 'quay stall bunches=60 30-42 within=8'.
    #[arg(long, value_name = "FIGURE=VALUE")]
    set: Vec<String>,
    /// Adds a need: 'wedding: 40 37-37 colours=plum,wine within=8'.
    #[arg(long, value_name = "NEED")]
    add: Vec<String>,
    /// Leaves a need out.
    #[arg(long, value_name = "NEED")]
    drop: Vec<String>,
    /// Buys only what is on the shortlist.
    #[arg(long)]
    shortlist: bool,
    /// Saves what --set, --add, --drop, --fix and --shortlist change; else it is tried and forgotten.
    #[arg(long)]
    save: bool,
    /// Stops a search after so many seconds, with the best found and how far it may be from the least.
    #[arg(long, value_name = "N", default_value_t = 60)]
    seconds: u64,
    /// Lays out a first order in a folder that has none.
    #[arg(long)]
    begin: bool,
    /// Shows instead what came in in a year against what was planned, by the trial row's counts.
    #[arg(long, value_name = "YEAR")]
    season: Option<i16>,
    /// With --season: saves the counts in the order, for the next plan to reckon with.
    #[arg(long, requires = "season")]
    take_counts: bool,
}

/// A settled order and what it was settled from.
struct Worked {
    plan: Plan,
    list: Varieties,
    settled: Settled,
    /// What would mend it, where needs fall short.
    mends: Vec<Mend>,
    chances: Option<Chances>,
    /// What was asked about.
    asked: Vec<Asked>,
    /// The plan with every offer, where it is to be written.
    model: Option<Model>,
}

/// A variety that was asked about.
struct Asked {
    name: String,
    lines: Vec<String>,
    /// Whether it is bought or planted.
    in_order: bool,
    /// What doing without it costs more; `None` where that is no question.
    without: Option<Without>,
}

/// What doing without a variety comes to.
enum Without {
    /// So much more.
    Costs(Money),
    /// The needs cannot be met without it, or no way was found in the time.
    NotFound,
}

pub(super) fn run(
    arguments: &OrderArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    if arguments.begin {
        return begin(context, out);
    }
    if let Some(year) = arguments.season {
        return season::run(year, arguments.take_counts, context, out, errors);
    }
    files::check(arguments, context)?;
    let worked = worked(arguments, context)?;
    let written = files::write(arguments, &worked, context)?;
    if context.json {
        writeln!(
            out,
            "{:#}",
            object::of(arguments, &worked, context, &written)
        )?;
    } else {
        show::all(arguments, &worked, context, &written, out)?;
    }
    Ok(true)
}

/// Lays out a first order in a folder that has none.
fn begin(context: &Context, out: &mut dyn Write) -> Result<bool> {
    let folder = Folder::open(context.own_folder()?, &now())?;
    let (plan, mut file) = open_plan(&folder).map_err(told)?;
    if plan.is_some() {
        return Err(bad(format!(
            "found an {} in your folder, expected none: it is never written over",
            order::ORDER
        )));
    }
    file.begin(&folder, season_ahead())?;
    if context.json {
        let object = serde_json::json!({ "written": [format!("{} is saved.", order::ORDER)] });
        writeln!(out, "{object:#}")?;
    } else {
        writeln!(out, "{} is laid out: fill it in.", order::ORDER)?;
    }
    Ok(true)
}

/// The plan of the folder or of the demo.
fn plan(context: &Context) -> Result<Plan> {
    let read = order::plan(context.folder.as_deref()).map_err(told)?;
    read.ok_or_else(none)
}

/// The plan of one's own folder, which no other program may write meanwhile.
fn plan_to_save(context: &Context) -> Result<(Plan, Folder, OrderFile)> {
    let folder = Folder::open(context.own_folder()?, &now())?;
    let (read, file) = open_plan(&folder).map_err(told)?;
    let plan = read.ok_or_else(none)?;
    Ok((plan, folder, file))
}

fn told(error: FolderError) -> anyhow::Error {
    match error {
        FolderError::Unreadable { .. } => bad(error),
        error => anyhow!(error),
    }
}

fn none() -> anyhow::Error {
    bad(format!(
        "found no {}, expected one in your folder: `trug order --begin` lays one out to be filled in",
        order::ORDER
    ))
}

fn worked(arguments: &OrderArguments, context: &Context) -> Result<Worked> {
    let (read, own) = match arguments.save {
        true => {
            let (plan, folder, file) = plan_to_save(context)?;
            (plan, Some((folder, file)))
        }
        false => (plan(context)?, None),
    };
    let list = context.varieties_with_evidence()?;
    let plan = changed::changed(arguments, read, &list, context)?;
    let rows: Vec<usize> = (arguments.why.iter())
        .map(|name| found(&list, name, "--why"))
        .collect::<Result<_>>()?;
    let grounds = context.contents.grounds(context.set());
    let index = Index::new(&list, grounds);
    let against = Against {
        list: &list,
        index: &index,
        grounds,
    };
    let candidates =
        Candidates::of(&plan, against).map_err(|told| unanswered(arguments, context, &told))?;
    // What makes no sense is not saved; what cannot be met may be.
    if let Some((folder, mut file)) = own {
        file.save(&folder, &plan)?;
    }
    let settled = settle_candidates(candidates, &mut after(arguments.seconds));
    let mends = match settled.status {
        Status::Short { .. } => mends(&plan, against, &settled, &mut after(arguments.seconds)),
        _ => Vec::new(),
    };
    let asked = rows
        .into_iter()
        .map(|row| asked(row, &plan, against, &settled, arguments.seconds))
        .collect();
    let whole = || Candidates::whole(&plan, against);
    let model = { arguments.model.as_ref() }.map(|_| whole()).transpose();
    let model = model.map_err(|told| unanswered(arguments, context, &told))?;
    let ranged = context.json || arguments.risk || arguments.chart.is_some();
    let chances = (settled.order.as_ref().filter(|_| ranged))
        .map(|order| chances(&plan, &settled.candidates, &list, order, SEASONS));
    Ok(Worked {
        plan,
        list,
        settled,
        mends,
        chances,
        asked,
        model,
    })
}

fn asked(row: usize, plan: &Plan, against: Against<'_>, settled: &Settled, seconds: u64) -> Asked {
    let name = against.list.list()[row].name.to_string();
    let planted = settled
        .order
        .as_ref()
        .and_then(|order| order.planted.iter().find(|one| one.row == row));
    match planted {
        None => Asked {
            lines: crate::order::report::why_not(plan, settled, row, &name),
            name,
            in_order: false,
            without: None,
        },
        Some(planted) => {
            // An order that falls short costs nothing that could be compared.
            let met = matches!(settled.status, Status::Optimal | Status::Within { .. });
            let without = met.then(|| {
                let dearer = without(plan, against, settled, row, &mut after(seconds));
                dearer.map_or(Without::NotFound, Without::Costs)
            });
            Asked {
                lines: crate::order::report::why(plan, settled, planted),
                name,
                in_order: true,
                without,
            }
        }
    }
}

/// What the list cannot answer: at its lines, where the plan is as it is in the file.
fn unanswered(arguments: &OrderArguments, context: &Context, told: &[String]) -> anyhow::Error {
    let typed = [&arguments.set, &arguments.add, &arguments.fix];
    let text = order::text(context.folder.as_deref());
    match text.filter(|_| typed.iter().all(|typed| typed.is_empty())) {
        None => bad(told.join("; ")),
        Some(text) => {
            let problems = Plan::located(order::ORDER, &text, told);
            let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
            bad(told.join("; "))
        }
    }
}

/// Ends a search after so many seconds.
fn after(seconds: u64) -> impl FnMut(Progress) -> bool {
    let begun = Instant::now();
    move |_| begun.elapsed() >= Duration::from_secs(seconds)
}

fn found(list: &Varieties, name: &str, option: &str) -> Result<usize> {
    list.find(name).ok_or_else(|| {
        bad(format!(
            "{option}: found {name:?}, expected {}",
            list.expected(name)
        ))
    })
}

fn bad(error: impl std::fmt::Display) -> anyhow::Error {
    anyhow!(BadInput(error.to_string()))
}
