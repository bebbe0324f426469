//! The demo's order, settled from the grower's files to the last sum.

use std::path::PathBuf;
use std::sync::OnceLock;

use crate::common::orders::Demo;
use trug::order::model::Pack;
use trug::order::solve::{Progress, least_cost};
use trug::order::{
    Aim, By, Candidates, Fixed, ListContext, Order, Plan, Settled, Status, chances, mends, settle,
    without,
};
use trug::variety::{Index, Money};

/// The list and a changed plan, for `then`.
fn with<T>(change: impl FnOnce(&mut Plan), then: impl FnOnce(&Plan, ListContext<'_>) -> T) -> T {
    let mut demo = Demo::read();
    change(&mut demo.plan);
    let index = Index::new(&demo.list, demo.grounds());
    let against = ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    };
    then(&demo.plan, against)
}

/// The demo as it is, settled once for all tests.
fn demo() -> &'static Settled {
    static SETTLED: OnceLock<Settled> = OnceLock::new();
    SETTLED.get_or_init(|| with(|_| (), |plan, against| settled(plan, against, usize::MAX)))
}

fn settled(plan: &Plan, against: ListContext<'_>, nodes: usize) -> Settled {
    settle(plan, against, &mut |progress| progress.nodes > nodes)
        .expect("a plan that means something")
}

fn order(settled: &Settled) -> &Order {
    settled.order.as_ref().expect("an order")
}

fn sum(amounts: impl Iterator<Item = Money>) -> u64 {
    amounts.map(Money::in_hundredths).sum()
}

/// Every printed total is the sum of its lines, and no week uses more stems than grow.
fn adds_up(settled: &Settled) {
    let order = order(settled);
    for bill in &order.bills {
        assert_eq!(
            bill.goods.in_hundredths(),
            sum(bill.lines.iter().map(|line| line.cost))
        );
        for line in &bill.lines {
            assert_eq!(
                line.cost.in_hundredths(),
                line.price.in_hundredths() * line.packs
            );
        }
    }
    let bills = order
        .bills
        .iter()
        .flat_map(|bill| [bill.goods, bill.postage]);
    assert_eq!(order.cost.in_hundredths(), sum(bills));
    assert_eq!(
        order.plants,
        order.planted.iter().map(|one| one.plants).sum::<u64>()
    );
    for one in &order.planted {
        assert_eq!(
            one.on_hand + one.bought,
            one.plants + one.spare,
            "{}",
            one.variety
        );
    }
    let given = |week: u8| -> f64 {
        order
            .weekly
            .iter()
            .filter(|one| one.week == week)
            .map(|one| one.given)
            .sum()
    };
    for (week, grown) in order.grown(&settled.candidates) {
        assert!(given(week) <= grown + 1e-6, "week {week}");
    }
}

#[test]
fn the_demo_is_settled_at_least_cost() {
    let settled = demo();
    assert_eq!(settled.status, Status::Optimal);
    assert!(settled.candidates.offers.len() >= 200);
    adds_up(settled);
    assert_eq!(order(settled).short().count(), 0);
    with(
        |_| (),
        |plan, _| {
            assert!(plan.needs.len() >= 10 && settled.candidates.weeks.len() >= 10);
            // To be as sure as is asked takes nearly all of the beds and of the money: a real choice.
            let kept = trug::folder::settled::settled(None, Aim::Surely).expect("it comes with it");
            let sure = kept.order(&settled.candidates).expect("of this list");
            let (plants, cost) = (sure.plants, sure.cost.in_hundredths());
            let money = plan.money.expect("a budget").in_hundredths();
            assert!(plants <= plan.places() && plants * 10 >= plan.places() * 9);
            assert!(cost <= money && cost * 10 >= money * 9);
            assert!(order(settled).cost < sure.cost);
        },
    );
    // For `tests/outside/order_agrees.py`, with the small ones of `order_solver`.
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("mps");
    std::fs::create_dir_all(&folder).expect("a folder");
    let whole = with(|_| (), Candidates::whole);
    let whole = whole.expect("a plan that means something");
    // Every offer of the list that is open on the day of the order, and no other.
    let open = with(
        |_| (),
        |plan, against| {
            let offers = against.list.list().iter().flat_map(|one| &one.offers);
            let open = offers.filter(|one| one.closes.is_none_or(|closes| closes >= plan.ordered));
            open.count()
        },
    );
    assert_eq!(whole.offers.len(), open);
    std::fs::write(folder.join("demo.mps"), whole.to_mps()).expect("written");
    let cost = order(settled).cost.in_hundredths();
    let expected = format!("file\tcost\tour_microseconds\ndemo.mps\t{cost}\t\n");
    std::fs::write(folder.join("expected-demo.tsv"), expected).expect("written");
}

#[test]
fn a_stopped_demo_gives_the_best_found_with_its_gap() {
    with(
        |_| (),
        |plan, against| {
            let settled = settled(plan, against, 40);
            adds_up(&settled);
            let Status::Within { bound, gap } = settled.status else {
                panic!("{:?}", settled.status);
            };
            let cost = order(&settled).cost.in_hundredths();
            let least = order(demo()).cost.in_hundredths();
            assert!(bound.in_hundredths() <= least && least <= cost);
            assert!(gap > 0.0 && gap < 0.1, "{gap}");
        },
    );
}

#[test]
fn doing_without_a_variety_costs_no_less() {
    let settled = demo();
    let bought = order(settled).planted.iter().find(|one| one.bought > 0);
    let first = bought.expect("something bought").row;
    // Stopped early, what is found costs more still.
    with(
        |_| (),
        |plan, against| {
            let mut stop = |progress: Progress| progress.nodes > 40;
            assert!(without(plan, against, settled, first, &mut stop).is_some());
        },
    );
}

#[test]
fn the_seasons_drawn_are_the_same_each_time() {
    let settled = demo();
    with(
        |_| (),
        |plan, against| {
            let (candidates, list) = (&settled.candidates, against.list);
            let drawn = |seasons| chances(plan, candidates, list, order(settled), seasons);
            let some = drawn(40);
            assert_eq!(some, drawn(40));
            for (week, [low, middle, high]) in &some.grown {
                assert!(low <= middle && middle <= high, "week {week}");
            }
            let shares = || some.met.iter().flatten().map(|(_, share)| *share);
            assert!(shares().all(|share| (0.0..=1.0).contains(&share)));
            assert!(shares().any(|share| share > 0.0) && shares().any(|share| share < 1.0));
        },
    );
}

#[test]
fn a_quantity_fixed_by_hand_stays() {
    let text = |text: &str| trug::variety::Text::new(text).expect("a text");
    let model = &demo().candidates.model;
    // Not in the least-cost order, and in it: one pack where there was none, none where there was one.
    let offer = |bought: bool| {
        let offers = model.offers.iter().zip(&order(demo()).choice.packs);
        let some = |(offer, packs): &(&Pack, &u64)| {
            let same = |one: &&Pack| (one.variety, one.supplier) == (offer.variety, offer.supplier);
            (**packs > 0) == bought
                && offer.most > 0
                && model.offers.iter().filter(same).count() == 1
        };
        let (offer, _) = { offers }.find(some).expect("an offer");
        Fixed {
            variety: text(&model.varieties[offer.variety].name),
            supplier: text(&model.suppliers[offer.supplier].name),
            packs: u32::from(!bought),
        }
    };
    with(
        |plan| {
            plan.fixed = vec![offer(true), offer(false)];
            // What is fixed may cost more than there is.
            plan.money = None;
        },
        |plan, against| {
            let settled = settled(plan, against, 400);
            adds_up(&settled);
            for fixed in &plan.fixed {
                let bills = order(&settled).bills.iter();
                let lines = bills.filter(|bill| bill.supplier == fixed.supplier.as_str());
                let line = { lines }
                    .flat_map(|bill| &bill.lines)
                    .find(|line| line.variety == fixed.variety.as_str());
                assert_eq!(line.map_or(0, |line| line.packs), u64::from(fixed.packs));
            }
            let bound = match settled.status {
                Status::Within { bound, .. } => bound,
                Status::Optimal => order(&settled).cost,
                status => panic!("{status:?}"),
            };
            assert!(order(&settled).cost >= bound);
            assert!(order(&settled).cost >= order(demo()).cost);
        },
    );
}

#[test]
fn too_small_a_bed_says_what_is_short_and_what_mends_it() {
    let smaller = |plan: &mut Plan| {
        plan.beds.truncate(1);
        plan.beds[0].length = "14m".parse().expect("a length");
        plan.needs.truncate(4);
        plan.tried.clear();
    };
    with(smaller, |plan, against| {
        let settled = settled(plan, against, usize::MAX);
        assert!(
            matches!(settled.status, Status::Short { .. }),
            "{:?}",
            settled.status
        );
        adds_up(&settled);
        assert!(order(&settled).short().count() > 0);
        let mends = mends(plan, against, &settled, &mut |progress| {
            progress.nodes > 300
        });
        let Some(By::Bed { places, at_least }) = mends.first().map(|mend| mend.by) else {
            panic!("{mends:?}");
        };
        assert!(0 < at_least && at_least <= places, "{mends:?}");
        // Each, when it is made, lets every need be met for no more than was told.
        let money = plan.money.expect("a budget");
        for mend in &mends {
            let made = mend.made(plan).expect("an edit of this plan");
            assert_eq!(made.problems(), Vec::<String>::new(), "{mend:?}");
            let candidates = Candidates::of(&made, against).expect("candidates");
            let told = mend.cost.in_hundredths();
            let mut patience = |progress: Progress| {
                progress.nodes > 1_000 || progress.best.is_some_and(|best| best <= told as f64)
            };
            let found = least_cost(&candidates.model, &mut patience);
            assert!(
                found.best.is_some() && found.value <= told,
                "{mend:?} {}",
                found.value
            );
            assert!(
                mend.cost <= money || matches!(mend.by, By::Money { .. }),
                "{mend:?}"
            );
        }
    });
}

#[test]
fn a_word_that_means_nothing_is_told_with_its_line() {
    let mut demo = Demo::read();
    demo.plan.needs[0].for_use = trug::variety::Text::new("bouquets").ok();
    demo.plan.needs[1].forms = vec![trug::variety::Text::new("balls").expect("a text")];
    demo.plan.needs[2].colours = vec![trug::variety::Text::new("purplish mauvey").expect("a text")];
    let index = Index::new(&demo.list, demo.grounds());
    let against = ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    };
    let told = settle(&demo.plan, against, &mut |_| false).expect_err("words that mean nothing");
    assert_eq!(told.len(), 3, "{told:?}");
    assert!(
        told[0]
            .message
            .starts_with("quay stall bunches: found the use \"bouquets\""),
        "{told:?}"
    );
    assert!(
        told[1]
            .message
            .starts_with("quay stall, early: found the form \"balls\""),
        "{told:?}"
    );
    assert!(
        told[2].message.starts_with("quay stall, pale: found"),
        "{told:?}"
    );
}
