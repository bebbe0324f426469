//! What was asked about an order: of a variety in it, and of what surer costs.

use anyhow::Result;

use super::arguments::{after, bad};
use crate::measure::brief;
use crate::order::report::{why, why_not};
use crate::order::{ListContext, Plan, Promised, Settled, without};
use crate::variety::{Money, Varieties, folded};

/// What surer costs: of one need or event, or of all.
pub(super) struct Surer {
    pub(super) of: Option<Promised>,
    pub(super) steps: Vec<(f64, Option<Money>)>,
}

/// A variety that was asked about.
pub(super) struct Asked {
    pub(super) name: String,
    pub(super) lines: Vec<String>,
    /// Whether it is bought or planted.
    pub(super) in_order: bool,
    /// What doing without it costs more; `None` where that is no question.
    pub(super) without: Option<Without>,
}

/// What doing without a variety comes to.
pub(super) enum Without {
    /// So much more.
    Costs(Money),
    /// The needs cannot be met without it, or no way was found in the time.
    NotFound,
}

/// What is known of a variety, by its place in the list, and what doing without it costs.
pub(super) fn asked(
    row: usize,
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    seconds: u64,
) -> Asked {
    let name = against.list.list()[row].name.to_string();
    let planted = settled
        .order
        .as_ref()
        .and_then(|order| order.planted.iter().find(|one| one.row == row));
    match planted {
        None => Asked {
            lines: why_not(plan, settled, row, &name),
            name,
            in_order: false,
            without: None,
        },
        Some(planted) => {
            // An order that falls short costs nothing that could be compared.
            let met = settled.status.meets_all();
            let without = met.then(|| {
                let dearer = without(plan, against, settled, row, &mut after(seconds));
                dearer.map_or(Without::NotFound, Without::Costs)
            });
            Asked {
                lines: why(plan, settled, planted),
                name,
                in_order: true,
                without,
            }
        }
    }
}

/// A need of the plan by its name, or an event or a round.
pub(super) fn promised(plan: &Plan, name: &str) -> Result<Promised> {
    let needs = (0..plan.needs.len()).map(Promised::Need);
    let all = needs.chain((0..plan.work.len()).map(Promised::Work));
    let mut same = all
        .clone()
        .filter(|of| folded(of.name(plan)) == folded(name));
    same.next().ok_or_else(|| {
        let names: Vec<&str> = all.map(|of| of.name(plan)).collect();
        bad(format!(
            "--surer: found {:?}, expected one of {}",
            brief(name),
            names.join(", ")
        ))
    })
}

/// A variety's place in the list, named for an option.
pub(super) fn found(list: &Varieties, name: &str, option: &str) -> Result<usize> {
    list.find(name).ok_or_else(|| {
        bad(format!(
            "{option}: found {name:?}, expected {}",
            list.expected(name)
        ))
    })
}
