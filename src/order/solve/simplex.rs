//! Linear programs by the dual simplex method on a dense dictionary, warm from one to the next.
//!
//! Minimise `cost . x` over columns with bounds and rows `least <= a . x <= most`. Every row has a
//! variable of its own, its activity; the dictionary writes each basic variable as a combination of
//! the nonbasic ones, so that it always has as many columns as there are columns in the program.
//! A dictionary stays dual feasible whatever the columns' bounds become: one search goes from node
//! to node by changing bounds alone.
//!
//! What it says is proved apart from it: see [`Dictionary::proved_bound`].

/// A row, sparse.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Row {
    /// Columns, rising, and their coefficients.
    pub(super) cells: Vec<(usize, f64)>,
    /// The least activity; may be infinite.
    pub(super) least: f64,
    /// The most activity; may be infinite.
    pub(super) most: f64,
}

/// How a solve ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ended {
    /// At the optimum.
    Optimal,
    /// No point is within the bounds.
    Infeasible,
    /// The optimum is over the cutoff.
    OverCutoff,
    /// Out of pivots, or the figures went wrong.
    Unsettled,
}

/// Where a variable is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum VariableState {
    Basic(usize),
    Nonbasic(usize),
}

/// The program and its present dictionary. Variables are the columns, then the rows' activities.
#[derive(Debug, Clone, Default)]
pub(super) struct Dictionary {
    cost: Vec<f64>,
    pub(super) rows: Vec<Row>,
    least: Vec<f64>,
    most: Vec<f64>,
    place: Vec<VariableState>,
    basic: Vec<usize>,
    nonbasic: Vec<usize>,
    at_most: Vec<bool>,
    /// Row by row, `nonbasic.len()` wide.
    cells: Vec<f64>,
    reduced: Vec<f64>,
    values: Vec<f64>,
    /// Squared lengths of the rows: the weights of steepest edge.
    lengths: Vec<f64>,
    /// Pivots since the dictionary was worked out from the rows.
    stale: usize,
}

/// Smaller than this a coefficient is nothing.
const ZERO: f64 = 1e-11;
/// Smaller than this a coefficient is no pivot.
const LEAST_PIVOT: f64 = 1e-7;
/// How far out of its bounds a variable may be.
const FEASIBLE: f64 = 1e-8;
/// The most times as far where its value is large: still nearer than what counts as whole.
const MOST_SLACK: f64 = 50.0;
/// The dictionary is worked out anew after so many pivots.
const STALE: usize = 400;

impl Dictionary {
    /// A program without rows.
    pub(super) fn new(cost: Vec<f64>, least: Vec<f64>, most: Vec<f64>) -> Dictionary {
        let columns = cost.len();
        let mut dictionary = Dictionary {
            reduced: cost.clone(),
            cost,
            least,
            most,
            place: (0..columns).map(VariableState::Nonbasic).collect(),
            nonbasic: (0..columns).collect(),
            at_most: vec![false; columns],
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
            match self.place[*column] {
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
        self.lengths.push(length(&self.cells[at..]));
        self.place.push(VariableState::Basic(self.basic.len()));
        self.basic.push(self.place.len() - 1);
        self.least.push(row.least);
        self.most.push(row.most);
        self.rows.push(row);
        let value = self.value_of_row(self.basic.len() - 1);
        self.values.push(value);
    }

    /// Gives the columns other bounds.
    pub(super) fn set_bounds(&mut self, least: &[f64], most: &[f64]) {
        self.least[..least.len()].copy_from_slice(least);
        self.most[..most.len()].copy_from_slice(most);
        self.settle();
    }

    /// Gives one column another bound.
    pub(super) fn set_bound(&mut self, column: usize, upper: bool, bound: f64) {
        let side = if upper {
            &mut self.most
        } else {
            &mut self.least
        };
        side[column] = bound;
        if let VariableState::Nonbasic(_) = self.place[column] {
            self.settle();
        }
    }

    /// Becomes another dictionary, for a trial: without the rows, it can be solved and not refreshed.
    pub(super) fn copy_without_rows(&mut self, other: &Dictionary) {
        self.cost.clone_from(&other.cost);
        self.least.clone_from(&other.least);
        self.most.clone_from(&other.most);
        self.place.clone_from(&other.place);
        self.basic.clone_from(&other.basic);
        self.nonbasic.clone_from(&other.nonbasic);
        self.at_most.clone_from(&other.at_most);
        self.cells.clone_from(&other.cells);
        self.reduced.clone_from(&other.reduced);
        self.values.clone_from(&other.values);
        self.lengths.clone_from(&other.lengths);
        self.rows.clear();
        self.stale = 0;
    }

    /// Solves; gives up after `most_pivots`.
    pub(super) fn solve(&mut self, cutoff: f64, most_pivots: usize) -> Ended {
        let mut fresh = false;
        for count in 0..most_pivots {
            if self.stale > STALE {
                self.refresh();
            }
            if count % 8 == 7 && self.objective() > cutoff {
                return Ended::OverCutoff;
            }
            let Some(leaving) = self.leaving() else {
                return if self.objective() > cutoff {
                    Ended::OverCutoff
                } else {
                    Ended::Optimal
                };
            };
            if self.step(leaving) {
                continue;
            }
            if fresh || self.stale == 0 || self.rows.is_empty() {
                return Ended::Infeasible;
            }
            fresh = true;
            self.refresh();
        }
        Ended::Unsettled
    }

    /// The cost at the present point.
    pub(super) fn objective(&self) -> f64 {
        (0..self.width())
            .map(|place| self.reduced[place] * self.resting(place))
            .sum()
    }

    /// The value of a variable.
    pub(super) fn value(&self, variable: usize) -> f64 {
        match self.place[variable] {
            VariableState::Basic(row) => self.values[row],
            VariableState::Nonbasic(place) => self.resting(place),
        }
    }

    /// The values of the columns.
    pub(super) fn point(&self) -> Vec<f64> {
        (0..self.width()).map(|column| self.value(column)).collect()
    }

    /// What a step of a variable away from its bound costs; 0 where it is basic.
    pub(super) fn reduced_cost(&self, variable: usize) -> f64 {
        match self.place[variable] {
            VariableState::Basic(_) => 0.0,
            VariableState::Nonbasic(place) => self.reduced[place],
        }
    }

    /// The row of the dictionary of a basic variable: nonbasic variables and their coefficients.
    pub(super) fn row_of(
        &self,
        variable: usize,
    ) -> Option<impl Iterator<Item = (usize, f64)> + '_> {
        let VariableState::Basic(row) = self.place[variable] else {
            return None;
        };
        let width = self.width();
        let cells = &self.cells[row * width..(row + 1) * width];
        Some(self.nonbasic.iter().copied().zip(cells.iter().copied()))
    }

    fn width(&self) -> usize {
        self.cost.len()
    }

    /// The bound at which a nonbasic variable rests.
    fn resting(&self, place: usize) -> f64 {
        let variable = self.nonbasic[place];
        if self.at_most[place] {
            self.most[variable]
        } else {
            self.least[variable]
        }
    }
}

mod dropping;
mod pivoting;
mod proof;

/// `to += from * by`.
fn add_scaled(to: &mut [f64], from: &[f64], by: f64) {
    for (to, from) in to.iter_mut().zip(from) {
        *to += from * by;
    }
}

/// The sum of products, four sums side by side.
fn product(one: &[f64], other: &[f64]) -> f64 {
    let (ones, others) = (one.chunks_exact(4), other.chunks_exact(4));
    let rest = ones.remainder().iter().zip(others.remainder());
    let mut sums = [0.0; 4];
    for (one, other) in ones.clone().zip(others.clone()) {
        for lane in 0..4 {
            sums[lane] += one[lane] * other[lane];
        }
    }
    sums.iter().sum::<f64>() + rest.map(|(a, b)| a * b).sum::<f64>()
}

/// The squared length of a row, and one for the variable itself.
fn length(row: &[f64]) -> f64 {
    1.0 + product(row, row)
}

#[cfg(test)]
mod tests;
