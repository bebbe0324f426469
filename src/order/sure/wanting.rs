//! What is wanting until every need is as sure as asked.

use super::sample::Sample;
use super::standing::{Lacks, Standing};

/// A need that lacks stems in a week of a season that is to be mended.
pub(super) struct Lack {
    /// The turn that is not met for it: the need's own, or one that is to be met as one.
    pub(super) turn: usize,
    pub(super) season: usize,
    pub(super) week: usize,
    /// Thousandths of a stem.
    pub(super) stems: i64,
    /// The needs of which any may have more, so that this one has.
    pub(super) through: Vec<usize>,
}

impl Sample<'_> {
    /// What lacks in as many seasons as each turn is to be met in more, those first that lack the least.
    pub(super) fn to_mend(&self, standing: &Standing<'_>) -> Vec<Lack> {
        let mut lacking = Vec::new();
        for turn in 0..self.asked.len() {
            let lacks = standing.lacks();
            let more = self.asked[turn].saturating_sub(lacks.met[turn]);
            let mut short: Vec<(i64, usize)> = { lacks.of(turn).zip(0..) }
                .filter(|(lacks, _)| *lacks > 0)
                .collect();
            short.sort_unstable();
            let seasons = short.into_iter().take(more);
            lacking.extend(seasons.flat_map(|(_, season)| self.lacking(standing, turn, season)));
        }
        lacking
    }

    /// What lacks in every season, of the turns that are not as sure as asked.
    pub(super) fn all_lacking(&self, standing: &Standing<'_>) -> Vec<Lack> {
        let met = &standing.lacks().met;
        let turns = (0..self.asked.len()).filter(|turn| met[*turn] < self.asked[*turn]);
        let seasons = |turn| (0..self.count()).map(move |season| (turn, season));
        turns
            .flat_map(seasons)
            .flat_map(|(turn, season)| self.lacking(standing, turn, season))
            .collect()
    }

    /// What the needs of a turn lack in the weeks of a season.
    fn lacking(&self, standing: &Standing<'_>, turn: usize, season: usize) -> Vec<Lack> {
        let needs = self.needs_of(turn).into_iter();
        let cells = needs.flat_map(|need| (0..self.model.weeks).map(move |week| (need, week)));
        let lacks = cells.map(|(need, week)| (need, week, standing.in_week(season, week)[need]));
        let short = lacks.filter(|(_, _, stems)| *stems > 0);
        let told = short.map(|(need, week, stems)| {
            let held = standing.held(season, week, need).into_iter();
            Lack {
                turn,
                season,
                week,
                stems,
                through: held.map(|turn| self.turns[turn]).collect(),
            }
        });
        told.collect()
    }

    /// Of what lacks, whether a variety may mend it: it serves a need through which it runs.
    pub(super) fn may_mend(&self, variety: usize, lack: &Lack) -> bool {
        let serves = &self.model.varieties[variety].serves;
        let mut through = lack.through.iter();
        let runs = |need: &usize| self.model.needs[*need].runs(lack.week);
        through.any(|need| runs(need) && serves.binary_search(need).is_ok())
    }

    /// The thousandths that are lacking in the seasons in which each turn is to be met, those that lack the
    /// least: nothing where an order is as sure as asked.
    pub(super) fn wanting(&self, lacks: &Lacks) -> i64 {
        let of = |(turn, asked): (usize, &usize)| {
            let mut seasons: Vec<i64> = lacks.of(turn).collect();
            if *asked > 0 && *asked < seasons.len() {
                seasons.select_nth_unstable(*asked);
            }
            seasons.iter().take(*asked).sum::<i64>()
        };
        self.asked.iter().enumerate().map(of).sum()
    }
}
