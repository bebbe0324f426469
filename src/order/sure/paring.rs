//! An order pared: what it is as sure without is given back.

use super::planted::all_planted;
use super::sample::Sample;
use super::standing::Standing;
use crate::order::model::Choice;
use crate::order::solve::{Progress, Stop};

impl Sample<'_> {
    /// Gives back the packs that are needed neither on average nor to be as sure as asked, the dearest first.
    /// An order that is not as sure as asked is left as it is.
    pub(super) fn pare(&self, standing: &mut Standing<'_>, stop: Stop<'_>) {
        if !standing.is_sure() {
            return;
        }
        for (nodes, at) in self.bought(standing.choice()).into_iter().enumerate() {
            let stopped = stop(Progress {
                best: None,
                bound: 0.0,
                nodes,
            });
            if stopped {
                break;
            }
            while let Some(fewer) = self.without_one(standing, at) {
                standing.become_as(fewer);
            }
        }
    }

    /// The offers of which there are packs that may be given back, the dearest first.
    pub(super) fn bought(&self, choice: &Choice) -> Vec<usize> {
        let offers = &self.model.offers;
        let mut bought: Vec<usize> = (0..offers.len())
            .filter(|at| choice.packs[*at] > offers[*at].least)
            .collect();
        bought.sort_by_key(|at| std::cmp::Reverse(offers[*at].price));
        bought
    }

    /// The order with a pack less of an offer, where it is cheaper so and as sure.
    fn without_one(&self, standing: &Standing<'_>, at: usize) -> Option<Choice> {
        let choice = standing.choice();
        if choice.packs[at] <= self.model.offers[at].least {
            return None;
        }
        let fewer = self.without_pack(choice, at);
        let cheaper = self.model.cost(&fewer.packs) < self.model.cost(&choice.packs);
        let holds = cheaper && standing.would_be_sure(&fewer.plants) && self.holds(&fewer);
        holds.then_some(fewer)
    }

    /// The order with a pack less of an offer of which there is one.
    pub(super) fn without_pack(&self, choice: &Choice, at: usize) -> Choice {
        let mut fewer = choice.clone();
        fewer.packs[at] -= 1;
        self.replanted(fewer)
    }

    /// The choice with no more planted than there is, and what there is room for.
    pub(super) fn replanted(&self, mut choice: Choice) -> Choice {
        let tubers = self.model.tubers(&choice.packs);
        for (plants, tubers) in choice.plants.iter_mut().zip(tubers) {
            *plants = (*plants).min(tubers);
        }
        all_planted(self.model, choice)
    }

    /// Whether an order meets on average what it is asked.
    pub(super) fn holds(&self, choice: &Choice) -> bool {
        self.model.faults(choice).is_empty()
    }
}
