//! An order settled: the least-cost order, or what is short.

use serde::{Deserialize, Serialize};

use super::candidates::{Candidates, ListContext};
use super::plan::Plan;
use super::promise::{Promise, Takes};
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
    /// How it ended.
    pub status: Status,
    /// The order: of least cost, or, where not all can be met, the one that is least short.
    pub order: Option<Order>,
    /// What the order promises each need; nothing where no order was asked to be sure.
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
    /// Whether every need is met on average, for a cost that may be compared.
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

/// The same for candidates at hand.
pub fn settle_candidates(candidates: Candidates, stop: Stop<'_>) -> Settled {
    let solved = least_cost(&candidates.model, stop);
    let nodes = solved.nodes;
    let affordable = candidates
        .model
        .money
        .is_none_or(|money| solved.value <= money);
    let (status, choice) = match solved {
        Solved {
            best: Some(choice),
            value,
            bound,
            ..
        } if affordable => {
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
            (status, Some(choice))
        }
        // A cheaper order within the money may still be there.
        Solved {
            bound: Some(bound), ..
        } if candidates.model.money.is_none_or(|money| bound <= money) => (Status::Unknown, None),
        solved => {
            let proved = solved.is_optimal() || solved.is_impossible();
            let needed = solved
                .best
                .is_some()
                .then(|| Money::hundredths(solved.value));
            let short = least_shortfall(&candidates.model, &mut |progress: Progress| {
                progress.nodes > NODES_FOR_SHORT || stop(progress)
            });
            let model = &candidates.model;
            let start = solved.best.unwrap_or_else(|| model.own_alone());
            let pared = model.pared(&start);
            let pared = pared.map(|choice| model.counted_as(&choice, &start));
            let found = short.best.into_iter().chain(pared);
            let least = found.min_by_key(|choice| model.stems_short(choice));
            let least = least.map(|choice| model.trimmed(&choice));
            (Status::Short { needed, proved }, least)
        }
    };
    let order = choice.map(|choice| Order::of(&candidates, choice));
    Settled {
        candidates,
        status,
        order,
        promises: Vec::new(),
        chances: None,
        nodes,
    }
}
