//! The seasons that a search tries its orders by, and what it asks of them.

use std::cell::RefCell;
use std::rc::Rc;

use hashbrown::HashMap;

use crate::order::model::Model;
use crate::order::promise::Promise;
use crate::order::risk::{Grown, Grows, turns};

/// Figures of what grows that are kept at hand: 8 bytes each.
const AT_HAND: usize = 16_000_000;

/// The seasons of a search, none of which is among those that an order is judged by.
pub(super) struct Sample<'a> {
    /// The program with all that may be bought.
    pub(super) model: &'a Model,
    seasons: &'a dyn Grows,
    /// The needs, the surest first. All that is told by need below is told in these turns.
    pub(super) turns: Vec<usize>,
    /// In how many of the seasons each need is to be met.
    pub(super) asked: Vec<usize>,
    known: RefCell<Known>,
}

/// What so many plants of a candidate give.
#[derive(Default)]
struct Known {
    grown: HashMap<(usize, u64), Rc<Grown>>,
    figures: usize,
}

impl<'a> Sample<'a> {
    pub(super) fn of(model: &'a Model, sure: &[f64], seasons: &'a dyn Grows) -> Sample<'a> {
        Sample {
            model,
            seasons,
            turns: turns(sure),
            asked: vec![0; model.needs.len()],
            known: RefCell::default(),
        }
    }

    /// How many seasons there are.
    pub(super) fn count(&self) -> usize {
        self.seasons.count()
    }

    /// Asks for what the promises aim at.
    pub(super) fn ask(&mut self, promises: &[Promise]) {
        let seasons = self.count() as f64;
        for promise in promises {
            // Less than a season is none more: 0.8 of five is four.
            let asked = promise.aim() * seasons;
            *self.asked_of(promise.need) = (asked - 1e-9).ceil() as usize;
        }
    }

    /// Asks for more where a promise fell short of what it aimed at; whether any did and more can be asked.
    pub(super) fn ask_more(&mut self, promises: &[Promise]) -> bool {
        let seasons = self.count();
        let mut more = false;
        for promise in promises.iter().filter(|promise| !promise.is_as_aimed()) {
            let lacks = (promise.aim() - promise.chance) * seasons as f64;
            let asked = self.asked_of(promise.need);
            let next = (*asked + 1 + lacks.ceil() as usize).min(seasons);
            more |= next > *asked;
            *asked = next;
        }
        more
    }

    fn asked_of(&mut self, need: usize) -> &mut usize {
        let turn = self.turns.iter().position(|one| *one == need);
        &mut self.asked[turn.unwrap_or(need)]
    }

    /// What so many plants of a candidate give.
    pub(super) fn grown(&self, candidate: usize, plants: u64) -> Rc<Grown> {
        let mut known = self.known.borrow_mut();
        if known.figures > AT_HAND {
            *known = Known::default();
        }
        if let Some(grown) = known.grown.get(&(candidate, plants)) {
            return Rc::clone(grown);
        }
        let grown = self.seasons.grown(candidate, plants, 0..self.count());
        let grown = Rc::new(grown);
        known.figures += grown.len();
        known.grown.insert((candidate, plants), Rc::clone(&grown));
        grown
    }

    /// Whether so many seasons of each need are as many as asked.
    pub(super) fn is_enough(&self, met: &[usize]) -> bool {
        met.iter().zip(&self.asked).all(|(met, asked)| met >= asked)
    }

    pub(super) fn affords(&self, cost: u64) -> bool {
        self.model.money.is_none_or(|money| cost <= money)
    }
}
