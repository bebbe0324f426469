//! What a dictionary says, proved from the rows themselves.

use super::Dictionary;
use super::standing::{FEASIBLE, VariableState};

impl Dictionary {
    /// A lower bound on the optimum that holds whatever errors the dictionary has gathered: its
    /// reduced costs of activities, as multipliers, are put on the rows themselves, and each
    /// column's remaining cost on the bound that makes it least (Neumaier and Shcherbina, Safe
    /// bounds in linear and mixed-integer linear programming, Math. Programming 99:283-296, 2004;
    /// from memory). Right but for the rounding of the one sum.
    pub(in crate::order::solve) fn proved_bound(&self) -> f64 {
        self.proof().0
    }

    /// The same with each column's remaining cost: a step of a column away from that bound raises
    /// the proved bound by as much.
    pub(in crate::order::solve) fn proof(&self) -> (f64, Vec<f64>) {
        self.bound_by(|variable| self.reduced_cost(variable), &self.cost)
    }

    /// Whether the rows themselves, combined as the dictionary says, prove that some basic variable
    /// cannot come within its bounds.
    pub(in crate::order::solve) fn proved_infeasible(&self) -> bool {
        (0..self.stands.basic.len()).any(|row| {
            let variable = self.stands.basic[row];
            let (low, high) = (self.stands.least[variable], self.stands.most[variable]);
            let value = self.stands.values[row];
            if value >= low - FEASIBLE && value <= high + FEASIBLE {
                return false;
            }
            // The variable less its bound, as a cost to make least: over 0 at best is a proof.
            let (sign, bound) = if value < low {
                (-1.0, low)
            } else {
                (1.0, high)
            };
            let (width, cells) = (self.width(), self.row(row));
            let multiplier = |other: usize| match self.stands.place[other] {
                VariableState::Nonbasic(place) => sign * cells[place],
                VariableState::Basic(_) => 0.0,
            };
            let mut cost = vec![0.0; width];
            let mut of_row = None;
            if variable < width {
                cost[variable] = sign;
            } else {
                of_row = Some(variable - width);
            }
            for (column, coefficient) in of_row.map_or(&[][..], |at| &self.rows[at].cells) {
                cost[*column] += sign * coefficient;
            }
            self.bound_by(multiplier, &cost).0 > sign * bound + 1e-7 * (1.0 + bound.abs())
        })
    }

    fn bound_by(&self, multiplier: impl Fn(usize) -> f64, cost: &[f64]) -> (f64, Vec<f64>) {
        let width = self.width();
        let mut left = cost.to_vec();
        let mut bound = 0.0;
        for (at, row) in self.rows.iter().enumerate() {
            let mut weight = multiplier(width + at);
            let side = if weight > 0.0 { row.least } else { row.most };
            if weight == 0.0 || side.is_infinite() {
                weight = 0.0;
            } else {
                bound += weight * side;
            }
            if weight != 0.0 {
                row.cells
                    .iter()
                    .for_each(|(column, cell)| left[*column] -= weight * cell);
            }
        }
        for (column, left) in left.iter().enumerate() {
            bound += left
                * if *left > 0.0 {
                    self.stands.least[column]
                } else {
                    self.stands.most[column]
                };
        }
        (bound, left)
    }
}
