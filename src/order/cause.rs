//! Why needs are not met, or not as surely as was asked: each cause found by working it out, never guessed.
//!
//! What no order can meet is known from what can be had at all ([`beyond`]). Of the rest it is asked what would do
//! if something were let go, and which other needs would have to be left out for it ([`short`]). A need that is met
//! in a usual season but is not sure enough lacks seasons, beds, money, or enough to buy ([`unsure`]).

mod beyond;
mod nearest;
mod short;
mod unsure;
mod ways;
mod why;

pub use why::{Cause, Given, Kind, Means, Nearest, Scope, Why};

use super::candidates::ListContext;
use super::plan::Plan;
use super::settle::{Settled, Status};
use super::solve::Stop;
use super::tried::Patience;

/// Nodes that one question may take, and all together.
const NODES: usize = 400;
const ALL_NODES: usize = 8_000;

/// Every cause, need by need; none where every need is met as it should be. Stopped by `stop`, it leaves what was
/// not worked out unknown.
pub fn causes(
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    stop: Stop<'_>,
) -> Vec<Cause> {
    let mut causes = beyond::beyond(plan, against, &settled.aside().needs);
    if matches!(settled.status, Status::Short { .. }) {
        let mut patience = Patience::of(stop, NODES, ALL_NODES);
        causes.extend(short::short(plan, against, settled, &mut patience));
    }
    causes.extend(unsure::unsure(plan, against, settled));
    causes.sort_by_key(|cause| cause.need);
    causes
}
