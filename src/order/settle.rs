//! An order settled: the least-cost order, or what is short.

use serde::{Deserialize, Serialize};

use super::aside::{OfNone, SetAside};
use super::candidates::{Candidates, ListContext};
use super::plan::Plan;
use super::promise::{Promise, Promised, Takes};
use super::risk::Chances;
use super::solution::Order;
use super::solve::{Progress, Solved, Stop, least_cost, least_shortfall};
use crate::problem::Wrong;
use crate::variety::Money;

/// What came of settling a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled {
    /// The varieties that could serve, and the program.
    pub candidates: Candidates,
    /// How it ended, for all that was not set aside ([`Settled::aside`]).
    pub status: Status,
    /// The order: of least cost, or, where not all can be met, the one that is least short.
    pub order: Option<Order>,
    /// What the order promises each need, then all that is to be met as one; nothing where no order was asked to be sure.
    pub promises: Vec<Promise>,
    /// What came of the seasons that the promises are judged by.
    pub chances: Option<Chances>,
    /// Nodes that the search looked at.
    pub nodes: usize,
}

/// How settling ended.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Status {
    /// Every need is met, and no order costs less.
    Optimal,
    /// Every need is met; no order costs less than `bound`, and the share of the cost between.
    Within {
        /// The proved bound.
        bound: Money,
        /// (cost - bound) / cost.
        gap: f64,
    },
    /// Every need is as sure as was asked, for the least cost that was found.
    Found {
        /// The least cost of meeting every need on average: no order that is as sure costs less.
        bound: Money,
        /// (cost - bound) / cost.
        gap: f64,
    },
    /// Every need is met on average, and some are not as sure as was asked: with this bed and money none
    /// that is was found.
    Unsure {
        /// As for [`Status::Found`].
        bound: Money,
        /// What an order takes that is; `None` where none was found whatever money and beds.
        takes: Option<Takes>,
    },
    /// Not every need can be met with this bed, money and list. `needed` is what it would cost to
    /// meet them all, where only the money is short.
    Short {
        /// The least cost of meeting every need.
        needed: Option<Money>,
        /// Whether that is proved.
        proved: bool,
    },
    /// Stopped before anything was found or proved.
    Unknown,
}

impl Status {
    /// Whether every need that was not set aside is met on average, for a cost that may be compared.
    pub fn meets_all(&self) -> bool {
        match self {
            Status::Optimal | Status::Within { .. } => true,
            Status::Found { .. } | Status::Unsure { .. } => true,
            Status::Short { .. } | Status::Unknown => false,
        }
    }
}

/// Nodes that the search for the least shortfall may look at: it is a close answer, not proved.
const NODES_FOR_SHORT: usize = 2_000;

/// Settles a plan. Stopped by `stop`, it gives the best found with what is proved.
///
/// # Errors
/// Each word of the plan that means nothing, with its place in the plan.
pub fn settle(
    plan: &Plan,
    against: ListContext<'_>,
    stop: Stop<'_>,
) -> Result<Settled, Vec<Wrong>> {
    let candidates = Candidates::of(plan, against)?;
    Ok(settle_candidates(candidates, stop))
}

/// The same for candidates at hand. What no order can meet is set aside first, and the rest settled as if it were
/// not asked for; of needs that can be met in no week the most that there is is ordered for, unless the others
/// can be met only without.
pub fn settle_candidates(candidates: Candidates, stop: Stop<'_>) -> Settled {
    let most = candidates.clone().set_aside(OfNone::Most);
    let (most, solved) = match met(most, stop) {
        Ok(settled) => return settled,
        Err(tried) => *tried,
    };
    if most.aside.can_give_way()
        && let Ok(settled) = met(candidates.set_aside(OfNone::Nothing), stop)
    {
        return settled;
    }
    least_short(most, solved, stop)
}

/// What is not met, and what the search for an order that meets it came to.
type NotMet = Box<(Candidates, Solved)>;

/// The order of least cost, where one is within the money or may be.
fn met(candidates: Candidates, stop: Stop<'_>) -> Result<Settled, NotMet> {
    let solved = least_cost(&candidates.model, stop);
    let money = candidates.model.money;
    let affords = |cost: u64| money.is_none_or(|money| cost <= money);
    let Solved { value, nodes, .. } = solved;
    match solved {
        Solved {
            best: Some(choice),
            bound,
            ..
        } if affords(value) => {
            let bound = bound.unwrap_or(value);
            let status = if bound == value {
                Status::Optimal
            } else {
                let gap = (value - bound) as f64 / value as f64;
                Status::Within {
                    bound: Money::hundredths(bound),
                    gap,
                }
            };
            let order = Order::of(&candidates, choice);
            Ok(Settled::of(candidates, status, Some(order), nodes))
        }
        // A cheaper order within the money may still be there.
        Solved {
            bound: Some(bound), ..
        } if affords(bound) => Ok(Settled::of(candidates, Status::Unknown, None, nodes)),
        solved => Err(Box::new((candidates, solved))),
    }
}

/// The order that falls short by the fewest stems that are found.
fn least_short(candidates: Candidates, solved: Solved, stop: Stop<'_>) -> Settled {
    let proved = solved.is_optimal() || solved.is_impossible();
    let found = solved.best.is_some();
    let needed = found.then(|| Money::hundredths(solved.value));
    let model = &candidates.model;
    let short = least_shortfall(model, &mut |progress: Progress| {
        progress.nodes > NODES_FOR_SHORT || stop(progress)
    });
    let start = solved.best.unwrap_or_else(|| model.own_alone());
    let pared = model.pared(&start);
    let pared = pared.map(|choice| model.counted_as(&choice, &start));
    let found = short.best.into_iter().chain(pared);
    let least = found.min_by_key(|choice| model.stems_short(choice));
    let least = least.map(|choice| model.trimmed(&choice));
    let order = least.map(|choice| Order::of(&candidates, choice));
    let status = Status::Short { needed, proved };
    Settled::of(candidates, status, order, solved.nodes)
}

impl Settled {
    /// Without promises.
    fn of(candidates: Candidates, status: Status, order: Option<Order>, nodes: usize) -> Settled {
        Settled {
            candidates,
            status,
            order,
            promises: Vec::new(),
            chances: None,
            nodes,
        }
    }

    /// What no order can meet: its status is of all else.
    pub fn aside(&self) -> &SetAside {
        &self.candidates.aside
    }

    /// What the order promises a need, or an event or a round as one.
    pub fn promise(&self, of: Promised) -> Option<&Promise> {
        self.promises.iter().find(|promise| promise.of == of)
    }

    /// Whether some need is not met on average: it was set aside, or the order is short of it.
    pub fn falls_short(&self) -> bool {
        matches!(self.status, Status::Short { .. }) || !self.aside().is_empty()
    }
}
