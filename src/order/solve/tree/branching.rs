//! Which column to branch on: the one whose halves both promise to cost the most. What a unit costs
//! is learned by trying, and remembered.

use super::Tree;
use super::gains::Gains;
use crate::order::solve::simplex::Ended;

/// The most columns tried at one node, and how many without a better one end it.
const MOST_TRIED: usize = 16;
const MOST_IN_VAIN: usize = 6;
/// Pivots of one trial.
const TRIAL_PIVOTS: usize = 60;

/// Both halves count.
fn score(gains: [f64; 2]) -> f64 {
    gains[0].max(1e-6) * gains[1].max(1e-6)
}

impl Tree<'_> {
    /// The column to branch on, its value, and whether to look at the upper half first.
    pub(super) fn branching_column(&mut self) -> Option<(usize, f64, bool)> {
        let fractional: Vec<(usize, f64)> = (self.live.iter().enumerate())
            .filter(|(_, column)| self.master.whole[**column])
            .map(|(place, column)| (*column, self.dictionary.value(place)))
            .filter(|(column, value)| self.master.exact(*column, *value).is_none())
            .collect();
        let first = fractional
            .iter()
            .find(|(column, _)| self.master.first.contains(column));
        if let Some((column, value)) = first {
            return Some((*column, *value, true));
        }
        let by_gains = |gains: &Gains, column: usize, value: f64| {
            let [down, up] = self.away(column, value);
            score([
                gains.expected(column, 0) * down,
                gains.expected(column, 1) * up,
            ])
        };
        let mut order: Vec<(f64, usize, f64)> = (fractional.into_iter())
            .map(|(column, value)| (by_gains(&self.gains, column, value), column, value))
            .collect();
        order.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let mut best: Option<(f64, usize, f64)> = None;
        let (mut tried, mut in_vain) = (0, 0);
        let base = self.dictionary.objective();
        for (mut promise, column, value) in order {
            if !self.gains.reliable(column) && tried < MOST_TRIED && in_vain < MOST_IN_VAIN {
                tried += 1;
                let mut gains = [0.0; 2];
                for (side, unit) in self.away(column, value).into_iter().enumerate() {
                    let (gain, closed) = self.tried(column, value, side, base);
                    if closed {
                        return Some((column, value, side == 0));
                    }
                    gains[side] = gain;
                    self.gains.learn(column, side, gain / unit.max(1e-6));
                }
                promise = score(gains);
                in_vain += 1;
            }
            if best.is_none_or(|best| promise > best.0) {
                best = Some((promise, column, value));
                in_vain = 0;
            }
        }
        best.map(|(_, column, value)| {
            let [down, up] = self.away(column, value);
            (column, value, down > 0.4 * (down + up))
        })
    }

    /// How far a column is above the value below that it may have, and below the one above.
    fn away(&self, column: usize, value: f64) -> [f64; 2] {
        let (below, above) = (
            self.master.below(column, value),
            self.master.above(column, value),
        );
        [value - below, above - value]
    }

    /// What one half costs, and whether nothing better is in it.
    fn tried(&self, column: usize, value: f64, side: usize, base: f64) -> (f64, bool) {
        let Some(place) = self.place[column] else {
            return (0.0, false);
        };
        let bound = if side == 0 {
            self.master.below(column, value)
        } else {
            self.master.above(column, value)
        };
        let mut trial = self.dictionary.with_bound(place, side == 0, bound);
        let cutoff = self.cutoff() - self.settled_cost();
        let closed = match trial.solve(cutoff, TRIAL_PIVOTS) {
            Ended::Infeasible | Ended::OverCutoff => true,
            Ended::Optimal | Ended::Unsettled => false,
        };
        ((trial.objective() - base).max(0.0), closed)
    }
}
