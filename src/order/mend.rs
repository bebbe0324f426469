//! Where not every need can be met: what would mend it, each worked out by solving again.

use std::cell::Cell;

use super::candidates::{Against, Candidates, Change};
use super::model::Model;
use super::plan::Plan;
use super::settle::{Settled, Status};
use super::solve::{Progress, Stop, fewest_plants, least_cost};
use crate::variety::Money;

/// One change that lets every need be met, with all else as it is. Each has been found to do; that
/// nothing less would is proved only where [`Mend::is_least`] says so, as each search has an end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mend {
    /// More places in the beds.
    Bed {
        /// Places more that do.
        places: u64,
        /// Proved: with fewer places more than these it cannot be done.
        at_least: u64,
    },
    /// More money.
    Money {
        /// Money more that does.
        more: Money,
        /// Proved: with less more than this it cannot be done.
        at_least: Money,
    },
    /// Colours wider by this, to the nearest whole step, and what the order then costs at most.
    Colour {
        /// CIEDE2000 more for each need that asks for a colour.
        by: u32,
        /// The cost of an order that does.
        cost: Money,
        /// Whether it is proved that a step less does not do.
        least: bool,
    },
    /// Planted earlier, and what the order then costs at most.
    Earlier {
        /// Weeks earlier.
        weeks: u32,
        /// The cost of an order that does.
        cost: Money,
        /// The chance, 0 to 1, that the last frost comes after that planting.
        frost: f64,
        /// Whether it is proved that a week less does not do.
        least: bool,
    },
}

/// The widest that colours are tried.
const WIDEST: u32 = 24;
/// The most weeks earlier.
const EARLIEST: u32 = 6;
/// Nodes that one question may take. There are some fifteen questions.
const NODES: usize = 1_000;

impl Mend {
    /// Whether it is proved that nothing less would do.
    pub fn is_least(&self) -> bool {
        match self {
            Mend::Bed { places, at_least } => places == at_least,
            Mend::Money { more, at_least } => more == at_least,
            Mend::Colour { least, .. } | Mend::Earlier { least, .. } => *least,
        }
    }
}

/// What came of trying a change.
enum Tried {
    /// It does, at this cost.
    Does(Money),
    /// It is proved that it does not.
    Fails,
    /// Neither was found in the time given.
    Unknown,
}

/// Every single change that mends it. Each is a search of its own; `stop` ends the one at hand, and
/// none is begun after it.
pub fn mends(plan: &Plan, against: Against<'_>, settled: &Settled, stop: Stop<'_>) -> Vec<Mend> {
    let model = &settled.candidates.model;
    let over = Cell::new(false);
    let mut patience = |progress: Progress| {
        over.set(over.get() || stop(progress));
        over.get() || progress.nodes > NODES
    };
    let mut mends = Vec::new();
    mends.extend(more_bed(model, &mut patience));
    if !over.get() {
        mends.extend(more_money(model, settled.status, &mut patience));
    }
    let mut works = |change: Change| {
        if over.get() {
            return Tried::Unknown;
        }
        tried(plan, against, change, &mut patience)
    };
    if plan.needs.iter().any(|need| !need.colours.is_empty()) {
        mends.extend(wider_colours(&mut works));
    }
    let mut least = true;
    for weeks in 1..=EARLIEST {
        let change = Change {
            wider: 0.0,
            earlier: weeks,
        };
        match works(change) {
            Tried::Does(cost) => {
                let frost = plan.season.frost_after_planting(weeks);
                mends.push(Mend::Earlier {
                    weeks,
                    cost,
                    frost,
                    least,
                });
                break;
            }
            Tried::Fails => least = true,
            Tried::Unknown => least = false,
        }
    }
    mends
}

fn more_bed(model: &Model, stop: Stop<'_>) -> Option<Mend> {
    let places = model.places?;
    let roomy = Model {
        places: None,
        ..model.clone()
    };
    // The least-cost order without a bed does too, where it can be paid for.
    let cheapest = least_cost(&roomy, stop);
    let paid = model.money.is_none_or(|money| cheapest.value <= money);
    let cheapest = cheapest.best.filter(|_| paid);
    let fewest = fewest_plants(model, stop);
    let found = fewest.best.map(|_| fewest.value);
    let enough = { cheapest.iter() }
        .map(|best| best.plants.iter().sum::<u64>())
        .chain(found)
        .min()?;
    (enough > places).then(|| Mend::Bed {
        places: enough - places,
        at_least: fewest.bound.unwrap_or(enough).saturating_sub(places),
    })
}

/// What the money lacks of the least cost, which settling has proved or which is sought again.
fn more_money(model: &Model, status: Status, stop: Stop<'_>) -> Option<Mend> {
    let money = model.money?;
    let known = match status {
        Status::Short {
            needed,
            proved: true,
        } => {
            let more = needed?.in_hundredths().checked_sub(money)?;
            return Some(Mend::Money {
                more: Money::hundredths(more),
                at_least: Money::hundredths(more),
            });
        }
        Status::Short { needed, .. } => needed.map(Money::in_hundredths),
        _ => None,
    };
    let cheapest = least_cost(model, stop);
    let found = cheapest.best.as_ref().map(|_| cheapest.value);
    let cost = known.into_iter().chain(found).min()?;
    let bound = cheapest.bound.unwrap_or(cost).min(cost);
    (cost > money).then(|| Mend::Money {
        more: Money::hundredths(cost - money),
        at_least: Money::hundredths(bound.saturating_sub(money)),
    })
}

/// A wider colour lets in all that a narrower one does: halves the way to the narrowest that works.
fn wider_colours(works: &mut dyn FnMut(Change) -> Tried) -> Option<Mend> {
    let mut wider = |by: u32| {
        works(Change {
            wider: f64::from(by),
            earlier: 0,
        })
    };
    let Tried::Does(mut cost) = wider(WIDEST) else {
        return None;
    };
    let (mut short, mut by, mut least) = (0, WIDEST, true);
    while by - short > 1 {
        let middle = (short + by) / 2;
        match wider(middle) {
            Tried::Does(found) => (by, cost) = (middle, found),
            Tried::Fails => (short, least) = (middle, true),
            Tried::Unknown => (short, least) = (middle, false),
        }
    }
    Some(Mend::Colour { by, cost, least })
}

/// Whether every need can be met under a change within the bed and the money: any order will do.
fn tried(plan: &Plan, against: Against<'_>, change: Change, stop: Stop<'_>) -> Tried {
    let Ok(candidates) = Candidates::of(plan, against, change) else {
        return Tried::Unknown;
    };
    let money = candidates.model.money.unwrap_or(u64::MAX);
    let found = least_cost(&candidates.model, &mut |progress| {
        let enough = progress.best.is_some_and(|best| best <= money as f64);
        enough || progress.bound > money as f64 || stop(progress)
    });
    if found.best.is_some() && found.value <= money {
        Tried::Does(Money::hundredths(found.value))
    } else if found.is_impossible() || found.bound.is_some_and(|bound| bound > money) {
        Tried::Fails
    } else {
        Tried::Unknown
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_money_lacks_of_a_proved_cost_is_exact() {
        let model = Model {
            money: Some(70_000),
            ..Model::default()
        };
        let status = Status::Short {
            needed: Some(Money::hundredths(71_000)),
            proved: true,
        };
        let more = Money::hundredths(1_000);
        assert_eq!(
            more_money(&model, status, &mut |_| true),
            Some(Mend::Money {
                more,
                at_least: more
            })
        );
    }
}
