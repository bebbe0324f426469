//! Why needs are not met, and what was set aside.

use crate::account::{Cell, Part, Section, Table};
use crate::order::report::cause_sentence;
use crate::order::{Aside, Cause, Nearest, Plan, Settled, Why};

/// Why needs are not met, or not as surely as was asked: a sentence a cause.
pub fn causes(plan: &Plan, settled: &Settled, causes: &[Cause]) -> Section {
    let name = |need: usize| plan.needs[need].name.to_string();
    let row = |cause: &Cause| {
        let set = |set: &Vec<usize>| Cell::list(set.iter().map(|need| name(*need)));
        let (day, share) = match cause.why {
            Why::BeforeFirstCut { first: day } | Why::AfterFrost { frost: day } => {
                (Some(day), None)
            }
            Why::Closed { on } => (on, None),
            Why::LateFirstCut { share }
            | Why::EarlyFrost { share }
            | Why::TooLittleOffered { share } => (None, Some(share)),
            _ => (None, None),
        };
        let nearest = match &cause.why {
            Why::NoVariety { nearest } => &nearest[..],
            _ => &[],
        };
        vec![
            name(cause.need).into(),
            Cell::list(cause.weeks.iter().copied()),
            cause.why.word().into(),
            day.into(),
            share.map(Cell::Share).into(),
            Cell::list(nearest.iter().map(near)),
            Cell::list(cause.competes.iter().map(set)),
            cause_sentence(plan, settled, cause).into(),
        ]
    };
    let columns = [
        "need", "weeks", "why", "day", "share", "nearest", "competes", "told",
    ];
    let data = Table::data("causes", columns).with(causes.iter().map(row));
    let told = causes
        .iter()
        .map(|cause| cause_sentence(plan, settled, cause));
    let section = match causes {
        [] => Section::default(),
        _ => Section::under("Why").with(Part::sentences("", told)),
    };
    section
        .with(Part::Table(data))
        .with(Part::Table(set_aside(plan, settled)))
}

fn near(one: &Nearest) -> Cell {
    let number =
        |value: Option<f64>, digits| value.map_or(Cell::Nothing, |one| Cell::Number(one, digits));
    Cell::Record(vec![
        ("variety", one.variety.as_str().into()),
        ("fitness", number(one.fitness, 3)),
        ("distance", number(one.distance, 1)),
    ])
}

fn set_aside(plan: &Plan, settled: &Settled) -> Table {
    let row = |aside: &Aside| {
        vec![
            plan.needs[aside.need].name.to_string().into(),
            Cell::list(aside.weeks.iter().copied()),
            aside.kept.word().into(),
        ]
    };
    let rows = settled.aside().needs.iter().map(row);
    Table::data("set_aside", ["need", "weeks", "kept"]).with(rows)
}
