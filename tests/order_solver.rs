//! The search for the least-cost order, against every order there is on small cases, and as files
//! for an outside solver.

#[path = "common/orders.rs"]
#[allow(dead_code)]
mod orders;

use std::path::PathBuf;

use orders::{Kind, drawn};
use proptest::prelude::*;
use trug::order::model::{Candidate, Choice, Demand, Model, Pack, Supplier, TryOut};
use trug::order::solve::check::Fault;
use trug::order::solve::{Progress, fewest_plants, least_cost, least_shortfall};

/// Every way to count upwards with so many values a place.
fn every(sizes: Vec<u64>) -> impl Iterator<Item = Vec<u64>> {
    let all: u64 = sizes.iter().product();
    (0..all).map(move |number| {
        let mut left = number;
        let digit = |size: &u64| {
            let digit = left % size;
            left /= size;
            digit
        };
        sizes.iter().map(digit).collect()
    })
}

/// Whether some planting of these packs meets every condition.
fn can_serve(model: &Model, packs: &[u64]) -> bool {
    let tubers = model.tubers(packs);
    let plantings: Vec<Vec<u64>> = match model.places {
        Some(_) => every(tubers.iter().map(|tubers| tubers + 1).collect()).collect(),
        None => vec![tubers],
    };
    let able: Vec<Vec<usize>> = (model.needs.iter().enumerate())
        .map(|(at, need)| {
            let serves = |one: &usize| need.counts() && model.varieties[*one].serves.contains(&at);
            (0..model.varieties.len()).filter(serves).collect()
        })
        .collect();
    plantings.into_iter().any(|plants| {
        every(able.iter().map(|able| 1 << able.len()).collect()).any(|sets| {
            let counted = able.iter().zip(sets).map(|(able, set)| {
                let member = |(at, one): (usize, &usize)| (set >> at & 1 == 1).then_some(*one);
                able.iter().enumerate().filter_map(member).collect()
            });
            let choice = Choice {
                packs: packs.to_vec(),
                plants: plants.clone(),
                counted: counted.collect(),
            };
            model.faults(&choice).is_empty()
        })
    })
}

/// The least cost by trying every order, cheapest first.
fn by_trying_all(model: &Model) -> Option<u64> {
    let sizes = model
        .offers
        .iter()
        .map(|offer| offer.most - offer.least + 1)
        .collect();
    let mut orders: Vec<Vec<u64>> = every(sizes)
        .map(|over| {
            over.iter()
                .zip(&model.offers)
                .map(|(over, offer)| offer.least + over)
                .collect()
        })
        .collect();
    orders.sort_by_key(|packs| model.cost(packs));
    let first = orders.into_iter().find(|packs| can_serve(model, packs));
    first.map(|packs| model.cost(&packs))
}

fn any_small() -> impl Strategy<Value = Model> {
    let need = (
        prop::collection::vec(0..4_u64, 2),
        prop::option::weighted(0.3, 40..100_u64),
        1..3_u64,
        1..3_u64,
    )
        .prop_map(|(stems, most_from_one, varieties, forms)| Demand {
            name: String::new(),
            stems: stems.iter().map(|stems| stems * 1000).collect(),
            most_from_one,
            varieties,
            forms,
            each: 1000,
        });
    let variety = (
        0..2_usize,
        0..3_u64,
        prop::collection::vec(0..2500_u64, 2),
        1..4_u8,
    )
        .prop_map(|(form, on_hand, yields, serves)| Candidate {
            form,
            on_hand,
            yields,
            serves: (0..2).filter(|need| serves >> need & 1 == 1).collect(),
            ..Candidate::default()
        });
    let offer = (
        0..3_usize,
        0..2_usize,
        1..40_u64,
        1..3_u64,
        0..2_u64,
        0..3_u64,
    )
        .prop_map(|(variety, supplier, price, tubers, least, more)| Pack {
            variety,
            supplier,
            price: price * 5,
            tubers,
            least: least * more,
            most: more,
        });
    let supplier = (0..20_u64, prop::option::of(20..200_u64), 0..80_u64).prop_map(
        |(postage, free_over, least)| Supplier {
            name: String::new(),
            postage: postage * 5,
            free_over,
            least,
        },
    );
    (
        prop::collection::vec(need, 2),
        prop::collection::vec(variety, 3),
        prop::collection::vec(offer, 1..5),
        prop::collection::vec(supplier, 2),
        prop::option::weighted(0.4, 1..7_u64),
        prop::option::weighted(0.3, 1..3_u64),
    )
        .prop_map(
            |(needs, varieties, offers, suppliers, places, tried)| Model {
                weeks: 2,
                suppliers,
                varieties,
                offers,
                needs,
                trials: (tried.into_iter())
                    .map(|plants| TryOut {
                        name: String::new(),
                        varieties: vec![0, 2],
                        plants,
                    })
                    .collect(),
                places,
                money: None,
            },
        )
}

/// Small orders that miss by a hair take long to prove impossible: these are given up.
fn patience() -> impl FnMut(Progress) -> bool {
    |progress| progress.nodes > 20_000
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_order_is_the_least_of_all_there_are(model in any_small()) {
        let solved = least_cost(&model, &mut patience());
        match by_trying_all(&model) {
            Some(cost) => {
                prop_assert!(solved.is_optimal());
                prop_assert_eq!(solved.value, cost);
                let best = solved.best.expect("an order");
                prop_assert_eq!(model.faults(&best), []);
            }
            None => {
                prop_assert!(solved.best.is_none(), "{:?}", solved);
                prop_assume!(solved.is_impossible());
            }
        }
    }

    #[test]
    fn limiting_packs_to_what_is_of_use_changes_no_cost(model in any_small()) {
        let mut limited = model.clone();
        limited.limit_packs();
        let (before, after) = (least_cost(&model, &mut patience()), least_cost(&limited, &mut patience()));
        prop_assert_eq!((before.value, before.bound), (after.value, after.bound));
    }

    #[test]
    fn what_is_short_is_nothing_where_there_is_an_order(model in any_small()) {
        let solved = least_cost(&model, &mut patience());
        let short = least_shortfall(&model, &mut patience());
        if solved.best.is_some() {
            prop_assert_eq!(short.value, 0);
        } else if short.best.is_some() {
            prop_assert!(short.value > 0);
        }
    }

    #[test]
    fn the_fewest_plants_are_the_smallest_bed_that_does(model in any_small()) {
        let fewest = fewest_plants(&model, &mut patience());
        if fewest.best.is_some() {
            let bed = |places| Model { places: Some(places), ..model.clone() };
            prop_assert!(least_cost(&bed(fewest.value), &mut patience()).best.is_some());
            if fewest.value > 0 {
                prop_assert!(least_cost(&bed(fewest.value - 1), &mut patience()).is_impossible());
            }
        } else {
            let unlimited = Model { places: None, ..model };
            prop_assert!(least_cost(&unlimited, &mut patience()).is_impossible());
        }
    }
}

/// Two varieties at one price, told apart by a limit on each: the fitter is bought, whichever stands
/// first, up to its limit; and a penny less decides against it.
#[test]
fn among_equal_costs_the_fitter_is_bought() {
    let model = |merits: [u64; 2], prices: [u64; 2]| {
        let variety = |merit: u64| Candidate {
            yields: vec![1000],
            serves: vec![0],
            merit,
            most_plants: Some(8),
            ..Candidate::default()
        };
        let offer = |variety: usize| Pack {
            variety,
            price: prices[variety],
            tubers: 1,
            most: 20,
            ..Pack::default()
        };
        Model {
            weeks: 1,
            suppliers: vec![Supplier::default()],
            varieties: merits.map(variety).to_vec(),
            offers: (0..2).map(offer).collect(),
            needs: vec![Demand {
                stems: vec![10_000],
                varieties: 1,
                forms: 1,
                each: 1000,
                ..Demand::default()
            }],
            ..Model::default()
        }
    };
    for (merits, prices, packs) in [
        ([300, 900], [500, 500], [2, 8]),
        ([900, 300], [500, 500], [8, 2]),
        ([900, 300], [500, 499], [2, 8]),
        ([300, 900], [499, 500], [8, 2]),
    ] {
        let solved = least_cost(&model(merits, prices), &mut |_| false);
        assert!(solved.is_optimal());
        assert_eq!(solved.best.map(|best| best.packs), Some(packs.to_vec()));
    }
}

/// Stems short in all weeks at the least, by trying every order and planting: in a week the worst
/// set of needs is short of what it wants beyond what varieties can give it (Gale 1957).
fn least_short_by_trying_all(model: &Model, money: u64) -> Option<u64> {
    let short = |plants: &[u64], week: usize| {
        let excess = |set: usize| {
            let chosen = || (0..model.needs.len()).filter(|need| set >> need & 1 == 1);
            let wanted: u64 = chosen().map(|need| model.needs[need].stems[week]).sum();
            let given = model.varieties.iter().zip(plants).map(|(one, plants)| {
                let able = chosen().filter(|need| one.serves.contains(need));
                let through = able.map(|need| model.needs[need].limit(week).unwrap_or(u64::MAX));
                let through = through.fold(0_u64, |sum, limit| sum.saturating_add(limit));
                through.min(one.yields[week] * plants)
            });
            wanted.saturating_sub(given.sum())
        };
        (0..1 << model.needs.len()).map(excess).max().unwrap_or(0)
    };
    let sizes = { model.offers.iter() }
        .map(|offer| offer.most - offer.least + 1)
        .collect();
    let orders = every(sizes).map(|over| {
        let offers = over.iter().zip(&model.offers);
        offers
            .map(|(over, offer)| offer.least + over)
            .collect::<Vec<u64>>()
    });
    let least = |packs: Vec<u64>| {
        let plantings = every(model.tubers(&packs).iter().map(|one| one + 1).collect());
        let within = |plants: &Vec<u64>| {
            let bed = model
                .places
                .is_none_or(|places| plants.iter().sum::<u64>() <= places);
            let choice = Choice {
                packs: packs.clone(),
                plants: plants.clone(),
                counted: vec![Vec::new(); model.needs.len()],
            };
            let only_stems = |fault: &Fault| matches!(fault, Fault::Stems(..));
            bed && model.cost(&packs) <= money && model.faults(&choice).iter().all(only_stems)
        };
        let all = |plants: Vec<u64>| {
            (0..model.weeks)
                .map(|week| short(&plants, week))
                .sum::<u64>()
        };
        plantings.filter(within).map(all).min()
    };
    orders.filter_map(least).min()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn what_is_short_is_the_least_there_is(model in any_small(), money in 0..600_u64) {
        let mut model = Model { trials: Vec::new(), money: Some(money), ..model };
        model.needs.iter_mut().for_each(|need| (need.varieties, need.forms) = (1, 1));
        let short = least_shortfall(&model, &mut patience());
        match least_short_by_trying_all(&model, money) {
            Some(least) => {
                prop_assert!(short.best.is_some());
                // Right to a stem.
                prop_assert!(short.value >= least && short.value <= least + 1000, "{} {least}", short.value);
                prop_assert!(short.bound.is_some_and(|bound| bound <= least + 1000));
            }
            None => prop_assert!(short.best.is_none()),
        }
    }

    #[test]
    fn with_more_money_no_more_is_short(model in any_small(), money in 0..600_u64) {
        let short = |money| {
            let model = Model { money: Some(money), ..model.clone() };
            let found = least_shortfall(&model, &mut patience());
            found.best.is_some().then_some(found.value)
        };
        if let Some(before) = short(money) {
            prop_assert!(short(money + 100).is_some_and(|after| after <= before + 1000));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn more_bed_or_another_offer_never_costs_more(seed in 0..10_000_u64, diverse: bool) {
        let kind = Kind { varieties: 20, weeks: 6, needs: 2, diverse, tight: true, step: 25 };
        let model = drawn(seed, kind);
        let before = least_cost(&model, &mut patience());
        prop_assume!(before.is_optimal());
        let mut wider = model.clone();
        wider.places = model.places.map(|places| places + 7);
        wider.limit_packs();
        let mut offered = model.clone();
        let offer = offered.offers[0].clone();
        offered.offers.push(Pack { price: offer.price / 2, ..offer });
        for more in [wider, offered] {
            let after = least_cost(&more, &mut patience());
            prop_assert!(after.is_optimal());
            prop_assert!(after.value <= before.value);
        }
    }
}

/// What is drawn for the outside solver: every kind, small enough for it to prove in a second or so.
fn for_outside() -> Vec<(String, Model)> {
    let mut all = Vec::new();
    for at in 0..36_u64 {
        let kind = Kind {
            varieties: [8, 12, 20, 40][at as usize % 4],
            weeks: [4, 6, 10][at as usize % 3],
            needs: [1, 2, 3][(at / 2) as usize % 3],
            diverse: at % 2 == 0,
            tight: at % 5 == 0,
            step: [25, 1][(at / 4) as usize % 2],
        };
        all.push((format!("drawn-{at:02}"), drawn(at + 1, kind)));
    }
    all
}

/// Writes what `tests/outside/order_agrees.py` gives to HiGHS: each model, and our proved cost.
#[test]
fn the_models_are_written_for_an_outside_solver() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("mps");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut expected = String::from("file\tcost\tour_microseconds\n");
    for (name, model) in for_outside() {
        let solved = least_cost(&model, &mut patience());
        std::fs::write(folder.join(format!("{name}.mps")), model.to_mps()).expect("written");
        let cost = match &solved.best {
            Some(best) => {
                assert!(solved.is_optimal(), "{name}");
                assert_eq!(model.faults(best), [], "{name}");
                solved.value.to_string()
            }
            None => {
                assert!(solved.is_impossible(), "{name}");
                "impossible".to_string()
            }
        };
        expected += &format!("{name}.mps\t{cost}\t\n");
    }
    std::fs::write(folder.join("expected-drawn.tsv"), expected).expect("written");
}
