//! Orders small enough to try every one there is, and every way to count.

use proptest::prelude::*;
use trug::order::model::{Candidate, Demand, Model, Pack, Supplier, TryOut};
use trug::order::solve::Progress;

/// Every way to count upwards with so many values a place.
pub(crate) fn every(sizes: Vec<u64>) -> impl Iterator<Item = Vec<u64>> {
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

/// Three varieties, two needs, two weeks, two suppliers.
pub(crate) fn any_small() -> impl Strategy<Value = Model> {
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
        prop::option::weighted(0.2, Just(0)),
    )
        .prop_map(|(form, on_hand, yields, serves, most_plants)| Candidate {
            form,
            on_hand,
            yields,
            serves: (0..2).filter(|need| serves >> need & 1 == 1).collect(),
            most_plants,
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
pub(crate) fn patience() -> impl FnMut(Progress) -> bool {
    |progress| progress.nodes > 20_000
}
