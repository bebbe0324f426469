//! The columns, and the rows that are there from the start.

use super::{Goal, Master, UNTRIED, in_stems, scaled};
use crate::order::model::{Candidate, STEM};

impl Master<'_> {
    pub(super) fn column(&mut self, least: f64, most: f64, whole: bool) -> usize {
        self.cost.push(0.0);
        self.least.push(least);
        self.most.push(most);
        self.whole.push(whole);
        self.cost.len() - 1
    }

    pub(super) fn add_planting(&mut self, goal: Goal) {
        let model = self.model;
        let may_spare = model.places.is_some() || goal == Goal::Plants;
        // What is never planted has no plants to limit.
        let planted = |one: &(usize, &Candidate)| one.1.most_plants != Some(0);
        for (at, candidate) in model.varieties.iter().enumerate().filter(planted) {
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
    pub(super) fn add_suppliers(&mut self) -> Vec<(usize, f64)> {
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
            // What fills the order up is linked by itself: its most is small.
            let (fills, others): (Vec<_>, Vec<_>) =
                (worth.iter()).partition(|(column, _)| self.sums(*column).is_some());
            for packs in [fills, others] {
                self.link(&packs, used);
            }
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

    /// The row by which packs (column, price) are bought of a supplier who is used.
    fn link(&mut self, packs: &[&(usize, f64)], used: usize) {
        // Free packs are bought of somebody too.
        let packs = { packs.iter() }.map(|(column, price)| (*column, price.max(1.0)));
        let most = { packs.clone() }.map(|(column, price)| self.most[column] * price);
        let all: f64 = most.sum();
        if all > 0.0 {
            let link = packs.chain([(used, -all)]);
            self.rows
                .push(scaled(link.collect(), f64::NEG_INFINITY, 0.0));
        }
    }

    pub(super) fn add_counts(&mut self, goal: Goal) {
        let model = self.model;
        let counting = model
            .needs
            .iter()
            .enumerate()
            .filter(|(_, need)| need.counts());
        for (at, need) in counting {
            let too_few = need.varieties.max(need.forms) as f64;
            let lacks = (goal == Goal::Shortfall).then(|| {
                // A variety that is missing counts as the stems that it would have to give.
                let weeks = (0..model.weeks).filter(|week| need.runs(*week)).count();
                let lacks = self.column(0.0, too_few, true);
                self.cost[lacks] = in_stems(need.each.max(STEM)) * weeks as f64;
                lacks
            });
            for week in (0..model.weeks).filter(|week| need.runs(*week)) {
                let mut cells: Vec<(usize, f64)> = lacks.iter().map(|at| (*at, 1.0)).collect();
                for variety in self.serving(at, week) {
                    let counts = self.column(0.0, 1.0, true);
                    self.counts[at][week][variety] = Some(counts);
                    cells.push((counts, 1.0));
                }
                // So many forms are so many varieties.
                self.rows.push(scaled(cells, too_few, f64::INFINITY));
                if need.forms > 1 {
                    self.of_forms.push((at, week, lacks));
                }
            }
        }
    }

    pub(super) fn add_goal(&mut self, goal: Goal, money: Vec<(usize, f64)>) {
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
}
