//! The root: the first program with its cuts, a first answer, and what can be settled for good.

use super::{Relaxed, Tree};
use crate::order::solve::gomory;
use crate::order::solve::progress::Stop;
use crate::order::solve::simplex::Row;
use crate::order::solve::tidy::Columns;

/// Rounds of cuts.
const ROUNDS: usize = 40;
/// Rounds without gain that end them.
const IN_VAIN: usize = 4;
/// Cuts added in a round.
const MOST_CUTS: usize = 40;

impl Tree<'_> {
    /// The first program and its cuts, a first answer, and what can be settled for good. `None`
    /// where the search is done.
    pub(super) fn root(&mut self, stop: Stop<'_>) -> Option<f64> {
        let mut bound = self.proved;
        let mut stalled = 0;
        for round in 0..ROUNDS {
            match self.relax(true, stop) {
                Relaxed::Fractional(found) => {
                    stalled = if found > bound + 1e-4 * found.abs().max(1.0) {
                        0
                    } else {
                        stalled + 1
                    };
                    bound = bound.max(found);
                }
                Relaxed::Unsettled => break,
                Relaxed::Closed | Relaxed::Whole => return None,
            }
            self.proved = self.proved.max(bound);
            if self.stopped || stalled >= IN_VAIN || round + 1 == ROUNDS {
                break;
            }
            let (least, most) = self.live_bounds();
            let whole: Vec<bool> = self.live.iter().map(|at| self.master.whole[*at]).collect();
            let columns = Columns {
                least: &least,
                most: &most,
                whole: &whole,
            };
            let rows = self.rows_to_round();
            let cuts = gomory::cuts(&self.dictionary, &columns, &rows, MOST_CUTS);
            if cuts.is_empty() {
                break;
            }
            cuts.into_iter().for_each(|cut| self.dictionary.add(cut));
            if round % 4 == 3 {
                self.dictionary.drop_slack();
            }
        }
        self.dictionary.drop_slack();
        self.root_rows = self.dictionary.rows.len();
        self.root_point = self.point();
        let (least, most) = self.live_bounds();
        self.dive(least, most, stop);
        self.look_between(stop);
        self.settle_by_cost(stop);
        Some(bound)
    }

    /// The rows worth rounding: those of the program and those found since, over the columns in the
    /// dictionary.
    fn rows_to_round(&self) -> Vec<Row> {
        self.pool.iter().map(|row| self.over_live(row)).collect()
    }

    /// Keeps the root's costs, by which columns are settled whenever a better answer is found.
    fn settle_by_cost(&mut self, stop: Stop<'_>) {
        let (least, most) = self.live_bounds();
        self.dictionary.set_bounds(&least, &most);
        if !matches!(self.relax(true, stop), Relaxed::Fractional(_)) {
            return;
        }
        let (bound, costs) = self.dictionary.proof();
        self.root_bound = bound + self.settled_cost();
        self.root_costs = vec![0.0; self.least.len()];
        for (column, each) in self.live.iter().zip(costs) {
            self.root_costs[*column] = each;
        }
        (self.root_least, self.root_most) = (self.least.clone(), self.most.clone());
        self.settle();
    }

    /// What costs too much is settled for good, and where that is much the search goes on in a
    /// smaller dictionary.
    pub(super) fn settle(&mut self) {
        let room = self.cutoff() - self.root_bound;
        self.settled_at = self.cutoff();
        for (column, each) in self.root_costs.iter().enumerate() {
            if !self.master.whole[column] || each.abs() < 1e-7 || room.is_infinite() {
                continue;
            }
            let steps = (room / each.abs() + 1e-6).floor().max(0.0);
            if *each > 0.0 {
                let most = self.root_least[column] + steps;
                self.most[column] = self.most[column].min(self.master.below(column, most));
            } else {
                let least = self.root_most[column] - steps;
                self.least[column] = self.least[column].max(self.master.above(column, least));
            }
        }
        self.master.imply(&self.least, &mut self.most);
        let settled = |at: &&usize| self.least[**at] >= self.most[**at];
        if self.live.iter().filter(settled).count() * 5 > self.live.len() {
            let back = |(place, cell): &(usize, f64)| (self.live[*place], *cell);
            // Columns settled earlier are in the rows' sides already: their cells are not needed.
            let rows = self.dictionary.rows.iter().map(|row| Row {
                cells: row.cells.iter().map(back).collect(),
                ..row.clone()
            });
            let rows = rows.collect();
            self.build(rows);
        }
    }
}
