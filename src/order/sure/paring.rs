//! An order pared: what it is as sure without is given back.

use super::all_planted;
use super::sample::Sample;
use crate::order::model::Choice;
use crate::order::solve::{Progress, Stop};

impl Sample<'_> {
    /// The order without the packs that it needs neither on average nor to be as sure as it is, the dearest
    /// first. An order that is not as sure as asked is left as it is.
    pub(super) fn pared(&self, mut choice: Choice, stop: Stop<'_>) -> Choice {
        if !self.is_sure(&choice) {
            return choice;
        }
        let mut offers: Vec<usize> = (0..choice.packs.len())
            .filter(|at| choice.packs[*at] > self.model.offers[*at].least)
            .collect();
        let prices = |at: &usize| std::cmp::Reverse(self.model.offers[*at].price);
        offers.sort_by_key(prices);
        for (nodes, at) in offers.into_iter().enumerate() {
            let stopped = stop(Progress {
                best: None,
                bound: 0.0,
                nodes,
            });
            if stopped {
                break;
            }
            while let Some(fewer) = self.without_one(&choice, at) {
                choice = fewer;
            }
        }
        choice
    }

    /// The order with a pack less of an offer, where it is cheaper so and as sure.
    fn without_one(&self, choice: &Choice, at: usize) -> Option<Choice> {
        let offer = &self.model.offers[at];
        let mut fewer = choice.clone();
        fewer.packs[at] = choice.packs[at]
            .checked_sub(1)
            .filter(|packs| *packs >= offer.least)?;
        if self.model.cost(&fewer.packs) >= self.model.cost(&choice.packs) {
            return None;
        }
        let tubers = self.model.tubers(&fewer.packs);
        for (plants, tubers) in fewer.plants.iter_mut().zip(tubers) {
            *plants = (*plants).min(tubers);
        }
        let fewer = all_planted(self.model, fewer);
        (self.model.faults(&fewer).is_empty() && self.is_sure(&fewer)).then_some(fewer)
    }
}
