//! What is set aside, on drawn plans: no order meets it by itself, and all else is settled as if it were not asked
//! for.

use crate::common::plans::{Drawn, drawn, read};
use proptest::prelude::*;
use trug::order::solve::{Progress, Solved, least_cost};
use trug::order::{Candidates, ListContext, Plan, Rest, Settled, Status, causes, settle};

/// A drawn plan whose needs are larger, or whose offers are scarcer, or which is planted late.
fn scarce(seed: u64, times: u32, weeks: i64) -> Drawn {
    let Drawn { list, plan } = drawn(seed);
    let mut plan = plan;
    let planted = plan
        .season
        .planted
        .checked_add(jiff::SignedDuration::from_hours(24 * 7 * weeks));
    let later = planted.expect("a day");
    for need in &mut plan.needs {
        let stems = need.stems.get().saturating_mul(times);
        need.stems = std::num::NonZeroU32::new(stems).expect("some");
    }
    let mut late = plan.clone();
    late.season.planted = later;
    if late.problems().is_empty() {
        plan = late;
    }
    Drawn { list, plan }
}

fn patience() -> impl FnMut(Progress) -> bool {
    |progress| progress.nodes > 3_000
}

fn settled(plan: &Plan, against: ListContext<'_>) -> Settled {
    settle(plan, against, &mut patience()).expect("a plan that means something")
}

/// The least cost of one need in one of its weeks by itself, whatever the beds and the money.
fn alone(candidates: &Candidates, need: usize, week: usize) -> Solved {
    let mut model = candidates.model.clone();
    for (at, other) in model.needs.iter_mut().enumerate() {
        for (own, stems) in other.stems.iter_mut().enumerate() {
            *stems *= u64::from((at, own) == (need, week));
        }
    }
    model.trials.clear();
    (model.places, model.money) = (None, None);
    for (offer, most) in model.offers.iter_mut().zip(&candidates.offered) {
        offer.most = *most;
    }
    model.limit_packs();
    least_cost(&model, &mut patience())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// By a search for an order, which knows nothing of what was set aside; and, where that asks for no number of
    /// kinds and no most from one, by all tubers that there are.
    #[test]
    fn what_is_set_aside_cannot_be_met_alone_and_all_else_can(seed in 0..100_000_u64, times in 1..6_u32, weeks in 0..8_i64) {
        let drawn = scarce(seed, times, weeks);
        read(&drawn, |against| {
            let candidates = Candidates::of(&drawn.plan, against).expect("candidates");
            let settled = settled(&drawn.plan, against);
            // What is fixed of a supplier who takes no order so small no order can have.
            let mut nothing = candidates.clone();
            nothing.model.needs.iter_mut().for_each(|need| need.stems.fill(0));
            if alone(&nothing, 0, 0).is_impossible() {
                return;
            }
            for (need, demand) in candidates.model.needs.iter().enumerate() {
                let aside = settled.aside().of(need).map_or(&[][..], |aside| &aside.weeks);
                for (at, week) in candidates.weeks.iter().enumerate().filter(|one| demand.runs(one.0)) {
                    let found = alone(&candidates, need, at);
                    match aside.contains(week) {
                        true => assert!(found.best.is_none(), "{seed}: {need} in week {week}: {found:?}"),
                        false => assert!(!found.is_impossible(), "{seed}: {need} in week {week}"),
                    }
                    let plain = demand.varieties < 2 && demand.forms < 2 && demand.most_from_one.is_none();
                    let scarce = candidates.model.suppliers.iter().all(|one| one.least == 0);
                    if plain && scarce {
                        let total = total(&drawn, against, need, *week);
                        let apart = 1e-6;
                        let asked = f64::from(drawn.plan.needs[need].stems.get());
                        match aside.contains(week) {
                            true => assert!(total < asked + apart, "{seed}: {need} in week {week}: {total}"),
                            false => assert!(total > asked - apart, "{seed}: {need} in week {week}: {total}"),
                        }
                    }
                }
            }
        });
    }

    /// The plan without the weeks that were set aside costs as much, and is proved as far.
    #[test]
    fn all_else_is_settled_as_if_what_is_set_aside_were_not_asked_for(seed in 0..100_000_u64, times in 1..4_u32, weeks in 0..8_i64) {
        let drawn = scarce(seed, times, weeks);
        read(&drawn, |against| {
            let settled = settled(&drawn.plan, against);
            let mut without = drawn.plan.clone();
            let mut kept = Vec::new();
            for (at, need) in drawn.plan.needs.iter().enumerate() {
                let Some(aside) = settled.aside().of(at) else {
                    kept.push(need.clone());
                    continue;
                };
                let (first, last) = need.weeks;
                let left: Vec<u8> = (first..=last).filter(|week| !aside.weeks.contains(week)).collect();
                match (aside.kept, left.first(), left.last()) {
                    (Rest::Nothing, ..) => {}
                    (Rest::OtherWeeks, Some(first), Some(last)) if usize::from(last - first) + 1 == left.len() => {
                        let mut need = need.clone();
                        need.weeks = (*first, *last);
                        kept.push(need);
                    }
                    // Less of a need, or weeks with a gap between, no plan says.
                    _ => return,
                }
            }
            if kept.is_empty() || kept.len() == drawn.plan.needs.len() && settled.aside().is_empty() {
                return;
            }
            without.needs = kept;
            without.tried.clear();
            if settled.aside().trials.is_empty() {
                without.tried = drawn.plan.tried.clone();
            } else if settled.aside().trials.len() < drawn.plan.tried.len() {
                return;
            }
            let other = self::settled(&without, against);
            assert!(!other.candidates.aside.needs.iter().any(|aside| !aside.weeks.is_empty()), "{seed}");
            // What was stopped says nothing.
            let proved = |one: &Settled| {
                matches!(one.status, Status::Optimal | Status::Short { proved: true, .. })
            };
            if !proved(&settled) || !proved(&other) {
                return;
            }
            assert_eq!(settled.status.meets_all(), other.status.meets_all(), "{seed}");
            if settled.status.meets_all() {
                let costs = [&settled, &other].map(|one| one.order.as_ref().map(|order| order.cost));
                assert_eq!(costs[0], costs[1], "{seed}");
            }
        });
    }

    #[test]
    fn a_plan_that_can_be_met_has_no_causes_and_one_that_cannot_has_some(seed in 0..100_000_u64, times in 1..4_u32) {
        let drawn = scarce(seed, times, 0);
        read(&drawn, |against| {
            let settled = settled(&drawn.plan, against);
            let told = causes(&drawn.plan, against, &settled, &mut patience());
            if !settled.falls_short() {
                assert_eq!(told, Vec::new(), "{seed}");
            }
            // Every need that lacks stems has a cause in each of the weeks in which it does.
            let short = settled.order.iter().flat_map(|order| order.short());
            for one in short {
                let of = |week: u8| told.iter().any(|cause| cause.need == one.need && cause.weeks.contains(&week));
                assert!(of(one.week), "{seed}: {one:?} {told:?}");
            }
            for cause in &told {
                let name = &drawn.plan.needs[cause.need].name;
                for set in &cause.competes {
                    assert!(!set.contains(&cause.need) && !set.is_empty(), "{seed}: {name}");
                }
            }
        });
    }
}

/// Stems that all tubers that can be had give a need in a week, from the words of the plan.
fn total(drawn: &Drawn, against: ListContext<'_>, need: usize, week: u8) -> f64 {
    let Drawn { list, plan } = drawn;
    let candidates = Candidates::of(plan, against).expect("candidates");
    let own = candidates.matches.iter().enumerate();
    let serving = own.filter(|(_, matches)| matches.iter().any(|one| one.need == need));
    let of = |at: usize| {
        let variety = &list.list()[candidates.rows[at]];
        let kept = (f64::from(variety.on_hand.unwrap_or(0)) * plan.storage() / 100.0).floor();
        let packs = |offer: &trug::variety::Offer| {
            let open = offer.closes.is_none_or(|closes| closes >= plan.ordered);
            let fixed = plan
                .fixed
                .iter()
                .find(|one| one.variety == variety.name && one.supplier == offer.supplier);
            let wished = !plan.shortlist_only || variety.shortlist.is_some() || fixed.is_some();
            let most = offer.available.map_or(1e9, f64::from);
            let most = fixed.map_or(most, |fixed| f64::from(fixed.packs));
            f64::from(u8::from(open && wished)) * most * f64::from(offer.pack.get())
        };
        let bought: f64 = variety.offers.iter().map(packs).sum();
        let each = plan
            .season
            .gives(variety, candidates.first_cuts[at], &[week]);
        (kept + bought) * each.iter().sum::<u64>() as f64 / 1000.0
    };
    serving.map(|(at, _)| of(at)).sum()
}
