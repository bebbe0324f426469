//! Whether a plan can be met at all, asked many times over with little patience for each question.

use super::candidates::Candidates;
use super::model::Model;
use super::solve::{Progress, Stop, least_cost};
use crate::variety::Money;

/// What came of a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tried {
    /// It does, at this cost.
    Does(Money),
    /// It is proved that it does not.
    Fails,
    /// Neither was found in the time given.
    Unknown,
}

/// How long questions may take: so many nodes each, so many together, and no longer than who asks wants to wait.
pub(super) struct Patience<'a> {
    stop: Stop<'a>,
    each: usize,
    left: usize,
    last: usize,
    over: bool,
}

impl<'a> Patience<'a> {
    /// For questions of so many nodes, and so many nodes in all.
    pub(super) fn of(stop: Stop<'a>, each: usize, all: usize) -> Patience<'a> {
        Patience {
            stop,
            each,
            left: all,
            last: 0,
            over: false,
        }
    }

    /// Whether nothing more is to be asked.
    pub(super) fn is_over(&self) -> bool {
        self.over
    }

    /// Whether a search ends here.
    pub(super) fn ends(&mut self, progress: Progress) -> bool {
        // Fewer nodes than before are those of another search.
        let before = if progress.nodes < self.last {
            0
        } else {
            self.last
        };
        self.left = self.left.saturating_sub(progress.nodes - before);
        self.last = progress.nodes;
        self.over = self.over || self.left == 0 || (self.stop)(progress);
        self.over || progress.nodes > self.each
    }
}

/// Whether every need of the plan, with nothing set aside, can be met within beds and money.
pub(super) fn can_be_met(candidates: &Candidates, patience: &mut Patience<'_>) -> Tried {
    match candidates.is_within_reach() {
        true => met(&candidates.model, patience),
        false => Tried::Fails,
    }
}

/// Whether a program has an order within its beds and money: any will do.
pub(super) fn met(model: &Model, patience: &mut Patience<'_>) -> Tried {
    if patience.is_over() {
        return Tried::Unknown;
    }
    let money = model.money.unwrap_or(u64::MAX);
    let found = least_cost(model, &mut |progress| {
        let enough = progress.best.is_some_and(|best| best <= money as f64);
        enough || progress.bound > money as f64 || patience.ends(progress)
    });
    if found.best.is_some() && found.value <= money {
        Tried::Does(Money::hundredths(found.value))
    } else if found.is_impossible() || found.bound.is_some_and(|bound| bound > money) {
        Tried::Fails
    } else {
        Tried::Unknown
    }
}

impl Candidates {
    /// Whether each need by itself can be met, whatever the beds and the money.
    fn is_within_reach(&self) -> bool {
        let model = &self.model;
        let plants = model.plants_to_be_had(&self.offered);
        let meets = |need: usize| {
            let demand = &model.needs[need];
            let mut runs = (0..model.weeks).filter(|week| demand.runs(*week));
            runs.all(|week| model.reach(&plants, need, week).meets(demand, week))
        };
        (0..model.needs.len()).all(meets)
    }
}
