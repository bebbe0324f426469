//! The chances of the promises that are left, by what is known of the season so far.

use jiff::civil::Date;
use statrs::distribution::{ContinuousCDF, Normal};

use super::posterior::SoFar;
use super::yields::yields;
use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::risk::Dice;
use crate::order::season::monday;
use crate::order::solution::Order;
use crate::variety::Varieties;

/// A need that has weeks to come.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// Its place in the plan.
    pub need: usize,
    /// Each of its weeks that begins after the day, with the share of seasons in which it has all its
    /// stems.
    pub weeks: Vec<(u8, f64)>,
    /// The share in which it has them in all those weeks.
    pub throughout: f64,
}

const SEED: u64 = 20_270_820;

/// Draws so many ends of the season, from the day on: the yields by `so_far`, and the first frost by its
/// curve, given that it has not come by then. What a late frost of spring set back is in the counts.
pub fn chances_left(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    so_far: &SoFar,
    day: Date,
    seasons: u32,
) -> Vec<Left> {
    let model = &candidates.model;
    let to_come: Vec<usize> = { candidates.weeks.iter().enumerate() }
        .filter(|(_, week)| monday(plan.season.planted, **week).is_some_and(|monday| monday > day))
        .map(|(at, _)| at)
        .collect();
    let choice = order.choice.as_it_comes();
    let mut dice = Dice::seeded(SEED);
    let mut met = vec![vec![0_u32; model.weeks]; model.needs.len()];
    let mut throughout = vec![0_u32; model.needs.len()];
    let mut drawn = model.clone();
    for _ in 0..seasons {
        let frost = frost_after(plan, day, dice.evenly());
        let season = dice.deviations();
        for (at, one) in drawn.varieties.iter_mut().enumerate() {
            if choice.plants[at] == 0 {
                continue;
            }
            let share = so_far.share(at, season, dice.deviations());
            one.yields = yields(plan, candidates, list, at, frost, share);
        }
        let mut lacked = vec![false; model.needs.len()];
        for week in &to_come {
            let (_, sharing) = drawn.shared(&choice, *week);
            for (need, lacks) in sharing.lacks.iter().enumerate() {
                met[need][*week] += u32::from(*lacks <= 0);
                lacked[need] |= *lacks > 0;
            }
        }
        for (need, lacked) in lacked.into_iter().enumerate() {
            throughout[need] += u32::from(!lacked);
        }
    }
    let share = |count: u32| f64::from(count) / f64::from(seasons.max(1));
    let left = |need: usize| {
        let runs = to_come.iter().filter(|week| model.needs[need].runs(**week));
        let weeks = runs.map(|week| (candidates.weeks[*week], share(met[need][*week])));
        let weeks: Vec<(u8, f64)> = weeks.collect();
        let throughout = share(throughout[need]);
        (!weeks.is_empty()).then_some(Left {
            need,
            weeks,
            throughout,
        })
    };
    (0..model.needs.len()).filter_map(left).collect()
}

/// A first frost after a day, so far along those that there may be.
fn frost_after(plan: &Plan, day: Date, evenly: f64) -> Date {
    let frost = &plan.season.first_frost;
    let come = 1.0 - frost.chance_after(day);
    let along = (come + (1.0 - come) * evenly).clamp(f64::EPSILON, 1.0 - f64::EPSILON);
    frost.after(Normal::standard().inverse_cdf(along))
}
