//! How settling ended, what falls short, and what would mend it.

use crate::account::{Cell, Pair, Part, Section, Table};
use crate::order::report::{Lack, lacking, mend_sentence, short_lines, status_sentence};
use crate::order::{By, Mend, Order, Plan, Settled, Status, Weekly};

/// How settling ended: in a sentence or two, and in figures.
pub fn status(plan: &Plan, settled: &Settled) -> Section {
    let cost = settled.order.as_ref().map(|order| order.cost);
    let (status, gap, bound) = match settled.status {
        Status::Optimal if settled.falls_short() => ("short", Some(0.0), cost),
        Status::Found { bound, gap } if settled.falls_short() => ("short", Some(gap), Some(bound)),
        Status::Within { bound, gap } if settled.falls_short() => ("short", Some(gap), Some(bound)),
        Status::Optimal => ("optimal", Some(0.0), cost),
        Status::Found { bound, gap } => ("found", Some(gap), Some(bound)),
        Status::Unsure { bound, .. } => ("short", None, Some(bound)),
        Status::Within { bound, gap } => ("stopped", Some(gap), Some(bound)),
        Status::Short { .. } => ("short", None, None),
        Status::Unknown => ("stopped", None, None),
    };
    let needed = match settled.status {
        // What was set aside no money buys.
        Status::Short { needed, .. } if settled.aside().is_empty() => needed,
        _ => None,
    };
    let told = status_sentence(settled);
    Section::default()
        .with(Part::sentences("", [told.as_str()]))
        .with(Part::Pairs(vec![
            Pair::data("status", status),
            Pair::data("told", told.as_str()),
            Pair::data("cost", cost),
            Pair::data("gap", gap.map(Cell::Share)),
            Pair::data("bound", bound),
            Pair::data("all_needs_cost", needed),
            Pair::data("places", plan.places()),
        ]))
}

/// What falls short, need by need; nothing where every need is met.
pub fn shortfall(plan: &Plan, settled: &Settled) -> Section {
    let head = match settled.order {
        Some(_) if settled.status.meets_all() => "What no order can meet is set aside",
        Some(_) => "This order falls short by the fewest stems that were found",
        None => "There is no order to show",
    };
    let name = |need: usize| plan.needs[need].name.to_string();
    let short = settled.order.iter().flat_map(Order::short);
    let row = |one: &Weekly| {
        let stems = Cell::Number(one.short(), 1);
        vec![name(one.need).into(), one.week.into(), stems]
    };
    let short = Table::data("short", ["need", "week", "stems"]).with(short.map(row));
    let row = |lack: Lack| vec![lack.need.map(name).into(), lack.told.into()];
    let lacks =
        Table::data("lacking", ["need", "told"]).with(lacking(settled).into_iter().map(row));
    Section::under(head)
        .with(Part::sentences("", short_lines(plan, settled)))
        .with(Part::Table(short))
        .with(Part::Table(lacks))
}

/// What would mend an order that falls short.
pub fn mended(plan: &Plan, mends: &[Mend]) -> Section {
    let data = Pair::data(
        "mends",
        Cell::list(mends.iter().map(|mend| data(plan, mend))),
    );
    let section = match mends {
        [] => Section::default().with(Part::sentences("", [NO_MEND])),
        [Mend { and: Some(_), .. }, ..] => Section::under(
            "No single change that mends it was found. Any one of these, two changes together, would mend it in a usual season, all else as it is",
        )
        .with(Part::sentences("", mends.iter().map(|mend| mend_sentence(plan, mend)))),
        mends => Section::under("Any one of these would mend it in a usual season, all else as it is").with(
            Part::sentences("", mends.iter().map(|mend| mend_sentence(plan, mend))),
        ),
    };
    section.with(Part::Pairs(vec![data]))
}

const NO_MEND: &str = "No change that mends it was found, nor two together: ask for less.";

/// What was left out or assumed.
pub fn notes(settled: &Settled) -> Section {
    let notes = settled.candidates.notes.iter().cloned();
    Section::default().with(Part::sentences("notes", notes))
}

fn data(plan: &Plan, mend: &Mend) -> Cell {
    let mut fields = change(&mend.by);
    if let Some(and) = &mend.and {
        fields.push(("and", Cell::Record(change(and))));
    }
    let edits = mend.edits.iter().map(|edit| edit.words(plan));
    fields.extend([
        ("set", Cell::list(edits)),
        ("cost", mend.cost.into()),
        ("least", mend.is_least().into()),
        ("told", mend_sentence(plan, mend).into()),
    ]);
    Cell::Record(fields)
}

fn change(by: &By) -> Vec<(&'static str, Cell)> {
    match *by {
        By::Bed { places, at_least } => vec![
            ("by", "bed".into()),
            ("places", places.into()),
            ("at_least", at_least.into()),
        ],
        By::Money { more, at_least } => vec![
            ("by", "money".into()),
            ("more", more.into()),
            ("at_least", at_least.into()),
        ],
        By::Colour { wider, .. } => {
            vec![("by", "colour".into()), ("wider", wider.into())]
        }
        By::Earlier { weeks, frost, .. } => vec![
            ("by", "earlier".into()),
            ("weeks", weeks.into()),
            ("frost", Cell::Share(frost)),
        ],
        By::Weeks { fewer, .. } => vec![("by", "weeks".into()), ("fewer", fewer.into())],
        By::Fitness { lower, .. } => vec![("by", "fitness".into()), ("lower", lower.into())],
        By::Stems { fewer } => vec![("by", "stems".into()), ("fewer", fewer.into())],
    }
}
