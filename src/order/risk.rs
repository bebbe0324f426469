//! The chance that each need is met: seasons drawn with a fixed seed, and the order's stems shared out
//! in each.
//!
//! A season has one yield for all varieties, one for each about it, a share of plants and one of stems
//! that are lost, a last and a first frost, each drawn apart from the others. Of the plants of a
//! variety each is lost or not by that share. A last frost later than planting sets the first cut
//! back by as many days; a first frost later than planned lets cutting go on.

mod drawn;
mod grown;
mod sharing;
mod spreads;

pub(super) use drawn::Dice;
pub(super) use grown::Seasons;
pub use grown::{Grown, Grows};
pub(super) use sharing::{Shape, Ways, turns};
pub use spreads::Spreads;

use std::ops::Range;

use serde::{Deserialize, Serialize};

use super::candidates::Candidates;
use super::model::{Model, STEM};
use super::plan::Plan;
use super::solution::Order;
use crate::cores::in_spans;
use crate::variety::Varieties;

/// What came of the seasons drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Chances {
    /// Seasons drawn.
    pub seasons: u32,
    /// By need: each of its weeks with the share of seasons in which it had all its stems.
    pub met: Vec<Vec<(u8, f64)>>,
    /// By need: the share of seasons in which it had all its stems in every one of its weeks.
    pub throughout: Vec<f64>,
    /// Each event or round that is to be met as one, by its place among the plan's work, with the share in which
    /// all its needs had them.
    pub together: Vec<(usize, f64)>,
    /// By week: usable stems of all varieties, the fifth, fiftieth and ninety-fifth of a hundred
    /// seasons.
    pub grown: Vec<(u8, [f64; 3])>,
}

/// Seasons drawn where ranges and chances are told.
pub const SEASONS: u32 = 400;

/// Seasons that are shared out before a thread has started.
const SEASONS_A_THREAD: usize = 20;
/// Seasons that are shared out together: what grows in more of them takes much memory.
const TOGETHER: usize = 500;

/// Draws so many seasons for an order of candidates from `list`, with the spreads assumed.
pub fn chances(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    seasons: u32,
) -> Chances {
    let seasons = Seasons::of(plan, candidates, list, Spreads::assumed(), 0..seasons);
    of_seasons(&seasons, candidates, &order.choice.plants)
}

/// What comes of so many plants of each candidate in these seasons.
pub(super) fn of_seasons(seasons: &dyn Grows, candidates: &Candidates, plants: &[u64]) -> Chances {
    let model = &candidates.model;
    let turns = turns(&candidates.sure);
    let turn_of = |need: usize| turns.iter().position(|one| *one == need).unwrap_or(need);
    let wholes = candidates.wholes.iter().map(|whole| {
        let turns = whole.needs.iter().map(|need| turn_of(*need));
        turns.collect::<Vec<usize>>()
    });
    let wholes: Vec<Vec<usize>> = wholes.collect();
    let planted: Vec<usize> = (0..plants.len()).filter(|at| plants[*at] > 0).collect();
    let shapes: Vec<Shape> = (0..model.weeks)
        .map(|week| Shape::of(model, &turns, week, &planted))
        .collect();
    let parts = in_spans(seasons.count(), SEASONS_A_THREAD, |span| {
        let mut came = Came::nothing(model, wholes.clone());
        for from in span.clone().step_by(TOGETHER) {
            let own = from..span.end.min(from + TOGETHER);
            let grown = planted.iter();
            let grown: Vec<Grown> = grown
                .map(|at| seasons.grown(*at, plants[*at], own.clone()))
                .collect();
            came.take_in(&shapes, &grown, own);
        }
        came
    });
    let mut all = Came::nothing(model, wholes.clone());
    parts.into_iter().for_each(|part| all.add(part));
    let share = |count: &u32| f64::from(*count) / seasons.count().max(1) as f64;
    let weeks = || candidates.weeks.iter().copied().enumerate();
    let of_need = |need: usize| {
        let turn = turn_of(need);
        let runs = weeks().filter(|(week, _)| model.needs[need].runs(*week));
        let met = runs.map(|(at, week)| (week, share(&all.met[at][turn])));
        met.collect()
    };
    Chances {
        seasons: seasons.count() as u32,
        met: (0..turns.len()).map(of_need).collect(),
        // What is set aside whole is met in none.
        throughout: (0..turns.len())
            .map(|need| match model.needs[need].asks() {
                true => share(&all.throughout[turn_of(need)]),
                false => 0.0,
            })
            .collect(),
        together: { candidates.wholes.iter().zip(&all.together) }
            .map(|(whole, count)| match model.asks_for_all(&whole.needs) {
                true => (whole.work, share(count)),
                false => (whole.work, 0.0),
            })
            .collect(),
        grown: weeks()
            .zip(all.grown)
            .map(|((_, week), grown)| (week, spread(grown)))
            .collect(),
    }
}

/// What came of some seasons.
struct Came {
    /// The needs of each whole, by their turns.
    wholes: Vec<Vec<usize>>,
    /// By week, then turn: seasons in which a need had all its stems.
    met: Vec<Vec<u32>>,
    /// By turn: seasons in which it had them in all weeks.
    throughout: Vec<u32>,
    /// By whole: seasons in which all its needs had them.
    together: Vec<u32>,
    /// By week: the stems of all varieties in each season.
    grown: Vec<Vec<f64>>,
}

impl Came {
    fn nothing(model: &Model, wholes: Vec<Vec<usize>>) -> Came {
        Came {
            together: vec![0; wholes.len()],
            wholes,
            met: vec![vec![0; model.needs.len()]; model.weeks],
            throughout: vec![0; model.needs.len()],
            grown: vec![Vec::new(); model.weeks],
        }
    }

    /// Shares out the seasons of a span, of which this grows.
    fn take_in(&mut self, shapes: &[Shape], grown: &[Grown], span: Range<usize>) {
        let (mut ways, mut shared) = (Ways::default(), Vec::new());
        let mut throughout = vec![true; self.throughout.len()];
        for season in 0..span.len() {
            throughout.fill(true);
            for (week, shape) in shapes.iter().enumerate() {
                shared.resize(shape.size(), 0);
                shape.begin(&mut shared);
                let mut all = 0_i64;
                for (planted, grown) in grown.iter().enumerate() {
                    let stems = grown[season * shapes.len() + week];
                    shape.change(&mut shared, planted, stems);
                    all = all.saturating_add(stems);
                }
                shape.share(&mut shared, &mut ways);
                for (turn, lacks) in shape.lacks(&shared).iter().enumerate() {
                    self.met[week][turn] += u32::from(*lacks == 0);
                    throughout[turn] &= *lacks == 0;
                }
                self.grown[week].push(all as f64 / STEM as f64);
            }
            let both = self.throughout.iter_mut().zip(&throughout);
            both.for_each(|(count, met)| *count += u32::from(*met));
            let both = self.together.iter_mut().zip(&self.wholes);
            both.for_each(|(count, own)| {
                *count += u32::from(own.iter().all(|one| throughout[*one]))
            });
        }
    }

    fn add(&mut self, other: Came) {
        let counts = |own: &mut Vec<u32>, other: Vec<u32>| {
            own.iter_mut()
                .zip(other)
                .for_each(|(own, other)| *own += other);
        };
        counts(&mut self.throughout, other.throughout);
        counts(&mut self.together, other.together);
        self.met
            .iter_mut()
            .zip(other.met)
            .for_each(|(own, other)| counts(own, other));
        let grown = self.grown.iter_mut().zip(other.grown);
        grown.for_each(|(own, other)| own.extend(other));
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
