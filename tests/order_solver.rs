//! The search for the least-cost order, against every order there is on small cases, and as files
//! for an outside solver.

#[path = "common/orders.rs"]
mod orders;

use std::path::PathBuf;

use orders::{Demo, Kind, drawn};
use proptest::prelude::*;
use trug::order::model::{Candidate, Choice, Demand, Model, Pack, Supplier, TryOut};
use trug::order::solve::{Progress, fewest_plants, least_cost, least_shortfall};
use trug::order::{Against, Candidates, Change};
use trug::variety::Index;

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
    let demo = Demo::read();
    let index = Index::new(&demo.list, demo.grounds());
    let against = Against {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
    };
    let demo = Candidates::of(&demo.plan, against, Change::default()).expect("candidates");
    let mut all = vec![(
        "demo".to_string(),
        Model {
            money: None,
            ..demo.model
        },
    )];
    for at in 0..28_u64 {
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
    std::fs::write(folder.join("expected.tsv"), expected).expect("written");
}
