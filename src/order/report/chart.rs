//! The season chart: stems needed against stems expected, week by week, with their range.

use jiff::civil::Date;

use crate::account::{Cell, Column, Table};
use crate::order::{Chances, Plan, Settled, monday};

/// The season week by week.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Its weeks, rising.
    pub weeks: Vec<ChartWeek>,
    /// Seasons drawn for the ranges; `None` where none were.
    pub seasons: Option<u32>,
}

/// One week, all needs and all varieties together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartWeek {
    /// The week of the year.
    pub week: u8,
    /// Its Monday; `None` where the year has no such week.
    pub monday: Option<Date>,
    /// Stems needed.
    pub needed: f64,
    /// Stems needed that no variety gives.
    pub short: f64,
    /// Usable stems expected of all varieties.
    pub expected: f64,
    /// The least and the most of nine seasons in ten.
    pub range: Option<(f64, f64)>,
}

/// Columns that a bar needs to tell anything.
const LEAST_BAR: usize = 10;

impl Chart {
    /// The chart of a settled order; `None` where there is no order.
    pub fn of(plan: &Plan, settled: &Settled, chances: Option<&Chances>) -> Option<Chart> {
        let order = settled.order.as_ref()?;
        let week = |(at, (week, expected)): (usize, (u8, f64))| {
            let own = || order.weekly.iter().filter(|one| one.week == week);
            let drawn = chances.and_then(|chances| chances.grown.get(at));
            ChartWeek {
                week,
                monday: monday(plan.season.planted, week),
                needed: own().map(|one| one.needed).sum(),
                short: own().map(crate::order::Weekly::short).sum(),
                expected,
                range: drawn.map(|(_, [low, _, high])| (*low, *high)),
            }
        };
        let weeks = order
            .grown(&settled.candidates)
            .into_iter()
            .enumerate()
            .map(week)
            .collect();
        Some(Chart {
            weeks,
            seasons: chances.map(|chances| chances.seasons),
        })
    }

    /// The most that any week needs or may have.
    pub(super) fn most(&self) -> f64 {
        let of = |one: &ChartWeek| {
            let high = one.range.map_or(0.0, |(_, high)| high);
            one.needed.max(one.expected).max(high)
        };
        self.weeks.iter().map(of).fold(1.0, f64::max)
    }

    /// The chart as lines of at most so many columns, ASCII only.
    pub fn text(&self, columns: usize) -> Vec<String> {
        let figures = ["needed", "expected", "range", "short"];
        let words = ["week", "from"].map(|name| Column::words("", name));
        let named = words
            .into_iter()
            .chain(figures.map(|name| Column::figures("", name)));
        let row = |one: &ChartWeek| {
            let monday = one.monday.map(|day| day.strftime("%-d %b").to_string());
            let range = one
                .range
                .map(|(low, high)| format!("{low:.0} to {high:.0}"));
            let short = (one.short > 0.0).then_some(Cell::Number(one.short, 1));
            vec![
                one.week.into(),
                monday.into(),
                Cell::Number(one.needed, 0),
                Cell::Number(one.expected, 0),
                range.into(),
                short.into(),
            ]
        };
        let table = Table::of("", named)
            .with(self.weeks.iter().map(row))
            .lines();
        let widest = table.iter().map(String::len).max().unwrap_or(0);
        let room = columns.saturating_sub(widest + 2).max(LEAST_BAR);
        let bars =
            std::iter::once(String::new()).chain(self.weeks.iter().map(|one| self.bar(one, room)));
        let mut lines: Vec<String> = (table.iter().zip(bars))
            .map(|(row, bar)| format!("{row:widest$}  {bar}").trim_end().to_string())
            .collect();
        let legend = match self.seasons {
            Some(_) => {
                "= even in a bad season, - up to a good one (nine seasons in ten lie between), + expected"
            }
            None => "= expected",
        };
        lines.push(format!("{legend}, | needed, ! needed and short"));
        lines
    }

    /// `=====--+--|`: filled up to what a bad season gives, thin up to what a good one does, a cross
    /// at what is expected and a stroke where the need is.
    pub fn bar(&self, one: &ChartWeek, room: usize) -> String {
        let most = self.most();
        let place =
            |stems: f64| ((stems / most * (room - 1) as f64).round() as usize).min(room - 1);
        let (low, high) = one.range.unwrap_or((one.expected, one.expected));
        let mut bar: Vec<char> = vec![' '; room];
        bar[..place(one.expected)].fill('=');
        bar[place(low).min(place(high))..place(high)].fill('-');
        if one.expected > low {
            bar[place(one.expected).min(room - 1)] = '+';
        }
        if one.needed > 0.0 {
            bar[place(one.needed)] = if one.short > 0.0 { '!' } else { '|' };
        }
        bar.into_iter().collect::<String>().trim_end().to_string()
    }
}
