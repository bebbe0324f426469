//! The exact search for the least-cost order.
//!
//! [`solve`] makes the model smaller (`reduce`), writes it without the sharing out of stems
//! (`master`), whose conditions come as they are broken (`transport`), and searches by branch and
//! bound (`tree`) on a dual simplex method (`simplex`) with cuts (`gomory`). What it finds is
//! checked apart, in whole numbers (`check`).

pub mod check;
mod gomory;
mod master;
mod reduce;
mod rounding;
mod simplex;
pub(crate) mod transport;
mod tree;

use master::{Goal, Master};
use reduce::Reduced;
pub use tree::Progress;
use tree::{Best, Tree};

use crate::order::model::{Choice, Model, STEM};

/// What a search came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// The best order found; `None` where none was found.
    pub best: Option<Choice>,
    /// Its value: hundredths, plants or thousandths of a stem, by what was sought.
    pub value: u64,
    /// Proved: no order has a lower value. `None` where it is proved that there is no order.
    pub bound: Option<u64>,
    /// Nodes looked at.
    pub nodes: usize,
}

impl Solved {
    /// Whether the best order is proved to be the best there is.
    pub fn is_optimal(&self) -> bool {
        self.best.is_some() && self.bound == Some(self.value)
    }

    /// Whether it is proved that there is no order.
    pub fn is_impossible(&self) -> bool {
        self.best.is_none() && self.bound.is_none()
    }

    /// How far the proved bound is below the best value, as a share of it; `None` without one.
    pub fn gap(&self) -> Option<f64> {
        self.best.as_ref()?;
        let over = self.value - self.bound?;
        Some(if over == 0 {
            0.0
        } else {
            over as f64 / self.value as f64
        })
    }
}

/// Whether a search is to end, asked at every node.
pub type Stop<'a> = &'a mut dyn FnMut(Progress) -> bool;

/// Nodes of the search for the fittest among orders of equal cost: what is found by then is taken.
const NODES_FOR_MERIT: usize = 150;
/// Nodes of the search for a smaller planting of the same packs.
const NODES_FOR_PLANTING: usize = 300;
/// Where the beds raise the first bound by this share, they are too small for the order that is least
/// without them.
const BED_TELLS: f64 = 1e-3;
/// Two shortfalls that differ by no more than so many stems count as one.
const STEMS_APART: f64 = 1.0;

/// The least-cost order that meets every need, whatever the money, in hundredths; among orders of
/// equal cost one of high merit.
pub fn least_cost(model: &Model, stop: Stop<'_>) -> Solved {
    let model = Model {
        money: None,
        ..model.clone()
    };
    if model.places.is_none() {
        return cheapest(&model, 0.0, stop);
    }
    let roomy = Model {
        places: None,
        ..model.clone()
    };
    let (within, without) = (first_bound(&model, stop), first_bound(&roomy, stop));
    if within == f64::INFINITY {
        return solved(None, 0, within, 1.0, 0);
    }
    if within > without + BED_TELLS * without.abs() {
        return cheapest(&model, within, stop);
    }
    // Where the beds turn out to be large enough the smaller program without them has it. What it
    // finds on the way may not fit, and is not told.
    let unbounded = cheapest(&roomy, without, &mut |progress| {
        stop(Progress {
            best: None,
            ..progress
        })
    });
    if unbounded.is_impossible() {
        return unbounded;
    }
    let fits = (unbounded.best.as_ref()).and_then(|best| planted_within(&model, best, stop));
    if let Some(best) = fits {
        return Solved {
            best: Some(best),
            ..unbounded
        };
    }
    let known = unbounded.bound.map_or(0.0, |bound| bound as f64);
    let within = cheapest(&model, known, stop);
    Solved {
        nodes: unbounded.nodes + within.nodes,
        ..within
    }
}

/// The bound of the first linear program; infinite where it has no point.
fn first_bound(model: &Model, stop: Stop<'_>) -> f64 {
    let reduced = Reduced::of(model);
    let master = Master::new(&reduced.model, Goal::Money);
    Tree::new(&master, master.least.clone(), master.most.clone(), 1.0).first_bound(stop)
}

/// The same packs with no more planted than the beds hold, if that is soon found.
fn planted_within(model: &Model, choice: &Choice, stop: Stop<'_>) -> Option<Choice> {
    let places = model.places?;
    if choice.plants.iter().sum::<u64>() <= places {
        return Some(choice.clone());
    }
    let mut fixed = model.clone();
    for (offer, packs) in fixed.offers.iter_mut().zip(&choice.packs) {
        (offer.least, offer.most) = (*packs, *packs);
    }
    let fewest = fewest_plants(&fixed, &mut |progress| {
        let fits = progress.best.is_some_and(|best| best <= places as f64);
        let hidden = Progress {
            best: None,
            ..progress
        };
        fits || progress.nodes > NODES_FOR_PLANTING || stop(hidden)
    });
    fewest.best.filter(|_| fewest.value <= places)
}

/// The least-cost order within the beds, if there are any; that none costs less than `known` is
/// proved already.
fn cheapest(model: &Model, known: f64, stop: Stop<'_>) -> Solved {
    let reduced = Reduced::of(model);
    let master = Master::new(&reduced.model, Goal::Money);
    let step = step(&reduced.model);
    let mut tree = Tree::new(&master, master.least.clone(), master.most.clone(), step);
    tree.know(known);
    let bound = tree.run(usize::MAX, stop);
    let nodes = tree.looked_at();
    let stopped = tree.stopped;
    let best = tree.best.map(|best| {
        let cost = reduced.model.cost(&best.choice.packs);
        let fittest = if stopped {
            best
        } else {
            fittest(&reduced.model, best, cost, &mut |progress| {
                stop(Progress {
                    best: Some(cost as f64),
                    bound: cost as f64,
                    nodes: nodes + progress.nodes,
                })
            })
        };
        reduced.expand(model, &fittest.choice)
    });
    let value = best.as_ref().map_or(0, |best| model.cost(&best.packs));
    solved(best, value, bound, step, nodes)
}

/// The order that needs the fewest places in the beds, within the money; its value is in plants.
pub fn fewest_plants(model: &Model, stop: Stop<'_>) -> Solved {
    let unlimited = Model {
        places: None,
        ..model.clone()
    };
    let reduced = Reduced::of(&unlimited);
    let (best, bound, nodes) = search(&reduced.model, Goal::Plants, 1.0, stop);
    let best = best.map(|best| reduced.expand(model, &best.choice));
    let value = best.as_ref().map_or(0, |best| best.plants.iter().sum());
    solved(best, value, bound, 1.0, nodes)
}

/// The order within bed and money that falls short by the fewest stems, summed over needs and weeks.
/// Its value, in thousandths of a stem, also counts varieties and trials that are lacking; its bound
/// is right to a stem.
pub fn least_shortfall(model: &Model, stop: Stop<'_>) -> Solved {
    let reduced = Reduced::with_all_weeks(model);
    let (best, bound, nodes) = search(&reduced.model, Goal::Shortfall, STEMS_APART, stop);
    let thousandths = |stems: f64| (stems * STEM as f64).round().max(0.0);
    let value = best.as_ref().map_or(0.0, |best| thousandths(best.value));
    let bound = if bound.is_infinite() {
        bound
    } else {
        thousandths(bound)
    };
    let best = best.map(|best| reduced.expand(model, &best.choice));
    solved(best, value as u64, bound, 1.0, nodes)
}

fn search(model: &Model, goal: Goal, step: f64, stop: Stop<'_>) -> (Option<Best>, f64, usize) {
    let master = Master::new(model, goal);
    let mut tree = Tree::new(&master, master.least.clone(), master.most.clone(), step);
    let bound = tree.run(usize::MAX, stop) + master.constant;
    let nodes = tree.looked_at();
    (tree.best, bound, nodes)
}

/// Another order of the same cost and more merit, if one is soon found.
fn fittest(model: &Model, best: Best, cost: u64, stop: Stop<'_>) -> Best {
    let master = Master::new(model, Goal::Merit(cost));
    let value = master.value(&best.choice, &best.point);
    let mut tree = Tree::new(&master, master.least.clone(), master.most.clone(), 1.0);
    tree.best = value.map(|value| Best {
        value,
        ..best.clone()
    });
    tree.run(NODES_FOR_MERIT, stop);
    tree.best.unwrap_or(best)
}

fn solved(best: Option<Choice>, value: u64, bound: f64, step: f64, nodes: usize) -> Solved {
    // Values are whole steps: what is proved lies on the next one.
    let proved = (bound / step - 1e-6).ceil().max(0.0) * step;
    let bound = (bound < f64::INFINITY).then_some(proved as u64);
    let bound = match best {
        Some(_) => Some(bound.map_or(value, |bound| bound.min(value))),
        None => bound,
    };
    Solved {
        best,
        value,
        bound,
        nodes,
    }
}

/// The greatest amount of which every price and postage is a multiple.
fn step(model: &Model) -> f64 {
    let prices = model.offers.iter().map(|offer| offer.price);
    let postage = model.suppliers.iter().map(|supplier| supplier.postage);
    let common = prices.chain(postage).fold(0, |mut a, mut b| {
        while b > 0 {
            (a, b) = (b, a % b);
        }
        a
    });
    common.max(1) as f64
}
