//! Branch and bound: best bound first, with a dive from each node that is taken up.

use std::collections::BinaryHeap;

use super::master::Master;
use super::progress::{Progress, Stop};
use super::simplex::{Dictionary, Row};
use crate::order::model::Choice;

mod branching;
mod dive;
mod gains;
mod node;
mod queue;
mod root;

use gains::Gains;
use queue::{Node, Open};

/// Pivots after which one program is given up.
const MOST_PIVOTS: usize = 20_000;
/// Rows that cut nothing off are dropped when there are so many more than at the root.
const SPARE_ROWS: usize = 60;

/// The best answer found so far.
#[derive(Debug, Clone)]
pub(super) struct Best {
    pub(super) value: f64,
    pub(super) point: Vec<f64>,
    pub(super) choice: Choice,
}

/// A search under way. Columns that are settled for good are not in the dictionary.
pub(super) struct Tree<'a> {
    master: &'a Master<'a>,
    /// The columns in the dictionary.
    live: Vec<usize>,
    /// Every column's place among those, if it is there.
    place: Vec<Option<usize>>,
    /// Bounds of every column.
    least: Vec<f64>,
    most: Vec<f64>,
    dictionary: Dictionary,
    /// Rows found so far, over all columns.
    pool: Vec<Row>,
    nodes: Vec<Node>,
    open: BinaryHeap<Open>,
    pub(super) best: Option<Best>,
    /// Answers' values lie so far apart.
    step: f64,
    gains: Gains,
    /// The least bound of a node that could not be settled.
    lost: f64,
    looked_at: usize,
    /// Nodes of searches between, inside this one.
    elsewhere: usize,
    /// What is proved so far, without the constant.
    proved: f64,
    root_rows: usize,
    /// The root's bound, costs and bounds, by which columns are settled.
    root_bound: f64,
    root_costs: Vec<f64>,
    root_least: Vec<f64>,
    root_most: Vec<f64>,
    /// The cutoff by which they last were.
    settled_at: f64,
    /// The root's point before anything was rounded.
    root_point: Vec<f64>,
    pub(super) stopped: bool,
    /// Whether this is a search between, inside another.
    between: bool,
}

/// What came of a linear program with all the rows that it calls for.
enum Relaxed {
    /// Nothing better is here.
    Closed,
    /// An answer.
    Whole,
    /// A point that is not whole, and its bound.
    Fractional(f64),
    /// The figures went wrong.
    Unsettled,
}

impl<'a> Tree<'a> {
    /// A search that has yet to begin, between the given bounds.
    pub(super) fn new(
        master: &'a Master<'a>,
        least: Vec<f64>,
        most: Vec<f64>,
        step: f64,
    ) -> Tree<'a> {
        let mut tree = Tree {
            master,
            live: Vec::new(),
            place: Vec::new(),
            least,
            most,
            dictionary: Dictionary::default(),
            pool: Vec::new(),
            nodes: Vec::new(),
            open: BinaryHeap::new(),
            best: None,
            step,
            gains: Gains::new(master.cost.len()),
            lost: f64::INFINITY,
            looked_at: 0,
            elsewhere: 0,
            proved: f64::NEG_INFINITY,
            root_rows: 0,
            root_bound: f64::NEG_INFINITY,
            root_costs: Vec::new(),
            root_least: Vec::new(),
            root_most: Vec::new(),
            settled_at: f64::INFINITY,
            root_point: Vec::new(),
            stopped: false,
            between: false,
        };
        // The program's own rows are in the pool too: they may be dropped while they hold of themselves.
        tree.pool = master
            .rows
            .iter()
            .cloned()
            .chain(master.first_rows())
            .collect();
        master.imply(&tree.least, &mut tree.most);
        tree.build(tree.pool.clone());
        tree
    }

    /// Searches until done, or `stop` says so, or so many nodes were looked at. Gives the proved
    /// bound.
    pub(super) fn run(&mut self, most_nodes: usize, stop: Stop<'_>) -> f64 {
        let Some(bound) = self.root(stop) else {
            return self.cutoff_bound();
        };
        self.nodes.push(Node {
            parent: None,
            changes: Vec::new(),
        });
        self.open.push(Open {
            bound,
            depth: 0,
            node: 0,
        });
        while let Some(open) = self.open.pop() {
            self.proved = self.proved.max(open.bound.min(self.lost));
            if self.proved > self.cutoff() {
                break;
            }
            if self.looked_at >= most_nodes || self.stopped {
                return self.proved;
            }
            if self.cutoff() < self.settled_at {
                self.settle();
            }
            self.plunge(open, most_nodes, stop);
        }
        self.cutoff_bound()
    }

    /// What the first linear program proves; infinite where it has no point.
    pub(super) fn first_bound(&mut self, stop: Stop<'_>) -> f64 {
        match self.relax(true, stop) {
            Relaxed::Closed => f64::INFINITY,
            Relaxed::Fractional(bound) => bound,
            Relaxed::Whole => self.dictionary.proved_bound() + self.settled_cost(),
            Relaxed::Unsettled => f64::NEG_INFINITY,
        }
    }

    /// How many nodes were looked at.
    pub(super) fn looked_at(&self) -> usize {
        self.looked_at + self.elsewhere
    }

    /// Takes it as proved elsewhere that nothing is lower.
    pub(super) fn know(&mut self, bound: f64) {
        self.proved = self.proved.max(bound);
    }

    /// Nothing over this is better than the best.
    fn cutoff(&self) -> f64 {
        self.best
            .as_ref()
            .map_or(f64::INFINITY, |best| best.value - self.step * 0.999)
    }

    /// What is proved when no node is left.
    fn cutoff_bound(&self) -> f64 {
        self.best
            .as_ref()
            .map_or(f64::INFINITY, |best| best.value)
            .min(self.lost.max(self.proved))
    }

    /// Asks whether to stop.
    fn asked(&mut self, stop: Stop<'_>) -> bool {
        let constant = self.master.constant;
        self.stopped |= stop(Progress {
            best: self.best.as_ref().map(|best| best.value + constant),
            bound: self.proved + constant,
            nodes: self.looked_at(),
        });
        self.stopped
    }

    /// Puts the columns that are not settled, and rows over all columns, in a new dictionary.
    fn build(&mut self, rows: Vec<Row>) {
        let columns = self.least.len();
        self.live = (0..columns)
            .filter(|at| self.least[*at] < self.most[*at])
            .collect();
        self.place = vec![None; columns];
        for (place, at) in self.live.iter().enumerate() {
            self.place[*at] = Some(place);
        }
        let of = |values: &[f64]| self.live.iter().map(|at| values[*at]).collect();
        self.dictionary = Dictionary::new(of(&self.master.cost), of(&self.least), of(&self.most));
        rows.iter().for_each(|row| self.add(row));
    }

    /// Adds a row over all columns.
    fn add(&mut self, row: &Row) {
        let row = self.over_live(row);
        self.dictionary.add(row);
    }

    /// A row over all columns as one over those in the dictionary.
    fn over_live(&self, row: &Row) -> Row {
        let mut there = 0.0;
        let mut cells = Vec::with_capacity(row.cells.len());
        for (column, cell) in &row.cells {
            match self.place[*column] {
                Some(place) => cells.push((place, *cell)),
                None => there += cell * self.least[*column],
            }
        }
        Row {
            cells,
            least: row.least - there,
            most: row.most - there,
        }
    }

    /// The cost of the columns that are settled.
    fn settled_cost(&self) -> f64 {
        let settled = (0..self.place.len()).filter(|at| self.place[*at].is_none());
        settled
            .map(|at| self.master.cost[at] * self.least[at])
            .sum()
    }

    /// The present point, over all columns.
    fn point(&self) -> Vec<f64> {
        let value =
            |at: usize| self.place[at].map_or(self.least[at], |place| self.dictionary.value(place));
        (0..self.place.len()).map(value).collect()
    }
}
