//! Every figure that the plan is reckoned with, and where it comes from.

use std::collections::HashSet;

use jiff::civil::Date;

use crate::account::text::counted;
use crate::form::traits::list_and;
use crate::order::told::spaced;
use crate::order::{Figure, Method, Need, Plan};
use crate::variety::{StoreCount, Text, Varieties, Variety};

/// Where a figure of the plan itself comes from.
const GROWERS: &str = "the grower's";
/// What is assumed of tubers in store.
const KEPT: &str = "assumed: one selling farm plans on so many";
/// What was counted of tubers in store.
const BOOK: &str = "the stock book's";
/// The least fitness of a need for a use that says none.
const LEAST_FITNESS: &str = "assumed: our own choice, from where a variety is said to fit a use";
/// How far from its colours a need that does not say it goes.
const NEAR: &str = "assumed: our own choice, about where a colour stops passing for another";

/// The season's figures, and what the plan has beside them: cuts that come at other times, counts
/// of the row, tubers in store.
pub fn reckoned(plan: &Plan) -> Vec<Figure> {
    let season = &plan.season;
    let figure = |name, value: String, source: &str| Figure {
        name,
        value,
        source: source.to_string(),
    };
    let method = match season.method {
        Method::Tubers => "tubers in the bed",
        Method::Potted => "potted up under cover",
    };
    let mut figures = season.figures();
    figures.push(figure("started", method.to_string(), GROWERS));
    let firsts = season.first_cuts.iter().map(|one| {
        let of: Vec<String> = one.of.iter().map(spoken).collect();
        format!("{} for {}", one.weeks, of.join(", "))
    });
    let firsts: Vec<String> = firsts.collect();
    if !firsts.is_empty() {
        figures.push(figure("but a first cut after", firsts.join("; "), GROWERS));
    }
    if !season.counted.is_empty() {
        let names: HashSet<&str> = season
            .counted
            .iter()
            .map(|one| one.variety.as_str())
            .collect();
        let count = names.len();
        let told = format!(
            "of {count} {}",
            if count == 1 { "variety" } else { "varieties" }
        );
        figures.push(figure("stems counted in the row", told, GROWERS));
    }
    let source = if plan.storage_kept.is_some() {
        GROWERS
    } else {
        KEPT
    };
    figures.push(figure(
        "kept in store",
        format!("{} of 100", plan.storage()),
        source,
    ));
    figures.extend(assumed_of_needs(plan));
    figures
}

/// What the stock book says in place of the list and of what is assumed of tubers in store.
pub fn counted_in_store(list: &Varieties) -> Vec<Figure> {
    let stores = list.list().iter().filter_map(|one| Some((one, one.store?)));
    let stores: Vec<(&Variety, StoreCount)> = stores.collect();
    let figure = |name, value: String| Figure {
        name,
        value,
        source: BOOK.to_string(),
    };
    let of = |count: usize| counted(count, "variety");
    let days: Vec<Date> = stores.iter().filter_map(|(_, one)| one.counted).collect();
    let keeps = stores.iter().filter_map(|(_, one)| one.keeps);
    let keeps: Vec<f64> = keeps.map(|part| part * 100.0).collect();
    let mut figures = Vec::new();
    if let (Some(first), Some(last)) = (days.iter().min(), days.iter().max()) {
        let tubers = stores.iter().filter(|(_, one)| one.counted.is_some());
        let tubers: u64 = tubers
            .map(|(one, _)| u64::from(one.on_hand.unwrap_or(0)))
            .sum();
        let when = match first == last {
            true => format!("counted on {first}"),
            false => format!("counted from {first} to {last}"),
        };
        let value = format!("{tubers} tubers of {}, {when}", of(days.len()));
        figures.push(figure("on hand, of those in the stock book", value));
    }
    if !keeps.is_empty() {
        let (low, high) = (
            keeps.iter().copied().fold(f64::INFINITY, f64::min),
            keeps.iter().copied().fold(0.0, f64::max),
        );
        let value = match high - low < 1.0 {
            true => format!("{high:.0} of 100, for {}", of(keeps.len())),
            false => format!("{low:.0} to {high:.0} of 100, for {}", of(keeps.len())),
        };
        figures.push(figure("kept in store, of those in the stock book", value));
    }
    figures
}

/// What is taken for granted of the needs that do not say it, and of which needs.
fn assumed_of_needs(plan: &Plan) -> Vec<Figure> {
    let figure = |name, value: &dyn Fn(&Need) -> Option<String>, source: &str| {
        let told = plan
            .needs
            .iter()
            .filter_map(|need| Some((value(need)?, need)));
        let (values, names): (Vec<String>, Vec<&str>) = told
            .map(|(value, need)| (value, need.name.as_str()))
            .unzip();
        let value = values.first()?;
        Some(Figure {
            name,
            value: format!("{value} for {}", list_and(&names)),
            source: source.to_string(),
        })
    };
    let fit = |need: &Need| {
        let of_use = need.for_use.is_some() && need.fitness.is_none();
        of_use.then(|| format!("{:.0} %", need.least_fitness() * 100.0))
    };
    let within = |need: &Need| {
        let of_colour = !need.colours.is_empty() && need.within.is_none();
        of_colour.then(|| need.reach().to_string())
    };
    let figures = [
        figure("least fitness", &fit, LEAST_FITNESS),
        figure("how near a colour", &within, NEAR),
    ];
    figures.into_iter().flatten().collect()
}

/// What a first cut is of: a variety by its name, a form by the words of its id.
fn spoken(of: &Text) -> String {
    let is_id = of.chars().all(|one| one.is_ascii_lowercase() || one == '-');
    match is_id {
        true => spaced(of),
        false => of.to_string(),
    }
}
