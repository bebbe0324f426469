//! The order that is least short, against every order there is on small cases.

use crate::common::small_orders::{any_small, every, patience};
use proptest::prelude::*;
use trug::order::model::{Choice, Model};
use trug::order::solve::check::Fault;
use trug::order::solve::{least_cost, least_shortfall};

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
