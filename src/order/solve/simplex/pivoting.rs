//! The steps of the dual simplex method.

use super::standing::{Standing, Steps, VariableState};
use super::sums::{add_filled, add_measured, length, product};
use super::{Dictionary, STALE, ZERO, column};

impl Dictionary {
    /// Puts every nonbasic variable on the bound that its reduced cost asks for, and works out the
    /// basic ones.
    pub(super) fn settle(&mut self) {
        self.stands.choose_sides();
        self.work_out_values();
    }

    pub(super) fn work_out_values(&mut self) {
        let resting = self.stands.all_resting();
        let rows = self.cells.chunks_exact(self.width().max(1));
        self.stands.values = rows.map(|row| product(row, &resting)).collect();
    }

    /// Works the dictionary out from the rows themselves, with the same basis.
    pub(in crate::order::solve) fn refresh(&mut self) {
        let (width, height) = (self.width(), self.rows.len());
        let stands = &mut self.stands;
        let wanted: Vec<bool> = { stands.place.iter() }
            .map(|at| matches!(at, VariableState::Basic(_)))
            .collect();
        let at_most: Vec<bool> = { stands.place.iter() }
            .map(|at| match at {
                VariableState::Basic(_) => false,
                VariableState::Nonbasic(place) => stands.at_most[*place],
            })
            .collect();
        self.cells = vec![0.0; width * height];
        for (at, row) in self.rows.iter().enumerate() {
            for (column, coefficient) in &row.cells {
                self.cells[at * width + column] += coefficient;
            }
        }
        stands.reduced = self.cost.clone();
        stands.nonbasic = (0..width).collect();
        stands.basic = (width..width + height).collect();
        stands.lengths = vec![1.0; height];
        stands.name_places();
        for column in (0..width).filter(|column| wanted[*column]) {
            let size = |row: &usize| self.cells[row * width + column].abs();
            let leaves = |row: &usize| {
                let variable = self.stands.basic[*row];
                variable >= width && !wanted[variable]
            };
            let best = (0..height)
                .filter(leaves)
                .max_by(|a, b| size(a).total_cmp(&size(b)));
            if let Some(row) = best.filter(|row| size(row) > ZERO) {
                self.exchange(row, column);
            }
        }
        let stands = &mut self.stands;
        for (place, variable) in stands.nonbasic.iter().enumerate() {
            stands.at_most[place] = at_most[*variable];
        }
        let rows = self.cells.chunks_exact(width.max(1));
        stands.lengths = rows.map(length).collect();
        self.stale = 0;
        self.settle();
    }

    /// Exchanges the basic variable of `row` with the nonbasic one at `place`.
    fn exchange(&mut self, row: usize, place: usize) {
        let width = self.width();
        let (above, rest) = self.cells.split_at_mut(row * width);
        let (own, below) = rest.split_at_mut(width);
        let filled = solve_for(own, place);
        let lengths = &mut self.stands.lengths;
        let others = above
            .chunks_exact_mut(width)
            .chain(below.chunks_exact_mut(width));
        let rows = (0..lengths.len()).filter(|other| *other != row);
        let sparse = filled.len() * 4 < width;
        for (at, other) in rows.zip(others) {
            let by = std::mem::take(&mut other[place]);
            if by == 0.0 {
                continue;
            }
            lengths[at] = if sparse {
                let longer = add_filled(other, own, &filled, by) - by * by;
                (lengths[at] + longer).max(1.0)
            } else {
                1.0 + add_measured(other, own, by)
            };
        }
        let by = std::mem::take(&mut self.stands.reduced[place]);
        add_filled(&mut self.stands.reduced, own, &filled, by);
        self.stands.swap(row, place, length(own));
        self.stale += 1;
    }
}

impl Steps for Dictionary {
    fn stands(&self) -> &Standing {
        &self.stands
    }

    fn tidy(&mut self) {
        if self.stale > STALE {
            self.refresh();
        }
    }

    fn step(&mut self, row: usize) -> bool {
        let width = self.width();
        let Some(way) = self.stands.way(row, self.row(row)) else {
            return false;
        };
        for place in &way.flips {
            let by = self.stands.flip(*place);
            self.stands.shift(column(&self.cells, width, *place), by);
        }
        let pivot = self.cells[row * width + way.entering];
        let by = (way.bound - self.stands.values[row]) / pivot;
        let arrives = self.stands.resting(way.entering) + by;
        self.stands
            .shift(column(&self.cells, width, way.entering), by);
        self.exchange(row, way.entering);
        self.stands.arrive(row, &way, arrives);
        true
    }
}

/// A row as the one that its variable at `place` is worked out by, instead of its own; gives the places of its
/// coefficients.
pub(super) fn solve_for(row: &mut [f64], place: usize) -> Vec<usize> {
    let pivot = row[place];
    let mut filled = Vec::with_capacity(row.len());
    for (at, cell) in row.iter_mut().enumerate() {
        *cell /= -pivot;
        if cell.abs() > ZERO || at == place {
            filled.push(at);
        } else {
            *cell = 0.0;
        }
    }
    row[place] = 1.0 / pivot;
    filled
}
