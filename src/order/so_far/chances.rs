//! The chances of the promises that are left, by what is known of the season so far.

use jiff::civil::Date;
use statrs::distribution::{ContinuousCDF, Normal};

use super::posterior::SoFar;
use super::yields::yields;
use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::promise::{Promised, Whole};
use crate::order::risk::{Dice, Shape, Ways, turns};
use crate::order::season::monday;
use crate::order::solution::Order;
use crate::variety::Varieties;

/// A promise of which weeks are to come.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// What is promised.
    pub of: Promised,
    /// Each of a need's weeks that begins after the day, with the share of seasons in which it has all its
    /// stems; none of an event or a round as one.
    pub weeks: Vec<(u8, f64)>,
    /// The share in which all is had in all those weeks.
    pub throughout: f64,
}

const SEED: u64 = 20_270_820;

/// Draws so many ends of the season, from the day on: the yields by `so_far`, and the first frost by its
/// curve, given that it has not come by then. What a late frost of spring set back is in the counts. The stems
/// of each are shared out in turn, as those of the seasons by which the order was judged.
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
    let plants = &order.choice.plants;
    let planted: Vec<usize> = (0..plants.len()).filter(|at| plants[*at] > 0).collect();
    let turns = turns(&candidates.sure);
    let shape = |week: &usize| Shape::of(model, &turns, *week, &planted);
    let shapes: Vec<Shape> = to_come.iter().map(shape).collect();
    let mut dice = Dice::seeded(SEED);
    let mut met = vec![vec![0_u32; to_come.len()]; turns.len()];
    let mut throughout = vec![0_u32; turns.len()];
    let mut together = vec![0_u32; candidates.wholes.len()];
    let (mut ways, mut shared) = (Ways::default(), Vec::new());
    for _ in 0..seasons {
        let frost = frost_after(plan, day, dice.evenly());
        let season = dice.deviations();
        let given = planted.iter().map(|at| {
            let share = so_far.share(*at, season, dice.deviations());
            yields(plan, candidates, list, *at, frost, share)
        });
        let given: Vec<Vec<u64>> = given.collect();
        let mut lacked = vec![false; turns.len()];
        for (at, (week, shape)) in to_come.iter().zip(&shapes).enumerate() {
            shared.resize(shape.size(), 0);
            shape.begin(&mut shared);
            for (place, (variety, given)) in planted.iter().zip(&given).enumerate() {
                let stems = given[*week].saturating_mul(plants[*variety]);
                let stems = i64::try_from(stems).unwrap_or(i64::MAX);
                shape.change(&mut shared, place, stems);
            }
            shape.share(&mut shared, &mut ways);
            for (need, lacks) in turns.iter().zip(shape.lacks(&shared)) {
                met[*need][at] += u32::from(*lacks == 0);
                lacked[*need] |= *lacks > 0;
            }
        }
        for (count, lacked) in throughout.iter_mut().zip(&lacked) {
            *count += u32::from(!lacked);
        }
        for (count, whole) in together.iter_mut().zip(&candidates.wholes) {
            *count += u32::from(whole.needs.iter().all(|need| !lacked[*need]));
        }
    }
    let share = |count: u32| f64::from(count) / f64::from(seasons.max(1));
    let runs = |need: usize, week: &usize| model.needs[need].runs(*week);
    let of_need = |need: usize| {
        let weeks = to_come.iter().zip(&met[need]);
        let weeks = weeks.filter(|(week, _)| runs(need, week));
        let weeks = weeks.map(|(week, met)| (candidates.weeks[*week], share(*met)));
        let weeks: Vec<(u8, f64)> = weeks.collect();
        (!weeks.is_empty()).then_some(Left {
            of: Promised::Need(need),
            weeks,
            throughout: share(throughout[need]),
        })
    };
    let has_weeks = |whole: &Whole| {
        let mut needs = whole.needs.iter();
        needs.any(|need| to_come.iter().any(|week| runs(*need, week)))
    };
    let wholes = candidates.wholes.iter().zip(&together);
    let wholes = wholes.filter(|(whole, _)| has_weeks(whole));
    let wholes = wholes.map(|(whole, count)| Left {
        of: Promised::Work(whole.work),
        weeks: Vec::new(),
        throughout: share(*count),
    });
    let needs = (0..turns.len()).filter_map(of_need);
    needs.chain(wholes).collect()
}

/// A first frost after a day, so far along those that there may be.
fn frost_after(plan: &Plan, day: Date, evenly: f64) -> Date {
    let frost = &plan.season.first_frost;
    let come = 1.0 - frost.chance_after(day);
    let along = (come + (1.0 - come) * evenly).clamp(f64::EPSILON, 1.0 - f64::EPSILON);
    frost.after(Normal::standard().inverse_cdf(along))
}
