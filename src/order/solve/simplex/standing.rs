//! Where every variable of a dictionary stands, and which one is to leave and which to enter: all that can be said
//! from as much as is as long as a row or a column.

use super::program::{Ended, Row};
use super::sums::{length, product};

/// Smaller than this a coefficient is no pivot.
const LEAST_PIVOT: f64 = 1e-7;
/// How far out of its bounds a variable may be.
pub(super) const FEASIBLE: f64 = 1e-8;
/// The most times as far where its value is large: still nearer than what counts as whole.
const MOST_SLACK: f64 = 50.0;

/// Where a variable is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum VariableState {
    Basic(usize),
    Nonbasic(usize),
}

/// All of a dictionary but its cells.
#[derive(Debug, Clone, Default)]
pub(super) struct Standing {
    /// Bounds of every variable.
    pub(super) least: Vec<f64>,
    pub(super) most: Vec<f64>,
    pub(super) place: Vec<VariableState>,
    pub(super) basic: Vec<usize>,
    pub(super) nonbasic: Vec<usize>,
    /// By place: whether it rests at its most.
    pub(super) at_most: Vec<bool>,
    /// By place: what a step of it costs.
    pub(super) reduced: Vec<f64>,
    /// By row: the value of the basic variable.
    pub(super) values: Vec<f64>,
    /// Squared lengths of the rows: the weights of steepest edge.
    pub(super) lengths: Vec<f64>,
}

/// How a basic variable comes to the bound that it is out of.
#[derive(Debug)]
pub(super) struct Way {
    /// The bound.
    pub(super) bound: f64,
    /// Whether it rises to it.
    pub(super) rises: bool,
    /// The places of what goes to its other bound first.
    pub(super) flips: Vec<usize>,
    /// The place of what becomes basic in its stead.
    pub(super) entering: usize,
}

/// What takes the steps of the dual simplex method.
pub(super) trait Steps {
    fn stands(&self) -> &Standing;

    /// Brings the basic variable of a row to the bound that it is out of. False where nothing can.
    fn step(&mut self, row: usize) -> bool;

    /// What is to be done now and then between steps.
    fn tidy(&mut self) {}
}

/// Solves; gives up after `most_pivots`. Whether all is over the cutoff is looked at now and then.
pub(super) fn solve(on: &mut impl Steps, cutoff: f64, most_pivots: usize) -> Ended {
    for count in 0..most_pivots {
        on.tidy();
        let leaving = on.stands().leaving();
        if (leaving.is_none() || count % 8 == 7) && on.stands().objective() > cutoff {
            return Ended::OverCutoff;
        }
        match leaving {
            None => return Ended::Optimal,
            Some(row) if !on.step(row) => return Ended::Infeasible,
            Some(_) => {}
        }
    }
    Ended::Unsettled
}

impl Standing {
    /// Every column nonbasic, and no rows.
    pub(super) fn new(cost: &[f64], least: Vec<f64>, most: Vec<f64>) -> Standing {
        let columns = cost.len();
        Standing {
            least,
            most,
            place: (0..columns).map(VariableState::Nonbasic).collect(),
            nonbasic: (0..columns).collect(),
            at_most: vec![false; columns],
            reduced: cost.to_vec(),
            ..Standing::default()
        }
    }

    /// A row more, with its coefficients over the nonbasic variables; its activity is basic.
    pub(super) fn add(&mut self, row: &Row, cells: &[f64]) {
        self.lengths.push(length(cells));
        self.place.push(VariableState::Basic(self.basic.len()));
        self.basic.push(self.place.len() - 1);
        self.least.push(row.least);
        self.most.push(row.most);
        let filled = cells.iter().enumerate().filter(|(_, cell)| **cell != 0.0);
        let value = filled.map(|(place, cell)| cell * self.resting(place)).sum();
        self.values.push(value);
    }

    /// Puts every nonbasic variable on the bound that its reduced cost asks for.
    pub(super) fn choose_sides(&mut self) {
        for (place, variable) in self.nonbasic.iter().enumerate() {
            let (least, most) = (self.least[*variable], self.most[*variable]);
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
    }

    pub(super) fn name_places(&mut self) {
        for (place, variable) in self.nonbasic.iter().enumerate() {
            self.place[*variable] = VariableState::Nonbasic(place);
        }
        for (row, variable) in self.basic.iter().enumerate() {
            self.place[*variable] = VariableState::Basic(row);
        }
    }

    /// The bound at which a nonbasic variable rests.
    pub(super) fn resting(&self, place: usize) -> f64 {
        let variable = self.nonbasic[place];
        if self.at_most[place] {
            self.most[variable]
        } else {
            self.least[variable]
        }
    }

    /// The same of all of them.
    pub(super) fn all_resting(&self) -> Vec<f64> {
        (0..self.nonbasic.len())
            .map(|place| self.resting(place))
            .collect()
    }

    /// The value of a variable.
    pub(super) fn value(&self, variable: usize) -> f64 {
        match self.place[variable] {
            VariableState::Basic(row) => self.values[row],
            VariableState::Nonbasic(place) => self.resting(place),
        }
    }

    /// The cost at the present point.
    pub(super) fn objective(&self) -> f64 {
        product(&self.reduced, &self.all_resting())
    }

    /// The basic variable furthest out of its bounds, by steepest edge.
    pub(super) fn leaving(&self) -> Option<usize> {
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

    /// How the basic variable of a row, whose coefficients are these, comes to the bound that it is out of; `None`
    /// where nothing can bring it there.
    pub(super) fn way(&self, row: usize, cells: &[f64]) -> Option<Way> {
        let variable = self.basic[row];
        let rises = self.values[row] < self.least[variable];
        let bound = if rises {
            self.least[variable]
        } else {
            self.most[variable]
        };
        let sign = if rises { 1.0 } else { -1.0 };
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
        let size = |place: usize| cells[place].abs();
        helping.sort_by(|a, b| {
            (a.0.total_cmp(&b.0))
                .then(size(b.1).total_cmp(&size(a.1)))
                .then(a.1.cmp(&b.1))
        });
        // While flipping one to its other bound still leaves the variable out, flip and go on.
        let mut short = (bound - self.values[row]).abs();
        let mut flipped = 0;
        for (_, place) in helping.iter().take(helping.len().saturating_sub(1)) {
            let other = self.nonbasic[*place];
            let reach = size(*place) * (self.most[other] - self.least[other]);
            if reach >= short || reach.is_infinite() {
                break;
            }
            short -= reach;
            flipped += 1;
        }
        // Among equals the largest pivot is safest.
        let limit = helping.get(flipped)?.0 + 1e-9;
        let equal = helping[flipped..].iter().take_while(|one| one.0 <= limit);
        let entering = equal
            .map(|one| one.1)
            .max_by(|a, b| size(*a).total_cmp(&size(*b)))?;
        Some(Way {
            bound,
            rises,
            flips: helping[..flipped].iter().map(|one| one.1).collect(),
            entering,
        })
    }

    /// Puts a nonbasic variable on its other bound; gives by how much that moves it.
    pub(super) fn flip(&mut self, place: usize) -> f64 {
        let before = self.resting(place);
        self.at_most[place] = !self.at_most[place];
        self.resting(place) - before
    }

    /// Lets the basic variables follow where a nonbasic one, whose coefficients are these, is moved.
    pub(super) fn shift(&mut self, column: impl Iterator<Item = f64>, by: f64) {
        for (value, cell) in self.values.iter_mut().zip(column) {
            *value += cell * by;
        }
    }

    /// The basic variable of a row and the nonbasic one at a place change places; the row is now this long.
    pub(super) fn swap(&mut self, row: usize, place: usize, length: f64) {
        self.lengths[row] = length;
        std::mem::swap(&mut self.basic[row], &mut self.nonbasic[place]);
        self.place[self.basic[row]] = VariableState::Basic(row);
        self.place[self.nonbasic[place]] = VariableState::Nonbasic(place);
    }

    /// What entered by a way stands there now, and what left rests at the bound that it came to.
    pub(super) fn arrive(&mut self, row: usize, way: &Way, value: f64) {
        self.values[row] = value;
        self.at_most[way.entering] = !way.rises;
        // The step keeps every reduced cost on its side; what is left over is rounding.
        for (reduced, at_most) in self.reduced.iter_mut().zip(&self.at_most) {
            if (*reduced < 0.0) != *at_most && reduced.abs() < 1e-7 {
                *reduced = 0.0;
            }
        }
    }
}
