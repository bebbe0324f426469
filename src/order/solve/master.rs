//! The program that is searched: packs, spare tubers, suppliers, and which varieties count. The
//! sharing out of stems is not in it; rows that it calls for are added where a point breaks them.

use std::collections::BTreeSet;

use super::check::Fault;
use super::simplex::Row;
use crate::order::model::{Choice, Model, STEM};

mod broken;

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
    /// By need, then variety: whether it counts.
    counts: Vec<Vec<Option<usize>>>,
    /// Needs that ask for forms, the varieties of each that flower together in some week, and the
    /// column of what is lacking.
    flowering: Vec<(usize, Vec<usize>, Option<usize>)>,
    /// By need, then week: the stems short.
    short: Vec<Vec<Option<usize>>>,
}

impl<'a> Master<'a> {
    /// The program for a goal.
    pub(super) fn new(model: &'a Model, goal: Goal) -> Master<'a> {
        let mut master = Master {
            model,
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
                .map(|one| (Vec::new(), one.on_hand as f64))
                .collect(),
            counts: vec![vec![None; model.varieties.len()]; model.needs.len()],
            flowering: Vec::new(),
            short: vec![vec![None; model.weeks]; model.needs.len()],
        };
        let mut money = Vec::new();
        for offer in &model.offers {
            let at = master.column(offer.least as f64, offer.most as f64, true);
            master.plants[offer.variety]
                .0
                .push((at, offer.tubers as f64));
            money.push((at, offer.price as f64));
        }
        master.add_planting(goal);
        money.extend(master.add_suppliers());
        master.add_counts(goal);
        master.add_goal(goal, money);
        master
    }

    fn column(&mut self, least: f64, most: f64, whole: bool) -> usize {
        self.cost.push(0.0);
        self.least.push(least);
        self.most.push(most);
        self.whole.push(whole);
        self.cost.len() - 1
    }

    fn add_planting(&mut self, goal: Goal) {
        let model = self.model;
        let may_spare = model.places.is_some() || goal == Goal::Plants;
        for (at, candidate) in model.varieties.iter().enumerate() {
            if may_spare || candidate.most_plants.is_some() {
                let bought = |(column, tubers): &(usize, f64)| self.most[*column] * tubers;
                let all = self.plants[at].0.iter().map(bought).sum::<f64>() + self.plants[at].1;
                let spare = self.column(0.0, all, true);
                self.last.push(spare);
                self.plants[at].0.push((spare, -1.0));
            }
            if let Some(most) = candidate.most_plants {
                let row = self.limit(&[(at, 1.0)], most as f64);
                self.rows.push(row);
            }
        }
        let all: Vec<(usize, f64)> = (0..model.varieties.len()).map(|at| (at, 1.0)).collect();
        if let Some(places) = model.places {
            let row = self.limit(&all, places as f64);
            self.rows.push(row);
        }
        for group in &model.trials {
            let some: Vec<(usize, f64)> = group.varieties.iter().map(|at| (*at, 1.0)).collect();
            let untried = (goal == Goal::Shortfall).then(|| {
                let untried = self.column(0.0, group.plants as f64, true);
                self.cost[untried] = UNTRIED;
                (untried, 1.0)
            });
            let untried: Vec<(usize, f64)> = untried.into_iter().collect();
            let row = self.demand(&some, &untried, group.plants as f64);
            self.rows.push(row);
        }
    }

    /// Gives the columns of postage and what they cost.
    fn add_suppliers(&mut self) -> Vec<(usize, f64)> {
        let model = self.model;
        let mut money = Vec::new();
        for (at, supplier) in model.suppliers.iter().enumerate() {
            let offers = model
                .offers
                .iter()
                .enumerate()
                .filter(|(_, offer)| offer.supplier == at);
            let worth: Vec<(usize, f64)> = offers
                .map(|(column, offer)| (column, offer.price as f64))
                .collect();
            let all: f64 = worth
                .iter()
                .map(|(column, price)| self.most[*column] * price)
                .sum();
            if worth.is_empty() || (supplier.postage == 0 && supplier.least == 0) {
                continue;
            }
            let used = self.column(0.0, 1.0, true);
            self.first.push(used);
            money.push((used, supplier.postage as f64));
            // Free packs are bought of somebody too.
            let packs = worth
                .iter()
                .map(|(column, price)| (*column, price.max(1.0)));
            let packs_all: f64 = packs
                .clone()
                .map(|(column, price)| self.most[column] * price)
                .sum();
            let link = packs.chain([(used, -packs_all)]);
            self.rows
                .push(scaled(link.collect(), f64::NEG_INFINITY, 0.0));
            if supplier.least > 0 {
                let least = worth
                    .iter()
                    .copied()
                    .chain([(used, -(supplier.least as f64))]);
                self.rows.push(scaled(least.collect(), 0.0, f64::INFINITY));
            }
            if let Some(over) = supplier
                .free_over
                .filter(|over| *over as f64 <= all && supplier.postage > 0)
            {
                let free = self.column(0.0, 1.0, true);
                self.first.push(free);
                money.push((free, -(supplier.postage as f64)));
                let both = vec![(free, 1.0), (used, -1.0)];
                self.rows.push(scaled(both, f64::NEG_INFINITY, 0.0));
                let enough = worth.iter().copied().chain([(free, -(over as f64))]);
                self.rows.push(scaled(enough.collect(), 0.0, f64::INFINITY));
            }
        }
        money
    }

    fn add_counts(&mut self, goal: Goal) {
        let model = self.model;
        let counting = model
            .needs
            .iter()
            .enumerate()
            .filter(|(_, need)| need.counts());
        for (at, need) in counting {
            for (variety, _) in model
                .varieties
                .iter()
                .enumerate()
                .filter(|(_, one)| one.serves.contains(&at))
            {
                self.counts[at][variety] = Some(self.column(0.0, 1.0, true));
            }
            let too_few = need.varieties.max(need.forms) as f64;
            let lacks = (goal == Goal::Shortfall).then(|| {
                // A variety that is missing counts as the stems that it would have to give.
                let weeks = (0..model.weeks).filter(|week| need.runs(*week)).count();
                let lacks = self.column(0.0, too_few, true);
                self.cost[lacks] = in_stems(need.each.max(STEM)) * weeks as f64;
                lacks
            });
            // Weeks in which the same varieties flower ask the same.
            let mut seen = BTreeSet::new();
            for week in (0..model.weeks).filter(|week| need.runs(*week)) {
                let flowering: Vec<usize> = (0..model.varieties.len())
                    .filter(|one| {
                        self.counts[at][*one].is_some() && model.varieties[*one].yields[week] > 0
                    })
                    .collect();
                if !seen.insert(flowering.clone()) {
                    continue;
                }
                let columns = flowering
                    .iter()
                    .filter_map(|one| Some((self.counts[at][*one]?, 1.0)));
                let cells = columns.chain(lacks.map(|lacks| (lacks, 1.0)));
                // So many forms are so many varieties.
                self.rows
                    .push(scaled(cells.collect(), too_few, f64::INFINITY));
                if need.forms > 1 {
                    self.flowering.push((at, flowering, lacks));
                }
            }
        }
    }

    fn add_goal(&mut self, goal: Goal, money: Vec<(usize, f64)>) {
        let model = self.model;
        let spent = match goal {
            Goal::Merit(cost) => Some(cost),
            _ => model.money,
        };
        if let Some(spent) = spent.filter(|_| goal != Goal::Money) {
            self.rows
                .push(scaled(money.clone(), f64::NEG_INFINITY, spent as f64));
        }
        match goal {
            Goal::Money => money
                .into_iter()
                .for_each(|(column, cost)| self.cost[column] += cost),
            Goal::Plants | Goal::Merit(_) => {
                for (at, candidate) in model.varieties.iter().enumerate() {
                    let each = if goal == Goal::Plants {
                        1.0
                    } else {
                        -(candidate.merit as f64)
                    };
                    self.constant += each * self.plants[at].1;
                    for (column, tubers) in self.plants[at].0.clone() {
                        self.cost[column] += each * tubers;
                    }
                }
            }
            Goal::Shortfall => {
                for (at, need) in model.needs.iter().enumerate() {
                    for week in (0..model.weeks).filter(|week| need.runs(*week)) {
                        let short = self.column(0.0, in_stems(need.stems[week]), false);
                        self.short[at][week] = Some(short);
                        self.cost[short] = 1.0;
                    }
                }
            }
        }
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
                let Some(counts) = self.counts[*need][at] else {
                    continue;
                };
                let mut weeks = (0..self.model.weeks).filter(|week| candidate.yields[*week] > 0);
                let demand = &self.model.needs[*need];
                let lacking = |week: usize| {
                    candidate.yields[week] as f64 * all < demand.reserved(week) as f64
                };
                if weeks.any(lacking) {
                    most[counts] = least[counts];
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
        let counted = |row: &Vec<Option<usize>>| {
            let counts = |at: &usize| row[*at].is_some_and(|column| point[column] > 0.5);
            (0..row.len()).filter(counts).collect()
        };
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
