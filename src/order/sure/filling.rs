//! An order filled up, pack by pack, until every need is as sure as is asked.

use super::all_planted;
use super::sample::{Lacks, Sample};
use crate::order::model::Choice;
use crate::order::risk::{Grown, Turns};
use crate::order::solve::{Progress, Stop};

/// Packs and plants more at most: no order of a small grower is filled up for longer.
const STEPS: usize = 300;

/// A need that lacks stems in a week of a season that is to be mended.
struct Lack {
    week: usize,
    /// Place among seasons and weeks.
    place: usize,
    /// Thousandths of a stem.
    stems: i64,
    /// The needs of which any may have more, so that this one has.
    through: Vec<usize>,
}

impl Sample<'_> {
    /// The order with what brings most of the lacking stems for its money, again and again, as far as money
    /// and beds go.
    pub(super) fn filled(&self, mut choice: Choice, stop: Stop<'_>) -> Choice {
        for nodes in 0..STEPS {
            let lacks = self.to_mend(&choice);
            let stopped = stop(Progress {
                best: None,
                bound: 0.0,
                nodes,
            });
            if lacks.is_empty() || stopped {
                break;
            }
            let Some(more) = self.with_more(&choice, &lacks) else {
                break;
            };
            choice = more;
        }
        choice
    }

    /// What lacks in as many seasons as each need is to be met in more, those first that lack the least.
    fn to_mend(&self, choice: &Choice) -> Vec<Lack> {
        let lacks = self.lacks(choice);
        let (varieties, grown) = self.planted(choice);
        let grown: Vec<&Grown> = grown.iter().map(|grown| &**grown).collect();
        let mut turns = Turns::of(self.model, self.turns.clone(), &varieties);
        let mut to_mend = Vec::new();
        for need in 0..self.asked.len() {
            for season in self.nearest(need, &lacks) {
                for week in 0..self.model.weeks {
                    let stems = lacks.at(season, week, need);
                    if stems == 0 {
                        continue;
                    }
                    let place = season * self.model.weeks + week;
                    let sharing = turns.shared(week, &grown, place);
                    let short = self.turns.iter().filter(|one| sharing.lacks[**one] > 0);
                    // Each need that is short has its own cut, in turn.
                    let cut = { short.zip(&sharing.cuts) }.find(|(one, _)| **one == need);
                    to_mend.push(Lack {
                        week,
                        place,
                        stems,
                        through: cut.map_or(vec![need], |(_, cut)| cut.needs.clone()),
                    });
                }
            }
        }
        to_mend
    }

    /// The seasons to be mended for a need.
    fn nearest(&self, need: usize, lacks: &Lacks) -> Vec<usize> {
        let more = self.asked[need].saturating_sub(lacks.met(need));
        let by_season = lacks.by_season(need).into_iter().enumerate();
        let mut short: Vec<(i64, usize)> = { by_season.filter(|(_, lacks)| *lacks > 0) }
            .map(|(season, lacks)| (lacks, season))
            .collect();
        short.sort_unstable();
        short.into_iter().take(more).map(|(_, at)| at).collect()
    }

    /// The order with one more pack, of the offer that brings most for its money.
    fn with_more(&self, choice: &Choice, lacks: &[Lack]) -> Option<Choice> {
        let model = self.model;
        let cost = model.cost(&choice.packs);
        let plants: u64 = choice.plants.iter().sum();
        let full = model.places.is_some_and(|places| plants >= places);
        let open = model.offers.iter().enumerate().filter(|(at, offer)| {
            choice.packs[*at] < offer.most && !model.varieties[offer.variety].serves.is_empty()
        });
        let scored = open.filter_map(|(at, offer)| {
            let brings = self.brings(offer.variety, offer.tubers, lacks);
            if brings == 0 || full {
                return None;
            }
            let mut more = choice.clone();
            more.packs[at] += 1;
            let dearer = model.cost(&more.packs);
            let worth = model.bill(&more.packs)[offer.supplier].0;
            let taken = worth >= model.suppliers[offer.supplier].least;
            (taken && self.affords(dearer)).then(|| {
                let for_money = brings as f64 / dearer.saturating_sub(cost).max(1) as f64;
                (for_money, more)
            })
        });
        let best = scored.max_by(|one, other| one.0.total_cmp(&other.0))?;
        Some(all_planted(model, best.1))
    }

    /// Of what lacks, the thousandths that so many plants of a candidate bring.
    fn brings(&self, at: usize, plants: u64, lacks: &[Lack]) -> i64 {
        let serves = &self.model.varieties[at].serves;
        let helps = |lack: &&Lack| {
            let mut through = lack.through.iter();
            let runs = |need: &usize| self.model.needs[*need].runs(lack.week);
            through.any(|need| runs(need) && serves.binary_search(need).is_ok())
        };
        let mut helped = lacks.iter().filter(helps).peekable();
        if helped.peek().is_none() {
            return 0;
        }
        let grown = self.grown(at, plants);
        helped.map(|lack| lack.stems.min(grown[lack.place])).sum()
    }
}
