//! The seasons that a search tries its orders by.

use std::cell::RefCell;
use std::rc::Rc;

use hashbrown::HashMap;

use crate::order::candidates::Candidates;
use crate::order::model::{Choice, Model};
use crate::order::plan::Plan;
use crate::order::promise::Promise;
use crate::order::risk::{Grown, Seasons, Spreads, lacks, turns};
use crate::variety::Varieties;

/// Seasons by which a promise is judged. No search has seen them: its own come after.
pub(super) const JUDGED: u32 = 10_000;
/// How many: a chance of 80 % is told by them to some 1.6 %.
const SEARCHED: u32 = 600;

/// Seasons drawn for a search, none of which is among those that an order is judged by.
pub(super) struct Sample<'a> {
    /// The program with all that may be bought.
    pub(super) model: &'a Model,
    pub(super) seasons: Seasons<'a>,
    pub(super) turns: Vec<usize>,
    /// By need: in how many of the seasons it is to be met.
    pub(super) asked: Vec<usize>,
    /// What so many plants of a candidate give.
    known: RefCell<HashMap<(usize, u64), Rc<Grown>>>,
}

/// What of the stems is lacking in the seasons, by season, week and need, in thousandths.
pub(super) struct Lacks {
    all: Vec<i64>,
    weeks: usize,
    needs: usize,
}

impl<'a> Sample<'a> {
    pub(super) fn of(
        plan: &'a Plan,
        candidates: &'a Candidates,
        list: &'a Varieties,
        model: &'a Model,
    ) -> Sample<'a> {
        let numbers = JUDGED..JUDGED + SEARCHED;
        Sample {
            model,
            seasons: Seasons::of(plan, candidates, list, Spreads::assumed(), numbers),
            turns: turns(&candidates.sure),
            asked: vec![0; model.needs.len()],
            known: RefCell::default(),
        }
    }

    /// Asks for what the promises aim at.
    pub(super) fn ask(&mut self, promises: &[Promise]) {
        let seasons = self.seasons.len() as f64;
        for promise in promises {
            self.asked[promise.need] = (promise.aim() * seasons).ceil() as usize;
        }
    }

    /// Asks for more where a promise fell short of what it aimed at; whether any did and more can be asked.
    pub(super) fn ask_more(&mut self, promises: &[Promise]) -> bool {
        let seasons = self.seasons.len();
        let mut more = false;
        for promise in promises.iter().filter(|promise| !promise.is_as_aimed()) {
            let lacks = (promise.aim() - promise.chance) * seasons as f64;
            let asked = &mut self.asked[promise.need];
            let next = (*asked + 1 + lacks.ceil() as usize).min(seasons);
            more |= next > *asked;
            *asked = next;
        }
        more
    }

    /// What so many plants of a candidate give.
    pub(super) fn grown(&self, at: usize, plants: u64) -> Rc<Grown> {
        let mut known = self.known.borrow_mut();
        let grown = known.entry((at, plants));
        Rc::clone(grown.or_insert_with(|| Rc::new(self.seasons.grown(at, plants))))
    }

    /// The candidates planted, and what they give.
    pub(super) fn planted(&self, choice: &Choice) -> (Vec<usize>, Vec<Rc<Grown>>) {
        let planted = choice.plants.iter().enumerate();
        let planted = planted.filter(|(_, plants)| **plants > 0);
        planted
            .map(|(at, plants)| (at, self.grown(at, *plants)))
            .unzip()
    }

    /// What an order lacks.
    pub(super) fn lacks(&self, choice: &Choice) -> Lacks {
        let (varieties, grown) = self.planted(choice);
        let grown: Vec<&Grown> = grown.iter().map(|grown| &**grown).collect();
        let planted = (&varieties[..], &grown[..]);
        Lacks {
            all: lacks(self.model, self.turns.clone(), planted, self.seasons.len()),
            weeks: self.model.weeks,
            needs: self.model.needs.len(),
        }
    }

    /// Whether an order is as sure as is asked in these seasons.
    pub(super) fn is_sure(&self, choice: &Choice) -> bool {
        let lacks = self.lacks(choice);
        (0..self.asked.len()).all(|need| lacks.met(need) >= self.asked[need])
    }
}

impl Lacks {
    /// What a need lacks in each week of each season.
    pub(super) fn of_need(&self, need: usize) -> impl Iterator<Item = &[i64]> {
        let seasons = self.all.chunks(self.weeks * self.needs);
        // OK because every chunk is whole, and so has the need's first week.
        seasons.map(move |season| &season[need..])
    }

    /// What a need lacks in a week of a season.
    pub(super) fn at(&self, season: usize, week: usize, need: usize) -> i64 {
        self.all[(season * self.weeks + week) * self.needs + need]
    }

    /// By season: what a need lacks in all weeks together.
    pub(super) fn by_season(&self, need: usize) -> Vec<i64> {
        self.of_need(need)
            .map(|weeks| weeks.iter().step_by(self.needs).sum())
            .collect()
    }

    /// In how many seasons a need lacks nothing.
    pub(super) fn met(&self, need: usize) -> usize {
        let lacks = self.by_season(need).into_iter();
        lacks.filter(|lacks| *lacks == 0).count()
    }
}
