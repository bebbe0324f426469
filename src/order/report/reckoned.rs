//! Every figure that the plan is reckoned with, and where it comes from.

use std::collections::HashSet;

use crate::form::traits::list_and;
use crate::order::told::spaced;
use crate::order::{Figure, Method, Need, Plan};
use crate::variety::Text;

/// Where a figure of the plan itself comes from.
const GROWERS: &str = "the grower's";
/// What is assumed of tubers in store.
const KEPT: &str = "assumed: one selling farm plans on so many";
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
