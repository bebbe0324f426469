//! How a settled order stands, in sentences.

use unicode_width::UnicodeWidthStr;

use super::columns::{aligned, in_weeks};
use crate::order::{By, Chances, Frost, Mend, Order, Plan, Settled, Spreads, Status};

/// The most weeks side by side in a table of chances, and the columns that one takes: a gap and
/// `100`.
const WEEKS_A_TABLE: usize = 14;
const WEEK: usize = 5;
/// Columns before each line of the table.
const INDENT: usize = 2;

/// How settling ended, in a sentence or two.
pub fn status_told(settled: &Settled) -> String {
    let cost = settled
        .order
        .as_ref()
        .map(|order| order.cost)
        .unwrap_or_default();
    match settled.status {
        Status::Optimal => format!("Every need is met for {cost}, and no order that meets them costs less (proved)."),
        Status::Within { bound, gap } => format!(
            "Every need is met for {cost}; stopped before more was proved than that no order costs less than {bound}, {:.1} % below.",
            gap * 100.0
        ),
        Status::Short { needed: Some(needed), proved: true } => format!("Not every need can be met with this money: to meet all costs {needed} (proved)."),
        Status::Short { needed: Some(needed), proved: false } => format!("No order within this money was found: the cheapest found that meets every need costs {needed}."),
        Status::Short { needed: None, proved: true } => "Not every need can be met with these beds and this list, whatever the money (proved).".to_string(),
        Status::Short { needed: None, proved: false } => "No order that meets every need was found with these beds and this list.".to_string(),
        Status::Unknown => "Stopped before an order was found or it was proved that there is none: give it more time.".to_string(),
    }
}

/// The needs that fall short, each with its weeks and stems, and what else is lacking: the order is
/// the one that is least short.
pub fn short_lines(plan: &Plan, settled: &Settled) -> Vec<String> {
    let short = settled.order.as_ref().map(|order| stems_short(plan, order));
    let mut lines = short.unwrap_or_default();
    for lack in super::lacking(settled) {
        lines.push(match lack.need {
            Some(need) => format!("{}: {}", plan.needs[need].name, lack.told),
            None => lack.told,
        });
    }
    lines
}

fn stems_short(plan: &Plan, order: &Order) -> Vec<String> {
    let line = |(at, need): (usize, &crate::order::Need)| {
        let short: Vec<_> = order.short().filter(|one| one.need == at).collect();
        let stems: f64 = short.iter().map(|one| one.short()).sum();
        let worst = short
            .iter()
            .max_by(|one, other| one.short().total_cmp(&other.short()))?;
        let weeks: Vec<u8> = short.iter().map(|one| one.week).collect();
        let (name, weeks) = (&need.name, in_weeks(&weeks));
        if stems < 0.05 {
            return Some(format!(
                "{name}: short in {weeks} by less than a tenth of a stem"
            ));
        }
        Some(format!(
            "{name}: short in {weeks}, {stems:.1} stems in all, at worst {:.1} of {:.0} in week {}",
            worst.short(),
            worst.needed,
            worst.week
        ))
    };
    plan.needs.iter().enumerate().filter_map(line).collect()
}

/// What would mend it, at what price, and what to change for it.
pub fn mend_told(plan: &Plan, mend: &Mend) -> String {
    let proved = |told: &str, at_least: String| match mend.is_least() {
        true => format!("({told} would not do)"),
        false => format!("(at least {at_least} is needed)"),
    };
    let step = |told: &str| match mend.is_least() {
        true => format!(" ({told} would not do)"),
        false => String::new(),
    };
    let edits: Vec<String> = mend.edits.iter().map(|edit| edit.told(plan)).collect();
    let edits = edits.join("; ");
    let cost = format!("an order then costs at most {}", mend.cost);
    match mend.by {
        By::Bed { places, at_least } => {
            let proved = proved("fewer", at_least.to_string());
            format!("{places} more places in the beds {proved}: {cost}; such as {edits}")
        }
        By::Money { more, at_least } => {
            let proved = proved("less", at_least.to_string());
            format!("{more} more money {proved}; {edits}")
        }
        By::Colour { wider, .. } => format!(
            "colours wider by {wider} (CIEDE2000) for each need that asks for one{}: {cost}; {edits}",
            step("a step less")
        ),
        By::Earlier { weeks, frost, .. } => format!(
            "planting {weeks} {} earlier{}: {cost}, and the last frost comes after that planting in {:.0} years of 100; {edits}",
            if weeks == 1 { "week" } else { "weeks" },
            step("a week less"),
            frost * 100.0
        ),
    }
}

/// The chance in a hundred that each need is met, in all of its weeks and in each, as tables of at
/// most so many columns of text, or of one week where even that is too few.
pub fn chance_lines(plan: &Plan, chances: &Chances, columns: usize) -> Vec<String> {
    let mut lines = vec![format!(
        "Chance in 100 that each need has all its stems, in all of its weeks and by week, over {} seasons drawn with a fixed seed:",
        chances.seasons
    )];
    let mut weeks: Vec<u8> = chances
        .met
        .iter()
        .flatten()
        .map(|(week, _)| *week)
        .collect();
    weeks.sort_unstable();
    weeks.dedup();
    let names = plan.needs.iter().map(|need| need.name.as_str().width());
    let room = columns.saturating_sub(INDENT + WEEK + names.max().unwrap_or(0));
    let percent = |share: &f64| format!("{:.0}", share * 100.0);
    let tables = weeks.chunks((room / WEEK).clamp(1, WEEKS_A_TABLE));
    for (table, weeks) in tables.enumerate() {
        let first = table == 0;
        let mut head = vec!["week".to_string()];
        head.extend(first.then(|| ">all".to_string()));
        head.extend(weeks.iter().map(|week| format!(">{week}")));
        let mut rows = vec![head];
        let needs = plan.needs.iter().zip(&chances.met).zip(&chances.throughout);
        for ((need, met), throughout) in needs {
            let chance = |week: &u8| {
                let own = met.iter().find(|(own, _)| own == week);
                own.map_or(String::new(), |(_, share)| percent(share))
            };
            let all = first.then(|| percent(throughout));
            let cells: Vec<String> = all.into_iter().chain(weeks.iter().map(chance)).collect();
            if cells.iter().any(|cell| !cell.is_empty()) {
                rows.push([vec![need.name.to_string()], cells].concat());
            }
        }
        lines.push(String::new());
        lines.extend(aligned(&rows).iter().map(|line| format!("  {line}")));
    }
    lines
}

/// What varies between the seasons drawn and by how much, and what does not.
pub fn risk_told(plan: &Plan) -> String {
    let Spreads {
        season,
        known,
        unknown,
        lost,
    } = Spreads::assumed();
    let (last, first) = (&plan.season.last_frost, &plan.season.first_frost);
    let frost = |name: &str, frost: &Frost| match frost.spread() > 0.0 {
        true => format!("the {name} frost, by {:.0} days", frost.spread()),
        false => format!("the {name} frost not, for only a date is given"),
    };
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    format!(
        "What varies, each apart from the others: the yield of the season, the same for all varieties, by {} (one standard deviation; assumed); each variety's own yield about it, by {} where its stems are known (assumed) and by {} where one figure stands for all (as if nine varieties of ten gave the published 5 to 12 stems); the shares of plants and of stems that are lost, as if each were counted of {:.0} (assumed), and by that share plant for plant; {}; {}. A last frost after planting sets the first cut back by as many days; no stem is cut on or after the first frost. What does not vary: tubers that never come or do not keep, plants that are not true to name, the weather of single days, how soon a variety flowers, and what is needed.",
        percent(season),
        percent(known),
        percent(unknown),
        lost.unwrap_or(f64::INFINITY),
        frost("last", last),
        frost("first", first),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The demo's needs, every chance of every week another one.
    #[test]
    fn every_chance_stands_in_a_table_of_the_width_that_there_is() {
        let text = include_str!("../../../catalogue/order.ron");
        let plan = Plan::read("order.ron", text).expect("the demo's plan");
        let of_need = |need: &crate::order::Need| -> Vec<(u8, f64)> {
            let weeks = need.weeks.0..=need.weeks.1;
            weeks.map(|week| (week, f64::from(week) / 100.0)).collect()
        };
        let chances = Chances {
            seasons: 1,
            met: plan.needs.iter().map(of_need).collect(),
            throughout: vec![0.5; plan.needs.len()],
            grown: Vec::new(),
        };
        let weeks: usize = chances.met.iter().map(Vec::len).sum();
        let told = weeks + chances.throughout.len();
        for columns in [60, 78, 96, 200] {
            let lines = chance_lines(&plan, &chances, columns);
            let table = || lines[1..].iter().map(String::as_str);
            assert!(table().all(|line| line.width() <= columns), "{columns}");
            let cells = table().filter(|line| !line.trim_start().starts_with("week"));
            let figures = cells.flat_map(|line| line.get(INDENT..).unwrap_or("").split("  "));
            let figures = figures.filter(|cell| cell.trim().parse::<u8>().is_ok());
            assert_eq!(figures.count(), told, "{columns}");
        }
    }
}
