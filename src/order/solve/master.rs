//! The program that is searched: packs, spare tubers, suppliers, and which varieties count. The
//! sharing out of stems is not in it; rows that it calls for are added where a point breaks them.

use super::check::Fault;
use super::reduce::Reduced;
use super::simplex::Row;
use crate::order::model::{Choice, Model, STEM};

mod broken;
mod columns;
mod values;

/// A plant that should be tried and is not counts as so many stems short. Our own choice.
const UNTRIED: f64 = 5.0;

/// What is to be made least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Goal {
    /// Money.
    Money,
    /// The stems that the needs fall short by, summed over weeks.
    Shortfall,
    /// The plants set out.
    Plants,
    /// The lack of merit, at a cost of no more than so many hundredths.
    Merit(u64),
}

/// The columns, and the rows that are there from the start.
#[derive(Debug, Clone)]
pub(super) struct Master<'a> {
    pub(super) model: &'a Model,
    reduced: &'a Reduced,
    goal: Goal,
    pub(super) cost: Vec<f64>,
    pub(super) least: Vec<f64>,
    pub(super) most: Vec<f64>,
    pub(super) whole: Vec<bool>,
    /// Columns to be settled before the others.
    pub(super) first: Vec<usize>,
    /// Columns to be settled after the others.
    pub(super) last: Vec<usize>,
    pub(super) rows: Vec<Row>,
    /// A constant of the objective.
    pub(super) constant: f64,
    /// By variety: the columns that make up its plants, and how many are there without them.
    plants: Vec<(Vec<(usize, f64)>, f64)>,
    /// By need and week, then variety: whether it counts.
    counts: Vec<Vec<Vec<Option<usize>>>>,
    /// Needs that ask for forms, in each week, and the column of what is lacking.
    of_forms: Vec<(usize, usize, Option<usize>)>,
    /// By need, then week: the stems short.
    short: Vec<Vec<Option<usize>>>,
}

impl<'a> Master<'a> {
    /// The program for a goal.
    pub(super) fn new(reduced: &'a Reduced, goal: Goal) -> Master<'a> {
        let model = &reduced.model;
        let mut master = Master {
            model,
            reduced,
            goal,
            cost: Vec::new(),
            least: Vec::new(),
            most: Vec::new(),
            whole: Vec::new(),
            first: Vec::new(),
            last: Vec::new(),
            rows: Vec::new(),
            constant: 0.0,
            plants: model
                .varieties
                .iter()
                .map(|one| match one.most_plants {
                    Some(0) => (Vec::new(), 0.0),
                    _ => (Vec::new(), one.on_hand as f64),
                })
                .collect(),
            counts: vec![vec![vec![None; model.varieties.len()]; model.weeks]; model.needs.len()],
            of_forms: Vec::new(),
            short: vec![vec![None; model.weeks]; model.needs.len()],
        };
        let mut money = Vec::new();
        for offer in &model.offers {
            let at = master.column(offer.least as f64, offer.most as f64, true);
            if model.varieties[offer.variety].most_plants != Some(0) {
                let each = (at, offer.tubers as f64);
                master.plants[offer.variety].0.push(each);
            }
            money.push((at, offer.price as f64));
        }
        master.add_planting(goal);
        money.extend(master.add_suppliers());
        master.add_counts(goal);
        master.add_goal(goal, money);
        master
    }

    /// A row over plants of varieties and further columns: at least so much.
    fn demand(&self, plants: &[(usize, f64)], more: &[(usize, f64)], least: f64) -> Row {
        let mut cells: Vec<(usize, f64)> = more.to_vec();
        let mut there = 0.0;
        for (variety, each) in plants {
            let (columns, on_hand) = &self.plants[*variety];
            there += each * on_hand;
            cells.extend(
                columns
                    .iter()
                    .map(|(column, tubers)| (*column, each * tubers)),
            );
        }
        scaled(cells, least - there, f64::INFINITY)
    }

    fn limit(&self, plants: &[(usize, f64)], most: f64) -> Row {
        let against: Vec<(usize, f64)> = plants.iter().map(|(at, each)| (*at, -each)).collect();
        self.demand(&against, &[], -most)
    }

    /// Lowers what follows from how many packs there may be: spare tubers, and whether a variety that
    /// cannot have the plants for it may count.
    pub(super) fn imply(&self, least: &[f64], most: &mut [f64]) {
        for (at, candidate) in self.model.varieties.iter().enumerate() {
            let (columns, on_hand) = &self.plants[at];
            let bought = columns.iter().filter(|cell| cell.1 > 0.0);
            let all = on_hand
                + bought
                    .map(|(column, tubers)| most[*column] * tubers)
                    .sum::<f64>();
            for (spare, _) in columns.iter().filter(|cell| cell.1 < 0.0) {
                most[*spare] = most[*spare].min(all).max(least[*spare]);
            }
            for need in &candidate.serves {
                let demand = &self.model.needs[*need];
                for (week, counts) in self.counts[*need].iter().enumerate() {
                    let kept = demand.reserved(week) as f64;
                    if let Some(counts) = counts[at]
                        && candidate.yields[week] as f64 * all < kept
                    {
                        most[counts] = least[counts];
                    }
                }
            }
        }
    }

    /// Plants of a variety at a point.
    pub(super) fn planted(&self, variety: usize, point: &[f64]) -> f64 {
        let (columns, on_hand) = &self.plants[variety];
        on_hand
            + columns
                .iter()
                .map(|(column, tubers)| point[*column] * tubers)
                .sum::<f64>()
    }

    /// The answer at a point whose whole columns are whole.
    pub(super) fn choice(&self, point: &[f64]) -> Choice {
        let whole = |value: f64| value.round().max(0.0) as u64;
        let counting = |row: &Vec<Option<usize>>| {
            let counts = |at: &usize| row[*at].is_some_and(|column| point[column] > 0.5);
            (0..row.len()).filter(counts).collect()
        };
        let counted = |weeks: &Vec<Vec<Option<usize>>>| weeks.iter().map(counting).collect();
        Choice {
            packs: point[..self.model.offers.len()]
                .iter()
                .map(|value| whole(*value))
                .collect(),
            plants: (0..self.model.varieties.len())
                .map(|at| whole(self.planted(at, point)))
                .collect(),
            counted: self.counts.iter().map(counted).collect(),
        }
    }

    /// The value of an answer, without the constant; `None` where it breaks what it must keep.
    pub(super) fn value(&self, choice: &Choice, point: &[f64]) -> Option<f64> {
        if !self.comes_to_sums(choice) {
            return None;
        }
        let faults = self.model.faults(choice);
        let short = |fault: &Fault| {
            matches!(
                fault,
                Fault::Stems(..) | Fault::TooFew(..) | Fault::Trial(_)
            )
        };
        if faults
            .iter()
            .any(|fault| !(self.goal == Goal::Shortfall && short(fault)))
        {
            return None;
        }
        Some(match self.goal {
            Goal::Money => self.model.cost(&choice.packs) as f64,
            _ => self
                .cost
                .iter()
                .zip(point)
                .map(|(cost, value)| cost * value)
                .sum(),
        })
    }

    /// What a need is short of in a week at a point, in stems.
    pub(super) fn lacking(&self, need: usize, week: usize, point: &[f64]) -> f64 {
        self.short[need][week].map_or(0.0, |column| point[column])
    }

    /// Rows that are worth having from the start: each need alone in each week.
    pub(super) fn first_rows(&self) -> Vec<Row> {
        let mut rows = Vec::new();
        for need in 0..self.model.needs.len() {
            for week in (0..self.model.weeks).filter(|week| self.model.needs[need].runs(*week)) {
                let serving = self.serving(need, week);
                rows.push(self.cut(week, &[need], &serving));
            }
        }
        rows
    }
}

/// By how much a point breaks a row.
pub(super) fn breaks(row: &Row, point: &[f64]) -> f64 {
    let activity: f64 = row
        .cells
        .iter()
        .map(|(column, cell)| cell * point[*column])
        .sum();
    (row.least - activity).max(activity - row.most)
}

/// A row with its columns rising, each once, and its largest coefficient 1.
fn scaled(mut cells: Vec<(usize, f64)>, least: f64, most: f64) -> Row {
    cells.sort_by_key(|cell| cell.0);
    cells.dedup_by(|next, kept| {
        let same = next.0 == kept.0;
        if same {
            kept.1 += next.1;
        }
        same
    });
    cells.retain(|cell| cell.1 != 0.0);
    let largest = cells.iter().map(|cell| cell.1.abs()).fold(0.0, f64::max);
    let by = if largest > 0.0 { 1.0 / largest } else { 1.0 };
    cells.iter_mut().for_each(|cell| cell.1 *= by);
    Row {
        cells,
        least: least * by,
        most: most * by,
    }
}

/// Thousandths as stems.
fn in_stems(thousandths: u64) -> f64 {
    thousandths as f64 / STEM as f64
}
