//! What to buy and plant, and what comes of it.

use super::candidates::Candidates;
use super::model::{Choice, Model, STEM};
use super::padding::Padding;
use crate::variety::Money;

/// An order, worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// By supplier of whom something is bought.
    pub bills: Vec<Bill>,
    /// What is planted, in the order of the list.
    pub planted: Vec<Planted>,
    /// By need, then week in which it runs.
    pub weekly: Vec<Weekly>,
    /// Goods and postage.
    pub cost: Money,
    /// Plants set out in all.
    pub plants: u64,
    /// The answer that it was worked out from.
    pub choice: Choice,
}

/// What is bought of one supplier.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    /// The name.
    pub supplier: String,
    /// What is bought, in the order of the list.
    pub lines: Vec<OrderLine>,
    /// The sum of the lines.
    pub goods: Money,
    /// Postage.
    pub postage: Money,
}

/// One line of an order.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderLine {
    /// The variety's place in the list.
    pub row: usize,
    /// Its name.
    pub variety: String,
    /// Packs.
    pub packs: u64,
    /// Tubers in all of them.
    pub tubers: u64,
    /// Price of one pack.
    pub price: Money,
    /// Packs times price.
    pub cost: Money,
    /// Those of them that only fill the order up.
    pub padding: Option<Padding>,
}

/// A variety in the beds.
#[derive(Debug, Clone, PartialEq)]
pub struct Planted {
    /// Its place in the list.
    pub row: usize,
    /// Its place among the candidates.
    pub candidate: usize,
    /// Its name.
    pub variety: String,
    /// Plants set out.
    pub plants: u64,
    /// Tubers on hand that are expected to be fit.
    pub on_hand: u64,
    /// Tubers bought.
    pub bought: u64,
    /// Tubers not set out.
    pub spare: u64,
    /// What it gives, by need: the weeks of the year and the stems of all of them.
    pub gives: Vec<Gives>,
}

/// What a variety gives a need.
#[derive(Debug, Clone, PartialEq)]
pub struct Gives {
    /// Place of the need.
    pub need: usize,
    /// Weeks of the year in which it gives it stems.
    pub weeks: Vec<u8>,
    /// Stems over those weeks.
    pub stems: f64,
}

/// A need in a week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weekly {
    /// Place of the need.
    pub need: usize,
    /// The week of the year.
    pub week: u8,
    /// Stems needed.
    pub needed: f64,
    /// Stems given.
    pub given: f64,
}

impl Weekly {
    /// Stems short.
    pub fn short(&self) -> f64 {
        (self.needed - self.given).max(0.0)
    }
}

impl Order {
    /// Works an answer out.
    pub fn of(candidates: &Candidates, choice: Choice) -> Order {
        let model = &candidates.model;
        let bills = bills(candidates, &choice);
        let tubers = model.tubers(&choice.packs);
        let mut planted: Vec<Planted> = (model.varieties.iter().enumerate())
            .map(|(at, one)| Planted {
                row: candidates.rows[at],
                candidate: at,
                variety: one.name.clone(),
                plants: choice.plants[at],
                on_hand: one.on_hand,
                bought: tubers[at] - one.on_hand,
                // More may be planted than there is still on hand.
                spare: tubers[at].saturating_sub(choice.plants[at]),
                gives: Vec::new(),
            })
            .collect();
        let mut weekly = Vec::new();
        for (at, week) in candidates.weeks.iter().enumerate() {
            let mut given = given(model, &choice, at);
            give_left_over(candidates, &choice, at, &mut given);
            let needs = (0..model.needs.len()).map(|need| (need, candidates.asked(need)));
            for (need, demand) in needs.filter(|(_, asked)| asked.runs(at)) {
                let all: u64 = given[need].iter().map(|one| one.1).sum();
                weekly.push(Weekly {
                    need,
                    week: *week,
                    needed: in_stems(demand.stems[at]),
                    given: in_stems(all.min(demand.stems[at])),
                });
                for (variety, thousandths) in given[need].iter().filter(|one| one.1 > 0) {
                    let gives = &mut planted[*variety].gives;
                    let place = gives
                        .iter()
                        .position(|one| one.need == need)
                        .unwrap_or_else(|| {
                            gives.push(Gives {
                                need,
                                weeks: Vec::new(),
                                stems: 0.0,
                            });
                            gives.len() - 1
                        });
                    gives[place].weeks.push(*week);
                    gives[place].stems += in_stems(*thousandths);
                }
            }
        }
        planted.retain(|one| one.plants > 0 || one.bought > 0);
        weekly.sort_by_key(|one| (one.need, one.week));
        Order {
            bills,
            planted,
            weekly,
            cost: Money::hundredths(model.cost(&choice.packs)),
            plants: choice.plants.iter().sum(),
            choice,
        }
    }

    /// The needs and weeks that fall short.
    pub fn short(&self) -> impl Iterator<Item = &Weekly> {
        self.weekly.iter().filter(|one| one.short() > 0.0)
    }

    /// Stems that grow in each week, usable, all varieties together.
    pub fn grown(&self, candidates: &Candidates) -> Vec<(u8, f64)> {
        let model = &candidates.model;
        let all = |week: usize| -> u64 {
            let plants = model.varieties.iter().zip(&self.choice.plants);
            plants.map(|(one, plants)| one.yields[week] * plants).sum()
        };
        let weeks = candidates.weeks.iter().enumerate();
        weeks.map(|(at, week)| (*week, in_stems(all(at)))).collect()
    }
}

/// By need: what each variety gives it in a week, in thousandths.
pub(in crate::order) fn given(
    model: &Model,
    choice: &Choice,
    week: usize,
) -> Vec<Vec<(usize, u64)>> {
    let (split, sharing) = model.shared(choice, week);
    let of = |need: usize| {
        let arcs = split.arcs[need].iter().zip(&sharing.flow[need]);
        let of_arc = |((variety, _), flow): (&(usize, i64), &i64)| {
            let counts = choice.counting(need, week).binary_search(variety).is_ok();
            let kept = if counts {
                model.needs[need].reserved(week)
            } else {
                0
            };
            (*variety, flow.unsigned_abs() + kept)
        };
        arcs.map(of_arc).collect()
    };
    (0..model.needs.len()).map(of).collect()
}

/// Gives what is left over of a week to what is set aside, as far as it goes: the varieties as they come.
fn give_left_over(
    candidates: &Candidates,
    choice: &Choice,
    week: usize,
    given: &mut [Vec<(usize, u64)>],
) {
    let varieties = &candidates.model.varieties;
    if candidates.aside.needs.is_empty() {
        return;
    }
    let grown = varieties.iter().zip(&choice.plants);
    let mut left: Vec<u64> = grown
        .map(|(one, plants)| one.yields[week] * plants)
        .collect();
    for (variety, stems) in given.iter().flatten() {
        left[*variety] = left[*variety].saturating_sub(*stems);
    }
    for aside in &candidates.aside.needs {
        let given = &mut given[aside.need];
        let has: u64 = given.iter().map(|one| one.1).sum();
        let mut wanted = aside.asked.stems[week].saturating_sub(has);
        let most = aside.asked.limit(week).unwrap_or(u64::MAX);
        for (at, one) in varieties.iter().enumerate() {
            let own = given.iter().find(|one| one.0 == at).map_or(0, |one| one.1);
            let more = left[at].min(wanted).min(most.saturating_sub(own));
            if more == 0 || !one.serves.contains(&aside.need) {
                continue;
            }
            match given.iter_mut().find(|one| one.0 == at) {
                Some(own) => own.1 += more,
                None => given.push((at, more)),
            }
            (left[at], wanted) = (left[at] - more, wanted - more);
        }
    }
}

fn bills(candidates: &Candidates, choice: &Choice) -> Vec<Bill> {
    let model = &candidates.model;
    let sums = model.bill(&choice.packs);
    let padding = model.padding(choice);
    let bill = |(at, supplier): (usize, &super::model::Supplier)| {
        let bought = model.offers.iter().zip(&choice.packs).zip(&padding);
        let lines: Vec<OrderLine> = bought
            .filter(|((offer, packs), _)| offer.supplier == at && **packs > 0)
            .map(|((offer, packs), padding)| OrderLine {
                row: candidates.rows[offer.variety],
                variety: model.varieties[offer.variety].name.clone(),
                packs: *packs,
                tubers: packs * offer.tubers,
                price: Money::hundredths(offer.price),
                cost: Money::hundredths(packs * offer.price),
                padding: *padding,
            })
            .collect();
        (!lines.is_empty()).then(|| Bill {
            supplier: supplier.name.clone(),
            lines,
            goods: Money::hundredths(sums[at].0),
            postage: Money::hundredths(sums[at].1),
        })
    };
    model
        .suppliers
        .iter()
        .enumerate()
        .filter_map(bill)
        .collect()
}

fn in_stems(thousandths: u64) -> f64 {
    thousandths as f64 / STEM as f64
}
