//! Needs raised by what they lack in the worst of the seasons in which they are to be met.

use super::planted::all_planted;
use super::sample::Sample;
use super::standing::Standing;
use crate::order::model::{Choice, Demand, Model};
use crate::order::solve::{Progress, Stop, least_cost};

/// How often needs are raised.
const TIMES: usize = 3;
/// A raised plan is searched until no order can cost less by more than this share: what is found is filled up
/// and pared in any case.
const NEAR: f64 = 0.01;
/// Nodes after which what is found is taken.
const NODES: usize = 400;
/// What grows nowhere is not raised without end.
const MOST: f64 = 1.6;

impl Sample<'_> {
    /// The order that came nearest to what is asked of those that meet the needs raised.
    pub(super) fn raised(&self, start: &Choice, stop: Stop<'_>) -> Choice {
        let mut choice = start.clone();
        let mut by = vec![1.0; self.turns.len()];
        for _ in 0..TIMES {
            let standing = Standing::of(self, choice.clone());
            let mut more = vec![1.0; by.len()];
            for turn in 0..self.asked.len() {
                for (need, raised) in self.more(turn, &standing) {
                    more[need] = raised.max(more[need]);
                }
            }
            if more.iter().all(|more| *more <= 1.0) {
                break;
            }
            by.iter_mut().zip(more).for_each(|(by, more)| *by *= more);
            let model = self.with(&by);
            let found = least_cost(&model, &mut |progress: Progress| {
                let near = |best: f64| best - progress.bound <= NEAR * best;
                let enough = progress.best.is_some_and(near);
                enough || progress.nodes > NODES || stop(progress)
            });
            let Some(found) = found.best.filter(|_| self.affords(found.value)) else {
                break;
            };
            choice = all_planted(self.model, found);
        }
        choice
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
