//! What no order can better: in how many seasons a need can be met at all.

use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::risk::{Seasons, Spreads};
use crate::variety::Varieties;

/// Seasons that are looked at.
const CEILED: u32 = 2_000;
/// Plants by which what one gives is told: of so many as many stand as the season lets.
const MANY: u64 = 200;

/// By need: the share of seasons in which beds full of what gives it most in each of its weeks, and nothing
/// else, would be enough. No order meets it in more.
pub(super) fn ceilings(plan: &Plan, candidates: &Candidates, list: &Varieties) -> Vec<f64> {
    let model = &candidates.model;
    let seasons = Seasons::of(plan, candidates, list, Spreads::assumed(), 0..CEILED);
    let places = model.places.unwrap_or(u64::MAX);
    // By need, then place among seasons and weeks: the most that `MANY` plants give.
    let mut most = vec![vec![0_i64; seasons.len() * model.weeks]; model.needs.len()];
    for (at, variety) in model.varieties.iter().enumerate() {
        if variety.serves.is_empty() {
            continue;
        }
        let grown = seasons.grown(at, MANY);
        for need in &variety.serves {
            let both = most[*need].iter_mut().zip(&grown);
            both.for_each(|(most, grown)| *most = (*most).max(*grown));
        }
    }
    let of_need = |(need, most): (usize, Vec<i64>)| {
        let stems = &model.needs[need].stems;
        let enough = |(most, stems): (&i64, &u64)| {
            u128::from(most.unsigned_abs()) * u128::from(places)
                >= u128::from(*stems) * u128::from(MANY)
        };
        let seasons = most.chunks(model.weeks);
        let can = seasons.filter(|weeks| weeks.iter().zip(stems).all(enough));
        // What is set aside whole is met in none.
        let can = can.filter(|_| stems.iter().any(|stems| *stems > 0));
        can.count() as f64 / f64::from(CEILED)
    };
    most.into_iter().enumerate().map(of_need).collect()
}
