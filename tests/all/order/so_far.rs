//! The season as it goes: what counts say of the promises that are left.

use jiff::civil::{Date, date};
use proptest::prelude::*;
use std::sync::LazyLock;
use trug::order::{
    Candidates, Cut, Left, ListContext, Order, Plan, Prior, SoFar, Spreads, chances_left,
    free_to_sell, going, settle_candidates,
};
use trug::variety::{Index, Varieties};

use crate::common::order_lane::{LIST, PLAN};
use crate::common::orders::Demo;

/// A small plan with its list, settled.
struct Bench {
    plan: Plan,
    list: Varieties,
    candidates: Candidates,
    order: Order,
}

static BENCH: LazyLock<Bench> = LazyLock::new(|| {
    let demo = Demo {
        list: Varieties::read("varieties.ron", LIST).expect("a list"),
        plan: Plan::read("order.ron", PLAN).expect("a plan"),
        ..Demo::read()
    };
    let index = Index::new(&demo.list, demo.grounds());
    let against = ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    };
    let candidates = Candidates::of(&demo.plan, against).expect("candidates");
    let settled = settle_candidates(candidates.clone(), &mut |_| false);
    let order = settled.order.expect("an order");
    let (plan, list) = (demo.plan.clone(), demo.list.clone());
    Bench {
        plan,
        list,
        candidates,
        order,
    }
});

fn cut(variety: &str, day: Date, stems: u32) -> Cut {
    Cut {
        variety: variety.to_string().try_into().expect("a name"),
        day,
        stems: Some(stems),
        plants: None,
    }
}

impl Bench {
    fn known(&self, cuts: &[Cut]) -> SoFar {
        let prior = Prior::of(
            &self.plan,
            &self.candidates,
            &self.list,
            &self.order,
            Spreads::assumed(),
        );
        let going = going(
            &self.plan,
            &self.candidates,
            &self.list,
            &self.order,
            cuts,
            None,
        );
        SoFar::of(&prior, &going.map_or(Vec::new(), |going| going.counted))
    }

    /// The promises that are left from a day on, after these cuts.
    fn left(&self, cuts: &[Cut], day: Date) -> Vec<Left> {
        let known = self.known(cuts);
        chances_left(
            &self.plan,
            &self.candidates,
            &self.list,
            &self.order,
            &known,
            day,
            100,
        )
    }
}

/// Week 34 ends on 29 August 2027.
const DAY: Date = date(2027, 8, 29);

/// Whether no promise of `better` has less of a chance.
fn is_no_worse(better: &[Left], worse: &[Left]) -> bool {
    better.len() == worse.len()
        && better.iter().zip(worse).all(|(better, worse)| {
            let weeks = better.weeks.iter().zip(&worse.weeks);
            better.of == worse.of
                && better.throughout >= worse.throughout
                && weeks.into_iter().all(|(one, other)| one.1 >= other.1)
        })
}

fn cuts() -> impl Strategy<Value = Vec<Cut>> {
    let one = (0_usize..2, 0_i8..14, 0_u32..40).prop_map(|(variety, day, stems)| {
        let name = ["Haaf Bell", "Ebb Kist"][variety];
        cut(name, date(2027, 8, 16 + day), stems)
    });
    prop::collection::vec(one, 1..6)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn counting_more_stems_never_lowers_the_chance_of_a_promise(cuts in cuts(), more in 1_u32..60, at in 0_usize..6) {
        let mut with = cuts.clone();
        let at = at % cuts.len();
        with[at].stems = with[at].stems.map(|stems| stems + more);
        prop_assert!(is_no_worse(&BENCH.left(&with, DAY), &BENCH.left(&cuts, DAY)));
    }

    #[test]
    fn a_count_of_nothing_in_a_week_of_flowers_never_raises_the_chance_of_a_promise(cuts in cuts(), variety in 0_usize..2) {
        let mut with = cuts.clone();
        with.push(cut(["Haaf Bell", "Ebb Kist"][variety], DAY, 0));
        // One that was never counted is not taken to have given nothing before.
        let known = cuts.iter().any(|cut| cut.variety.as_str() == ["Haaf Bell", "Ebb Kist"][variety]);
        prop_assume!(known);
        prop_assert!(is_no_worse(&BENCH.left(&cuts, DAY), &BENCH.left(&with, DAY)));
    }
}

/// A poor August leaves less of a chance and less to sell than a good one; weeks that have begun are no
/// longer told of.
#[test]
fn a_poor_august_leaves_less_to_promise_and_to_sell() {
    let of = |stems: u32| {
        let cuts = [cut("Haaf Bell", date(2027, 8, 27), stems)];
        let known = BENCH.known(&cuts);
        let Bench {
            plan,
            list,
            candidates,
            order,
        } = &*BENCH;
        let free = free_to_sell(plan, candidates, list, order, &known, DAY);
        (BENCH.left(&cuts, DAY), free)
    };
    let [(poor, poor_free), (good, good_free)] = [4, 60].map(of);
    assert!(is_no_worse(&good, &poor) && good != poor);
    for left in &poor {
        assert!(left.weeks.iter().all(|(week, _)| *week > 34), "{left:?}");
    }
    assert_eq!(
        poor_free.iter().map(|one| one.week).collect::<Vec<_>>(),
        [35, 36, 37, 38]
    );
    for (poor, good) in poor_free.iter().zip(&good_free) {
        assert!(poor.expected < good.expected && poor.free <= good.free);
        assert!(poor.free <= poor.expected && poor.expected <= poor.free + poor.promised + 1e-9);
        let of: f64 = good.of.iter().map(|one| one.1).sum();
        assert!(of <= good.free + 1e-9 && of > good.free - 3.0);
    }
}

/// Worked by hand: by the end of Friday five days of seven of week 34 are gone, and cuts of other years are
/// no part of it.
#[test]
fn a_week_that_has_begun_counts_by_its_days() {
    let Bench {
        plan,
        list,
        candidates,
        order,
    } = &*BENCH;
    let of = |day: Date| {
        let cuts = [
            cut("Haaf Bell", day, 5),
            cut("Haaf Bell", date(2026, 8, 20), 99),
        ];
        let going = going(plan, candidates, list, order, &cuts, None).expect("a season");
        assert_eq!(
            (going.day, going.counted.len(), going.counted[0].cut),
            (day, 1, 5)
        );
        let weeks: f64 = going.weeks.iter().map(|one| one.planned_of_counted).sum();
        assert!((weeks - going.counted[0].planned).abs() < 1e-9);
        going.counted[0].planned
    };
    let [before, friday, all] = [date(2027, 8, 22), date(2027, 8, 27), date(2027, 8, 29)].map(of);
    assert!((friday - before - (all - before) * 5.0 / 7.0).abs() < 1e-9);
}
