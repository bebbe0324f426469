//! Orders searched for in some seasons and judged by others.

use super::ceiling::ceilings;
use super::planted::all_planted;
use super::sample::Sample;
use super::standing::Standing;
use crate::order::candidates::Candidates;
use crate::order::model::{Choice, Model};
use crate::order::promise::{Promise, Promised, Takes};
use crate::order::risk::{Chances, Grows, of_seasons};
use crate::order::settle::Settled;
use crate::order::solution::Order;
use crate::order::solve::Stop;

/// What needs are raised for, as seasons of the search more than asked: in full beds an order that is just as sure
/// there cannot be filled up to be so in others.
const ASKED_MORE: [f64; 4] = [0.0, 0.035, 0.07, 0.015];

/// Rounds of search, each with more asked of the needs that fell short before fresh seasons.
const ROUNDS: usize = 6;

/// The seasons that orders are tried by, and those that they are judged by.
#[derive(Clone, Copy)]
pub(super) struct By<'a> {
    pub(super) searched: &'a dyn Grows,
    pub(super) judged: &'a dyn Grows,
}

/// An order and what it promises.
pub(super) struct Judged {
    pub(super) order: Order,
    chances: Chances,
    pub(super) promises: Vec<Promise>,
}

impl Judged {
    pub(super) fn is_as_aimed(&self) -> bool {
        self.promises.iter().all(Promise::is_as_aimed)
    }

    /// Of two orders the one that is as sure as asked, or nearer to that.
    fn nearer(self, other: Option<Judged>) -> Judged {
        match other {
            Some(other) if other.lacks() <= self.lacks() => other,
            _ => self,
        }
    }

    /// How much its promises fall short of what they are to be, all together.
    fn lacks(&self) -> f64 {
        let lacks = |one: &Promise| (one.aim() - one.chance).max(0.0);
        self.promises.iter().map(lacks).sum()
    }

    pub(super) fn put_in(self, settled: Settled) -> Settled {
        Settled {
            order: Some(self.order),
            chances: Some(self.chances),
            promises: self.promises,
            ..settled
        }
    }
}

/// What orders are judged by.
pub(super) struct Judge<'a> {
    pub(super) candidates: &'a Candidates,
    pub(super) by: By<'a>,
    /// By need, then by what is to be met as one.
    pub(super) ceilings: Vec<f64>,
}

impl<'a> Judge<'a> {
    pub(super) fn of(candidates: &'a Candidates, by: By<'a>) -> Judge<'a> {
        Judge {
            candidates,
            by,
            ceilings: ceilings(candidates, by.judged),
        }
    }

    /// By seasons that no search has seen.
    pub(super) fn judged(&self, order: Order) -> Judged {
        let chances = of_seasons(self.by.judged, self.candidates, &order.choice.plants);
        let needs = { self.candidates.sure.iter().enumerate() }
            .map(|(need, sure)| (Promised::Need(need), *sure));
        let wholes =
            { self.candidates.wholes.iter() }.map(|whole| (Promised::Work(whole.work), whole.sure));
        let together = chances.together.iter().map(|one| &one.1);
        let met = chances.throughout.iter().chain(together);
        let judged = needs.chain(wholes).zip(met.zip(&self.ceilings));
        let promise = |((of, sure), (chance, ceiling)): ((Promised, f64), (&f64, &f64))| Promise {
            of,
            sure,
            chance: *chance,
            // What was found can be had.
            ceiling: ceiling.max(*chance),
        };
        Judged {
            promises: judged.map(promise).collect(),
            order,
            chances,
        }
    }

    /// The order found, and what one takes that is as sure as asked where that one is not.
    ///
    /// It is sought whatever the money first. Only where that comes to more than there is, it is sought again
    /// within the money, and what was found tells what it takes: money, or money and beds.
    pub(super) fn found(&self, first: &Judged, stop: Stop<'_>) -> (Judged, Option<Takes>) {
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
    pub(super) fn whole(&self) -> Model {
        let mut model = self.candidates.model.clone();
        model.let_buy(&self.candidates.offered);
        model
    }

    /// The order of least cost found that is as sure as asked; else the one that was come to.
    pub(super) fn searched(&self, model: &Model, first: &Judged, stop: Stop<'_>) -> Judged {
        let Candidates { sure, wholes, .. } = self.candidates;
        let mut sample = Sample::of(model, sure, wholes, self.by.searched);
        sample.ask(&first.promises);
        let usual = all_planted(model, first.order.choice.clone());
        // What was found without a limit of money is too dear: so are needs that are raised.
        if model.money.is_some() {
            return self.from(&mut sample, usual, stop);
        }
        let asked = sample.asked.clone();
        let mut nearest: Option<Judged> = None;
        for more in ASKED_MORE {
            sample.ask_all_more(more);
            let raised = sample.raised(&usual, stop);
            sample.asked.clone_from(&asked);
            let found = self.from(&mut sample, raised, stop);
            if found.is_as_aimed() {
                return found;
            }
            sample.asked.clone_from(&asked);
            nearest = Some(found.nearer(nearest));
        }
        self.from(&mut sample, usual, stop).nearer(nearest)
    }

    /// The same from an order that is filled up, pared and exchanged.
    fn from(&self, sample: &mut Sample<'_>, mut choice: Choice, stop: Stop<'_>) -> Judged {
        let mut best: Option<Judged> = None;
        for _ in 0..ROUNDS {
            let mut standing = Standing::of(sample, choice);
            sample.fill(&mut standing, stop);
            sample.pare(&mut standing, stop);
            // What is as sure is exchanged for less once it is at hand.
            if best.is_some() {
                sample.exchange(&mut standing, stop);
            }
            choice = standing.choice().clone();
            let sure = standing.is_sure();
            // What fell short is not to be found again; what was exchanged is asked for a little more.
            let has = match best {
                None => standing.lacks().met.clone(),
                Some(_) => sample.asked.clone(),
            };
            let found = self.judged(Order::of(self.candidates, choice.clone()));
            let reached = found.is_as_aimed();
            let again = match &best {
                // What cannot be had in these seasons is not had in others by asking for more.
                None => reached || sure && sample.ask_more(&found.promises, &has),
                Some(_) => !reached && sample.ask_more(&found.promises, &has),
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
