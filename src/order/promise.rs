//! What an order promises a need, or an event as one, and what it would take to keep it.

use serde::{Deserialize, Serialize};

use super::plan::Plan;
use crate::variety::Money;

/// What is promised: one need, or all that an event or a round comes to, as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Promised {
    /// A need, by its place.
    Need(usize),
    /// An event or a round that comes to several needs, by its place among the plan's work.
    Work(usize),
}

/// The needs that an event or a round comes to, of which none may fail where it is to be met.
#[derive(Debug, Clone, PartialEq)]
pub struct Whole {
    /// Its place among the plan's work.
    pub work: usize,
    /// The places of its needs, two or more.
    pub needs: Vec<usize>,
    /// How sure it is to be as one, 0 to 1.
    pub sure: f64,
}

/// What an order promises.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Promise {
    /// What is promised.
    pub of: Promised,
    /// How sure it is to be, 0 to 1.
    pub sure: f64,
    /// The chance that it has all its stems in all of its weeks, an event those of all its needs.
    pub chance: f64,
    /// No order has a greater chance, whatever it costs: its frosts and first cuts, and what the beds hold.
    pub ceiling: f64,
}

impl Promised {
    /// What the plan calls it.
    pub fn name(self, plan: &Plan) -> &str {
        match self {
            Promised::Need(need) => &plan.needs[need].name,
            Promised::Work(work) => &plan.work[work].name,
        }
    }
}

impl Whole {
    /// The events and rounds of a plan that come to several needs, where a need that says nothing is to be so
    /// sure.
    pub(super) fn all(plan: &Plan, usually: f64) -> Vec<Whole> {
        let of_work = |work: usize| {
            let needs = plan.needs.iter().enumerate();
            let own = needs.filter(|(_, need)| {
                let from = need.of_work.as_ref();
                from.is_some_and(|from| from.work == work)
            });
            let needs: Vec<usize> = own.map(|(at, _)| at).collect();
            let sure = plan.work[work].sureness().unwrap_or(usually);
            (needs.len() > 1).then_some(Whole { work, needs, sure })
        };
        (0..plan.work.len()).filter_map(of_work).collect()
    }
}

impl Promise {
    /// Whether it is as sure as was asked.
    pub fn is_met(&self) -> bool {
        self.chance >= self.sure
    }

    /// The chance in seasons of a hundred. What is nearly as sure as asked is rounded to less, never to as much.
    pub fn in_hundred(&self) -> f64 {
        let chance = self.chance * 100.0;
        match self.is_met() {
            true => chance.round(),
            false => chance.floor(),
        }
    }

    /// The chance, beside what was asked where it is less: `85 %`, `62 of 80 %`.
    pub fn told(&self) -> String {
        match self.is_met() {
            true => format!("{} %", self.in_hundred()),
            false => format!("{} of {:.0} %", self.in_hundred(), self.sure * 100.0),
        }
    }

    /// Whether no order could be as sure.
    pub fn is_beyond(&self) -> bool {
        self.ceiling < self.sure
    }

    /// What the order is to reach: what was asked; of what cannot be so sure, the share asked of the seasons
    /// in which it can be met.
    pub(super) fn aim(&self) -> f64 {
        match self.is_beyond() {
            true => self.sure * self.ceiling,
            false => self.sure,
        }
    }

    /// Whether it is as sure as it can be asked to be.
    pub fn is_as_aimed(&self) -> bool {
        self.chance >= self.aim()
    }
}

/// What it would take to be as sure as asked, where money or beds are too small for that.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Takes {
    /// The least cost that was found.
    pub cost: Money,
    /// Places in the beds.
    pub places: u64,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_nearly_as_sure_as_asked_is_never_told_as_sure() {
        let told = |chance: f64| {
            let promise = Promise {
                of: Promised::Need(0),
                sure: 0.8,
                chance,
                ceiling: 1.0,
            };
            promise.told()
        };
        assert_eq!(told(0.7999), "79 of 80 %");
        assert_eq!(told(0.8), "80 %");
        assert_eq!(told(0.8488), "85 %");
        assert_eq!(told(0.625), "62 of 80 %");
    }
}
