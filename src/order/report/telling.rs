//! How a settled order stands, in sentences.

use super::columns::in_weeks;
use crate::order::model::Demand;
use crate::order::{Aside, Frost, Order, Plan, Promise, Rest, Settled, Spreads, Status, Takes};

/// How settling ended, in a sentence or two: first what was set aside, then how it is with all else.
pub fn status_sentence(settled: &Settled) -> String {
    let aside = set_aside_in_words(settled);
    if aside.is_empty() {
        return of_the_rest(settled, "every need", "all");
    }
    let mut needs = settled.candidates.model.needs.iter();
    let rest = match needs.any(Demand::asks) {
        true => of_the_rest(settled, "all else that is asked for", "all that"),
        false => "Nothing else is asked for.".to_string(),
    };
    format!("Not every need can be met, whatever the beds and the money: {aside}. {rest}")
}

/// What no order can meet, and what of it is ordered for all the same.
fn set_aside_in_words(settled: &Settled) -> String {
    let model = &settled.candidates.model;
    let of_need = |aside: &Aside| {
        let name = &model.needs[aside.need].name;
        let weeks = in_weeks(&aside.weeks);
        match aside.kept {
            Rest::OtherWeeks => {
                format!("{name} in {weeks} is set aside, and its other weeks are ordered for")
            }
            Rest::Most => format!("{name} is set aside, and the most that there is is ordered for"),
            Rest::Nothing => format!("{name} is set aside"),
        }
    };
    let aside = settled.aside();
    let trials = aside.trials.iter().map(|at| &model.trials[*at].name);
    let trials = trials.map(|name| format!("{name} cannot be tried"));
    let told = aside.needs.iter().map(of_need).chain(trials);
    told.collect::<Vec<String>>().join("; ")
}

/// How it is with what was not set aside, which goes by these names.
fn of_the_rest(settled: &Settled, every: &str, all: &str) -> String {
    let cost = settled
        .order
        .as_ref()
        .map(|order| order.cost)
        .unwrap_or_default();
    let told = match settled.status {
        Status::Optimal if !settled.promises.is_empty() => format!("{every} is as sure as was asked, for {cost}, and no order that meets them costs less (proved)."),
        Status::Found { bound, gap } => format!(
            "{every} is as sure as was asked, for {cost}, the least that was found: to meet them in a usual season alone costs {bound}, {:.0} % less, and less than that none costs (proved).",
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
                "{every} is met in a usual season for {cost}, but {} of {} {} not as sure as asked: {more}.",
                unsure.len(),
                settled.promises.len(),
                if unsure.len() == 1 { "is" } else { "are" },
            )
        }
        Status::Optimal => format!("{every} is met in a usual season for {cost}, and no order that meets them costs less (proved)."),
        Status::Within { bound, gap } => format!(
            "{every} is met in a usual season for {cost}; stopped before more was proved than that no order costs less than {bound}, {:.1} % below.",
            gap * 100.0
        ),
        Status::Short { needed: Some(needed), proved: true } => format!("Not {every} can be met with this money: to meet {all} costs {needed} (proved)."),
        Status::Short { needed: Some(needed), proved: false } => format!("No order within this money was found: the cheapest found that meets {every} costs {needed}."),
        Status::Short { needed: None, proved: true } => format!("Not {every} can be met with these beds and this list, whatever the money (proved)."),
        Status::Short { needed: None, proved: false } => format!("No order that meets {every} was found with these beds and this list."),
        Status::Unknown => "Stopped before an order was found or it was proved that there is none: give it more time.".to_string(),
    };
    let mut letters = told.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
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
