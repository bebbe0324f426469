//! A few steps from a dictionary that leave it as it is: what a column's other bound would cost.
//!
//! A dictionary is megabytes and a trial two or three steps, so its cells are not copied. The row and the columns
//! that a step needs are its own, taken through the exchanges made so far.

use super::pivoting::solve_for;
use super::standing::{self, Standing, Steps, VariableState};
use super::sums::{add_filled, length};
use super::{Dictionary, Ended, column};

/// A trial under way.
pub(in crate::order::solve) struct Trial<'a> {
    from: &'a Dictionary,
    stands: Standing,
    exchanges: Vec<Exchange>,
}

/// A row and a place exchanged.
struct Exchange {
    row: usize,
    place: usize,
    /// The row as it was then written, and the places of its coefficients.
    own: Vec<f64>,
    filled: Vec<usize>,
    /// The coefficients of the place down the dictionary as they were before.
    down: Vec<f64>,
}

impl Dictionary {
    /// A trial with a column's bound moved.
    pub(in crate::order::solve) fn with_bound(
        &self,
        column: usize,
        upper: bool,
        bound: f64,
    ) -> Trial<'_> {
        let mut stands = self.stands.clone();
        let before = stands.value(column);
        let side = if upper {
            &mut stands.most
        } else {
            &mut stands.least
        };
        side[column] = bound;
        if let VariableState::Nonbasic(place) = stands.place[column] {
            let by = stands.resting(place) - before;
            stands.shift(super::column(&self.cells, self.width(), place), by);
        }
        Trial {
            from: self,
            stands,
            exchanges: Vec::new(),
        }
    }
}

impl Steps for Trial<'_> {
    fn stands(&self) -> &Standing {
        &self.stands
    }

    fn step(&mut self, row: usize) -> bool {
        let mut own = self.row(row);
        let Some(way) = self.stands.way(row, &own) else {
            return false;
        };
        for place in &way.flips {
            let down = self.down(*place);
            let by = self.stands.flip(*place);
            self.stands.shift(down.into_iter(), by);
        }
        let down = self.down(way.entering);
        let by = (way.bound - self.stands.values[row]) / own[way.entering];
        let arrives = self.stands.resting(way.entering) + by;
        self.stands.shift(down.iter().copied(), by);
        let filled = solve_for(&mut own, way.entering);
        let long = length(&own);
        // No other row is worked out: each is at least as long as what the exchange brings to it alone.
        for (length, down) in self.stands.lengths.iter_mut().zip(&down) {
            *length = length.max(1.0 + down * down * (long - 1.0));
        }
        let by = std::mem::take(&mut self.stands.reduced[way.entering]);
        add_filled(&mut self.stands.reduced, &own, &filled, by);
        self.stands.swap(row, way.entering, long);
        self.stands.arrive(row, &way, arrives);
        self.exchanges.push(Exchange {
            row,
            place: way.entering,
            own,
            filled,
            down,
        });
        true
    }
}

impl Trial<'_> {
    /// Solves; gives up after `most_pivots`.
    pub(in crate::order::solve) fn solve(&mut self, cutoff: f64, most_pivots: usize) -> Ended {
        standing::solve(self, cutoff, most_pivots)
    }

    /// The cost at the present point.
    pub(in crate::order::solve) fn objective(&self) -> f64 {
        self.stands.objective()
    }

    /// A row as it is now.
    fn row(&self, row: usize) -> Vec<f64> {
        let mut cells = self.from.row(row).to_vec();
        for exchange in &self.exchanges {
            if exchange.row == row {
                cells.clone_from(&exchange.own);
            } else {
                let by = std::mem::take(&mut cells[exchange.place]);
                add_filled(&mut cells, &exchange.own, &exchange.filled, by);
            }
        }
        cells
    }

    /// The coefficients of a place down the dictionary as they are now.
    fn down(&self, place: usize) -> Vec<f64> {
        let from = self.from;
        let mut cells: Vec<f64> = column(&from.cells, from.width(), place).collect();
        for exchange in &self.exchanges {
            if exchange.place == place {
                cells.fill(0.0);
            }
            let own = exchange.own[place];
            if own != 0.0 {
                for (cell, by) in cells.iter_mut().zip(&exchange.down) {
                    *cell += own * by;
                }
            }
            cells[exchange.row] = own;
        }
        cells
    }
}
