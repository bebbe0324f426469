//! The chance that each need is met: seasons drawn with a fixed seed, and the order's stems shared out
//! in each.

mod drawn;
mod spreads;

use drawn::{Dice, Drawn};

pub use spreads::Spreads;

use super::candidates::Candidates;
use super::model::{Choice, Model, STEM};
use super::plan::Plan;
use super::season::thousandths;
use super::solution::Order;
use crate::variety::{Varieties, Variety};

/// What came of the seasons drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Chances {
    /// Seasons drawn.
    pub seasons: u32,
    /// By need: each of its weeks with the share of seasons in which it had all its stems.
    pub met: Vec<Vec<(u8, f64)>>,
    /// By need: the share of seasons in which it had all its stems in every one of its weeks.
    pub throughout: Vec<f64>,
    /// By week: usable stems of all varieties, the fifth, fiftieth and ninety-fifth of a hundred
    /// seasons.
    pub grown: Vec<(u8, [f64; 3])>,
}

/// Seasons drawn wherever ranges and chances are told.
pub const SEASONS: u32 = 400;

/// Draws so many seasons for an order of candidates from `list`, with the spreads assumed.
pub fn chances(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    seasons: u32,
) -> Chances {
    with_spreads(plan, candidates, list, order, seasons, Spreads::assumed())
}

/// Draws so many seasons.
///
/// A season has one yield for all varieties, one for each about it, a share of plants and one of stems
/// that are lost, a last and a first frost, each drawn apart from the others. Of the plants of a
/// variety each is lost or not by that share. A last frost later than planting sets the first cut
/// back by as many days; a first frost later than planned lets cutting go on.
fn with_spreads(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    seasons: u32,
    spreads: Spreads,
) -> Chances {
    let model = &candidates.model;
    let choice = as_it_comes(&order.choice);
    let mut dice = Dice::new();
    let mut met: Vec<Vec<u32>> = vec![vec![0; model.weeks]; model.needs.len()];
    let mut throughout = vec![0_u32; model.needs.len()];
    let mut grown: Vec<Vec<f64>> = vec![Vec::new(); model.weeks];
    for _ in 0..seasons {
        let season = Drawn::of(&plan.season, spreads, &mut dice);
        let mut drawn = model.clone();
        for (at, one) in drawn.varieties.iter_mut().enumerate() {
            let plants = choice.plants[at];
            if plants == 0 {
                continue;
            }
            let variety = &list.list()[candidates.rows[at]];
            let share = season.share(plants, is_known(plan, variety), &mut dice);
            let first = candidates.first_cuts[at];
            let weeks = &candidates.weeks;
            let given = { &plan.season }.given(variety, first, weeks, season.late, season.frost);
            one.yields = given
                .iter()
                .map(|stems| thousandths(stems * share))
                .collect();
        }
        let lacking = shared_out(&drawn, &choice, &mut grown);
        for (need, weeks) in lacking.iter().enumerate() {
            throughout[need] += u32::from(weeks.iter().all(|lacks| !lacks));
            for (week, lacks) in weeks.iter().enumerate() {
                met[need][week] += u32::from(!lacks);
            }
        }
    }
    let share = |count: u32| f64::from(count) / f64::from(seasons.max(1));
    let weeks = || candidates.weeks.iter().copied().enumerate();
    let of_need = |(need, met): (usize, Vec<u32>)| {
        let runs = weeks().filter(|(week, _)| model.needs[need].runs(*week));
        runs.map(|(at, week)| (week, share(met[at]))).collect()
    };
    Chances {
        seasons,
        met: met.into_iter().enumerate().map(of_need).collect(),
        throughout: throughout.into_iter().map(share).collect(),
        grown: weeks()
            .map(|(at, week)| (week, spread(std::mem::take(&mut grown[at]))))
            .collect(),
    }
}

/// Whether the stems of a variety are known by its record or by a count in the row.
fn is_known(plan: &Plan, variety: &Variety) -> bool {
    let counted = plan.season.counted.iter();
    variety.weekly_stems().is_some()
        || counted
            .map(|one| &one.variety)
            .any(|name| *name == variety.name)
}

/// By need and week whether it lacks stems; what grows in each week is noted.
fn shared_out(model: &Model, choice: &Choice, grown: &mut [Vec<f64>]) -> Vec<Vec<bool>> {
    let mut lacking = vec![vec![false; model.weeks]; model.needs.len()];
    for (week, grown) in grown.iter_mut().enumerate() {
        let (_, sharing) = model.shared(choice, week);
        for (need, lacks) in sharing.lacks.iter().enumerate() {
            lacking[need][week] = *lacks > 0;
        }
        let plants = model.varieties.iter().zip(&choice.plants);
        let all: u64 = plants.map(|(one, plants)| one.yields[week] * plants).sum();
        grown.push(all as f64 / STEM as f64);
    }
    lacking
}

/// Stems are shared out as they come: no variety is kept for a count.
fn as_it_comes(choice: &Choice) -> Choice {
    Choice {
        counted: vec![Vec::new(); choice.counted.len()],
        ..choice.clone()
    }
}

/// The fifth, fiftieth and ninety-fifth of a hundred.
fn spread(mut stems: Vec<f64>) -> [f64; 3] {
    stems.sort_by(f64::total_cmp);
    let at = |part: f64| stems.get((part * stems.len() as f64) as usize).copied();
    [0.05, 0.5, 0.95].map(|part| at(part).unwrap_or(0.0))
}

#[cfg(test)]
mod tests;
