//! One thing given back and another taken: where that is cheaper and as sure, or, in full beds, where it brings an
//! order nearer to what is asked.

use super::bills::Bills;
use super::counting::recounted;
use super::sample::Sample;
use super::standing::Standing;
use super::wanting::Lack;
use crate::order::model::Choice;
use crate::order::solve::{Progress, Stop};

/// How often all that is bought is gone through.
const ROUNDS: usize = 4;
/// Packs at most that are taken for one.
const FOR_ONE: usize = 6;
/// Packs at most that are given back together.
const A_LOT: u64 = 6;
/// In full beds: how many of what may be taken, and of what may give way, are tried together.
const TRIED: usize = 4;
/// Plants by which it is told what may give way.
const A_FEW: u64 = 3;

/// What may be planted in place of something else.
#[derive(Debug, Clone, Copy)]
struct Taken {
    variety: usize,
    plants: u64,
    /// The offer of which a pack is bought for it; `None` where there are tubers that are not planted.
    offer: Option<usize>,
    /// What that costs.
    dearer: u64,
}

impl Sample<'_> {
    /// Gives something back and takes something else, as long as that makes an order cheaper that is as sure as
    /// asked; what is not needed then is given back as well. Given back is a pack, all packs of an offer, or all
    /// that a supplier sends.
    pub(super) fn exchange(&self, standing: &mut Standing<'_>, stop: Stop<'_>) {
        if !standing.is_sure() || !self.holds(standing.choice()) {
            return;
        }
        for _ in 0..ROUNDS {
            let mut cheaper = false;
            for (nodes, given_back) in self.given_back(standing.choice()).into_iter().enumerate() {
                let stopped = stop(Progress {
                    best: None,
                    bound: 0.0,
                    nodes,
                });
                if stopped {
                    return;
                }
                if self.is_exchanged(standing, &given_back) {
                    self.pare(standing, stop);
                    cheaper = true;
                }
            }
            if !cheaper {
                break;
            }
        }
    }

    /// What may be given back together, as offers each with so many packs: every pack, the dearest first, then
    /// larger lots of a few.
    fn given_back(&self, choice: &Choice) -> Vec<Vec<(usize, u64)>> {
        let offers = &self.model.offers;
        let bought = self.bought(choice);
        let over = |at: usize| choice.packs[at] - offers[at].least;
        let packs = bought.iter().map(|at| vec![(*at, 1)]);
        let several = bought.iter().filter(|at| over(**at) > 1);
        let several = several.map(|at| vec![(*at, over(*at))]);
        let of_supplier = |supplier: usize| {
            let own = bought.iter().filter(|at| offers[**at].supplier == supplier);
            own.map(|at| (*at, over(*at))).collect()
        };
        let suppliers = (0..self.model.suppliers.len()).map(of_supplier);
        let suppliers = suppliers.filter(|lot: &Vec<(usize, u64)>| lot.len() > 1);
        let few = |lot: &Vec<(usize, u64)>| lot.iter().map(|one| one.1).sum::<u64>() <= A_LOT;
        packs.chain(several.chain(suppliers).filter(few)).collect()
    }

    /// Whether something was given back for what is cheaper.
    fn is_exchanged(&self, standing: &mut Standing<'_>, given_back: &[(usize, u64)]) -> bool {
        let before = standing.choice().clone();
        let offers = &self.model.offers;
        let there = |(at, packs): &(usize, u64)| before.packs[*at] >= offers[*at].least + packs;
        if !given_back.iter().all(there) {
            return false;
        }
        let cost = self.model.cost(&before.packs);
        let mut fewer = before.clone();
        for (at, packs) in given_back {
            fewer.packs[*at] -= packs;
        }
        let fewer = recounted(self.model, self.replanted(fewer));
        standing.become_as(fewer.clone());
        let bills = Bills::of(self.model, &fewer.packs);
        let lacks = self.all_lacking(standing);
        let given = |offer: usize| given_back.iter().any(|(at, _)| *at == offer);
        let others = offers.iter().enumerate();
        let mut others: Vec<(u64, usize)> = others
            .filter(|(other, offer)| !given(*other) && fewer.packs[*other] < offer.most)
            .filter_map(|(other, _)| Some((bills.with(other)?, other)))
            .filter(|(with, _)| *with < cost)
            .collect();
        others.sort_unstable();
        for (_, other) in others {
            let next = self.with_pack(&fewer, other);
            let variety = offers[other].variety;
            let plants = [fewer.plants[variety], next.plants[variety]];
            if !self.could_mend(standing, &lacks, variety, plants) {
                continue;
            }
            let next = recounted(self.model, next);
            if standing.would_be_sure(&next.plants) && self.holds(&next) {
                standing.become_as(next);
                return true;
            }
        }
        let packs: u64 = given_back.iter().map(|(_, packs)| packs).sum();
        for _ in 0..FOR_ONE * packs as usize {
            let lacks = self.to_mend(standing);
            let most = cost.checked_sub(1);
            let more = most.and_then(|_| self.with_more(standing.choice(), &lacks, most));
            let Some(more) = more else {
                break;
            };
            standing.become_as(recounted(self.model, more));
            if standing.is_sure() && self.holds(standing.choice()) {
                return true;
            }
        }
        standing.become_as(before);
        false
    }

    /// Whether more plants of a variety, from the first number to the second, could make each need as sure as
    /// asked that is not: in enough of its seasons they give what lacks. They may not do even so.
    fn could_mend(
        &self,
        standing: &Standing<'_>,
        lacks: &[Lack],
        variety: usize,
        [fewer, more]: [u64; 2],
    ) -> bool {
        if more == fewer {
            return false;
        }
        if lacks.is_empty() {
            return true;
        }
        let (before, after) = (self.grown(variety, fewer), self.grown(variety, more));
        let mends = |lack: &Lack| {
            let place = lack.season * self.model.weeks + lack.week;
            after[place] - before[place] >= lack.stems && self.may_mend(variety, lack)
        };
        let by_season =
            lacks.chunk_by(|one, other| (one.turn, one.season) == (other.turn, other.season));
        let mut mended = vec![0; self.asked.len()];
        for season in by_season {
            if season.iter().all(mends) {
                mended[season[0].turn] += 1;
            }
        }
        let met = standing.lacks().met.iter().zip(&mended);
        let mut enough = met.zip(&self.asked);
        enough.all(|((met, mended), asked)| met + mended >= *asked)
    }

    /// In full beds: the order with some plants of one variety in place of some of another, which brings it
    /// nearest to what is asked for its money.
    pub(super) fn with_other(
        &self,
        standing: &Standing<'_>,
        lacks: &[Lack],
        give_way: &[usize],
    ) -> Option<Choice> {
        let choice = standing.choice();
        let wanting = self.wanting(standing.lacks());
        let mut found = Vec::new();
        for taken in self.may_be_taken(choice, lacks) {
            let give_way = give_way.iter().filter(|at| choice.plants[**at] > 0);
            for gives in give_way.filter(|at| **at != taken.variety).take(TRIED) {
                let next = self.planted_for(choice, *gives, taken);
                let nearer = wanting - self.wanting(&standing.tried(&next.plants));
                if nearer > 0 {
                    found.push((nearer as f64 / taken.dearer.max(1) as f64, next));
                }
            }
        }
        found.sort_by(|one, other| other.0.total_cmp(&one.0));
        let mut found = { found.into_iter() }.map(|(_, next)| recounted(self.model, next));
        found.find(|next| self.holds(next))
    }

    /// Whether nothing more can stand in the beds.
    pub(super) fn is_full(&self, choice: &Choice) -> bool {
        let planted = choice.plants.iter().sum::<u64>();
        self.model.places.is_some_and(|places| planted >= places)
    }

    /// The varieties that are planted, those first without a few plants of which the least is wanting.
    pub(super) fn give_way(&self, standing: &Standing<'_>) -> Vec<usize> {
        let plants = &standing.choice().plants;
        let planted = (0..plants.len()).filter(|at| plants[*at] > 0);
        let mut planted: Vec<(i64, usize)> = planted
            .map(|at| {
                let mut plants = plants.clone();
                plants[at] = plants[at].saturating_sub(A_FEW);
                (self.wanting(&standing.tried(&plants)), at)
            })
            .collect();
        planted.sort_unstable();
        planted.into_iter().map(|(_, at)| at).collect()
    }

    /// What brings most of what lacks for its money, if there were room.
    fn may_be_taken(&self, choice: &Choice, lacks: &[Lack]) -> Vec<Taken> {
        let model = self.model;
        let bills = Bills::of(model, &choice.packs);
        let tubers = model.tubers(&choice.packs);
        let spare = (0..model.varieties.len()).map(|variety| Taken {
            variety,
            plants: tubers[variety] - choice.plants[variety],
            offer: None,
            dearer: 0,
        });
        let bought = model.offers.iter().enumerate().filter_map(|(at, offer)| {
            let cost = bills.with(at).filter(|cost| self.affords(*cost))?;
            (choice.packs[at] < offer.most).then_some(Taken {
                variety: offer.variety,
                plants: offer.tubers,
                offer: Some(at),
                dearer: cost.saturating_sub(bills.cost),
            })
        });
        let open = |one: &Taken| {
            let most = model.varieties[one.variety].most_plants;
            let planted = choice.plants[one.variety] + one.plants;
            one.plants > 0 && most.is_none_or(|most| planted <= most)
        };
        let scored = spare.chain(bought).filter(open).map(|one| {
            let brings = self.brings(one.variety, one.plants, lacks);
            (brings as f64 / one.dearer.max(1) as f64, one)
        });
        let mut scored: Vec<(f64, Taken)> = scored.filter(|(score, _)| *score > 0.0).collect();
        scored.sort_by(|one, other| other.0.total_cmp(&one.0));
        scored.truncate(TRIED);
        scored.into_iter().map(|(_, one)| one).collect()
    }

    /// The choice with something planted where plants of another variety stood.
    fn planted_for(&self, choice: &Choice, gives: usize, taken: Taken) -> Choice {
        let mut next = choice.clone();
        if let Some(offer) = taken.offer {
            next.packs[offer] += 1;
        }
        let places = self.model.places.unwrap_or(u64::MAX);
        let free = places.saturating_sub(choice.plants.iter().sum());
        let way = taken.plants.saturating_sub(free).min(choice.plants[gives]);
        next.plants[gives] -= way;
        next.plants[taken.variety] += taken.plants.min(free + way);
        next
    }
}
