//! The share of a parent's seedlings that stays, from seedlings that have two parents each.
//!
//! **Model.** Each seedling that was decided on is one trial: it stays, or it is culled. Behind that
//! stands a merit that nobody sees, the sum of the row's level, of what either parent passes on, and
//! of the seedling's own chance, normal with a deviation of 1; a seedling stays where its merit is
//! above 0. What parents pass on is normal about 0 with one deviation for all, the *spread*. So it
//! is a probit mixed model whose parents are crossed random effects: the threshold model of Dempster
//! & Lerner, Genetics 35:212-236, 1950, as Gianola & Foulley, Genetics Selection Evolution
//! 15:201-224, 1983, weigh sires by it. A parent that nobody noted, or open pollen, is another one
//! for each seedling; a selfed seedling has its parent twice.
//!
//! **Priors.** The row's share may be anything from 0 to 1, all alike. The spread may be anything
//! from 0 to [`WIDEST`], all alike: uniform on the deviation as Gelman, Bayesian Analysis 1:515-534,
//! 2006, advises for few groups; where it ends is our choice (there 95 % of what decides is the
//! parents').
//!
//! **Method.** The spread is summed over on a grid, finer where the row says more of it. At each
//! spread the level and all parents are found by expectation propagation (Minka, Uncertainty in
//! Artificial Intelligence 17:362-369, 2001), which for probits is nearly exact (Kuss & Rasmussen,
//! Journal of Machine Learning Research 6:1679-1704, 2005): beside brute force a limit is off by half a
//! point at most in a row of 46 seedlings, by up to four points in one of a dozen. Nothing is drawn:
//! the same row gives the same figures. All citations are from memory.
//!
//! **What it leaves out.** Parents are taken as unrelated, a seedling of this row among them, and
//! years as alike. Where no two parents differ, the limits hold the truth more often than they say:
//! they allow for a spread that is not there, and no row of this size can rule it out. By
//! simulation, see the tests, and `DEVELOPERS.md` for how often.

mod decided;
mod propagation;

use statrs::distribution::{ContinuousCDF, Normal};

use super::LEVEL;
use super::share::Share;
use crate::measure::sample::Interval;
pub use decided::Decided;
use propagation::{Model, Posterior, Probit, Site};

/// A row's parents beside each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Parents {
    /// Every seedling decided on, each once.
    pub row: Share,
    /// What a parent would give that has no seedling in this row.
    pub new: Estimate,
    /// Each parent, by its place.
    pub each: Vec<Offspring>,
}

/// What is known of a parent by its seedlings; of none, nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Offspring {
    /// Its seedlings that were decided on, and those of them that stay.
    pub own: Share,
    /// What it would give; `None` of fewer than [`LEAST_DECIDED`] seedlings.
    pub estimate: Option<Estimate>,
}

/// The share of a parent's seedlings that would stay, were it crossed with many mates such as the
/// row's parents are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The expected share, 0 to 1.
    pub share: f64,
    /// Its limits at 95 %.
    pub limits: Interval,
}

/// Of fewer seedlings decided on nothing is told of a parent but their count: its limits would be
/// hardly narrower than those of a parent that nothing is known of. Our choice, no source.
pub const LEAST_DECIDED: u32 = 5;

/// The widest spread of parents that is thought possible, in deviations of a seedling's own chance.
pub const WIDEST: f64 = 3.0;

/// The first grid's step, in the same unit.
const STEP: f64 = 0.2;
/// A grid on which the weight lies on fewer points than these is made finer.
const LEAST_POINTS: f64 = 2.5;
/// How much finer.
const FINER: f64 = 4.0;
/// A spread whose logarithm of weight is so much under the best adds nothing that can be seen.
const NEGLIGIBLE: f64 = 9.0;

impl Parents {
    /// Weighs so many parents by the seedlings decided on; `None` of no seedling.
    ///
    /// # Panics
    ///
    /// Where a seedling names a parent at a place that is not below `parents`.
    pub fn of(decided: &[Decided], parents: usize) -> Option<Parents> {
        let row = count(decided.iter());
        row.value()?;
        let mut slots = vec![0; parents];
        for parent in decided.iter().flat_map(|one| one.parents).flatten() {
            slots[parent] += 1;
        }
        // What only one seedling shows of a parent is what any unnamed one would show there.
        let mut named = 0;
        let places: Vec<Option<usize>> = slots
            .iter()
            .map(|slots| {
                (*slots > 1).then(|| {
                    named += 1;
                    named - 1
                })
            })
            .collect();
        let model = Model::of(decided.iter().map(|one| Decided {
            parents: one.parents.map(|parent| places[parent?]),
            ..*one
        }));
        let grid = over_spreads(&model, named);
        let offspring = |at: usize| {
            let of = decided.iter().filter(|one| one.parents.contains(&Some(at)));
            let own = count(of);
            let place = places[at].filter(|_| own.of() >= LEAST_DECIDED);
            Offspring {
                own,
                estimate: place.map(|place| estimate(&grid, |one| one.parents[place])),
            }
        };
        Some(Parents {
            row,
            new: estimate(&grid, |one| one.new),
            each: (0..parents).map(offspring).collect(),
        })
    }
}

fn count<'a>(decided: impl Iterator<Item = &'a Decided>) -> Share {
    let one = |one: &Decided| Share::new(u32::from(one.stays), 1);
    decided.filter_map(one).sum()
}

/// The posterior at each spread of a grid, with its weight; the weights sum to 1.
fn over_spreads(model: &Model, named: usize) -> Vec<(f64, Posterior)> {
    let (mut low, mut high, mut step) = (0.0, WIDEST, STEP);
    loop {
        let grid = on_grid(model, named, (low, high), step);
        let points = 1.0 / grid.iter().map(|(weight, _)| weight * weight).sum::<f64>();
        if points >= LEAST_POINTS {
            return grid;
        }
        let seen = || {
            let least = (-NEGLIGIBLE).exp();
            let seen = grid.iter().filter(move |(weight, _)| *weight > least);
            seen.map(|(_, posterior)| posterior.spread)
        };
        low = seen().fold(high, f64::min) - step / 2.0;
        high = seen().fold(low, f64::max) + step / 2.0;
        step /= FINER;
    }
}

/// The same on one grid: the middles of steps between two spreads. It ends early where wider ones
/// have no weight.
fn on_grid(
    model: &Model,
    named: usize,
    (low, high): (f64, f64),
    step: f64,
) -> Vec<(f64, Posterior)> {
    let mut sites: Vec<Site> = Vec::new();
    let mut grid: Vec<Posterior> = Vec::new();
    let mut best = f64::NEG_INFINITY;
    let points = ((high - low) / step).round() as usize;
    for at in 0..points {
        let spread = low + (at as f64 + 0.5) * step;
        let posterior = model.posterior(named, spread, &mut sites);
        best = best.max(posterior.log_evidence);
        let passed = posterior.log_evidence < best - NEGLIGIBLE;
        grid.push(posterior);
        if passed {
            break;
        }
    }
    let weight = |one: &Posterior| (one.log_evidence - best).exp();
    let all: f64 = grid.iter().map(weight).sum();
    let weighed = grid.into_iter().map(|one| (weight(&one) / all, one));
    weighed.collect()
}

/// The share whose probit is normal at each spread.
fn estimate(grid: &[(f64, Posterior)], of: impl Fn(&Posterior) -> Probit) -> Estimate {
    let normal = Normal::standard();
    let laws: Vec<(f64, Probit)> = grid.iter().map(|(w, one)| (*w, of(one))).collect();
    let below = |probit: f64| -> f64 {
        let below = laws
            .iter()
            .map(|(weight, law)| weight * normal.cdf((probit - law.mean) / law.deviation));
        below.sum()
    };
    let quantile = |at: f64| {
        let (mut low, mut high) = FARTHEST;
        for _ in 0..HALVINGS {
            let middle = (low + high) / 2.0;
            if below(middle) < at {
                low = middle;
            } else {
                high = middle;
            }
        }
        normal.cdf((low + high) / 2.0)
    };
    let tail = (1.0 - LEVEL) / 2.0;
    let share = laws
        .iter()
        .map(|(weight, law)| weight * normal.cdf(law.mean / law.deviation.hypot(1.0)));
    Estimate {
        share: share.sum(),
        limits: Interval {
            low: quantile(tail),
            high: quantile(1.0 - tail),
        },
    }
}

/// Probits between which every limit is looked for: shares of under and over any that is shown.
const FARTHEST: (f64, f64) = (-12.0, 12.0);
/// Halvings of that, to a share's sixth digit.
const HALVINGS: usize = 26;

#[cfg(test)]
mod tests;
