//! What the winter takes of a plant's tubers: as it was counted, and as it would be of many.
//!
//! **Counted.** Tubers lost of those that came into the winter, with the exact interval of Clopper &
//! Pearson ([`Share`] has the source). The module's head says which tubers count.
//!
//! **Expected.** A plant of which few were stored is taken to be much like the others, as parents are
//! in [`parents`](crate::trial::statistics::parents): each plant has a share that it loses, the shares of
//! all plants follow a beta law, and of that law nothing is known before. With mean *m* and spread *s*, the
//! law's weight is 1/*s*² - 1, so that *s*² is how alike two tubers of one plant fare (0: no more alike
//! than those of two plants; 1: all of a plant are lost or none), and a plant that lost *x* of *n* has the
//! chance of a beta-binomial law (Skellam, Journal of the Royal Statistical Society B 10:257-261, 1948; from
//! memory). *m* and *s* may be anything from 0 to 1, all alike: the same choice as for parents. Both are
//! summed over on a grid that is laid finer where the weight lies; nothing is drawn, so the same book gives
//! the same figures.
//!
//! **What it leaves out.** Years are taken as alike, and tubers of one year as alike to those of another.

use statrs::function::beta::{beta_reg, ln_beta};

use crate::measure::sample::Interval;
use crate::trial::Subject;
use crate::trial::statistics::LEVEL;
use crate::trial::statistics::share::Share;

/// The winters of every plant of the book.
#[derive(Debug, Clone, PartialEq)]
pub struct Losses {
    each: Vec<(Subject, Share)>,
    grid: Vec<Point>,
}

/// What the winter takes of one plant's tubers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StoreLoss {
    /// Those lost, of those that came into the winter.
    pub own: Share,
    /// The share that many of its tubers would lose, 0 to 1.
    pub share: f64,
    /// Its limits at 95 %.
    pub limits: Interval,
}

/// A law that the shares of all plants may follow.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Point {
    /// Its mean.
    mean: f64,
    /// Its weight, in tubers.
    tubers: f64,
    /// How likely it is, of all points together 1.
    likely: f64,
}

/// With fewer tubers over all plants nothing is said for the order: our choice, no source.
pub const LEAST_WINTERED: u32 = 20;

/// Steps of the grid in the mean and in the spread.
const STEPS: (u32, u32) = (32, 16);
/// A law whose logarithm of weight is so much under the best adds nothing that can be seen.
const NEGLIGIBLE: f64 = 14.0;

impl Losses {
    /// Of these plants: tubers lost of those that came into the winter, none of none where it is not over.
    pub fn of(each: Vec<(Subject, Share)>) -> Losses {
        let mut counts: Vec<Share> = each.iter().map(|(_, own)| *own).collect();
        counts.retain(|own| own.of() > 0);
        let whole = Interval {
            low: 0.0,
            high: 1.0,
        };
        let rough = laid(&counts, whole, whole);
        let means = rough.limits(|at| at.0, rough.steps.0);
        let spreads = rough.limits(|at| at.1, rough.steps.1);
        let fine = laid(&counts, means, spreads);
        Losses {
            each,
            grid: fine.points(),
        }
    }

    /// All plants together, as counted.
    pub fn all(&self) -> Share {
        self.each.iter().map(|(_, own)| *own).sum()
    }

    /// Whether enough was counted to say something for the order.
    pub fn is_telling(&self) -> bool {
        self.all().of() >= LEAST_WINTERED
    }

    /// As it was counted of a plant; none of none of one that is not there.
    pub fn counted(&self, subject: &Subject) -> Share {
        let own = self.each.iter().find(|(one, _)| one == subject);
        own.map_or(Share::default(), |(_, own)| *own)
    }

    /// The share that many tubers of this plant would lose, 0 to 1; of a plant that is not there what
    /// one would that is new to the store.
    pub fn share(&self, subject: &Subject) -> f64 {
        self.expected(self.counted(subject))
    }

    /// The same with its limits.
    pub fn of_plant(&self, subject: &Subject) -> StoreLoss {
        self.told(self.counted(subject))
    }

    /// What a plant would lose that is new to the store.
    pub fn of_new(&self) -> StoreLoss {
        self.told(Share::default())
    }

    /// The chance that of so many tubers of this plant at most so many are lost over a winter, 0 to 1: the
    /// laws of its share, each with the beta-binomial law of a count.
    pub fn chance_of_at_most(&self, subject: &Subject, lost: u64, of: u64) -> f64 {
        let laws = self.laws(self.counted(subject));
        laws.iter()
            .map(|law| law.likely * law.at_most(lost, of))
            .sum()
    }

    fn told(&self, own: Share) -> StoreLoss {
        let laws = self.laws(own);
        let tail = (1.0 - LEVEL) / 2.0;
        StoreLoss {
            own,
            share: self.expected(own),
            limits: Interval {
                low: quantile(&laws, tail),
                high: quantile(&laws, 1.0 - tail),
            },
        }
    }

    fn expected(&self, own: Share) -> f64 {
        self.laws(own)
            .iter()
            .map(|law| law.likely * law.lost / (law.lost + law.kept))
            .sum()
    }

    /// The beta laws that a plant's share follows that lost so many, each with its weight.
    fn laws(&self, own: Share) -> Vec<Law> {
        let (lost, kept) = (f64::from(own.hit()), f64::from(own.of() - own.hit()));
        let law = |point: &Point| Law {
            likely: point.likely,
            lost: point.mean * point.tubers + lost,
            kept: (1.0 - point.mean) * point.tubers + kept,
        };
        self.grid.iter().map(law).collect()
    }
}

/// A beta law by its two counts.
struct Law {
    likely: f64,
    lost: f64,
    kept: f64,
}

impl Law {
    /// The chance of at most so many lost of so many.
    fn at_most(&self, lost: u64, of: u64) -> f64 {
        let (all, mut sum) = (of as f64, 0.0);
        let none = ln_beta(self.lost, self.kept + all) - ln_beta(self.lost, self.kept);
        let mut chance = none.exp();
        for count in 0..=lost.min(of) {
            sum += chance;
            let count = count as f64;
            let more = (all - count) / (count + 1.0);
            chance *= more * (self.lost + count) / (self.kept + all - count - 1.0);
        }
        f64::min(sum, 1.0)
    }
}

/// A grid over means and spreads with the logarithm of each point's weight.
struct Laid {
    at: Vec<(f64, f64)>,
    weights: Vec<f64>,
    steps: (f64, f64),
}

/// The weights of a grid over these means and spreads.
fn laid(counts: &[Share], means: Interval, spreads: Interval) -> Laid {
    let step = |over: Interval, steps: u32| (over.high - over.low) / f64::from(steps);
    let steps = (step(means, STEPS.0), step(spreads, STEPS.1));
    let mut at = Vec::new();
    for nth in 0..STEPS.0 {
        let mean = means.low + (f64::from(nth) + 0.5) * steps.0;
        at.extend((0..STEPS.1).map(|nth| {
            let spread = spreads.low + (f64::from(nth) + 0.5) * steps.1;
            (mean, spread)
        }));
    }
    let weight = |(mean, spread): &(f64, f64)| {
        let tubers = tubers(*spread);
        counts.iter().map(|own| chance(*own, *mean, tubers)).sum()
    };
    Laid {
        weights: at.iter().map(weight).collect(),
        at,
        steps,
    }
}

impl Laid {
    fn best(&self) -> f64 {
        self.weights
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// Between which values the points lie that add anything, a step to either side.
    fn limits(&self, of: impl Fn(&(f64, f64)) -> f64, step: f64) -> Interval {
        let best = self.best();
        let seen = self.at.iter().zip(&self.weights);
        let seen = seen.filter(|(_, weight)| best - **weight < NEGLIGIBLE);
        let values: Vec<f64> = seen.map(|(at, _)| of(at)).collect();
        let low = values.iter().copied().fold(1.0, f64::min) - step;
        let high = values.iter().copied().fold(0.0, f64::max) + step;
        Interval {
            low: low.max(0.0),
            high: high.min(1.0),
        }
    }

    fn points(&self) -> Vec<Point> {
        let best = self.best();
        let each = self.at.iter().zip(&self.weights);
        let seen = each.filter(|(_, weight)| best - **weight < NEGLIGIBLE);
        let points = seen.map(|((mean, spread), weight)| Point {
            mean: *mean,
            tubers: tubers(*spread),
            likely: (weight - best).exp(),
        });
        let mut points: Vec<Point> = points.collect();
        let whole: f64 = points.iter().map(|point| point.likely).sum();
        points.iter_mut().for_each(|point| point.likely /= whole);
        points
    }
}

/// The weight of a law with this spread, in tubers.
fn tubers(spread: f64) -> f64 {
    1.0 / (spread * spread) - 1.0
}

/// The logarithm of the chance of what was counted, but for what is the same under every law.
fn chance(own: Share, mean: f64, tubers: f64) -> f64 {
    let (lost, kept) = (f64::from(own.hit()), f64::from(own.of() - own.hit()));
    let (first, second) = (mean * tubers, (1.0 - mean) * tubers);
    ln_beta(first + lost, second + kept) - ln_beta(first, second)
}

/// The value below which such a part of all laws together lies.
fn quantile(laws: &[Law], part: f64) -> f64 {
    let below = |at: f64| -> f64 {
        let one = |law: &Law| law.likely * beta_reg(law.lost, law.kept, at);
        laws.iter().map(one).sum()
    };
    let (mut low, mut high) = (0.0, 1.0);
    // To a ten-millionth.
    for _ in 0..24 {
        let middle = f64::midpoint(low, high);
        match below(middle) < part {
            true => low = middle,
            false => high = middle,
        }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests;
