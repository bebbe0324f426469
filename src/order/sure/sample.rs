//! The seasons that a search tries its orders by, and what it asks of them.

use std::cell::RefCell;
use std::rc::Rc;

use hashbrown::HashMap;

use crate::order::model::Model;
use crate::order::promise::{Promise, Promised, Whole};
use crate::order::risk::{Grown, Grows, turns};

/// Figures of what grows that are kept at hand: 8 bytes each.
const AT_HAND: usize = 16_000_000;

/// The seasons of a search, none of which is among those that an order is judged by.
pub(super) struct Sample<'a> {
    /// The program with all that may be bought.
    pub(super) model: &'a Model,
    seasons: &'a dyn Grows,
    /// The needs, the surest first. All that is told by need below is told in these turns, and after them what is
    /// to be met as one has a turn each.
    pub(super) turns: Vec<usize>,
    /// What is to be met as one: its place among the plan's work, and the turns of its needs.
    pub(super) wholes: Vec<(usize, Vec<usize>)>,
    /// By turn: in how many of the seasons it is to be met.
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
    pub(super) fn of(
        model: &'a Model,
        sure: &[f64],
        wholes: &[Whole],
        seasons: &'a dyn Grows,
    ) -> Sample<'a> {
        let turns = turns(sure);
        let turn = |need: &usize| turns.iter().position(|one| one == need);
        let wholes = wholes.iter().map(|whole| {
            let own = whole.needs.iter().filter_map(turn);
            (whole.work, own.collect())
        });
        let wholes: Vec<(usize, Vec<usize>)> = wholes.collect();
        Sample {
            model,
            seasons,
            asked: vec![0; turns.len() + wholes.len()],
            turns,
            wholes,
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
            let turn = self.turn_of(promise.of);
            self.asked[turn] = (asked - 1e-9).ceil() as usize;
        }
    }

    /// Asks for more where a promise fell short of what it aimed at, than the order that it is of has by turn in
    /// these seasons: the same order is not found again. Whether any did and more can be asked.
    pub(super) fn ask_more(&mut self, promises: &[Promise], has: &[usize]) -> bool {
        let seasons = self.count();
        let mut more = false;
        for promise in promises.iter().filter(|promise| !promise.is_as_aimed()) {
            let lacks = (promise.aim() - promise.chance) * seasons as f64;
            let turn = self.turn_of(promise.of);
            let enough = self.asked[turn].max(has[turn]);
            let next = (enough + 1 + lacks.ceil() as usize).min(seasons);
            more |= next > self.asked[turn];
            self.asked[turn] = next;
        }
        more
    }

    /// Asks of each turn for such a share of all seasons more.
    pub(super) fn ask_all_more(&mut self, share: f64) {
        let seasons = self.count();
        let more = (share * seasons as f64).ceil() as usize;
        let asked = self.asked.iter_mut();
        asked.for_each(|asked| *asked = (*asked + more).min(seasons));
    }

    fn turn_of(&self, of: Promised) -> usize {
        let turn = match of {
            Promised::Need(need) => self.turns.iter().position(|one| *one == need),
            Promised::Work(work) => { self.wholes.iter().position(|whole| whole.0 == work) }
                .map(|at| self.turns.len() + at),
        };
        // OK because every promise is of a need or a whole of the candidates.
        turn.unwrap_or_default()
    }

    /// The needs of a turn, by their turns: its own, or all that is to be met as one.
    pub(super) fn needs_of(&self, turn: usize) -> Vec<usize> {
        match turn.checked_sub(self.turns.len()) {
            None => vec![turn],
            Some(whole) => self.wholes[whole].1.clone(),
        }
    }

    /// Of what each need lacks in a season, by its turn, what is to be met as one lacks of all its needs.
    pub(super) fn add_up(&self, lacks: &mut [i64]) {
        let (needs, wholes) = lacks.split_at_mut(self.turns.len());
        for (all, (_, own)) in wholes.iter_mut().zip(&self.wholes) {
            *all = own.iter().map(|turn| needs[*turn]).sum();
        }
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

    /// Whether so many seasons of each turn are as many as asked.
    pub(super) fn is_enough(&self, met: &[usize]) -> bool {
        met.iter().zip(&self.asked).all(|(met, asked)| met >= asked)
    }

    pub(super) fn affords(&self, cost: u64) -> bool {
        self.model.money.is_none_or(|money| cost <= money)
    }
}
