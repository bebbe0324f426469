//! How sure each need is, and an event as one; and what surer costs.

use crate::account::{Cell, Column, Part, Section, Table};
use crate::order::report::promise_in_words;
use crate::order::{Plan, Promise, Promised, Settled};
use crate::variety::Money;

/// What the order promises each need that is not as sure as asked, in words; of every need as data.
pub fn promises(plan: &Plan, settled: &Settled) -> Section {
    if settled.promises.is_empty() {
        return Section::default();
    }
    let columns = [
        Column::words("", "need"),
        Column::figures("", "asked"),
        Column::figures("", "chance"),
        Column::words("", ""),
    ];
    let mut table = Table::of("", columns);
    for promise in settled.promises.iter().filter(|promise| !promise.is_met()) {
        let name = promise.of.name(plan);
        let [sure, chance] = [in_hundred(promise.sure), promise.in_hundred().to_string()];
        let told = promise_in_words(promise);
        table
            .rows
            .push(vec![name.into(), sure.into(), chance.into(), told.into()]);
    }
    let row = |promise: &Promise| {
        vec![
            promise.of.name(plan).into(),
            Cell::Share(promise.sure),
            Cell::Share(promise.chance),
            promise.is_met().into(),
            Cell::Share(promise.ceiling),
            matches!(promise.of, Promised::Work(_)).into(),
        ]
    };
    let data = Table::data(
        "promises",
        ["need", "sure", "chance", "met", "ceiling", "as_one"],
    );
    let section = match table.rows.is_empty() {
        true => Section::default(),
        false => Section::under(
            "Not as sure as asked: seasons in 100 in which it has all its stems in all its weeks",
        )
        .with(Part::Table(table)),
    };
    section.with(Part::Table(data.with(settled.promises.iter().map(row))))
}

/// What being surer costs, of every need or of one alone.
pub fn surer(plan: &Plan, of: Option<Promised>, steps: &[(f64, Option<Money>)]) -> Section {
    let whose = of.map_or("every need", |of| of.name(plan));
    let columns = [
        Column::figures("", "sure"),
        Column::figures("", "costs"),
        Column::words("", ""),
    ];
    let row = |(sure, cost): &(f64, Option<Money>)| {
        let told = match cost {
            Some(_) => "",
            None => "no order that sure was found in these beds",
        };
        vec![in_hundred(*sure).into(), Cell::from(*cost), told.into()]
    };
    let data = |(sure, cost): &(f64, Option<Money>)| {
        let whose = of.map(|of| of.name(plan).to_string());
        vec![whose.into(), Cell::Share(*sure), Cell::from(*cost)]
    };
    let shown = Table::of("", columns).with(steps.iter().map(row));
    let told = Table::data("surer", ["need", "sure", "cost"]).with(steps.iter().map(data));
    Section::under(format!(
        "What it costs, by the orders found, that {whose} is met in so many seasons of 100"
    ))
    .with(Part::Table(shown))
    .with(Part::Table(told))
}

fn in_hundred(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}
