//! Needs raised by what they lack in the worst of the seasons in which they are to be met.

use super::planted::all_planted;
use super::sample::Sample;
use super::standing::Standing;
use crate::order::model::{Choice, Demand, Model};
use crate::order::solve::{Progress, Stop, least_cost};

/// How often needs are raised.
const TIMES: usize = 3;
/// The same where what they are to be raised by had to be halved.
const TIMES_HALVED: usize = 8;
/// How often that is halved until they cannot be raised.
const HALVED: usize = 4;
/// A need that is met in more seasons than asked by this part of all is raised by less: what is left of it.
const OVER: usize = 25;
const LOWERED: f64 = 0.75;
/// A raised plan is searched until no order can cost less by more than this share: what is found is filled up
/// and pared in any case.
const NEAR: f64 = 0.01;
/// Nodes after which what is found is taken.
const NODES: usize = 400;
/// What grows nowhere is not raised without end.
const MOST: f64 = 1.6;

impl Sample<'_> {
    /// The order that meets the needs raised. Where what they are to be raised by does not fit into the beds or
    /// the money it is halved, and they are raised more often; the order is then the one that came nearest to
    /// what is asked.
    pub(super) fn raised(&self, start: &Choice, stop: Stop<'_>) -> Choice {
        let mut choice = start.clone();
        let mut by = vec![1.0; self.turns.len()];
        let (mut nearest, mut times): (Option<(i64, Choice)>, usize) = (None, TIMES);
        let mut time = 0;
        while time < times {
            let standing = Standing::of(self, choice.clone());
            self.keep_nearer(&mut nearest, &standing);
            let mut more = vec![1.0; by.len()];
            for turn in 0..self.asked.len() {
                for (need, raised) in self.more(turn, &standing) {
                    more[need] = raised.max(more[need]);
                }
            }
            if more.iter().all(|more| *more <= 1.0) {
                break;
            }
            if times > TIMES {
                self.lower(&mut by, &standing);
            }
            let Some((found, halved)) = self.least_raised(&mut by, more, stop) else {
                break;
            };
            if halved && times == TIMES {
                times = TIMES_HALVED;
            }
            choice = all_planted(self.model, found);
            time += 1;
        }
        if times == TIMES {
            return choice;
        }
        self.keep_nearer(&mut nearest, &Standing::of(self, choice.clone()));
        nearest.map_or(choice, |(_, nearest)| nearest)
    }

    /// Asks for less again of the needs that are met in more seasons than asked: others have use for the beds.
    fn lower(&self, by: &mut [f64], standing: &Standing<'_>) {
        let over = self.count() / OVER;
        let met = standing.lacks().met.iter().zip(&self.asked);
        for (by, (met, asked)) in by.iter_mut().zip(met) {
            if *met > asked + over {
                *by = 1.0 + (*by - 1.0) * LOWERED;
            }
        }
    }

    /// Keeps an order where it is nearer to what is asked.
    fn keep_nearer(&self, nearest: &mut Option<(i64, Choice)>, standing: &Standing<'_>) {
        let wanting = self.wanting(standing.lacks());
        if nearest.as_ref().is_none_or(|(least, _)| wanting < *least) {
            *nearest = Some((wanting, standing.choice().clone()));
        }
    }

    /// The least-cost order of the plan with its needs raised by so many times more, and whether that had to be
    /// halved; `None` where they cannot be raised.
    fn least_raised(
        &self,
        by: &mut [f64],
        more: Vec<f64>,
        stop: Stop<'_>,
    ) -> Option<(Choice, bool)> {
        let before = by.to_vec();
        by.iter_mut().zip(more).for_each(|(by, more)| *by *= more);
        for halved in 0..=HALVED {
            let model = self.with(by);
            let found = least_cost(&model, &mut |progress: Progress| {
                let near = |best: f64| best - progress.bound <= NEAR * best;
                let enough = progress.best.is_some_and(near);
                enough || progress.nodes > NODES || stop(progress)
            });
            if let Some(best) = found.best.filter(|_| self.affords(found.value)) {
                return Some((best, halved > 0));
            }
            let both = by.iter_mut().zip(&before);
            both.for_each(|(by, before)| *by = (*by + before) / 2.0);
        }
        None
    }

    /// What each need of a turn is to be multiplied by, so that in the worst of the seasons in which the turn is
    /// to be met it would have had enough.
    fn more(&self, turn: usize, standing: &Standing<'_>) -> Vec<(usize, f64)> {
        let needs = self.needs_of(turn);
        let in_week = |need: usize, season: usize, week: usize| {
            let stems = self.model.needs[self.turns[need]].stems[week];
            let lacks = standing.in_week(season, week)[need];
            match stems.checked_sub(lacks.unsigned_abs()) {
                _ if lacks == 0 => 1.0,
                None | Some(0) => MOST,
                Some(has) => (stems as f64 / has as f64).min(MOST),
            }
        };
        let in_season = |need: usize, season: usize| {
            let weeks = 0..self.model.weeks;
            { weeks.map(|week| in_week(need, season, week)) }.fold(1.0, f64::max)
        };
        let all = |season: usize| {
            let own = needs.iter().map(|need| in_season(*need, season));
            (own.fold(1.0, f64::max), season)
        };
        let mut seasons: Vec<(f64, usize)> = (0..self.count()).map(all).collect();
        seasons.sort_by(|one, other| one.0.total_cmp(&other.0));
        let worst = self.asked[turn]
            .checked_sub(1)
            .map(|worst| seasons[worst].1);
        let raised = |need: usize| (need, worst.map_or(1.0, |worst| in_season(need, worst)));
        needs.iter().copied().map(raised).collect()
    }

    /// The program with its needs raised, each by its turn.
    fn with(&self, by: &[f64]) -> Model {
        let mut model = self.model.clone();
        for (need, by) in self.turns.iter().zip(by) {
            raise(&mut model.needs[*need], *by);
        }
        model.limit_packs();
        model
    }
}

/// So many times as many stems, of which the most from one variety is no more of the need than before.
fn raise(need: &mut Demand, by: f64) {
    for stems in &mut need.stems {
        *stems = (*stems as f64 * by).ceil() as u64;
    }
}
