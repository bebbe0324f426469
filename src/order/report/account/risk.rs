//! The chance that each need is met, and what varies between the seasons that are drawn.

use crate::account::text::width;
use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::chart::{ShareRow, Shares};
use crate::order::report::risk_in_words;
use crate::order::{Chances, Plan, Promised};

/// The columns that a week takes in a table of chances: a gap and `100`.
const WEEK: usize = 5;
/// Columns before each line of a table.
const INDENT: usize = 2;

/// The chance in a hundred that each need is met, in all of its weeks and in each, as tables of at
/// most so many columns of text, or of one week where even that is too few.
pub fn risk(plan: &Plan, chances: &Chances, columns: usize) -> Section {
    let head = format!(
        "Chance in 100 that each need has all its stems, in all of its weeks and by week, over {} seasons drawn with a fixed seed",
        chances.seasons
    );
    let weeks = weeks_of(chances);
    let names = told(plan, chances).map(|(name, ..)| width(name));
    let room = columns.saturating_sub(INDENT + WEEK + names.max().unwrap_or(0));
    let tables = weeks.chunks((room / WEEK).max(1)).enumerate();
    let mut section = Section::under(head);
    for (at, weeks) in tables {
        section = section.with(Part::Table(by_week(plan, chances, weeks, at == 0)));
    }
    section.with(Part::Table(data(plan, chances)))
}

/// The same as a chart, for the screen.
pub fn risk_chart(plan: &Plan, chances: &Chances) -> Shares {
    let weeks = weeks_of(chances);
    let rows = told(plan, chances).map(|(name, met, throughout)| {
        let chance = |week: &u8| {
            let own = met.iter().find(|(own, _)| own == week);
            own.map(|(_, share)| *share)
        };
        ShareRow {
            name: name.to_string(),
            all: throughout,
            each: weeks.iter().map(chance).collect(),
        }
    });
    Shares {
        places_words: "week",
        rows: rows.collect(),
        places: weeks.iter().map(u8::to_string).collect(),
    }
}

/// Each need, and then each event or round as one, with its chances by week and in all of them.
fn told<'a>(
    plan: &'a Plan,
    chances: &'a Chances,
) -> impl Iterator<Item = (&'a str, &'a [(u8, f64)], f64)> {
    let needs = { plan.needs.iter() }
        .zip(&chances.met)
        .zip(&chances.throughout)
        .map(|((need, met), throughout)| (need.name.as_str(), &met[..], *throughout));
    // As one it is met in all its weeks or it is not.
    let wholes = { chances.together.iter() }
        .map(|(work, share)| (Promised::Work(*work).name(plan), &[][..], *share));
    needs.chain(wholes)
}

/// The weeks in which any need runs, rising.
fn weeks_of(chances: &Chances) -> Vec<u8> {
    let weeks = chances.met.iter().flatten().map(|(week, _)| *week);
    let mut weeks: Vec<u8> = weeks.collect();
    weeks.sort_unstable();
    weeks.dedup();
    weeks
}

/// What varies between the seasons, and what does not.
pub fn spreads(plan: &Plan) -> Section {
    let told = risk_in_words(plan);
    let data = Pair::data("risk_told", told.as_str());
    Section::default()
        .with(Part::sentences("", [told]))
        .with(Part::Pairs(vec![data]))
}

/// The needs that run in these weeks; in the first table the chance in all of its weeks too.
fn by_week(plan: &Plan, chances: &Chances, weeks: &[u8], first: bool) -> Table {
    let all = first.then(|| Column::figures("", "all"));
    let each = weeks
        .iter()
        .map(|week| Column::figures("", week.to_string()));
    let columns = [Column::words("", "week")]
        .into_iter()
        .chain(all)
        .chain(each);
    let percent = |share: f64| format!("{:.0}", share * 100.0);
    let mut table = Table::of("", columns);
    for (name, met, throughout) in told(plan, chances) {
        let chance = |week: &u8| {
            let own = met.iter().find(|(own, _)| own == week);
            own.map(|(_, share)| percent(*share))
        };
        let all = first.then(|| Some(percent(throughout)));
        let cells: Vec<Option<String>> = all.into_iter().chain(weeks.iter().map(chance)).collect();
        if cells.iter().any(Option::is_some) {
            let cells = cells.into_iter().map(Cell::from);
            table
                .rows
                .push([Cell::from(name)].into_iter().chain(cells).collect());
        }
    }
    table
}

/// Every chance as a share; of a need in all of its weeks where there is no week.
fn data(plan: &Plan, chances: &Chances) -> Table {
    let row = |need: &str, week: Option<u8>, chance: f64| {
        vec![need.into(), week.into(), Cell::Share(chance)]
    };
    let throughout = told(plan, chances).map(|(name, _, chance)| row(name, None, chance));
    let each = told(plan, chances).flat_map(|(name, met, _)| {
        let weeks = met.iter();
        weeks.map(move |(week, chance)| row(name, Some(*week), *chance))
    });
    Table::data("risk", ["need", "week", "chance"]).with(throughout.chain(each))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::account::section_lines;

    /// The demo's needs, every chance of every week another one.
    #[test]
    fn every_chance_stands_in_a_table_of_the_width_that_there_is() {
        let text = include_str!("../../../../catalogue/order.ron");
        let plan = Plan::read("order.ron", text).expect("the demo's plan");
        let of_need = |need: &crate::order::Need| -> Vec<(u8, f64)> {
            let weeks = need.weeks.0..=need.weeks.1;
            weeks.map(|week| (week, f64::from(week) / 100.0)).collect()
        };
        let chances = Chances {
            seasons: 1,
            met: plan.needs.iter().map(of_need).collect(),
            throughout: vec![0.5; plan.needs.len()],
            together: Vec::new(),
            grown: Vec::new(),
        };
        let weeks: usize = chances.met.iter().map(Vec::len).sum();
        let told = weeks + chances.throughout.len();
        for columns in [60, 78, 96, 200] {
            let lines = section_lines(&risk(&plan, &chances, columns), columns);
            let table = || lines[1..].iter().map(String::as_str);
            assert!(table().all(|line| width(line) <= columns), "{columns}");
            let cells = table().filter(|line| !line.trim_start().starts_with("week"));
            let figures = cells.flat_map(|line| line.get(INDENT..).unwrap_or("").split("  "));
            let figures = figures.filter(|cell| cell.trim().parse::<u8>().is_ok());
            assert_eq!(figures.count(), told, "{columns}");
        }
    }
}
