//! What is free to sell: stems that are expected beyond what is promised.

use jiff::civil::Date;

use super::posterior::SoFar;
use super::yields::yields;
use crate::order::candidates::Candidates;
use crate::order::model::STEM;
use crate::order::plan::Plan;
use crate::order::season::monday;
use crate::order::solution::{Order, given};
use crate::variety::Varieties;

/// A week to come.
#[derive(Debug, Clone, PartialEq)]
pub struct Free {
    /// The week of the year.
    pub week: u8,
    /// Its Monday.
    pub monday: Option<Date>,
    /// Stems expected of all varieties.
    pub expected: f64,
    /// Stems that the needs ask for.
    pub promised: f64,
    /// Stems that no need takes.
    pub free: f64,
    /// Of which varieties, the most first; none of under a stem.
    pub of: Vec<(String, f64)>,
}

/// The weeks that begin after a day, with what is expected by `so_far` shared out over the needs: what
/// none of them takes is free.
pub fn free_to_sell(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    so_far: &SoFar,
    day: Date,
) -> Vec<Free> {
    let choice = order.choice.as_it_comes();
    let mut model = candidates.model.clone();
    for (at, one) in model.varieties.iter_mut().enumerate() {
        if choice.plants[at] > 0 {
            let (frost, share) = (plan.season.first_frost.middle(), so_far.expected(at));
            one.yields = yields(plan, candidates, list, at, frost, share);
        }
    }
    let stems = |thousandths: u64| thousandths as f64 / STEM as f64;
    let of_week = |(at, week): (usize, &u8)| {
        let monday = monday(plan.season.planted, *week);
        if monday.is_none_or(|monday| monday <= day) {
            return None;
        }
        let plants = model.varieties.iter().zip(&choice.plants);
        let grown: Vec<u64> = plants
            .map(|(one, plants)| one.yields[at] * plants)
            .collect();
        let mut left = grown.clone();
        for (variety, taken) in given(&model, &choice, at).into_iter().flatten() {
            left[variety] = left[variety].saturating_sub(taken);
        }
        let mut of: Vec<(String, f64)> = { left.iter().enumerate() }
            .filter(|(_, left)| **left >= STEM)
            .map(|(variety, left)| (model.varieties[variety].name.clone(), stems(*left)))
            .collect();
        of.sort_by(|one, other| other.1.total_cmp(&one.1));
        let promised = model.needs.iter().map(|need| need.stems[at]);
        Some(Free {
            week: *week,
            monday,
            expected: stems(grown.iter().sum()),
            promised: stems(promised.sum()),
            free: stems(left.iter().sum()),
            of,
        })
    };
    candidates
        .weeks
        .iter()
        .enumerate()
        .filter_map(of_week)
        .collect()
}
