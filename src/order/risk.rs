//! The chance that each need is met: seasons drawn with a fixed seed, and the order's stems shared out
//! in each.
//!
//! A season has one yield for all varieties, one for each about it, a share of plants and one of stems
//! that are lost, a last and a first frost, each drawn apart from the others. Of the plants of a
//! variety each is lost or not by that share. A last frost later than planting sets the first cut
//! back by as many days; a first frost later than planned lets cutting go on.

mod drawn;
mod grown;
mod spreads;
mod turns;

pub(super) use drawn::Dice;
pub(super) use grown::{Grown, Seasons};
pub use spreads::Spreads;
pub(super) use turns::{Turns, turns};

use super::candidates::Candidates;
use super::model::{Model, STEM};
use super::plan::Plan;
use super::solution::Order;
use crate::cores::all_in_spans;
use crate::variety::Varieties;

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

/// Seasons drawn where ranges and chances are told.
pub const SEASONS: u32 = 400;

/// Seasons that are shared out before a thread has started.
const SEASONS_A_THREAD: usize = 20;

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
fn of_seasons(seasons: &Seasons<'_>, candidates: &Candidates, plants: &[u64]) -> Chances {
    let model = &candidates.model;
    let turns = turns(&candidates.sure);
    let (varieties, grown) = planted(seasons, plants);
    let grown: Vec<&Grown> = grown.iter().collect();
    let lacks = lacks(model, turns, (&varieties, &grown), seasons.len());
    let needs = model.needs.len();
    let share = |count: usize| count as f64 / seasons.len().max(1) as f64;
    let met = |need: usize, week: usize| {
        let own = lacks.iter().skip(week * needs + need);
        share(
            own.step_by(model.weeks * needs)
                .filter(|lacks| **lacks == 0)
                .count(),
        )
    };
    let weeks = || candidates.weeks.iter().copied().enumerate();
    let of_need = |need: usize| {
        let runs = weeks().filter(|(week, _)| model.needs[need].runs(*week));
        runs.map(|(at, week)| (week, met(need, at))).collect()
    };
    let throughout = |need: usize| {
        let of_season = lacks.chunks(model.weeks * needs);
        let all = |season: &&[i64]| season.iter().skip(need).step_by(needs).all(|one| *one == 0);
        // What is set aside whole is met in none.
        let asked = (0..model.weeks).any(|week| model.needs[need].runs(week));
        share(of_season.filter(all).filter(|_| asked).count())
    };
    let in_week = |week: usize| {
        let places = (0..seasons.len()).map(|season| season * model.weeks + week);
        let of_all = |place: usize| grown.iter().map(|grown| grown[place]).sum::<i64>();
        spread(
            places
                .map(|place| of_all(place) as f64 / STEM as f64)
                .collect(),
        )
    };
    Chances {
        seasons: seasons.len() as u32,
        met: (0..needs).map(of_need).collect(),
        throughout: (0..needs).map(throughout).collect(),
        grown: weeks().map(|(at, week)| (week, in_week(at))).collect(),
    }
}

/// The candidates of which something is planted, by their places, and what each gives.
fn planted(seasons: &Seasons<'_>, plants: &[u64]) -> (Vec<usize>, Vec<Grown>) {
    let planted: Vec<usize> = (0..plants.len()).filter(|at| plants[*at] > 0).collect();
    let grown = all_in_spans(planted.len(), 1, |span| {
        let own = planted[span].iter();
        own.map(|at| seasons.grown(*at, plants[*at])).collect()
    });
    (planted, grown)
}

/// By season, week and need: the thousandths of a stem that it lacks, the needs having their turns so, of
/// candidates by their places and what each gives.
pub(super) fn lacks(
    model: &Model,
    turns: Vec<usize>,
    (planted, grown): (&[usize], &[&Grown]),
    seasons: usize,
) -> Vec<i64> {
    let shapes = Turns::of(model, turns, planted);
    all_in_spans(seasons, SEASONS_A_THREAD, |span| {
        let mut own = shapes.clone();
        let places = span.start * model.weeks..span.end * model.weeks;
        let lacks = places.map(|place| own.shared(place % model.weeks, grown, place).lacks);
        lacks.flatten().collect()
    })
}

/// The fifth, fiftieth and ninety-fifth of a hundred.
fn spread(mut stems: Vec<f64>) -> [f64; 3] {
    stems.sort_by(f64::total_cmp);
    let at = |part: f64| stems.get((part * stems.len() as f64) as usize).copied();
    [0.05, 0.5, 0.95].map(|part| at(part).unwrap_or(0.0))
}

#[cfg(test)]
mod tests;
