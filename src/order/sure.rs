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
//! **What was tried and left out.** Starting from the usual order as well as from the raised one found the least
//! cost in no more of 64 tiny plans, and doubled the time that a large one took to be filled. Giving back all
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
mod paring;
mod raised;
mod sample;
mod standing;
mod wanting;

use super::candidates::Candidates;
use super::model::{Choice, Model};
use super::plan::Plan;
use super::promise::{Promise, Takes};
use super::risk::{Chances, Grows, Seasons, Spreads, of_seasons};
use super::settle::{Settled, Status, settle_candidates};
use super::solution::Order;
use super::solve::Stop;
use crate::variety::{Money, Varieties};
#[cfg(test)]
use counting::recounted;
use sample::Sample;
use standing::Standing;

/// Seasons by which a promise is judged. No search has seen them: its own come after.
const JUDGED: u32 = 10_000;
/// Seasons of a search: a chance of 80 % is told by them to some 1.6 %.
const SEARCHED: u32 = 600;
/// Rounds of search, each with more asked of the needs that fell short before fresh seasons.
const ROUNDS: usize = 6;

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

/// The seasons that orders are tried by, and those that they are judged by.
#[derive(Clone, Copy)]
struct By<'a> {
    searched: &'a dyn Grows,
    judged: &'a dyn Grows,
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
    candidates: &'a Candidates,
    by: By<'a>,
    ceilings: Vec<f64>,
}

impl<'a> Judge<'a> {
    fn of(candidates: &'a Candidates, by: By<'a>) -> Judge<'a> {
        Judge {
            candidates,
            by,
            ceilings: ceiling::ceilings(&candidates.model, by.judged),
        }
    }

    /// By seasons that no search has seen.
    fn judged(&self, order: Order) -> Judged {
        let chances = of_seasons(self.by.judged, self.candidates, &order.choice.plants);
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

    /// The order found, and what one takes that is as sure as asked where that one is not.
    ///
    /// It is sought whatever the money first. Only where that comes to more than there is, it is sought again
    /// within the money, and what was found tells what it takes: money, or money and beds.
    fn found(&self, first: &Judged, stop: Stop<'_>) -> (Judged, Option<Takes>) {
        let takes = |found: &Judged| Takes {
            cost: found.order.cost,
            places: found.order.plants,
        };
        let model = self.whole();
        let unlimited = Model {
            money: None,
            ..model.clone()
        };
        let rich = self.searched(&unlimited, first, stop);
        let cost = rich.order.cost.in_hundredths();
        let within = model.money.is_none_or(|money| cost <= money);
        let found = match within {
            true => None,
            false => Some(self.searched(&model, first, stop)),
        };
        if within && rich.is_as_aimed() || found.as_ref().is_some_and(Judged::is_as_aimed) {
            return (found.unwrap_or(rich), None);
        }
        let takes = match rich.is_as_aimed() {
            true => Some(takes(&rich)),
            false => self.in_larger_beds(first, stop).as_ref().map(takes),
        };
        (found.unwrap_or(rich), takes)
    }

    /// An order that is as sure as asked, whatever money and beds.
    fn in_larger_beds(&self, first: &Judged, stop: Stop<'_>) -> Option<Judged> {
        let mut candidates = self.candidates.clone();
        (candidates.model.money, candidates.model.places) = (None, None);
        // Larger beds make surer what smaller ones could not.
        let judge = Judge::of(&candidates, self.by);
        let first = judge.judged(first.order.clone());
        let found = judge.searched(&judge.whole(), &first, stop);
        found.is_as_aimed().then_some(found)
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
        let mut sample = Sample::of(model, &self.candidates.sure, self.by.searched);
        sample.ask(&first.promises);
        let usual = all_planted(model, first.order.choice.clone());
        // What was found without a limit of money is too dear: so are needs that are raised.
        let mut choice = match model.money {
            Some(_) => usual,
            None => sample.raised(&usual, stop),
        };
        let mut best: Option<Judged> = None;
        for _ in 0..ROUNDS {
            let mut standing = Standing::of(&sample, choice);
            sample.fill(&mut standing, stop);
            sample.pare(&mut standing, stop);
            // What is as sure is exchanged for less once it is at hand.
            if best.is_some() {
                sample.exchange(&mut standing, stop);
            }
            choice = standing.choice().clone();
            let sure = standing.is_sure();
            let found = self.judged(Order::of(self.candidates, choice.clone()));
            let reached = found.is_as_aimed();
            let again = match &best {
                // What cannot be had in these seasons is not had in others by asking for more.
                None => reached || sure && sample.ask_more(&found.promises),
                Some(_) => !reached && sample.ask_more(&found.promises),
            };
            best = match best {
                Some(best) if !reached || best.order.cost <= found.order.cost => Some(best),
                None if !reached && again => None,
                _ => Some(found),
            };
            if !again {
                break;
            }
        }
        best.unwrap_or_else(|| self.judged(Order::of(self.candidates, choice)))
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

#[cfg(test)]
mod tests;
