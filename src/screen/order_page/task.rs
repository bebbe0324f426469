//! Work for the edge, and what it came to: a task owns all that it needs, so that no thread and no
//! borrow is in the way of the keys.

use std::rc::Rc;

use super::ground::Ground;
use crate::order::solve::Stop;
use crate::order::{
    Aim, Candidates, Cause, Mend, Plan, Promised, Settled, causes, mends, what_surer_costs, without,
};
use crate::variety::Money;

/// Work for the edge: it owns all that it needs.
#[derive(Debug)]
pub struct Task {
    /// Which, of those that were begun.
    pub id: u64,
    pub(super) what: What,
}

#[derive(Debug)]
pub(super) enum What {
    Settle {
        aim: Aim,
        plan: Box<Plan>,
        ground: Rc<Ground>,
        candidates: Box<Candidates>,
    },
    Causes {
        plan: Box<Plan>,
        ground: Rc<Ground>,
        settled: Rc<Settled>,
    },
    Mends {
        plan: Box<Plan>,
        ground: Rc<Ground>,
        settled: Rc<Settled>,
    },
    Without {
        plan: Box<Plan>,
        ground: Rc<Ground>,
        settled: Rc<Settled>,
        row: usize,
    },
    Surer {
        plan: Box<Plan>,
        ground: Rc<Ground>,
        candidates: Box<Candidates>,
        /// The order for a usual season, where it is known.
        usual: Option<Rc<Settled>>,
        of: Option<Promised>,
    },
}

/// What a task came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    pub(super) id: u64,
    pub(super) found: Found,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Found {
    Settled {
        plan: Box<Plan>,
        settled: Rc<Settled>,
    },
    Causes(Vec<Cause>),
    Mends(Vec<Mend>),
    Without(Reply),
    Surer(Surer),
}

/// What doing without a variety costs more; `None` where no way was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reply {
    pub(super) row: usize,
    pub(super) more: Option<Money>,
}

/// What surer costs: of one need or event, or of all; each step with how sure, 0 to 1, and the least
/// cost found, if any was.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Surer {
    pub(super) of: Option<Promised>,
    pub(super) steps: Vec<(f64, Option<Money>)>,
}

/// A question about the solution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Question {
    /// Why are needs not met?
    Causes,
    /// What would mend it?
    Mends,
    /// What would doing without this variety cost? Its place in the list.
    Without { row: usize },
    /// What does surer cost, of every need, or of one or of an event alone?
    Surer { of: Option<Promised> },
}

impl Task {
    /// Does the work until it is done or `stop` ends it.
    pub fn run(self, stop: Stop<'_>) -> Outcome {
        let found = match self.what {
            What::Settle {
                aim,
                plan,
                ground,
                candidates,
            } => Found::Settled {
                settled: Rc::new(aim.settle(&plan, *candidates, ground.list(), stop)),
                plan,
            },
            What::Causes {
                plan,
                ground,
                settled,
            } => Found::Causes(causes(&plan, ground.against(), &settled, stop)),
            What::Mends {
                plan,
                ground,
                settled,
            } => Found::Mends(mends(&plan, ground.against(), &settled, stop)),
            What::Without {
                plan,
                ground,
                settled,
                row,
            } => Found::Without(Reply {
                row,
                more: without(&plan, ground.against(), &settled, row, stop),
            }),
            What::Surer {
                plan,
                ground,
                candidates,
                usual,
                of,
            } => {
                let list = ground.list();
                let settled = || Aim::OnAverage.settle(&plan, *candidates, list, stop);
                let usual = usual.unwrap_or_else(|| Rc::new(settled()));
                let steps = what_surer_costs(&plan, &usual, list, of, stop);
                Found::Surer(Surer { of, steps })
            }
        };
        Outcome { id: self.id, found }
    }
}
