//! What a variety of the order is worth: what doing without it costs.

use super::candidates::{Candidates, ListContext};
use super::plan::Plan;
use super::settle::{Settled, Status};
use super::solve::{Stop, least_cost};
use super::sure::settle_surely;
use crate::variety::Money;

/// What it would cost more to do without a variety of the order, by its place in the list: bought
/// nowhere, and none on hand planted. `None` where the needs cannot be met without it as surely, or that is not
/// found.
pub fn without(
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    row: usize,
    stop: Stop<'_>,
) -> Option<Money> {
    let cost = settled.order.as_ref()?.cost;
    // What it kept out as no better may now be wanted, so the list is read again.
    let of_none = settled.aside().of_none;
    let candidates = Candidates::without(plan, against, row).ok()?;
    // Where it was the last that could serve, more of the needs is set aside than before.
    let as_much = |other: &Candidates| other.model.needs == settled.candidates.model.needs;
    let other = match settled.promises.is_empty() {
        true => {
            let candidates = candidates.set_aside(of_none);
            let solved = least_cost(&candidates.model, stop);
            solved
                .best
                .filter(|_| as_much(&candidates))
                .map(|_| solved.value)
        }
        // As sure as this one.
        false => {
            let other = settle_surely(plan, candidates, against.list, stop);
            let as_sure = matches!(other.status, Status::Optimal | Status::Found { .. });
            let order = other
                .order
                .filter(|_| as_sure && as_much(&other.candidates));
            order.map(|order| order.cost.in_hundredths())
        }
    };
    Some(Money::hundredths(
        other?.saturating_sub(cost.in_hundredths()),
    ))
}
