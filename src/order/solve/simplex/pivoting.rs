//! The steps of the dual simplex method.

use super::{
    Dictionary, FEASIBLE, LEAST_PIVOT, MOST_SLACK, VariableState, ZERO, add_scaled, length, product,
};

impl Dictionary {
    /// Puts every nonbasic variable on the bound that its reduced cost asks for, and works out the
    /// basic ones.
    pub(super) fn settle(&mut self) {
        for place in 0..self.nonbasic.len() {
            let variable = self.nonbasic[place];
            let (least, most) = (self.least[variable], self.most[variable]);
            let reduced = self.reduced[place];
            self.at_most[place] = if least.is_infinite() {
                true
            } else if most.is_infinite() {
                false
            } else if reduced.abs() > 1e-9 {
                reduced < 0.0
            } else {
                self.at_most[place]
            };
        }
        self.work_out_values();
    }

    /// Works the dictionary out from the rows themselves, with the same basis.
    pub(in crate::order::solve) fn refresh(&mut self) {
        let (width, height) = (self.width(), self.rows.len());
        let wanted: Vec<bool> = self
            .place
            .iter()
            .map(|at| matches!(at, VariableState::Basic(_)))
            .collect();
        let at_most: Vec<bool> = (0..self.place.len())
            .map(|variable| match self.place[variable] {
                VariableState::Basic(_) => false,
                VariableState::Nonbasic(place) => self.at_most[place],
            })
            .collect();
        self.cells = vec![0.0; width * height];
        for (at, row) in self.rows.iter().enumerate() {
            for (column, coefficient) in &row.cells {
                self.cells[at * width + column] += coefficient;
            }
        }
        self.reduced = self.cost.clone();
        self.nonbasic = (0..width).collect();
        self.basic = (width..width + height).collect();
        self.lengths = vec![1.0; height];
        self.name_places();
        for column in (0..width).filter(|column| wanted[*column]) {
            let size = |row: &usize| self.cells[row * width + column].abs();
            let leaves = |row: &usize| {
                let variable = self.basic[*row];
                variable >= width && !wanted[variable]
            };
            let best = (0..height)
                .filter(leaves)
                .max_by(|a, b| size(a).total_cmp(&size(b)));
            if let Some(row) = best.filter(|row| size(row) > ZERO) {
                self.exchange(row, column);
            }
        }
        for (place, variable) in self.nonbasic.iter().enumerate() {
            self.at_most[place] = at_most[*variable];
        }
        for row in 0..height {
            self.lengths[row] = length(&self.cells[row * width..(row + 1) * width]);
        }
        self.stale = 0;
        self.settle();
    }

    pub(super) fn name_places(&mut self) {
        for (place, variable) in self.nonbasic.iter().enumerate() {
            self.place[*variable] = VariableState::Nonbasic(place);
        }
        for (row, variable) in self.basic.iter().enumerate() {
            self.place[*variable] = VariableState::Basic(row);
        }
    }

    pub(super) fn value_of_row(&self, row: usize) -> f64 {
        let width = self.width();
        let cells = &self.cells[row * width..(row + 1) * width];
        let part = |(place, cell): (usize, &f64)| {
            if *cell == 0.0 {
                0.0
            } else {
                cell * self.resting(place)
            }
        };
        cells.iter().enumerate().map(part).sum()
    }

    fn work_out_values(&mut self) {
        let resting: Vec<f64> = (0..self.width()).map(|place| self.resting(place)).collect();
        let rows = self.cells.chunks_exact(self.width().max(1));
        self.values = rows.map(|row| product(row, &resting)).collect();
    }

    /// The basic variable furthest out of its bounds, by steepest edge.
    pub(in crate::order::solve) fn leaving(&self) -> Option<usize> {
        let mut best = None;
        let mut furthest = 0.0;
        for (row, variable) in self.basic.iter().enumerate() {
            let value = self.values[row];
            let out = (self.least[*variable] - value).max(value - self.most[*variable]);
            if out > FEASIBLE * (1.0 + value.abs()).min(MOST_SLACK) {
                let far = out * out / self.lengths[row];
                if far > furthest {
                    (best, furthest) = (Some(row), far);
                }
            }
        }
        best
    }

    /// Brings the basic variable of `row` to the bound that it is out of. False where nothing can.
    pub(super) fn step(&mut self, row: usize) -> bool {
        let width = self.width();
        let variable = self.basic[row];
        let rises = self.values[row] < self.least[variable];
        let bound = if rises {
            self.least[variable]
        } else {
            self.most[variable]
        };
        let sign = if rises { 1.0 } else { -1.0 };
        let cells = &self.cells[row * width..(row + 1) * width];
        // Those whose move off their bound helps, by what it costs.
        let mut helping: Vec<(f64, usize)> = Vec::new();
        for (place, cell) in cells.iter().enumerate() {
            let cell = cell * sign;
            let other = self.nonbasic[place];
            if cell.abs() < LEAST_PIVOT || self.least[other] == self.most[other] {
                continue;
            }
            if (cell > 0.0) != self.at_most[place] {
                helping.push((self.reduced[place].abs() / cell.abs(), place));
            }
        }
        if helping.is_empty() {
            return false;
        }
        let cells_of = |place: usize| cells[place].abs();
        helping.sort_by(|a, b| {
            (a.0.total_cmp(&b.0))
                .then(cells_of(b.1).total_cmp(&cells_of(a.1)))
                .then(a.1.cmp(&b.1))
        });
        // While flipping one to its other bound still leaves the variable out, flip and go on.
        let mut short = (bound - self.values[row]).abs();
        let mut flipped = 0;
        for (_, place) in &helping[..helping.len() - 1] {
            let other = self.nonbasic[*place];
            let reach = cells_of(*place) * (self.most[other] - self.least[other]);
            if reach >= short || reach.is_infinite() {
                break;
            }
            short -= reach;
            flipped += 1;
        }
        // Among equals the largest pivot is safest.
        let limit = helping[flipped].0 + 1e-9;
        let equal = helping[flipped..].iter().take_while(|one| one.0 <= limit);
        let entering = equal
            .map(|one| one.1)
            .max_by(|a, b| cells_of(*a).total_cmp(&cells_of(*b)));
        let Some(entering) = entering else {
            return false;
        };
        let flips: Vec<usize> = helping[..flipped].iter().map(|one| one.1).collect();
        for place in flips {
            let other = self.nonbasic[place];
            let span = self.most[other] - self.least[other];
            let change = if self.at_most[place] { -span } else { span };
            self.at_most[place] = !self.at_most[place];
            for (value, row) in self.values.iter_mut().zip(self.cells.chunks_exact(width)) {
                *value += row[place] * change;
            }
        }
        let change = (bound - self.values[row]) / self.cells[row * width + entering];
        let arrives = self.resting(entering) + change;
        for (value, row) in self.values.iter_mut().zip(self.cells.chunks_exact(width)) {
            *value += row[entering] * change;
        }
        self.exchange(row, entering);
        self.values[row] = arrives;
        self.at_most[entering] = !rises;
        // The step keeps every reduced cost on its side; what is left over is rounding.
        for place in 0..width {
            let reduced = &mut self.reduced[place];
            if (*reduced < 0.0) != self.at_most[place] && reduced.abs() < 1e-7 {
                *reduced = 0.0;
            }
        }
        true
    }

    /// Exchanges the basic variable of `row` with the nonbasic one at `place`.
    fn exchange(&mut self, row: usize, place: usize) {
        let width = self.width();
        let (above, rest) = self.cells.split_at_mut(row * width);
        let (own, below) = rest.split_at_mut(width);
        let pivot = own[place];
        for cell in own.iter_mut() {
            *cell /= -pivot;
        }
        own[place] = 1.0 / pivot;
        let filled: Vec<usize> = (0..width).filter(|at| own[*at].abs() > ZERO).collect();
        let sparse = filled.len() * 4 < width;
        for (at, cell) in own.iter_mut().enumerate() {
            if cell.abs() <= ZERO && at != place {
                *cell = 0.0;
            }
        }
        let own: &[f64] = own;
        let update = |other: &mut [f64]| {
            let by = other[place];
            if by == 0.0 {
                return false;
            }
            other[place] = 0.0;
            if sparse {
                filled.iter().for_each(|at| other[*at] += own[*at] * by);
            } else {
                add_scaled(other, own, by);
            }
            true
        };
        let others = above
            .chunks_exact_mut(width)
            .chain(below.chunks_exact_mut(width));
        let rows = (0..self.basic.len()).filter(|other| *other != row);
        for (at, other) in rows.zip(others) {
            if update(other) {
                self.lengths[at] = length(other);
            }
        }
        update(&mut self.reduced);
        self.lengths[row] = length(own);
        std::mem::swap(&mut self.basic[row], &mut self.nonbasic[place]);
        self.place[self.basic[row]] = VariableState::Basic(row);
        self.place[self.nonbasic[place]] = VariableState::Nonbasic(place);
        self.stale += 1;
    }
}
