//! The search for the least-cost order, against every order there is on small cases, and as files
//! for an outside solver.

use std::path::PathBuf;

use crate::common::orders::{Kind, drawn, with_fillers};
use crate::common::small_orders::{any_small, every, patience};
use proptest::prelude::*;
use trug::order::model::{Candidate, Choice, Demand, Model, Pack, Supplier};
use trug::order::solve::{fewest_plants, least_cost};

/// Whether some planting of these packs meets every condition.
fn can_serve(model: &Model, packs: &[u64]) -> bool {
    let most =
        |(one, tubers): (&Candidate, u64)| one.most_plants.map_or(tubers, |most| most.min(tubers));
    let tubers = model.varieties.iter().zip(model.tubers(packs)).map(most);
    let tubers: Vec<u64> = tubers.collect();
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
    // Who counts is said for each week by itself, and so each week is tried by itself.
    let weeks: Vec<Model> = (0..model.weeks).map(|week| only_in(model, week)).collect();
    plantings.into_iter().any(|plants| {
        weeks.iter().enumerate().all(|(week, model)| {
            every(able.iter().map(|able| 1 << able.len()).collect()).any(|sets| {
                let counted = able.iter().zip(sets).map(|(able, set)| {
                    let member = |(at, one): (usize, &usize)| (set >> at & 1 == 1).then_some(*one);
                    let mut weeks = vec![Vec::new(); model.weeks];
                    weeks[week] = able.iter().enumerate().filter_map(member).collect();
                    weeks
                });
                let choice = Choice {
                    packs: packs.to_vec(),
                    plants: plants.clone(),
                    counted: counted.collect(),
                };
                model.faults(&choice).is_empty()
            })
        })
    })
}

/// The same model with needs in one week alone.
fn only_in(model: &Model, week: usize) -> Model {
    let mut model = model.clone();
    for need in &mut model.needs {
        for (at, stems) in need.stems.iter_mut().enumerate() {
            *stems = if at == week { *stems } else { 0 };
        }
    }
    model
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn more_bed_or_another_offer_never_costs_more(seed in 0..10_000_u64, diverse: bool) {
        let kind = Kind { varieties: 20, weeks: 6, needs: 2, diverse, tight: true, step: 25 };
        let model = drawn(seed, kind);
        // What is not proved soon proves nothing here.
        let soon = |model: &Model| least_cost(model, &mut |progress| progress.nodes > 1_000);
        let before = soon(&model);
        prop_assume!(before.is_optimal());
        let mut wider = model.clone();
        wider.places = model.places.map(|places| places + 7);
        wider.limit_packs();
        let mut offered = model.clone();
        let offer = offered.offers[0].clone();
        offered.offers.push(Pack { price: offer.price / 2, ..offer });
        for more in [wider, offered] {
            let after = soon(&more);
            prop_assert!(after.bound.is_some_and(|bound| bound <= before.value));
            prop_assert!(!after.is_optimal() || after.value <= before.value);
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
        let model = drawn(at + 1, kind);
        if at % 3 == 0 {
            all.push((
                format!("padded-{at:02}"),
                with_fillers(&model, at, 30, 10..250, kind.step),
            ));
        }
        all.push((format!("drawn-{at:02}"), model));
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
