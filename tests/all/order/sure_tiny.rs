//! Tiny plans in a handful of seasons, by every order that there is and every season: an order that is said to be
//! sure is, its chances are what counting gives, and its cost is told against the least there is.
//!
//! Counting is by what the plan's words mean and by no flow: needs have together all that they want where no set of
//! them wants more than can reach it (Gale, Pacific J. Math. 7:1073-1082, 1957, from memory).

use std::ops::Range;

use crate::common::small_orders::{any_small, every};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use trug::order::model::{Demand, Model};
use trug::order::{Candidates, Grows, Settled, Status, Whole, settle_surely_in};

/// Plans drawn.
const PLANS: usize = 400;
/// In so many of a hundred plans the least cost there is must be found. Of 64 that had to be made surer it was
/// in 60, and none was missed.
const FOUND: usize = 90;
/// No order found may cost more than so many times the least: the worst of them cost 1.45 times as much, for a
/// tiny plan is a pack or two.
const WORST: f64 = 2.0;

/// A plan and all the seasons that there may be.
#[derive(Debug, Clone)]
struct Tiny {
    model: Model,
    sure: Vec<f64>,
    /// How sure both needs are to be as one, where they are parts of one event.
    as_one: Option<f64>,
    /// By season, variety and week: thousandths of a stem that a plant gives.
    seasons: Vec<Vec<Vec<u64>>>,
}

impl Grows for Tiny {
    fn count(&self) -> usize {
        self.seasons.len()
    }

    fn grown(&self, candidate: usize, plants: u64, seasons: Range<usize>) -> Vec<i64> {
        let own = self.seasons[seasons]
            .iter()
            .flat_map(|season| &season[candidate]);
        own.map(|stems| (stems * plants) as i64).collect()
    }
}

/// A tiny plan in five seasons, each of its varieties better or worse in each; some have an early frost.
fn any_tiny() -> impl Strategy<Value = Tiny> {
    let factor = prop::sample::select(vec![30_u64, 60, 80, 90, 100, 110, 130]);
    let season = (prop::collection::vec(factor, 3), prop::bool::weighted(0.12));
    let sure = prop::sample::select(vec![0.5, 0.6, 0.75, 0.8, 0.95]);
    (
        any_small(),
        prop::collection::vec(season, 5),
        prop::collection::vec(sure.clone(), 2),
        prop::option::weighted(0.5, sure),
        prop::option::weighted(0.3, 100..900_u64),
        prop::option::weighted(0.3, 2..8_u64),
    )
        .prop_map(|(mut model, seasons, sure, as_one, money, places)| {
            model.money = money;
            model.places = places;
            for offer in &mut model.offers {
                offer.most += 1;
            }
            let season = |(factors, frost): (Vec<u64>, bool)| {
                let of_variety = |(one, factor): (&trug::order::model::Candidate, u64)| {
                    let in_week = |(week, stems): (usize, &u64)| match frost && week == 1 {
                        true => 0,
                        false => stems * factor / 100,
                    };
                    one.yields.iter().enumerate().map(in_week).collect()
                };
                let both = model.varieties.iter().zip(factors);
                both.map(of_variety).collect()
            };
            Tiny {
                seasons: seasons.into_iter().map(season).collect(),
                model,
                sure,
                as_one,
            }
        })
}

impl Tiny {
    fn settled(&self) -> Settled {
        let mut model = self.model.clone();
        model.limit_packs();
        let candidates = Candidates {
            weeks: vec![35, 36],
            rows: vec![0, 1, 2],
            first_cuts: vec![12; 3],
            offers: vec![0; model.offers.len()],
            offered: self.model.offers.iter().map(|offer| offer.most).collect(),
            matches: vec![Vec::new(); 3],
            sure: self.sure.clone(),
            wholes: { self.as_one.iter() }
                .map(|sure| Whole {
                    work: 0,
                    needs: vec![0, 1],
                    sure: *sure,
                })
                .collect(),
            aside: trug::order::SetAside::default(),
            notes: Vec::new(),
            model,
        };
        let mut nodes = 0;
        settle_surely_in(candidates, self, &mut |_| {
            nodes += 1;
            nodes > 20_000
        })
    }

    /// By need, then of both as one where they are: the share of the seasons in which it has all its stems in
    /// every week.
    fn chances(&self, plants: &[u64]) -> Vec<f64> {
        let mut turns: Vec<usize> = (0..2).collect();
        turns.sort_by(|one, other| self.sure[*other].total_cmp(&self.sure[*one]));
        let mut met = vec![0_u32; 2 + usize::from(self.as_one.is_some())];
        for season in &self.seasons {
            let mut all = vec![true; 2];
            for week in 0..self.model.weeks {
                let supply = season
                    .iter()
                    .zip(plants)
                    .map(|(one, plants)| one[week] * plants);
                let supply: Vec<u64> = supply.collect();
                let mut before = 0;
                for last in 0..turns.len() {
                    let together = self.together(&turns[..=last], &supply, week);
                    let wants = self.model.needs[turns[last]].stems[week];
                    all[turns[last]] &= together - before >= wants;
                    before = together;
                }
            }
            all.push(all[0] && all[1]);
            let both = met.iter_mut().zip(all);
            both.for_each(|(met, all)| *met += u32::from(all));
        }
        let count = self.seasons.len() as f64;
        met.into_iter().map(|met| f64::from(met) / count).collect()
    }

    /// The most that needs can have together of what there is in a week: the least, over the sets of them, of
    /// what the others want and what can reach the set.
    fn together(&self, needs: &[usize], supply: &[u64], week: usize) -> u64 {
        let of_set = |set: usize| {
            let (mut within, mut others) = (Vec::new(), 0);
            for (at, need) in needs.iter().enumerate() {
                match set >> at & 1 == 1 {
                    true => within.push(*need),
                    false => others += self.model.needs[*need].stems[week],
                }
            }
            let through = |(at, supply): (usize, &u64)| {
                let caps = within.iter().map(|need| self.cap(at, *need, week));
                caps.sum::<u64>().min(*supply)
            };
            others + supply.iter().enumerate().map(through).sum::<u64>()
        };
        (0..1 << needs.len()).map(of_set).min().unwrap_or(0)
    }

    /// What a need may have of a variety in a week.
    fn cap(&self, variety: usize, need: usize, week: usize) -> u64 {
        let demand = &self.model.needs[need];
        if demand.stems[week] == 0 || !self.model.varieties[variety].serves.contains(&need) {
            return 0;
        }
        let each = if counts(demand) { demand.each } else { 0 };
        let share = demand
            .most_from_one
            .map(|most| demand.stems[week] * most / 100);
        share.map_or(1 << 40, |share| share.max(each))
    }

    /// Whether what is planted gives each need, on average, its stems from so many varieties and forms.
    fn does_on_average(&self, plants: &[u64]) -> bool {
        (0..self.model.weeks).all(|week| {
            let able = |need: usize| {
                let demand = &self.model.needs[need];
                let able = (0..3).filter(move |at| {
                    let one = &self.model.varieties[*at];
                    one.serves.contains(&need) && one.yields[week] * plants[*at] > 0
                });
                let able: Vec<usize> = able.collect();
                if counts(demand) && demand.stems[week] > 0 {
                    able
                } else {
                    Vec::new()
                }
            };
            let able = [able(0), able(1)];
            every(able.iter().map(|able| 1 << able.len()).collect()).any(|sets| {
                let counted = |need: usize| {
                    let member = |at: &usize| sets[need] >> at & 1 == 1;
                    let own = (0..able[need].len()).filter(member);
                    own.map(|at| able[need][at]).collect::<Vec<usize>>()
                };
                self.does_in_week(plants, week, &[counted(0), counted(1)])
            })
        })
    }

    fn does_in_week(&self, plants: &[u64], week: usize, counted: &[Vec<usize>; 2]) -> bool {
        let model = &self.model;
        let own = model.varieties.iter().zip(plants);
        let mut supply: Vec<i64> = own
            .map(|(one, plants)| (one.yields[week] * plants) as i64)
            .collect();
        let mut wants: Vec<i64> = model
            .needs
            .iter()
            .map(|need| need.stems[week] as i64)
            .collect();
        let cap = |at: usize, need: usize| self.cap(at, need, week) as i64;
        let mut caps: Vec<Vec<i64>> = (0..3).map(|at| vec![cap(at, 0), cap(at, 1)]).collect();
        for (need, counted) in counted.iter().enumerate() {
            let demand = &model.needs[need];
            if !counts(demand) || demand.stems[week] == 0 {
                continue;
            }
            let mut forms: Vec<usize> =
                counted.iter().map(|at| model.varieties[*at].form).collect();
            forms.sort_unstable();
            forms.dedup();
            if (counted.len() as u64) < demand.varieties || (forms.len() as u64) < demand.forms {
                return false;
            }
            for at in counted {
                supply[*at] -= demand.each as i64;
                wants[need] -= demand.each as i64;
                caps[*at][need] -= demand.each as i64;
            }
        }
        let wants: Vec<i64> = wants.into_iter().map(|wants| wants.max(0)).collect();
        supply.iter().all(|supply| *supply >= 0)
            && (0..4_usize).all(|set| {
                let within = || (0..2).filter(|need| set >> need & 1 == 1);
                let wanted: i64 = within().map(|need| wants[need]).sum();
                let through = supply.iter().zip(&caps).map(|(supply, caps)| {
                    let through: i64 = within().map(|need| caps[need]).sum();
                    through.min(*supply)
                });
                wanted <= through.sum()
            })
    }

    /// The least cost of an order that is as sure as this, by trying every one from the cheapest on, whatever
    /// the money.
    fn least(&self, aims: &[f64]) -> Option<u64> {
        let model = &self.model;
        let sizes = model
            .offers
            .iter()
            .map(|offer| offer.most - offer.least + 1);
        let orders = every(sizes.collect()).map(|over| {
            let both = over.iter().zip(&model.offers);
            both.map(|(over, offer)| offer.least + over)
                .collect::<Vec<u64>>()
        });
        let mut orders: Vec<(u64, Vec<u64>)> = orders
            .filter(|packs| self.is_taken(packs))
            .map(|packs| (model.cost(&packs), packs))
            .collect();
        orders.sort();
        let first = orders.into_iter().find(|(_, packs)| {
            let most = |(at, tubers): (usize, u64)| {
                let most = model.varieties[at].most_plants.unwrap_or(tubers);
                most.min(tubers)
            };
            let most = model.tubers(packs).into_iter().enumerate().map(most);
            let most: Vec<u64> = most.collect();
            let mut plantings: Vec<Vec<u64>> = match model.places {
                // More is never worse where there is room.
                None => vec![most],
                Some(_) => every(most.iter().map(|most| most + 1).collect()).collect(),
            };
            plantings.retain(|plants| self.may_stand(plants));
            plantings.into_iter().any(|plants| {
                let chances = self.chances(&plants);
                let sure = chances.iter().zip(aims).all(|(chance, aim)| chance >= aim);
                sure && self.does_on_average(&plants)
            })
        });
        first.map(|(cost, _)| cost)
    }

    /// Whether each supplier takes its part of an order.
    fn is_taken(&self, packs: &[u64]) -> bool {
        let worth = |supplier: usize| {
            let own = self.model.offers.iter().zip(packs);
            let own = own.filter(move |(offer, _)| offer.supplier == supplier);
            let bought: Vec<u64> = own
                .filter(|(_, packs)| **packs > 0)
                .map(|(offer, packs)| offer.price * packs)
                .collect();
            (!bought.is_empty()).then(|| bought.iter().sum::<u64>())
        };
        let terms = self.model.suppliers.iter().enumerate();
        let mut taken = terms.map(|(at, terms)| worth(at).is_none_or(|worth| worth >= terms.least));
        taken.all(|taken| taken)
    }

    /// Whether it has room in the beds, and what is to be tried is there.
    fn may_stand(&self, plants: &[u64]) -> bool {
        let places = self.model.places;
        let room = places.is_none_or(|places| plants.iter().sum::<u64>() <= places);
        let mut trials = self.model.trials.iter();
        room && trials.all(|group| {
            let of = group.varieties.iter().map(|at| plants[*at]);
            of.sum::<u64>() >= group.plants
        })
    }
}

fn counts(demand: &Demand) -> bool {
    demand.varieties > 1 || demand.forms > 1
}

/// How far what was found lies above the least there is.
#[derive(Debug, Default)]
struct Told {
    /// Plans of which the average order was not sure enough, and a surer one was found.
    surer: usize,
    /// Those of them whose needs are to be met as one.
    as_one: usize,
    /// Those that cost as little as any.
    least: usize,
    /// Plans of which an order is sure enough that was not found.
    missed: usize,
    /// Plans of which none is.
    none: usize,
    /// The greatest cost as a multiple of the least.
    worst: f64,
}

#[test]
fn what_is_sure_is_so_by_counting_and_costs_little_over_the_least() {
    let mut runner = TestRunner::deterministic();
    let mut told = Told::default();
    let mut plans = 0;
    while plans < PLANS {
        let tiny = any_tiny().new_tree(&mut runner).expect("a plan").current();
        let settled = tiny.settled();
        // A plan has no need that asks for nothing.
        let is_judged = settled.status.meets_all() && !settled.falls_short();
        let is_judged = is_judged && tiny.model.needs.iter().all(Demand::asks);
        if !is_judged || matches!(settled.status, Status::Within { .. }) {
            continue;
        }
        plans += 1;
        judge(&tiny, &settled, &mut told);
    }
    assert!(told.surer >= PLANS / 8, "{told:?}");
    assert!(told.as_one * 3 >= told.surer, "{told:?}");
    assert!(told.least * 100 >= told.surer * FOUND, "{told:?}");
    assert!(told.missed * 100 <= told.surer * (100 - FOUND), "{told:?}");
    assert!(told.worst <= WORST, "{told:?}");
}

fn judge(tiny: &Tiny, settled: &Settled, told: &mut Told) {
    let order = settled.order.as_ref().expect("an order");
    let plants = &order.choice.plants;
    let chances = tiny.chances(plants);
    let mut aims = Vec::new();
    assert_eq!(settled.promises.len(), chances.len());
    for (promise, chance) in settled.promises.iter().zip(&chances) {
        assert_eq!(promise.chance, *chance, "{tiny:#?} {plants:?}");
        let beyond = promise.ceiling < promise.sure;
        aims.push(promise.sure * if beyond { promise.ceiling } else { 1.0 });
    }
    let cost = order.cost.in_hundredths();
    let money = tiny.model.money.unwrap_or(u64::MAX);
    assert!(tiny.may_stand(plants) && tiny.does_on_average(plants) && cost <= money);
    let sure = chances.iter().zip(&aims).all(|(chance, aim)| chance >= aim);
    let least = tiny.least(&aims);
    match settled.status {
        Status::Optimal => assert!(sure && least == Some(cost), "{tiny:#?} {cost} {least:?}"),
        Status::Found { bound, .. } => {
            let least = least.expect("one that is there");
            assert!(sure && least <= cost && bound.in_hundredths() <= least);
            told.surer += 1;
            told.as_one += usize::from(tiny.as_one.is_some());
            told.least += usize::from(least == cost);
            told.worst = told.worst.max(cost as f64 / least.max(1) as f64);
        }
        Status::Unsure { .. } => {
            assert!(!sure);
            let there = least.is_some_and(|least| least <= money);
            told.missed += usize::from(there);
            told.none += usize::from(!there);
        }
        other => panic!("{other:?}"),
    }
}

/// What is said of more money, more bed and another offer: chances are of what is planted alone, so an order of
/// before is as good as before. The search starts from another average order then: of 596 one was missed and
/// none was dearer, and one of a hundred may be.
#[test]
fn more_money_bed_or_offers_make_nothing_less_sure_nor_much_dearer() {
    let mut runner = TestRunner::deterministic();
    let (mut plans, mut compared, mut missed, mut dearer) = (0, 0, 0, 0);
    while plans < PLANS / 2 {
        let tiny = any_tiny().new_tree(&mut runner).expect("a plan").current();
        let settled = tiny.settled();
        if !matches!(settled.status, Status::Found { .. }) || settled.falls_short() {
            continue;
        }
        plans += 1;
        let before = settled.order.expect("an order");
        let mut richer = tiny.clone();
        richer.model.money = tiny.model.money.map(|money| money + 150);
        let mut wider = tiny.clone();
        wider.model.places = tiny.model.places.map(|places| places + 2);
        let mut offered = tiny.clone();
        let offer = offered.model.offers[0].clone();
        offered.model.offers.push(trug::order::model::Pack {
            price: offer.price * 3 / 4,
            least: 0,
            ..offer
        });
        for more in [richer, wider, offered] {
            let after = more.settled();
            let aims = after.promises.iter();
            let ceilings = aims.clone().zip(&settled.promises);
            for (after, before) in ceilings {
                assert!(after.ceiling >= before.ceiling, "{tiny:#?}");
            }
            // A need that can be surer now is asked to be.
            let as_much = aims.clone().zip(&settled.promises);
            let mut as_much = as_much.map(|(after, before)| {
                (
                    after.sure * after.ceiling.min(1.0),
                    before.sure * before.ceiling.min(1.0),
                )
            });
            if as_much.any(|(after, before)| after > before) {
                continue;
            }
            assert_eq!(
                more.chances(&before.choice.plants),
                tiny.chances(&before.choice.plants)
            );
            let order = after.order.expect("an order");
            let reached = matches!(after.status, Status::Found { .. } | Status::Optimal);
            compared += 1;
            missed += usize::from(!reached);
            dearer += usize::from(reached && order.cost > before.cost);
        }
    }
    assert!(compared >= PLANS, "{compared}");
    assert!(missed * 100 <= compared, "{missed} missed of {compared}");
    assert!(dearer * 100 <= compared, "{dearer} dearer of {compared}");
}
