//! The demo's order, settled from the grower's files to the last sum.

#[path = "common/orders.rs"]
#[allow(dead_code)]
mod orders;

use orders::Demo;
use trug::order::{Against, Mend, Order, Plan, Settled, Status, chances, mends, settle, without};
use trug::variety::{Index, Money};

fn with<T>(
    change: impl FnOnce(&mut Plan),
    then: impl FnOnce(&Plan, Against<'_>, &Settled) -> T,
) -> T {
    let mut demo = Demo::read();
    change(&mut demo.plan);
    let index = Index::new(&demo.list, demo.grounds());
    let against = Against {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
    };
    let settled = settle(&demo.plan, against, &mut |_| false).expect("a plan that means something");
    then(&demo.plan, against, &settled)
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
    with(
        |_| (),
        |plan, against, settled| {
            assert_eq!(settled.status, Status::Optimal);
            assert!(settled.candidates.offers.len() >= 200);
            assert!(plan.needs.len() >= 10 && settled.candidates.weeks.len() >= 20);
            adds_up(settled);
            assert_eq!(order(settled).short().count(), 0);
            assert!(order(settled).plants <= plan.places());
            assert!(order(settled).cost <= plan.money.expect("a budget"));
            // Each is of use: doing without it never costs less.
            let first = order(settled)
                .planted
                .iter()
                .find(|one| one.bought > 0)
                .expect("something bought");
            let dearer = without(settled, first.candidate, &mut |progress| {
                progress.nodes > 2_000
            });
            println!("{} {dearer:?}", first.variety);
            let own = |row: &usize| against.list.list()[*row].stems_a_plant.is_none();
            let planned: Vec<bool> = settled.candidates.rows.iter().map(own).collect();
            let drawn =
                |seasons| chances(plan, &settled.candidates, order(settled), &planned, seasons);
            let some = drawn(40);
            assert_eq!(some, drawn(40));
            for (week, [low, middle, high]) in &some.grown {
                assert!(low <= middle && middle <= high, "week {week}");
            }
            assert!(
                some.met
                    .iter()
                    .flatten()
                    .all(|(_, share)| (0.0..=1.0).contains(share))
            );
            assert!(some.met.iter().flatten().any(|(_, share)| *share > 0.0));
        },
    );
}

#[test]
fn too_small_a_bed_says_what_is_short_and_what_mends_it() {
    with(
        |plan| {
            plan.beds.truncate(1);
            plan.needs.truncate(4);
            plan.tried.clear();
        },
        |plan, against, settled| {
            assert!(
                matches!(settled.status, Status::Short { .. }),
                "{:?}",
                settled.status
            );
            adds_up(settled);
            assert!(order(settled).short().count() > 0);
            let mends = mends(plan, against, settled, &mut |progress| progress.nodes > 300);
            println!("{mends:?}");
            let places = mends.iter().find_map(|mend| match mend {
                Mend::Bed { places } => Some(*places),
                _ => None,
            });
            assert!(places.is_some_and(|places| places > 0), "{mends:?}");
        },
    );
}

#[test]
fn a_word_that_means_nothing_is_told_with_its_line() {
    let mut demo = Demo::read();
    demo.plan.needs[0].for_use = trug::variety::Text::new("bouquets").ok();
    demo.plan.needs[1].forms = vec![trug::variety::Text::new("balls").expect("a text")];
    demo.plan.needs[2].colours = vec![trug::variety::Text::new("purplish mauvey").expect("a text")];
    let index = Index::new(&demo.list, demo.grounds());
    let against = Against {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
    };
    let told = settle(&demo.plan, against, &mut |_| false).expect_err("words that mean nothing");
    assert_eq!(told.len(), 3, "{told:?}");
    assert!(
        told[0].starts_with("quay stall bunches: found the use \"bouquets\""),
        "{told:?}"
    );
    assert!(
        told[1].starts_with("quay stall, early: found the form \"balls\""),
        "{told:?}"
    );
    assert!(told[2].starts_with("quay stall, pale: found"), "{told:?}");
}
