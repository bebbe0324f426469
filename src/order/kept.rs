//! A settled order as it is kept beside its plan, so that what has not changed is not settled again.
//!
//! With it stand two digests: of all that it was settled from (the plan with the needs of its events and
//! rounds, what of the list can serve it, how orders are settled), and of what is kept itself, which is not
//! believed where a hand has changed it. SipHash 1-3 of 128 bits (Aumasson and Bernstein, 2012), which tells
//! changes that happen, and does not guard against who wants to deceive the program with a file in
//! their own folder.

use std::fmt::{self, Write};

use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use siphasher::sip128::{Hasher128, SipHasher13};

use super::aim::Aim;
use super::aside::OfNone;
use super::candidates::Candidates;
use super::model::{Choice, Model, Pack};
use super::plan::Plan;
use super::promise::Promise;
use super::risk::Chances;
use super::settle::{Settled, Status};
use super::solution::Order;
use crate::variety::{Varieties, Variety};

/// Raised whenever orders come to be settled otherwise, so that what was kept before is settled again.
const WAY: u32 = 1;

/// A settled order as it is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kept {
    /// What it was settled for.
    pub aim: Aim,
    /// The day on which it was settled.
    pub on: Date,
    /// Whether the search was ended before it came to its own end: one that goes on longer may find better.
    pub stopped: bool,
    /// The digest of what it was settled from, in hexadecimal.
    of: String,
    /// That of what came of it.
    sum: String,
    outcome: Outcome,
}

/// What came of settling, in the plan's and the list's own names and places.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Outcome {
    status: Status,
    /// What was ordered for of needs that no order can meet.
    of_none: OfNone,
    nodes: usize,
    order: Option<Bought>,
    promises: Vec<Promise>,
    chances: Option<Chances>,
}

/// What is bought and planted: of what has none nothing is said.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Bought {
    /// Variety, supplier, the offer's place among theirs, packs.
    packs: Vec<(String, String, usize, u64)>,
    /// Variety, plants.
    plants: Vec<(String, u64)>,
    /// By need and week, the places of the varieties that count for it.
    counted: Vec<Vec<Vec<usize>>>,
}

impl Kept {
    /// What came of settling these candidates of a plan and a list; `stopped` if the search was ended before it
    /// came to its own end.
    pub fn of(
        aim: Aim,
        (plan, candidates, list): (&Plan, &Candidates, &Varieties),
        settled: &Settled,
        stopped: bool,
        on: Date,
    ) -> Kept {
        let of = source(aim, plan, candidates, list);
        let candidates = &settled.candidates;
        let outcome = Outcome {
            status: settled.status,
            of_none: settled.aside().of_none,
            nodes: settled.nodes,
            order: { settled.order.as_ref() }.map(|order| Bought::of(candidates, &order.choice)),
            promises: settled.promises.clone(),
            chances: settled.chances.clone(),
        };
        Kept {
            aim,
            on,
            stopped,
            of,
            sum: digest(&outcome),
            outcome,
        }
    }

    /// Whether it was settled from these, and is as it was kept.
    pub fn is_of(&self, plan: &Plan, candidates: &Candidates, list: &Varieties) -> bool {
        self.is_whole() && self.of == source(self.aim, plan, candidates, list)
    }

    fn is_whole(&self) -> bool {
        self.sum == digest(&self.outcome)
    }

    /// What was settled, of the candidates that it was settled [of](Kept::is_of).
    pub fn settled(&self, candidates: Candidates) -> Settled {
        let candidates = candidates.set_aside(self.outcome.of_none);
        let bought = self.outcome.order.as_ref();
        let choice = bought.and_then(|bought| bought.choice(&candidates));
        Settled {
            status: self.outcome.status,
            order: choice.map(|choice| Order::of(&candidates, choice)),
            promises: self.outcome.promises.clone(),
            chances: self.outcome.chances.clone(),
            nodes: self.outcome.nodes,
            candidates,
        }
    }

    /// What was settled of one variety of the list; `None` where it is neither bought nor planted.
    pub fn of_variety(&self, variety: &Variety) -> Option<OfVariety> {
        let bought = self.outcome.order.as_ref().filter(|_| self.is_whole())?;
        let name = variety.name.as_str();
        let packs = bought.packs.iter().filter(|one| one.0 == name);
        let plants = bought.plants.iter().find(|one| one.0 == name);
        let of = OfVariety {
            packs: packs.clone().map(|one| one.3).sum(),
            tubers: packs
                .map(|one| Some(one.3 * pack_of(variety, &one.1)?))
                .sum(),
            plants: plants.map_or(0, |one| one.1),
        };
        (of.packs > 0 || of.plants > 0).then_some(of)
    }

    /// The order that was settled, whatever has changed since; `None` where there was none, or where something
    /// in it is not among the candidates any more.
    pub fn order(&self, candidates: &Candidates) -> Option<Order> {
        let bought = self.outcome.order.as_ref().filter(|_| self.is_whole());
        let choice = bought?.choice(candidates)?;
        Some(Order::of(candidates, choice.as_it_comes()))
    }
}

/// What an order does with one variety.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfVariety {
    /// Packs bought.
    pub packs: u64,
    /// Tubers in them; `None` where the list does not tell it any more, or not of which of several packs.
    pub tubers: Option<u64>,
    /// Plants set out.
    pub plants: u64,
}

/// The tubers in a pack of this supplier; `None` where there is none, or some of several sizes.
fn pack_of(variety: &Variety, supplier: &str) -> Option<u64> {
    let own = variety.offers.iter();
    let mut own = own.filter(|offer| offer.supplier.as_str() == supplier);
    let pack = own.next()?.pack;
    own.all(|offer| offer.pack == pack)
        .then(|| pack.get().into())
}

impl Order {
    /// The same order of other candidates, by its names; `None` where something in it is not among them.
    pub fn moved(&self, from: &Candidates, to: &Candidates) -> Option<Order> {
        let choice = Bought::of(from, &self.choice).choice(to)?;
        Some(Order::of(to, choice.as_it_comes()))
    }
}

impl Bought {
    fn of(candidates: &Candidates, choice: &Choice) -> Bought {
        let model = &candidates.model;
        let packs = choice.packs.iter().enumerate().zip(&model.offers);
        let packs = packs.filter(|((_, packs), _)| **packs > 0);
        let plants = choice.plants.iter().zip(&model.varieties);
        let plants = plants.filter(|(plants, _)| **plants > 0);
        Bought {
            packs: packs
                .map(|((at, packs), offer)| {
                    let (variety, supplier) = names(model, offer);
                    let before = model.offers[..at].iter();
                    let same = before.filter(|one| names(model, one) == (variety, supplier));
                    (
                        variety.to_string(),
                        supplier.to_string(),
                        same.count(),
                        *packs,
                    )
                })
                .collect(),
            plants: plants
                .map(|(plants, variety)| (variety.name.clone(), *plants))
                .collect(),
            counted: choice.counted.clone(),
        }
    }

    /// The choice; `None` where something in it is not among the candidates.
    fn choice(&self, candidates: &Candidates) -> Option<Choice> {
        let model = &candidates.model;
        let mut choice = Choice {
            packs: vec![0; model.offers.len()],
            plants: vec![0; model.varieties.len()],
            counted: self.counted.clone(),
        };
        for (variety, supplier, at, packs) in &self.packs {
            let offers = model.offers.iter().enumerate();
            let mut same = offers.filter(|(_, one)| names(model, one) == (variety, supplier));
            let (at, _) = same.nth(*at)?;
            choice.packs[at] = *packs;
        }
        for (name, plants) in &self.plants {
            let mut varieties = model.varieties.iter();
            let at = varieties.position(|variety| variety.name == *name)?;
            choice.plants[at] = *plants;
        }
        Some(choice)
    }
}

/// The variety and the supplier of an offer.
fn names<'a>(model: &'a Model, offer: &Pack) -> (&'a str, &'a str) {
    let variety = &model.varieties[offer.variety];
    (&variety.name, &model.suppliers[offer.supplier].name)
}

/// The digest of what an order is settled from.
fn source(aim: Aim, plan: &Plan, candidates: &Candidates, list: &Varieties) -> String {
    let records = candidates.rows.iter().map(|row| list.list().get(*row));
    let records: Vec<Option<&Variety>> = records.collect();
    digest(&(WAY, aim, plan, candidates, records))
}

/// The digest of a value by how it is written for programmers, in which every field is.
fn digest(value: &impl fmt::Debug) -> String {
    let mut digest = Digest(SipHasher13::new());
    // OK because it takes whatever is written.
    let _ = write!(digest, "{value:?}");
    format!("{:032x}", digest.0.finish128().as_u128())
}

/// Takes in what is written.
struct Digest(SipHasher13);

impl fmt::Write for Digest {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        std::hash::Hasher::write(&mut self.0, text.as_bytes());
        Ok(())
    }
}
