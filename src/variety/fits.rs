//! How well every row of a list fits every use. What is unknown of a row counts as the middle of the
//! list, so that one record may move others: what hangs on a middle is worked out again when it moves.

use super::fitness::{RowShares, finished};
use super::middles::{Middles, Spread, Thousandths};
use super::uses::{Use, Uses};

/// Fitness of every row for every use.
#[derive(Debug, Clone)]
pub(super) struct Fits {
    by_use: Vec<OfUse>,
    pub(super) middles: Middles,
}

/// Fitness of every row for one use.
#[derive(Debug, Clone)]
struct OfUse {
    /// Of each want.
    weights: Vec<f64>,
    /// By row, then want.
    shares: Vec<Thousandths>,
    /// By row: the weighted sum of the logarithms of the shares that are known.
    sums: Vec<f64>,
    /// Of each want.
    spreads: Vec<Spread>,
    /// By row; `NaN` where no want is known.
    fitness: Vec<f64>,
}

impl Fits {
    /// Of no rows.
    pub(super) fn none(uses: &Uses) -> Fits {
        let of_use = |one: &Use| OfUse {
            weights: one.wants.iter().map(|want| want.weight).collect(),
            shares: Vec::new(),
            sums: Vec::new(),
            spreads: vec![Spread::none(); one.wants.len()],
            fitness: Vec::new(),
        };
        Fits {
            by_use: uses.list().iter().map(of_use).collect(),
            middles: Middles::default(),
        }
    }

    /// Adds a row: for each use what is known of it.
    pub(super) fn push(&mut self, row: &[RowShares]) {
        for (one, own) in self.by_use.iter_mut().zip(row) {
            one.shares.extend(&own.shares);
            one.sums.push(own.sum);
            for (spread, share) in one.spreads.iter_mut().zip(&own.shares) {
                spread.add(*share);
            }
        }
    }

    /// Works out the middles, and with them the fitness of all rows, once all are added.
    pub(super) fn finish(&mut self) {
        self.middles = Middles(self.by_use.iter().map(OfUse::middles).collect());
        for (at, one) in self.by_use.iter_mut().enumerate() {
            one.finish(self.middles.of(at));
        }
    }

    /// Takes in what is known of a row now. Answers whether other rows moved with it.
    pub(super) fn put(&mut self, row: usize, own: &[RowShares]) -> bool {
        let mut moved = false;
        for (at, (one, own)) in self.by_use.iter_mut().zip(own).enumerate() {
            let wants = one.weights.len();
            let before = &mut one.shares[row * wants..][..wants];
            for ((spread, before), share) in one.spreads.iter_mut().zip(before).zip(&own.shares) {
                spread.take_away(*before);
                spread.add(*share);
                *before = *share;
            }
            one.sums[row] = own.sum;
            let middles = one.middles();
            if middles == self.middles.of(at) {
                one.fitness[row] = one.fitness_of(row, &middles);
            } else {
                one.finish(&middles);
                self.middles.0[at] = middles;
                moved = true;
            }
        }
        moved
    }

    /// Fitness of a row for a use; `None` where no want of it is known.
    pub(super) fn of(&self, row: usize, use_at: usize) -> Option<f64> {
        Some(self.by_use[use_at].fitness[row]).filter(|fitness| !fitness.is_nan())
    }

    /// Fitness of a row for each use.
    pub(super) fn of_row(&self, row: usize) -> impl Iterator<Item = Option<f64>> + '_ {
        (0..self.by_use.len()).map(move |use_at| self.of(row, use_at))
    }
}

impl OfUse {
    fn middles(&self) -> Vec<Option<f64>> {
        self.spreads.iter().map(Spread::middle).collect()
    }

    fn finish(&mut self, middles: &[Option<f64>]) {
        let rows = 0..self.sums.len();
        self.fitness = rows.map(|row| self.fitness_of(row, middles)).collect();
    }

    fn fitness_of(&self, row: usize, middles: &[Option<f64>]) -> f64 {
        let wants = self.weights.len();
        let known = self.shares[row * wants..][..wants].iter();
        let wants = self.weights.iter().zip(known);
        let wants = wants.map(|(weight, share)| (*weight, share.is_known()));
        finished(self.sums[row], wants, middles).unwrap_or(f64::NAN)
    }
}

/// Two are equal where every row fits every use alike.
impl PartialEq for Fits {
    fn eq(&self, other: &Fits) -> bool {
        // What is unknown is no number, and equal to itself.
        let bits = |fits: &Fits| -> Vec<Vec<u64>> {
            let of_use = |one: &OfUse| one.fitness.iter().map(|fit| fit.to_bits()).collect();
            fits.by_use.iter().map(of_use).collect()
        };
        bits(self) == bits(other) && self.middles == other.middles
    }
}
