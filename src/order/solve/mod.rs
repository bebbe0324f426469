//! The exact search for the least-cost order.
//!
//! **What is searched.** The whole program shares out stems by variety, need and week: thousands of
//! columns, nearly all of them sharing. Sharing out one week is a flow, and a flow from varieties to
//! needs exists where no set of needs wants more than can reach it. So the search has only packs,
//! spare tubers, suppliers and which varieties count (`master`); the inequality that a point breaks
//! is found by the flow itself, week by week (`transport`), and added (`master::broken`). Before
//! that, equal weeks and equal varieties become one (`reduce`). The model file that is written for
//! other solvers is the whole program, with nothing merged or projected, so that their agreement
//! checks these steps too.
//!
//! **Bounds.** A dual simplex method on a dense dictionary (`simplex`): after a bound is changed or a
//! row added, the last dictionary is still dual feasible, and few steps lead to the next optimum. At
//! the root, Gomory's cuts (`gomory`) and mixed-integer rounding of single rows (`rounding`) raise
//! the bound.
//!
//! **Branching** (`tree`). On suppliers first (is anything bought there, is its postage free), then on
//! the column whose two halves promise to raise the bound the most, learned by trying a few steps of
//! each; a column is packs of one offer, whether one variety counts for a need, or spare tubers. The
//! open node of the least bound is taken up and followed down to its end. Answers come from those
//! ends, from dives that round packs up and spare tubers down, and from a search between the root's
//! point and the best answer. Columns that cost too much at the root are settled for good.
//!
//! **Why the bounds hold in floating point.** A dictionary gathers errors, so what it says is never
//! taken for a proof. It lends multipliers only: those, put on the rows as they were written, with
//! each column's remaining cost put on whichever of its bounds makes it least, are a bound by
//! arithmetic alone, wrong by the rounding of one sum (`simplex::proof`). Nodes are closed, columns
//! settled and programs called impossible by such sums and nothing else, with room for that
//! rounding: costs are whole hundredths, and a node is closed only where its bound is within a
//! thousandth of a step of the best answer's next lower value. Cuts too take only multipliers from the
//! dictionary, are summed from the rows, and give way by a ten millionth. A node whose figures go
//! wrong is not dropped: its parent's bound stays in the proof, and the gap is told.
//!
//! **How an answer is checked.** Every answer is whole numbers of packs and plants. It counts only if
//! [`Model::faults`] finds nothing in it, in integers (`check`): the flow of each week in thousandths
//! of a stem, money in hundredths, every term of every supplier.
//!
//! **Padding.** Packs that only fill an order up are one column a supplier, in the greatest amount of
//! which their prices are multiples (`reduce::fill`). Not every number of it is a sum that packs come
//! to: where a point has one that is none, the column is branched on to the sums on either side, as
//! another is to the whole numbers.
//!
//! **Beds.** Spare tubers double the columns, and the beds often hold the least-cost order anyway. So
//! where the first bound does not feel the beds the search goes without them, and only an order that
//! then does not fit calls for the program with beds.
//!
//! **Among equal costs** a second, short search makes the merit of what is planted the greatest at
//! that very cost: a plant of a variety has the fitness and nearness in colour of the need that it
//! suits best ([`crate::variety::closeness`]), in thousandths. It is a stage of its own and not a
//! small weight in the first, so it cannot change the cost; it ends after so many nodes, so the
//! greatest merit is sought and not proved.

pub mod check;
mod gomory;
mod master;
mod progress;
mod reduce;
mod rounding;
mod simplex;
mod tidy;
pub(crate) mod transport;
mod tree;

use master::{Goal, Master};
pub use progress::{Progress, Stop};
use reduce::Reduced;
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
    let master = Master::new(&reduced, Goal::Money);
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
    let master = Master::new(&reduced, Goal::Money);
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
            fittest(&reduced, best, cost, &mut |progress| {
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
    let (best, bound, nodes) = search(&reduced, Goal::Plants, 1.0, stop);
    let best = best.map(|best| reduced.expand(model, &best.choice));
    let value = best.as_ref().map_or(0, |best| best.plants.iter().sum());
    solved(best, value, bound, 1.0, nodes)
}

/// The order within bed and money that falls short by the fewest stems, summed over needs and weeks.
/// Its value, in thousandths of a stem, also counts varieties and trials that are lacking; its bound
/// is right to a stem.
pub fn least_shortfall(model: &Model, stop: Stop<'_>) -> Solved {
    let reduced = Reduced::with_all_weeks(model);
    let (best, bound, nodes) = search(&reduced, Goal::Shortfall, STEMS_APART, stop);
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

fn search(reduced: &Reduced, goal: Goal, step: f64, stop: Stop<'_>) -> (Option<Best>, f64, usize) {
    let master = Master::new(reduced, goal);
    let mut tree = Tree::new(&master, master.least.clone(), master.most.clone(), step);
    let bound = tree.run(usize::MAX, stop) + master.constant;
    let nodes = tree.looked_at();
    (tree.best, bound, nodes)
}

/// Another order of the same cost and more merit, if one is soon found.
fn fittest(reduced: &Reduced, best: Best, cost: u64, stop: Stop<'_>) -> Best {
    let master = Master::new(reduced, Goal::Merit(cost));
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
    let common = prices.chain(postage).fold(0, reduce::common);
    common.max(1) as f64
}
