//! Ranking: by fitness, colour, both, price or name; the same order every time.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::bits::Rows;
use super::index::Index;
use super::words::Query;
use crate::colour::{Target, distance_to_target, lower_bound_to_target};

/// Fitness counts half as much for each of these steps (CIEDE2000) away from the colour, in the
/// ranking by both. Our own choice: about where a colour stops passing for the one asked for.
const HALVES_EVERY: f64 = 8.0;

/// What to rank by. Equal rows follow in the order of their names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum By {
    /// Name; where words are given, names that hold them as typed come before the slips.
    #[default]
    Name,
    /// Fitness for the use, best first; unknown last.
    Fitness,
    /// Distance from the colour, nearest first; unknown last.
    Colour,
    /// Fitness for the use, halved for each step away from the colour.
    Both,
    /// Price a stem, least first; not offered last.
    Price,
}

/// How to rank.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ranking {
    /// What to rank by. What it needs and is not given counts as equal.
    pub by: By,
    /// The index of the use asked about.
    pub use_at: Option<usize>,
    /// The colours asked about: the nearest of them counts. Empty where none is.
    pub targets: Vec<Target>,
    /// The words asked about.
    pub words: Option<Query>,
}

/// A row in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranked {
    /// Its place in the list.
    pub row: usize,
    /// Fitness for the use asked about, 0 to 1; `None` where unknown or not asked.
    pub fitness: Option<f64>,
    /// CIEDE2000 from the colour asked about; `None` where unknown or not asked.
    pub distance: Option<f64>,
}

/// What is sorted by: less is better; names break ties.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Place {
    cost: f64,
    name: u32,
    row: usize,
}

impl Index {
    /// The first `top` of `rows` under the ranking.
    pub fn ranked(&self, rows: &Rows, ranking: &Ranking, top: usize) -> Vec<Ranked> {
        let mut best: BinaryHeap<Place> = BinaryHeap::with_capacity(top.min(self.len()) + 1);
        for row in rows.iter() {
            let place = |cost| Place {
                cost,
                name: self.by_name[row],
                row,
            };
            if best.len() == top {
                // A bound that is cheap to work out spares most rows the exact distance.
                let bound = place(self.cost(row, ranking, lower_bound_to_target));
                if best.peek().is_none_or(|worst| bound >= *worst) {
                    continue;
                }
            }
            best.push(place(self.cost(row, ranking, distance_to_target)));
            if best.len() > top {
                best.pop();
            }
        }
        let ranked = best.into_sorted_vec();
        ranked
            .into_iter()
            .map(|place| self.told(place.row, ranking))
            .collect()
    }

    /// How far a row is from the nearest of the targets; `None` where it has no colour.
    pub fn distance(&self, row: usize, targets: &[Target]) -> Option<f64> {
        let colours = self.colours(row);
        let distance = nearest(targets, |target| distance_to_target(colours, target));
        distance.is_finite().then_some(distance)
    }

    fn told(&self, row: usize, ranking: &Ranking) -> Ranked {
        Ranked {
            row,
            fitness: ranking.use_at.and_then(|use_at| self.fitness(row, use_at)),
            distance: self.distance(row, &ranking.targets),
        }
    }

    fn cost(
        &self,
        row: usize,
        ranking: &Ranking,
        distance: impl Fn(&[(crate::colour::Lab, crate::colour::Part)], &Target) -> f64,
    ) -> f64 {
        let unfit = || match ranking.use_at {
            None => 0.0,
            Some(use_at) => -self.fitness(row, use_at).unwrap_or(f64::NEG_INFINITY),
        };
        let away = || {
            if ranking.targets.is_empty() {
                return 0.0;
            }
            let colours = self.colours(row);
            nearest(&ranking.targets, |target| distance(colours, target))
        };
        match ranking.by {
            By::Name => match &ranking.words {
                Some(words) if !words.held_by(self.names.get(row)) => 1.0,
                _ => 0.0,
            },
            By::Fitness => unfit(),
            By::Colour => away(),
            By::Both => match unfit() {
                unfit if ranking.use_at.is_none() || unfit.is_infinite() => unfit + away(),
                unfit => unfit * (-away() / HALVES_EVERY).exp2(),
            },
            By::Price => self.price(row).unwrap_or(f64::INFINITY),
        }
    }
}

/// The least distance over the targets; infinite where there are none.
pub(super) fn nearest(targets: &[Target], distance: impl Fn(&Target) -> f64) -> f64 {
    targets.iter().map(distance).fold(f64::INFINITY, f64::min)
}

impl Eq for Place {}

impl PartialOrd for Place {
    fn partial_cmp(&self, other: &Place) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Place {
    fn cmp(&self, other: &Place) -> Ordering {
        self.cost
            .total_cmp(&other.cost)
            .then(self.name.cmp(&other.name))
    }
}
