//! Work for the edge, and what it came to: a task owns all that it needs, so that no thread and no
//! borrow is in the way of the keys.

use std::rc::Rc;

use super::ground::Ground;
use crate::order::solve::Stop;
use crate::order::{
    Candidates, Cause, Mend, Plan, Settled, causes, mends, settle_candidates, without,
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
        plan: Box<Plan>,
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
}

/// What doing without a variety costs more; `None` where no way was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reply {
    pub(super) row: usize,
    pub(super) more: Option<Money>,
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
}

impl Task {
    /// Does the work until it is done or `stop` ends it.
    pub fn run(self, stop: Stop<'_>) -> Outcome {
        let found = match self.what {
            What::Settle { plan, candidates } => Found::Settled {
                plan,
                settled: Rc::new(settle_candidates(*candidates, stop)),
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
        };
        Outcome { id: self.id, found }
    }
}
