//! `trug choose --palette`: the best few varieties of different forms for several colours.

use std::io::Write;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::Context;
use super::found::line;
use super::narrowing::targets_of;
use crate::colour::palette::{Candidate, cover};
use crate::variety::{Ask, By, Distances, Index, Ranked, Ranking, Varieties, Variety};

/// The nearest varieties of each colour that a palette is picked from.
const PALETTE_CANDIDATES: usize = 200;

pub(super) fn run(
    (colours, pick): (&[String], Option<usize>),
    list: &Varieties,
    index: &Index,
    ask: &Ask,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let mut asked = Vec::new();
    for colour in colours {
        asked.push((colour.as_str(), targets_of(colour, context)?));
    }
    // The nearest of each colour: a variety far from all of them serves none.
    let mut rows = Vec::new();
    for (_, targets) in &asked {
        let ranking = Ranking {
            by: By::Colour,
            targets: targets.clone(),
            ..Ranking::default()
        };
        let near = index.ask(&Ask {
            narrowings: ask.narrowings.clone(),
            ranking,
            top: PALETTE_CANDIDATES,
        });
        rows.extend(near.ranked.iter().map(|one| one.row));
    }
    rows.sort_unstable();
    rows.dedup();
    rows.retain(|row| list.list()[*row].form_under(context.set()).is_some());
    let measured: Vec<Distances<'_>> = asked
        .iter()
        .map(|(_, targets)| index.distances(targets))
        .collect();
    let candidate = |row: &usize| Candidate {
        form: list.list()[*row].form_under(context.set()),
        distances: measured
            .iter()
            .map(|distances| distances.of(*row))
            .collect(),
    };
    let candidates: Vec<Candidate<_>> = rows.iter().map(candidate).collect();
    let Some(found) = cover(&candidates, pick.unwrap_or(asked.len())) else {
        return Err(anyhow!(
            "no variety that is left has a form and a colour that are known"
        ));
    };
    let served: Vec<(&str, &Variety, f64)> = asked
        .iter()
        .zip(&found.serves)
        .enumerate()
        .map(|(at, ((colour, _), chosen))| {
            (
                *colour,
                &list.list()[rows[*chosen]],
                candidates[*chosen].distances[at],
            )
        })
        .collect();
    if context.json {
        let served = served.iter().map(|(colour, variety, distance)| json!({ "colour": colour, "variety": variety.name.as_str(), "distance": distance }));
        let chosen: Vec<&str> = found
            .chosen
            .iter()
            .map(|at| list.list()[rows[*at]].name.as_str())
            .collect();
        context.print(out, json!({ "varieties": chosen, "serves": served.collect::<Vec<_>>(), "total": found.total, "best": found.exact }))?;
        return Ok(true);
    }
    let claim = if found.exact {
        "No other choice of different forms is nearer"
    } else {
        "The best that was found"
    };
    writeln!(out, "{claim}: {:.1} in all (CIEDE2000).", found.total)?;
    for (colour, variety, distance) in served {
        let one = Ranked {
            row: 0,
            fitness: None,
            distance: Some(distance),
        };
        writeln!(out, "  {colour:<12} {}", line(variety, &one, context))?;
    }
    Ok(true)
}
