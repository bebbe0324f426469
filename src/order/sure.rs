//! The order that is as sure as was asked: the least cost found for which each need has all its stems, in all
//! of its weeks, in at least so many seasons of a hundred.
//!
//! **What is meant.** A need that is to be 80 % sure is met in four seasons of five: in each of its weeks it has
//! all its stems, those needs that are to be surer served before it ([`super::risk`]). Such an order meets
//! every need on average too, in all its varieties and forms.
//!
//! **How it is found.** The order that is least on average is proved first ([`super::solve`]): no order that is
//! asked to be sure costs less, so it is the bound. Where it is sure enough already it is the answer, and proved.
//! Else seasons are drawn, the same for every order that is tried (common random numbers), and
//! 1. needs are *raised*: each asks for as many more stems as it lacks in the worst of the seasons in which it
//!    is to be met, and the least-cost order of the raised plan is sought ([`raised`]), a few times over;
//! 2. the order is *filled up*, pack by pack, by what brings most of the lacking stems for its money
//!    ([`filling`]), until every need is as sure as asked;
//! 3. it is *pared*: every pack is given back without which it is as sure ([`paring`]).
//!
//! **What it is worth.** The order is judged by seasons that the search has not seen ([`sample::JUDGED`]). Where
//! a need falls short of what was asked there, it is searched for with as many seasons more. What is found is said
//! to be found: the gap to the bound is told, and no more is proved.
//!
//! **What cannot be had.** In some seasons no order can meet a need, for the frost comes before its last week
//! or its first cut after its first. Such a need is to be met in the share asked of the others ([`ceiling`]).
//!
//! Known in the field as a chance-constrained program, solved by sample average approximation: Luedtke and
//! Ahmed, SIAM J. Optim. 19(2):674-699, 2008 (from memory).

mod ceiling;
mod filling;
mod paring;
mod raised;
mod sample;

use super::candidates::Candidates;
use super::model::{Choice, Model};
use super::plan::Plan;
use super::promise::{Promise, Takes};
use super::risk::{Chances, chances};
use super::settle::{Settled, Status, settle_candidates};
use super::solution::Order;
use super::solve::Stop;
use crate::variety::{Money, Varieties};
use sample::{JUDGED, Sample};

/// Rounds of search, each with more asked of the needs that fell short before fresh seasons.
const ROUNDS: usize = 4;

/// Settles candidates of `list` so that each need is as sure as it is to be. Stopped by `stop`, it gives the
/// best found.
pub fn settle_surely(
    plan: &Plan,
    candidates: Candidates,
    list: &Varieties,
    stop: Stop<'_>,
) -> Settled {
    let settled = settle_candidates(candidates, stop);
    let Some(order) = &settled.order else {
        return settled;
    };
    let judge = Judge::of(plan, &settled.candidates, list);
    let first = judge.judged(order.clone());
    let bound = match settled.status {
        Status::Optimal => order.cost,
        Status::Within { bound, .. } => bound,
        // What falls short on average is as sure as it is.
        _ => return first.put_in(settled),
    };
    if first.is_as_aimed() {
        return first.put_in(settled);
    }
    let found = judge.searched(&judge.whole(), &first, stop);
    let cost = found.order.cost.in_hundredths();
    let gap = (cost - bound.in_hundredths()) as f64 / cost as f64;
    let status = match found.is_as_aimed() {
        true => Status::Found { bound, gap },
        false => Status::Unsure {
            bound,
            takes: judge.takes(&first, stop),
        },
    };
    found.put_in(Settled { status, ..settled })
}

/// The least costs found of being surer and surer, whatever the money: of every need, or of one alone, the
/// others as sure as they are to be. `None` where no order within the beds was found that is so sure.
///
/// An order that is surer serves who asks for less, so no step costs more than one after it.
pub fn what_surer_costs(
    plan: &Plan,
    settled: &Settled,
    list: &Varieties,
    need: Option<usize>,
    stop: Stop<'_>,
) -> Vec<(f64, Option<Money>)> {
    let Some(order) = &settled.order else {
        return Vec::new();
    };
    if !settled.status.meets_all() {
        return Vec::new();
    }
    let mut beyond = false;
    let mut at = |sure: f64| {
        let mut candidates = settled.candidates.clone();
        candidates.model.money = None;
        let is_asked = |at: usize| need.is_none_or(|need| need == at);
        for (at, asked) in candidates.sure.iter_mut().enumerate() {
            *asked = if is_asked(at) { sure } else { *asked };
        }
        // Of who is asked about, as sure as can be is not enough.
        let reached = |judged: &Judged| {
            // Where every need is asked about, what is set aside whole is not.
            let is_aside = |at: usize| {
                let stems = &settled.candidates.model.needs[at].stems;
                need.is_none() && stems.iter().all(|stems| *stems == 0)
            };
            let mut asked =
                { judged.promises.iter() }.filter(|one| is_asked(one.need) && !is_aside(one.need));
            judged.is_as_aimed() && asked.all(Promise::is_met)
        };
        let judge = Judge::of(plan, &candidates, list);
        let first = judge.judged(order.clone());
        let at_hand = reached(&first).then_some(order.cost);
        // What was not found less sure is not sought surer.
        if beyond {
            return at_hand;
        }
        let found = judge.searched(&judge.whole(), &first, stop);
        beyond = !reached(&found);
        let found = (!beyond).then_some(found.order.cost);
        found.into_iter().chain(at_hand).min()
    };
    let mut steps: Vec<(f64, Option<Money>)> =
        SURER.iter().map(|sure| (*sure, at(*sure))).collect();
    for step in (1..steps.len()).rev() {
        let least = [steps[step - 1].1, steps[step].1]
            .into_iter()
            .flatten()
            .min();
        steps[step - 1].1 = least;
    }
    steps
}

/// What is told of the cost of being surer.
const SURER: [f64; 5] = [0.5, 0.8, 0.9, 0.95, 0.99];

/// An order and what it promises.
struct Judged {
    order: Order,
    chances: Chances,
    promises: Vec<Promise>,
}

impl Judged {
    fn is_as_aimed(&self) -> bool {
        self.promises.iter().all(Promise::is_as_aimed)
    }

    fn put_in(self, settled: Settled) -> Settled {
        Settled {
            order: Some(self.order),
            chances: Some(self.chances),
            promises: self.promises,
            ..settled
        }
    }
}

/// What orders are judged by.
struct Judge<'a> {
    plan: &'a Plan,
    candidates: &'a Candidates,
    list: &'a Varieties,
    ceilings: Vec<f64>,
}

impl<'a> Judge<'a> {
    fn of(plan: &'a Plan, candidates: &'a Candidates, list: &'a Varieties) -> Judge<'a> {
        Judge {
            plan,
            candidates,
            list,
            ceilings: ceiling::ceilings(plan, candidates, list),
        }
    }

    /// By seasons that no search has seen.
    fn judged(&self, order: Order) -> Judged {
        let chances = chances(self.plan, self.candidates, self.list, &order, JUDGED);
        let promise = |(need, sure): (usize, &f64)| Promise {
            need,
            sure: *sure,
            chance: chances.throughout[need],
            // What was found can be had.
            ceiling: self.ceilings[need].max(chances.throughout[need]),
        };
        let promises = self.candidates.sure.iter().enumerate();
        Judged {
            promises: promises.map(promise).collect(),
            order,
            chances,
        }
    }

    /// The program with all that may be bought.
    fn whole(&self) -> Model {
        let mut model = self.candidates.model.clone();
        for (offer, most) in model.offers.iter_mut().zip(&self.candidates.offered) {
            offer.most = *most;
        }
        model
    }

    /// The order of least cost found that is as sure as asked; else the one that was come to.
    fn searched(&self, model: &Model, first: &Judged, stop: Stop<'_>) -> Judged {
        let mut sample = Sample::of(self.plan, self.candidates, self.list, model);
        sample.ask(&first.promises);
        let mut choice = sample.raised(&first.order.choice, stop);
        let mut round = 0;
        loop {
            choice = sample.filled(choice, stop);
            choice = sample.pared(choice, stop);
            let found = self.judged(Order::of(self.candidates, choice.clone()));
            round += 1;
            if found.is_as_aimed() || round == ROUNDS || !sample.ask_more(&found.promises) {
                return found;
            }
        }
    }

    /// What it takes to be as sure as asked: money, or money and beds.
    fn takes(&self, first: &Judged, stop: Stop<'_>) -> Option<Takes> {
        for beds in [self.candidates.model.places, None] {
            let mut candidates = self.candidates.clone();
            (candidates.model.money, candidates.model.places) = (None, beds);
            // Larger beds make surer what smaller ones could not.
            let judge = Judge::of(self.plan, &candidates, self.list);
            let found = judge.searched(&judge.whole(), &judge.judged(first.order.clone()), stop);
            if found.is_as_aimed() {
                return Some(Takes {
                    cost: found.order.cost,
                    places: found.order.plants,
                });
            }
        }
        None
    }
}

/// The choice with everything planted that is bought or on hand and serves a need, as far as the beds go.
fn all_planted(model: &Model, mut choice: Choice) -> Choice {
    let mut left = model.places.map_or(u64::MAX, |places| {
        places.saturating_sub(choice.plants.iter().sum())
    });
    let tubers = model.tubers(&choice.packs);
    for (at, tubers) in tubers.into_iter().enumerate() {
        let one = &model.varieties[at];
        let most = one.most_plants.unwrap_or(u64::MAX).min(tubers);
        let more = most.saturating_sub(choice.plants[at]).min(left);
        if !one.serves.is_empty() {
            choice.plants[at] += more;
            left -= more;
        }
    }
    choice
}
