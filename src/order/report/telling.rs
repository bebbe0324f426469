//! How a settled order stands, in sentences.

use super::columns::in_weeks;
use crate::order::{By, Frost, Mend, Order, Plan, Promise, Settled, Spreads, Status, Takes};

/// How settling ended, in a sentence or two.
pub fn status_sentence(settled: &Settled) -> String {
    let cost = settled
        .order
        .as_ref()
        .map(|order| order.cost)
        .unwrap_or_default();
    match settled.status {
        Status::Optimal if !settled.promises.is_empty() => format!("Every need is as sure as it is to be for {cost}, and no order that meets them costs less (proved)."),
        Status::Found { bound, gap } => format!(
            "Every need is as sure as it is to be for {cost}, the least that was found: to meet them in a usual season alone costs {bound}, {:.0} % less, and less than that none costs (proved).",
            gap * 100.0
        ),
        Status::Unsure { takes, .. } => {
            let unsure: Vec<&Promise> = { settled.promises.iter() }
                .filter(|promise| !promise.is_as_aimed())
                .collect();
            let more = match takes {
                Some(Takes { cost, places }) => format!("the least found that is costs {cost} and has {places} plants"),
                None => "none that is was found, whatever money and beds".to_string(),
            };
            format!(
                "Every need is met in a usual season for {cost}, but {} of {} {} not as sure as asked: {more}.",
                unsure.len(),
                settled.promises.len(),
                if unsure.len() == 1 { "is" } else { "are" },
            )
        }
        Status::Optimal => format!("Every need is met in a usual season for {cost}, and no order that meets them costs less (proved)."),
        Status::Within { bound, gap } => format!(
            "Every need is met in a usual season for {cost}; stopped before more was proved than that no order costs less than {bound}, {:.1} % below.",
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

/// How a promise stands beside what was asked.
pub fn promise_in_words(promise: &Promise) -> String {
    let best = || {
        format!(
            "{:.0} is the best that any order can have",
            promise.ceiling * 100.0
        )
    };
    match (promise.is_met(), promise.is_beyond()) {
        (true, _) => "as sure as asked".to_string(),
        (false, true) => format!("cannot be so sure: {}", best()),
        (false, false) => "not as sure as asked".to_string(),
    }
}

/// What would mend it, at what price, and what to change for it.
pub fn mend_sentence(plan: &Plan, mend: &Mend) -> String {
    let proved = |told: &str, at_least: String| match mend.is_least() {
        true => format!("({told} would not do)"),
        false => format!("(at least {at_least} is needed)"),
    };
    let step = |told: &str| match mend.is_least() {
        true => format!(" ({told} would not do)"),
        false => String::new(),
    };
    let edits: Vec<String> = mend.edits.iter().map(|edit| edit.described(plan)).collect();
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

/// What varies between the seasons drawn and by how much, and what does not.
pub fn risk_in_words(plan: &Plan) -> String {
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
