//! The season of an order: its key dates, its weeks, and the figures that it is reckoned with.

use crate::account::{Cell, Column, Part, Section, Seen, Table};
use crate::order::report::{Chart, ChartWeek, KeyDate, counted_in_store, key_dates, reckoned};
use crate::order::{Figure, Plan, Settled};
use crate::variety::Varieties;

/// The key dates, in order of time.
pub fn dates(plan: &Plan, settled: &Settled, list: &Varieties) -> Section {
    let columns = [
        Column::words("id", "").seen(Seen::AsData),
        Column::words("day", ""),
        Column::words("what", ""),
        Column::words("more", "").seen(Seen::AsData),
    ];
    let row = |date: KeyDate| {
        let day = date.day.strftime("%a %e %b %Y").to_string();
        vec![
            date.id.into(),
            Cell::worded(day, date.day),
            date.what.into(),
            date.more.into(),
        ]
    };
    let dates = key_dates(plan, settled, list).into_iter();
    Section::under("Dates").with(Part::Table(
        Table::of("dates", columns).with(dates.map(row)),
    ))
}

/// Every figure that is reckoned with, and where it is from.
pub fn figures(plan: &Plan, list: &Varieties) -> Section {
    let mut figures = reckoned(plan);
    figures.extend(counted_in_store(list));
    let told = figures
        .iter()
        .map(|one| format!("{}: {} ({})", one.name, one.value, one.source));
    let told = Part::sentences("", told);
    let row = |one: &Figure| {
        vec![
            one.name.into(),
            one.value.as_str().into(),
            one.source.as_str().into(),
        ]
    };
    let table = Table::data("figures", ["name", "value", "source"]).with(figures.iter().map(row));
    Section::under("Reckoned with")
        .with(told)
        .with(Part::Table(table))
}

/// The season week by week, for programs: people get it as a chart.
pub fn weeks(chart: Option<&Chart>) -> Section {
    let stems = |stems: f64| Cell::Number(stems, 1);
    let row = |one: &ChartWeek| {
        vec![
            one.week.into(),
            one.monday.into(),
            stems(one.needed),
            stems(one.expected),
            one.range.map(|(low, _)| stems(low)).into(),
            one.range.map(|(_, high)| stems(high)).into(),
            stems(one.short),
        ]
    };
    let weeks = chart.into_iter().flat_map(|chart| &chart.weeks);
    Section::default().with(Part::Table(
        Table::data(
            "weeks",
            [
                "week", "monday", "needed", "expected", "low", "high", "short",
            ],
        )
        .with(weeks.map(row)),
    ))
}
