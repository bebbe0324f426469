//! Linear programs by the dual simplex method on a dense dictionary, warm from one to the next.
//!
//! Minimise `cost . x` over columns with bounds and rows `least <= a . x <= most`. Every row has a
//! variable of its own, its activity; the dictionary writes each basic variable as a combination of
//! the nonbasic ones, so that it always has as many columns as there are columns in the program.
//! A dictionary stays dual feasible whatever the columns' bounds become: one search goes from node
//! to node by changing bounds alone.
//!
//! What it says is proved apart from it: see [`Dictionary::proved_bound`].

mod dropping;
mod pivoting;
mod program;
mod proof;
mod standing;
mod sums;
mod trial;

pub(super) use program::{Ended, Row};
use standing::{Standing, VariableState};
use sums::add_scaled;

/// The program and its present dictionary. Variables are the columns, then the rows' activities.
#[derive(Debug, Clone, Default)]
pub(super) struct Dictionary {
    cost: Vec<f64>,
    pub(super) rows: Vec<Row>,
    /// Row by row, as wide as there are nonbasic variables.
    cells: Vec<f64>,
    stands: Standing,
    /// Pivots since the dictionary was worked out from the rows.
    stale: usize,
}

/// Smaller than this a coefficient is nothing.
const ZERO: f64 = 1e-11;
/// The dictionary is worked out anew after so many pivots.
const STALE: usize = 400;
/// Values follow what has moved one by one where it is at most one in so many, and are worked out anew else.
const FEW: usize = 8;

impl Dictionary {
    /// A program without rows.
    pub(super) fn new(cost: Vec<f64>, least: Vec<f64>, most: Vec<f64>) -> Dictionary {
        let mut dictionary = Dictionary {
            stands: Standing::new(&cost, least, most),
            cost,
            ..Dictionary::default()
        };
        dictionary.settle();
        dictionary
    }

    /// Adds a row.
    pub(super) fn add(&mut self, row: Row) {
        let width = self.width();
        let at = self.cells.len();
        self.cells.resize(at + width, 0.0);
        for (column, coefficient) in &row.cells {
            match self.stands.place[*column] {
                VariableState::Nonbasic(place) => self.cells[at + place] += coefficient,
                VariableState::Basic(basic) => {
                    let (above, below) = self.cells.split_at_mut(at);
                    add_scaled(
                        below,
                        &above[basic * width..(basic + 1) * width],
                        *coefficient,
                    );
                }
            }
        }
        self.stands.add(&row, &self.cells[at..]);
        self.rows.push(row);
    }

    /// Gives the columns other bounds.
    pub(super) fn set_bounds(&mut self, least: &[f64], most: &[f64]) {
        let before = self.stands.all_resting();
        self.stands.least[..least.len()].copy_from_slice(least);
        self.stands.most[..most.len()].copy_from_slice(most);
        self.stands.choose_sides();
        let moved: Vec<(usize, f64)> = (before.into_iter().enumerate())
            .map(|(place, before)| (place, self.stands.resting(place) - before))
            .filter(|(_, by)| *by != 0.0)
            .collect();
        if moved.len() * FEW > self.width() {
            self.work_out_values();
        } else {
            for (place, by) in moved {
                self.stands
                    .shift(column(&self.cells, self.width(), place), by);
            }
        }
    }

    /// Solves; gives up after `most_pivots`. That no point is within the bounds is as the dictionary has it.
    pub(super) fn solve(&mut self, cutoff: f64, most_pivots: usize) -> Ended {
        standing::solve(self, cutoff, most_pivots)
    }

    /// The basic variable furthest out of its bounds, by steepest edge.
    pub(super) fn leaving(&self) -> Option<usize> {
        self.stands.leaving()
    }

    /// The cost at the present point.
    pub(super) fn objective(&self) -> f64 {
        self.stands.objective()
    }

    /// The value of a variable.
    pub(super) fn value(&self, variable: usize) -> f64 {
        self.stands.value(variable)
    }

    /// The values of the columns.
    pub(super) fn point(&self) -> Vec<f64> {
        (0..self.width()).map(|column| self.value(column)).collect()
    }

    /// The row of the dictionary of a basic variable: nonbasic variables and their coefficients.
    pub(super) fn row_of(
        &self,
        variable: usize,
    ) -> Option<impl Iterator<Item = (usize, f64)> + '_> {
        let VariableState::Basic(row) = self.stands.place[variable] else {
            return None;
        };
        let nonbasic = self.stands.nonbasic.iter().copied();
        Some(nonbasic.zip(self.row(row).iter().copied()))
    }

    /// What a step of a variable away from its bound costs; 0 where it is basic.
    fn reduced_cost(&self, variable: usize) -> f64 {
        match self.stands.place[variable] {
            VariableState::Basic(_) => 0.0,
            VariableState::Nonbasic(place) => self.stands.reduced[place],
        }
    }

    fn width(&self) -> usize {
        self.cost.len()
    }

    /// The coefficients of a row of the dictionary.
    fn row(&self, row: usize) -> &[f64] {
        &self.cells[row * self.width()..(row + 1) * self.width()]
    }
}

/// One coefficient of each row, down the dictionary.
fn column(cells: &[f64], width: usize, place: usize) -> impl Iterator<Item = f64> + '_ {
    cells.chunks_exact(width).map(move |row| row[place])
}

#[cfg(test)]
mod tests;
