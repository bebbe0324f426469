//! The account of what to keep, what to sell, and how a seedling grows on.

use crate::account::text::counted;
use crate::account::{Cell, Column, Part, Section, Table};
use crate::stock::{Divisions, Increase, Sell};

/// What to keep and sell of each plant, under what it goes by, and in how many years there are `wanted`
/// tubers of each seedling.
pub fn plan_account(
    sell: &[Sell],
    grown: &[Increase],
    wanted: u64,
    notes: Vec<String>,
) -> Vec<Section> {
    let columns = [
        Column::words("plant", "plant"),
        Column::figures("own", "in store"),
        Column::figures("planted", "to plant"),
        Column::figures("spares", "spares"),
        Column::figures("keep", "keep"),
        Column::figures("sell", "may be sold"),
        Column::figures("lacking", "lacking"),
    ];
    let row = |one: &Sell| {
        vec![
            one.of.to_string().into(),
            one.own.into(),
            one.planted.into(),
            one.spares.into(),
            one.keep.into(),
            one.sell().into(),
            one.lacking().into(),
        ]
    };
    let table = Table::of("plan", columns).with(sell.iter().map(row));
    let mut notes = notes;
    match sell.is_empty() {
        true => notes.push("Nothing is in store.".to_string()),
        false => notes.push("In store are tubers that are not promised.".to_string()),
    }
    let keep = Section::under("To keep and to sell")
        .with(Part::Table(table))
        .with(Part::sentences("notes", notes));
    vec![keep, increase(grown, wanted)]
}

fn increase(grown: &[Increase], wanted: u64) -> Section {
    let columns = [
        "plant", "from", "a_clump", "keeps", "stands", "wanted", "years", "tubers",
    ];
    let row = |one: &Increase| {
        let years = one.years_to(wanted);
        vec![
            one.of.to_string().into(),
            one.from.into(),
            Cell::Number(one.a_clump.a_clump(), 2),
            Cell::Share(one.keeps),
            Cell::Share(one.stands),
            wanted.into(),
            years.as_ref().map(Vec::len).into(),
            Cell::list(years.unwrap_or_default()),
        ]
    };
    let table = Table::data("increase", columns).with(grown.iter().map(row));
    Section::under(format!("Until there are {wanted} of a seedling to offer"))
        .with(Part::Table(table))
        .with(Part::sentences(
            "",
            grown.iter().map(|one| told(one, wanted)),
        ))
}

/// `24-001: 18 now, 88 after 1 year, 430 after 2 years, if all are grown on (7.33 tubers a clump ...)`.
fn told(one: &Increase, wanted: u64) -> String {
    let source = match one.a_clump {
        Divisions::Own(tubers, clumps) => format!("its own {tubers} of {clumps}"),
        Divisions::Book(tubers, clumps) => {
            format!("assumed: as the whole book's, {tubers} of {clumps}")
        }
        Divisions::Assumed => "assumed: the mean of one farm's tally".to_string(),
    };
    let by = format!(
        "{:.1} tubers a clump ({source}), of which {:.0} of 100 come through the winter, and {:.0} of 100 plants stand to be lifted",
        one.a_clump.a_clump(),
        one.keeps * 100.0,
        one.stands * 100.0
    );
    let (of, from) = (&one.of, one.from);
    match one.years_to(wanted) {
        None => format!("{of}: {from} now, and never so many by {by}."),
        Some(years) if years.is_empty() => format!("{of}: {from} now, enough."),
        Some(years) => {
            let after = years
                .iter()
                .enumerate()
                .map(|(at, tubers)| format!("{tubers} after {}", counted(at + 1, "year")));
            let after: Vec<String> = after.collect();
            format!(
                "{of}: {from} now, {}, if none is sold and all are grown on: {by}.",
                after.join(", ")
            )
        }
    }
}
