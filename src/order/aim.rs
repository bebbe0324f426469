//! What an order is settled for: to be as sure as was asked, or to do in a usual season.

use serde::{Deserialize, Serialize};

use super::candidates::Candidates;
use super::plan::Plan;
use super::settle::{Settled, settle_candidates};
use super::solve::Stop;
use super::sure::settle_surely;
use crate::variety::Varieties;

/// What an order is settled for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// Each need is as sure as it asks for.
    Surely,
    /// Each need is met in a usual season, in which every figure is as planned.
    OnAverage,
}

impl Aim {
    /// Settles candidates of `list`. Stopped by `stop`, it gives the best found.
    pub fn settle(
        self,
        plan: &Plan,
        candidates: Candidates,
        list: &Varieties,
        stop: Stop<'_>,
    ) -> Settled {
        match self {
            Aim::Surely => settle_surely(plan, candidates, list, stop),
            Aim::OnAverage => settle_candidates(candidates, stop),
        }
    }
}
