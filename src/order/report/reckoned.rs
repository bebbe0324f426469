//! Every figure that the plan is reckoned with, and where it comes from.

use std::collections::HashSet;

use crate::order::{Figure, Method, Plan};

/// Where a figure of the plan itself comes from.
const GROWERS: &str = "the grower's";
/// What is assumed of tubers in store.
const KEPT: &str = "assumed: one selling farm plans on so many";

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
        let of: Vec<&str> = one.of.iter().map(|of| of.as_str()).collect();
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
    figures
}
