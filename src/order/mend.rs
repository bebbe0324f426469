//! Where not every need can be met: what would mend it, each worked out by solving again.

use super::candidates::{Against, Candidates, Change};
use super::plan::Plan;
use super::settle::Settled;
use super::solve::{Progress, Stop, fewest_plants, least_cost};
use crate::variety::Money;

/// One change that lets every need be met, with all else as it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mend {
    /// The least number of places more in the beds.
    Bed {
        /// Places more.
        places: u64,
    },
    /// The least money more.
    Money {
        /// Hundredths more, as money.
        more: Money,
    },
    /// Colours wider by this, to the nearest whole step, and what the order then costs at most.
    Colour {
        /// CIEDE2000 more for each need that asks for a colour.
        by: u32,
        /// The cost of an order that does.
        cost: Money,
    },
    /// Planted earlier, and what the order then costs at most.
    Earlier {
        /// Weeks earlier.
        weeks: u32,
        /// The cost of an order that does.
        cost: Money,
        /// The chance, 0 to 1, that the last frost comes after that planting.
        frost: f64,
    },
}

/// The widest that colours are tried.
const WIDEST: u32 = 24;
/// The most weeks earlier.
const EARLIEST: u32 = 6;
/// Nodes that one question may take; one that takes more is answered by no.
const NODES: usize = 3_000;

/// Every single change that mends it. Each is a search of its own; `stop` ends the one at hand.
pub fn mends(plan: &Plan, against: Against<'_>, settled: &Settled, stop: Stop<'_>) -> Vec<Mend> {
    let model = &settled.candidates.model;
    let mut mends = Vec::new();
    let mut patience = |progress: Progress| progress.nodes > NODES || stop(progress);
    if let Some(places) = model.places {
        let fewest = fewest_plants(model, &mut patience);
        if fewest.best.is_some() && fewest.value > places {
            mends.push(Mend::Bed {
                places: fewest.value - places,
            });
        }
    }
    if let Some(money) = model.money {
        let cheapest = least_cost(model, &mut patience);
        if cheapest.best.is_some() && cheapest.value > money {
            mends.push(Mend::Money {
                more: Money::hundredths(cheapest.value - money),
            });
        }
    }
    let mut works = |change: Change| {
        let model = Candidates::of(plan, against, change).ok()?.model;
        // Any order within the money will do.
        let enough = |best: f64| model.money.is_none_or(|money| best <= money as f64);
        let found = least_cost(&model, &mut |progress| {
            patience(progress) || progress.best.is_some_and(enough)
        });
        (found.best.is_some() && enough(found.value as f64)).then(|| Money::hundredths(found.value))
    };
    // A wider colour lets in all that a narrower one does: halve the way to the narrowest that works.
    if plan.needs.iter().any(|need| !need.colours.is_empty()) {
        let mut wider = |by: u32| {
            works(Change {
                wider: f64::from(by),
                earlier: 0,
            })
        };
        if let Some(mut cost) = wider(WIDEST) {
            let (mut fails, mut by) = (0, WIDEST);
            while by - fails > 1 {
                let middle = (fails + by) / 2;
                match wider(middle) {
                    Some(found) => (by, cost) = (middle, found),
                    None => fails = middle,
                }
            }
            mends.push(Mend::Colour { by, cost });
        }
    }
    let earlier = (1..=EARLIEST).find_map(|weeks| {
        Some((
            weeks,
            works(Change {
                wider: 0.0,
                earlier: weeks,
            })?,
        ))
    });
    mends.extend(earlier.map(|(weeks, cost)| {
        let frost = plan.season.frost_after_planting(weeks);
        Mend::Earlier { weeks, cost, frost }
    }));
    mends
}
