//! The order that is as sure as was asked: the least cost found for which each need has all its stems, in all
//! of its weeks, in at least so many seasons of a hundred.
//!
//! **What is meant.** A need that is to be 80 % sure is met in four seasons of five: in each of its weeks it has
//! all its stems, those needs that are to be surer served before it ([`super::risk`]). An event or a round is to
//! be so sure as one: a wedding of which each of five parts is had in 95 seasons of 100 may fail in 20. Such an
//! order meets every need on average too, in all its varieties and forms.
//!
//! **How it is found.** The order that is least on average is proved first ([`super::solve`]): no order that is
//! asked to be sure costs less, so it is the bound. Where it is sure enough already it is the answer, and proved.
//! Else seasons are drawn, the same for every order that is tried (common random numbers), and
//! 1. needs are *raised*: each asks for as many more stems as it lacks in the worst of the seasons in which it
//!    is to be met, and the least-cost order of the raised plan is sought ([`raised`]), a few times over; where
//!    that does not fit into the beds they are raised by less, and those that have enough are lowered again;
//! 2. the order is *filled up*, pack by pack, by what brings most of the lacking stems for its money
//!    ([`filling`]), until every need is as sure as asked; where the beds are full one thing gives way to
//!    another;
//! 3. it is *pared*: every pack is given back without which it is as sure ([`paring`]);
//! 4. once it is sure in seasons that the search has not seen, things are *exchanged*: a pack, or a few, given
//!    back for others that are cheaper together and as sure ([`exchanging`]).
//!
//! The order is sought whatever the money first, and within the money only where that comes to too much: what
//! is found so is not missed for want of money on the way, and tells what it takes.
//!
//! **What makes it fast.** An order is kept shared out in every week of every season ([`standing`]). One that
//! differs by a pack is tried by the weeks that it can change, in each of which the sharing is mended and not
//! made anew, and is given up as soon as it fails in too many seasons. What grows is reckoned from the days at
//! full flower, which all varieties of one first cut have in common.
//!
//! What is on hand and free may fill the beds, and leave no room for what makes the order sure: where none was found
//! that is, needs are raised anew for some seasons more than asked, and of all that was come to the nearest is
//! given. That no order is as sure is never proved.
//!
//! **What was tried and left out.** Starting from the usual order as well as from the raised one, where that has come
//! to one that is sure enough, found the least cost in no more of 64 tiny plans, and doubled the time that a large
//! one took to be filled: it is begun from only where the raised one came to none. Giving back all
//! that a supplier sends saved 1 % on the demo without limits of money and beds, for several times the time; of
//! more than a few packs it is not tried. In full beds, telling anew at each step what may give way, and trying
//! six by six, left a tenth less wanting and took twice as long.
//!
//! **What it is worth.** The order is judged by seasons that the search has not seen ([`JUDGED`]). Where a need
//! falls short of what was asked there, it is searched for with as many seasons more. What is found is said to
//! be found: the gap to the bound is told, and no more is proved. On tiny plans it is told against the least of
//! all orders there are.
//!
//! **What cannot be had.** In some seasons no order can meet a need, for the frost comes before its last week
//! or its first cut after its first. Such a need is to be met in the share asked of the others ([`ceiling`]).
//!
//! Known in the field as a chance-constrained program, solved by sample average approximation: Luedtke and
//! Ahmed, SIAM J. Optim. 19(2):674-699, 2008 (from memory).

mod bills;
mod ceiling;
mod counting;
mod exchanging;
mod filling;
mod judging;
mod paring;
mod planted;
mod raised;
mod sample;
mod standing;
mod wanting;

use super::candidates::Candidates;
use super::plan::Plan;
use super::promise::{Promise, Promised};
use super::risk::{Grows, Seasons, Spreads};
use super::settle::{Settled, Status, settle_candidates};
use super::solve::Stop;
use crate::variety::{Money, Varieties};
use judging::{By, Judge, Judged};

/// Seasons by which a promise is judged. No search has seen them: its own come after.
const JUDGED: u32 = 10_000;
/// Seasons of a search: a chance of 80 % is told by them to some 1.6 %.
const SEARCHED: u32 = 600;

/// Settles candidates of `list` so that each need is as sure as it is to be. Stopped by `stop`, it gives the
/// best found.
pub fn settle_surely(
    plan: &Plan,
    candidates: Candidates,
    list: &Varieties,
    stop: Stop<'_>,
) -> Settled {
    let settled = settle_candidates(candidates, stop);
    if settled.order.is_none() {
        return settled;
    }
    let [searched, judged] = drawn(plan, &settled.candidates, list);
    let by = By {
        searched: &searched,
        judged: &judged,
    };
    made_sure(settled, by, stop)
}

/// The same where these are all the seasons that there may be: a chance is then no estimate.
pub fn settle_surely_in(candidates: Candidates, seasons: &dyn Grows, stop: Stop<'_>) -> Settled {
    let by = By {
        searched: seasons,
        judged: seasons,
    };
    made_sure(settle_candidates(candidates, stop), by, stop)
}

/// Seasons for a search and for its judge.
fn drawn<'a>(plan: &'a Plan, candidates: &Candidates, list: &'a Varieties) -> [Seasons<'a>; 2] {
    [JUDGED..JUDGED + SEARCHED, 0..JUDGED]
        .map(|numbers| Seasons::of(plan, candidates, list, Spreads::assumed(), numbers))
}

/// What was settled on average, as sure as asked.
fn made_sure(settled: Settled, by: By<'_>, stop: Stop<'_>) -> Settled {
    let Some(order) = &settled.order else {
        return settled;
    };
    let judge = Judge::of(&settled.candidates, by);
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
    let (found, takes) = judge.found(&first, stop);
    let cost = found.order.cost.in_hundredths();
    let gap = (cost - bound.in_hundredths()) as f64 / cost as f64;
    let status = match found.is_as_aimed() {
        true => Status::Found { bound, gap },
        false => Status::Unsure { bound, takes },
    };
    found.put_in(Settled { status, ..settled })
}

/// The least costs found of being surer and surer, whatever the money: of every need, or of one alone, or of an
/// event, the others as sure as they are to be. `None` where no order within the beds was found that is so sure.
///
/// An order that is surer serves who asks for less, so no step costs more than one after it.
pub fn what_surer_costs(
    plan: &Plan,
    settled: &Settled,
    list: &Varieties,
    of: Option<Promised>,
    stop: Stop<'_>,
) -> Vec<(f64, Option<Money>)> {
    let Some(order) = &settled.order else {
        return Vec::new();
    };
    if !settled.status.meets_all() {
        return Vec::new();
    }
    let [searched, judged] = drawn(plan, &settled.candidates, list);
    let by = By {
        searched: &searched,
        judged: &judged,
    };
    // How sure a need can be is the same however sure it is to be, and whatever the money.
    let ceilings = Judge::of(&settled.candidates, by).ceilings;
    let mut beyond = false;
    let mut at = |sure: f64| {
        let mut candidates = settled.candidates.clone();
        candidates.model.money = None;
        candidates.ask(sure, of);
        // Of who is asked about, as sure as can be is not enough.
        let reached = |judged: &Judged| {
            let is_asked = |one: &&Promise| match of {
                Some(of) => one.of == of,
                // Where all are asked about, what is set aside whole is not.
                None => candidates.asks(one.of),
            };
            let mut asked = judged.promises.iter().filter(is_asked);
            judged.is_as_aimed() && asked.all(Promise::is_met)
        };
        let judge = Judge {
            candidates: &candidates,
            by,
            ceilings: ceilings.clone(),
        };
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

impl Candidates {
    /// Has every need and all that is to be met as one be so sure; or one alone, with the needs that it comes to.
    fn ask(&mut self, sure: f64, of: Option<Promised>) {
        for whole in &mut self.wholes {
            if of.is_none_or(|of| of == Promised::Work(whole.work)) {
                whole.sure = sure;
                let own = whole.needs.iter();
                own.for_each(|need| self.sure[*need] = sure);
            }
        }
        for (need, asked) in self.sure.iter_mut().enumerate() {
            if of.is_none_or(|of| of == Promised::Need(need)) {
                *asked = sure;
            }
        }
    }

    /// Whether anything is left to order for of all that is promised.
    fn asks(&self, of: Promised) -> bool {
        match of {
            Promised::Need(need) => self.model.needs[need].asks(),
            Promised::Work(work) => { self.wholes.iter() }
                .filter(|whole| whole.work == work)
                .all(|whole| self.model.asks_for_all(&whole.needs)),
        }
    }
}

/// What is told of the cost of being surer.
const SURER: [f64; 5] = [0.5, 0.8, 0.9, 0.95, 0.99];

#[cfg(test)]
mod tests;
