//! `trug order`: the order settled, and what it prints.

mod arguments;
mod asked;
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

use anyhow::{Result, anyhow};

pub(super) use arguments::OrderArguments;
use arguments::{after, bad};
use asked::{Asked, Surer, asked, found, promised};

use super::{Context, open_to_write, season_ahead};
use crate::folder::order::{OrderFile, open_plan};
use crate::folder::{Folder, FolderError, order};
use crate::order::model::Model;
use crate::order::{
    Aim, Candidates, Cause, Chances, ListContext, Mend, Plan, SEASONS, Settled, causes, chances,
    mends, what_surer_costs,
};
use crate::problem::{Problem, Wrong, sentences};
use crate::variety::{Index, Varieties};

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
    /// What surer costs, and of what alone.
    surer: Option<Surer>,
    /// What was asked about.
    asked: Vec<Asked>,
    /// The plan with every offer, where it is to be written.
    model: Option<Model>,
    /// The week of which it was asked what there is to work with.
    have: Option<u8>,
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

/// The year of the season that is planned; `None` where there is no order.
///
/// # Errors
/// Where the plan cannot be read.
pub(in crate::command) fn season_year(context: &Context) -> Result<Option<i16>> {
    let read = order::plan(context.folder.as_deref()).map_err(as_error)?;
    Ok(read.map(|plan| plan.season.planted.year()))
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
    let of = { arguments.surer.iter().flatten() }.next();
    let of = of.map(|name| promised(&plan, name)).transpose()?;
    let surer = match arguments.surer {
        None => None,
        Some(_) => {
            let from = (&plan, candidates.clone(), &list);
            let usual = settling::settled(Aim::OnAverage, arguments, from, context, errors)?;
            let stop = &mut after(seconds);
            let steps = what_surer_costs(&plan, &usual, &list, of, stop);
            Some(Surer { of, steps })
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

/// What the list cannot answer: at its lines, where the plan is as it is in the file.
fn unanswered(arguments: &OrderArguments, context: &Context, wrong: Vec<Wrong>) -> anyhow::Error {
    let text = order::text(context.folder.as_deref());
    match text.filter(|_| !arguments.changes()) {
        None => bad(sentences(&wrong)),
        Some(text) => bad(sentences(&Problem::all(order::ORDER, &text, wrong))),
    }
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
