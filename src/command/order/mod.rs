//! `trug order`: the order settled, and what it prints.

mod beds;
mod changed;
mod files;
mod last;
mod object;
mod printed;
mod season;
mod settling;
mod show;
#[cfg(test)]
mod tests;
mod tried;
mod work;

pub(super) use last::{Last, last};

use std::io::Write;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use anyhow::{Result, anyhow};
use clap::builder::RangedU64ValueParser;

use super::{BadInput, Context, open_to_write, season_ahead};
use crate::folder::order::{OrderFile, open_plan};
use crate::folder::{Folder, FolderError, order};
use crate::measure::brief;
use crate::order::model::Model;
use crate::order::solve::Progress;
use crate::order::{
    Aim, Candidates, Cause, Chances, ListContext, Mend, Plan, SEASONS, Settled, causes, chances,
    mends, what_surer_costs, without,
};
use crate::problem::{Problem, Wrong, sentences};
use crate::variety::{Index, Money, Varieties, folded};

/// What `trug order` takes.
#[derive(Debug, clap::Args)]
pub struct OrderArguments {
    /// Tries another figure: money=450, 'sea wall=20m', 'quay stall bunches=60 30-42 within=8'.
    #[arg(long, value_name = "FIGURE=VALUE")]
    set: Vec<String>,
    /// Tries one more need: 'wedding: 40 37-37 colours=plum,wine within=8' (40 stems in week 37).
    #[arg(long, value_name = "NEED")]
    add: Vec<String>,
    /// Tries it without a need.
    #[arg(long, value_name = "NEED")]
    drop: Vec<String>,
    /// Tries one more event: 'Berry wedding: 2027-09-12 12 table bowl, 8 buttonhole colours=plum,blush'.
    #[arg(long, value_name = "EVENT")]
    add_event: Vec<String>,
    /// Tries it without an event.
    #[arg(long, value_name = "EVENT")]
    drop_event: Vec<String>,
    /// Tries one more round: 'shop: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm'.
    #[arg(long, value_name = "ROUND")]
    add_round: Vec<String>,
    /// Tries it without a round.
    #[arg(long, value_name = "ROUND")]
    drop_round: Vec<String>,
    /// Tries one more bed: 'byre length=24m width=1.2m spacing=40cm rows=3'.
    #[arg(long, value_name = "BED")]
    add_bed: Vec<String>,
    /// Tries it without a bed.
    #[arg(long, value_name = "BED")]
    drop_bed: Vec<String>,
    /// Tries it with a supplier's terms: 'Oar Bulbs postage=7.50 free=250 least=20 closes=2027-02-28'.
    #[arg(long, value_name = "TERMS")]
    add_supplier: Vec<String>,
    /// Tries it without a supplier's terms; the offers stay.
    #[arg(long, value_name = "SUPPLIER")]
    drop_supplier: Vec<String>,
    /// Tries it with so many tubers of a variety, no more and no fewer; with nothing after the = it
    /// is free again.
    #[arg(long, value_name = "VARIETY=TUBERS")]
    fix: Vec<String>,
    /// Tries it with only what is on your shortlist.
    #[arg(long)]
    shortlist: bool,
    /// Saves what you tried with the options above; without it nothing is saved.
    #[arg(long)]
    save: bool,
    /// Shows only what to order from whom, with packs, cost and postage; or writes it as PDF, each
    /// supplier on a page of its own.
    #[arg(long, value_name = "FILE.pdf", num_args = 0..=1)]
    sheet: Option<Option<PathBuf>>,
    /// Shows the stems that are needed and expected each week; or writes the chart as PDF or SVG.
    #[arg(long, value_name = "FILE.pdf|.svg", num_args = 0..=1)]
    chart: Option<Option<PathBuf>>,
    /// Settles for a usual season, in which every figure is as planned, and not so that each need is as
    /// sure as it asks for: it costs less and is proved, and a need may go short in other seasons.
    #[arg(long)]
    on_average: bool,
    /// Shows what it costs to be surer: that every need is met in 50, 80, 90, 95 and 99 seasons of 100, or
    /// the one that you name.
    #[arg(long, value_name = "NEED", num_args = 0..=1)]
    surer: Option<Option<String>>,
    /// Shows what grows where in each bed; or draws it to scale as PDF or SVG, every plant a mark.
    #[arg(long, value_name = "FILE.pdf|.svg", num_args = 0..=1)]
    beds: Option<Option<PathBuf>>,
    /// Shows what each event and round comes to in stems, by part and week; nothing is solved for it.
    #[arg(long, conflicts_with_all = ["sheet", "chart", "beds", "risk", "why", "calendar", "csv", "season", "begin", "model"])]
    work: bool,
    /// Shows how likely each need is met in each week, by seasons drawn at random.
    #[arg(long)]
    risk: bool,
    /// Shows which needs and weeks a variety serves, and what doing without it would cost.
    #[arg(long, value_name = "VARIETY")]
    why: Vec<String>,
    /// Shows what you should have to work with on a day, such as '12 Sep' or week 37: stems of each
    /// variety, how many of them the needs take, and how many are free.
    #[arg(long, value_name = "DAY")]
    have: Option<String>,
    /// Writes the dates for your calendar: order by, pot up, plant, pinch, first cut, lift.
    #[arg(long, value_name = "FILE.ics")]
    calendar: Option<PathBuf>,
    /// Writes what to order from whom as a table.
    #[arg(long, value_name = "FILE.csv")]
    csv: Option<PathBuf>,
    /// The paper of a PDF, such as a4 or letter; without it your usual one.
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
    /// Compares a year's harvest with the plan, by the cuts that you noted; while it is the plan's
    /// own year also says how likely the promises that are left are now, and what is free to sell.
    #[arg(long, value_name = "YEAR", value_parser = clap::value_parser!(i16).range(1900..=2200))]
    season: Option<i16>,
    /// Goes by what was counted up to this day; without it up to the last count.
    #[arg(long, value_name = "DAY", requires = "season")]
    date: Option<String>,
    /// Saves the year's counts, so that the next plan goes by them.
    #[arg(long, requires = "season")]
    take_counts: bool,
    /// Makes a first order.ron in a folder that has none, for you to fill in.
    #[arg(long)]
    begin: bool,
    /// Stops the search after so many seconds, and says how far the best order found may be from the
    /// cheapest.
    #[arg(long, value_name = "SECONDS", value_parser = RangedU64ValueParser::<u64>::new().range(..=A_DAY))]
    seconds: Option<u64>,
    /// Writes the whole plan as an integer program (free MPS), so that any solver can check the
    /// claim.
    #[arg(long, value_name = "FILE")]
    model: Option<PathBuf>,
}

/// The longest search, in seconds: a day.
const A_DAY: u64 = 86_400;

/// A settled order and what it was settled from.
struct Worked {
    /// With the needs that events and rounds come to.
    plan: Plan,
    list: Varieties,
    settled: Settled,
    /// Why needs are not met, or not as surely as was asked.
    causes: Vec<Cause>,
    /// What would mend it, where needs fall short.
    mends: Vec<Mend>,
    chances: Option<Chances>,
    /// What surer costs, and of which need alone.
    surer: Option<Surer>,
    /// What was asked about.
    asked: Vec<Asked>,
    /// The plan with every offer, where it is to be written.
    model: Option<Model>,
    /// The week of which it was asked what there is to work with.
    have: Option<u8>,
}

/// What surer costs: of one need by its place, or of all.
struct Surer {
    need: Option<usize>,
    steps: Vec<(f64, Option<Money>)>,
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
        return begin(context, out, errors);
    }
    if let Some(year) = arguments.season {
        return season::run(year, arguments, context, out, errors);
    }
    if arguments.work {
        return work::run(arguments, context, out, errors);
    }
    files::check(arguments, context)?;
    let worked = worked(arguments, context, errors)?;
    let written = files::write(arguments, &worked, context)?;
    if context.json {
        let mut object = object::of(arguments, &worked, context, &written);
        if let Some(currency) = &context.contents.settings.currency {
            object["currency"] = currency.as_str().into();
        }
        context.print(out, object)?;
    } else {
        show::all(arguments, &worked, context, &written, out)?;
    }
    Ok(true)
}

/// Lays out a first order in a folder that has none.
fn begin(context: &Context, out: &mut dyn Write, errors: &mut dyn Write) -> Result<bool> {
    let folder = open_to_write(context.own_folder()?, errors)?;
    let (plan, mut file) = open_plan(&folder).map_err(as_error)?;
    if plan.is_some() {
        return Err(bad(format!(
            "found an {} in your folder, expected none: it is never written over",
            order::ORDER
        )));
    }
    let frosts = context.contents.settings.usual_frosts();
    file.begin(&folder, season_ahead(), frosts)?;
    if context.json {
        let object = serde_json::json!({ "written": [format!("{} is saved.", order::ORDER)] });
        context.print(out, object)?;
    } else {
        writeln!(out, "{} is laid out: fill it in.", order::ORDER)?;
    }
    Ok(true)
}

/// The plan of the folder or of the demo.
fn plan(context: &Context) -> Result<Plan> {
    let read = order::plan(context.folder.as_deref()).map_err(as_error)?;
    read.ok_or_else(none)
}

/// The plan of one's own folder, which no other program may write meanwhile.
fn plan_to_save(context: &Context, errors: &mut dyn Write) -> Result<(Plan, Folder, OrderFile)> {
    let folder = open_to_write(context.own_folder()?, errors)?;
    let (read, file) = open_plan(&folder).map_err(as_error)?;
    let plan = read.ok_or_else(none)?;
    Ok((plan, folder, file))
}

fn as_error(error: FolderError) -> anyhow::Error {
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

fn worked(arguments: &OrderArguments, context: &Context, errors: &mut dyn Write) -> Result<Worked> {
    let list = context.varieties_with_evidence()?;
    let (written, own) = tried::tried(arguments, &list, context, errors)?;
    let rows: Vec<usize> = (arguments.why.iter())
        .map(|name| found(&list, name, "--why"))
        .collect::<Result<_>>()?;
    let index = index(&list, context);
    let against = against(&list, &index, context);
    let plan = tried::whole(arguments, &written, against, context)?;
    let have = { arguments.have.as_deref() }
        .map(|day| changed::one_week(day, &plan, context))
        .transpose()?;
    let unread = |wrong| unanswered(arguments, context, plan.in_file(wrong));
    let candidates = Candidates::of(&plan, against).map_err(unread)?;
    // What makes no sense is not saved; what cannot be met may be.
    if let Some((folder, mut file)) = own {
        file.save(&folder, &written)?;
    }
    let seconds = arguments.patience();
    let need = { arguments.surer.iter().flatten() }.next();
    let need = need.map(|name| need_named(&plan, name)).transpose()?;
    let surer = match arguments.surer {
        None => None,
        Some(_) => {
            let from = (&plan, candidates.clone(), &list);
            let usual = settling::settled(Aim::OnAverage, arguments, from, context, errors)?;
            let stop = &mut after(seconds);
            let steps = what_surer_costs(&plan, &usual, &list, need, stop);
            Some(Surer { need, steps })
        }
    };
    let from = (&plan, candidates, &list);
    let settled = settling::settled(arguments.aim(), arguments, from, context, errors)?;
    let causes = causes(&plan, against, &settled, &mut after(seconds));
    let mends = match settled.falls_short() {
        true => mends(&plan, against, &settled, &mut after(seconds)),
        false => Vec::new(),
    };
    let asked = rows
        .into_iter()
        .map(|row| asked(row, &plan, against, &settled, seconds))
        .collect();
    let every_offer = || Candidates::whole(&plan, against);
    let model = { arguments.model.as_ref() }
        .map(|_| every_offer())
        .transpose();
    let model = model.map_err(|wrong| unanswered(arguments, context, wrong))?;
    let ranged = context.json || arguments.risk || arguments.chart.is_some();
    let drawn = settled.chances.clone();
    let draw = |order| chances(&plan, &settled.candidates, &list, order, SEASONS);
    let order = settled.order.as_ref().filter(|_| ranged);
    let chances = order.map(|order| drawn.unwrap_or_else(|| draw(order)));
    Ok(Worked {
        plan,
        list,
        settled,
        causes,
        mends,
        chances,
        surer,
        asked,
        model,
        have,
    })
}

fn asked(
    row: usize,
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    seconds: u64,
) -> Asked {
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
            let met = settled.status.meets_all();
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
fn unanswered(arguments: &OrderArguments, context: &Context, wrong: Vec<Wrong>) -> anyhow::Error {
    let text = order::text(context.folder.as_deref());
    match text.filter(|_| !arguments.changes()) {
        None => bad(sentences(&wrong)),
        Some(text) => bad(sentences(&Problem::all(order::ORDER, &text, wrong))),
    }
}

impl OrderArguments {
    /// Whether the plan is as it is in its file: nothing else is tried, or what is tried is saved.
    fn is_as_saved(&self) -> bool {
        self.save || !(self.shortlist || self.changes())
    }

    /// Whether something was typed that is to be otherwise.
    fn changes(&self) -> bool {
        let typed = [
            &self.set,
            &self.add,
            &self.drop,
            &self.add_event,
            &self.drop_event,
            &self.add_round,
            &self.drop_round,
            &self.add_bed,
            &self.drop_bed,
            &self.add_supplier,
            &self.drop_supplier,
            &self.fix,
        ];
        typed.iter().any(|typed| !typed.is_empty())
    }
}

/// A need of the plan by its name.
fn need_named(plan: &Plan, name: &str) -> Result<usize> {
    let mut needs = plan.needs.iter();
    let found = needs.position(|need| folded(&need.name) == folded(name));
    found.ok_or_else(|| {
        let names: Vec<&str> = plan.needs.iter().map(|need| need.name.as_str()).collect();
        bad(format!(
            "--surer: found {:?}, expected one of {}",
            brief(name),
            names.join(", ")
        ))
    })
}

/// The columns of a list.
fn index(list: &Varieties, context: &Context) -> Index {
    Index::new(list, context.contents.grounds(context.set()))
}

/// What a plan is read against.
fn against<'a>(list: &'a Varieties, index: &'a Index, context: &'a Context) -> ListContext<'a> {
    ListContext {
        list,
        index,
        grounds: context.contents.grounds(context.set()),
        sure: context.contents.settings.sure,
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
