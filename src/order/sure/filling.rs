//! An order filled up, pack by pack, until every need is as sure as is asked.

use super::bills::Bills;
use super::planted::all_planted;
use super::sample::Sample;
use super::standing::Standing;
use super::wanting::Lack;
use crate::order::model::Choice;
use crate::order::solve::{Progress, Stop};

/// Packs and plants more at most: no order of a small grower is filled up for longer.
const STEPS: usize = 300;
/// In full beds, exchanges at most.
const EXCHANGES: usize = 24;
/// What may give way is told anew after so many.
const TOLD: usize = 6;

impl Sample<'_> {
    /// Has the order more and more of what brings most of the lacking stems for its money, as far as money
    /// and beds go; where the beds are full one thing gives way to another.
    pub(super) fn fill(&self, standing: &mut Standing<'_>, stop: Stop<'_>) {
        let (mut exchanges, mut give_way) = (0, Vec::new());
        for nodes in 0..STEPS {
            let lacks = self.to_mend(standing);
            let stopped = stop(Progress {
                best: None,
                bound: 0.0,
                nodes,
            });
            if lacks.is_empty() || stopped {
                break;
            }
            let more = self.with_more(standing.choice(), &lacks, self.model.money);
            let more = more.or_else(|| {
                if exchanges == EXCHANGES || !self.is_full(standing.choice()) {
                    return None;
                }
                if exchanges % TOLD == 0 {
                    give_way = self.give_way(standing);
                }
                exchanges += 1;
                self.with_other(standing, &lacks, &give_way)
            });
            let Some(more) = more else {
                break;
            };
            standing.become_as(more);
        }
    }

    /// The order with one more pack, of the offer that brings most for its money and costs no more in all than
    /// so much.
    pub(super) fn with_more(
        &self,
        choice: &Choice,
        lacks: &[Lack],
        most: Option<u64>,
    ) -> Option<Choice> {
        let model = self.model;
        let planted: u64 = choice.plants.iter().sum();
        let free = model
            .places
            .map_or(u64::MAX, |places| places.saturating_sub(planted));
        let bills = Bills::of(model, &choice.packs);
        let scored = model.offers.iter().enumerate().filter_map(|(at, offer)| {
            let serves = !model.varieties[offer.variety].serves.is_empty();
            if choice.packs[at] >= offer.most || !serves {
                return None;
            }
            let cost = bills.with(at)?;
            let afforded = most.is_none_or(|most| cost <= most);
            let plants = if afforded { offer.tubers.min(free) } else { 0 };
            let brings = self.brings(offer.variety, plants, lacks);
            let dearer = cost.saturating_sub(bills.cost).max(1);
            (brings > 0).then(|| (brings as f64 / dearer as f64, at))
        });
        let (_, at) = scored.max_by(|one, other| one.0.total_cmp(&other.0))?;
        Some(self.with_pack(choice, at))
    }

    /// The order with a pack more of an offer.
    pub(super) fn with_pack(&self, choice: &Choice, at: usize) -> Choice {
        let mut more = choice.clone();
        more.packs[at] += 1;
        all_planted(self.model, more)
    }

    /// Of what lacks, the thousandths that so many plants of a candidate bring.
    pub(super) fn brings(&self, at: usize, plants: u64, lacks: &[Lack]) -> i64 {
        if plants == 0 {
            return 0;
        }
        let mut helped = lacks
            .iter()
            .filter(|lack| self.may_mend(at, lack))
            .peekable();
        if helped.peek().is_none() {
            return 0;
        }
        let grown = self.grown(at, plants);
        let weeks = self.model.weeks;
        helped
            .map(|lack| lack.stems.min(grown[lack.season * weeks + lack.week]))
            .sum()
    }
}
