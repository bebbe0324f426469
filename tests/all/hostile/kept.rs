//! A file that somebody else wrote, saved with a value that is right.

use std::sync::LazyLock;

use trug::folder::text::kept::{Holds, kept};
use trug::folder::text::{read_records, record_again, write_records};
use trug::order::Plan;
use trug::variety::Variety;

/// What is saved: the demo's order with other money and one need fewer.
static PLAN: LazyLock<String> = LazyLock::new(|| {
    let text = include_str!("../../../catalogue/order.ron");
    let mut plan = Plan::read("order.ron", text).expect("the demo's order");
    plan.money = "512.50".parse().ok();
    plan.needs.remove(2);
    plan.write().expect("writes")
});

/// And the demo's first varieties in another order, one fewer, one of them noted.
static LIST: LazyLock<String> = LazyLock::new(|| {
    let text = include_str!("../../../catalogue/varieties.ron");
    let list = read_records::<Variety>("varieties.ron", text).expect("the demo's list");
    let mut list: Vec<Variety> = list.into_iter().take(8).collect();
    list.remove(1);
    list.swap(0, 3);
    list[2].on_hand = Some(77);
    write_records(&list).expect("writes")
});

fn plan_again(text: &str) -> Option<String> {
    Plan::read("order.ron", text).ok()?.write().ok()
}

fn list_again(text: &str) -> Option<String> {
    let list = read_records::<Variety>("varieties.ron", text).ok()?;
    write_records(&list).ok()
}

/// The file holds what was saved, whatever it was before. Nothing is said of it.
pub(super) fn saved(text: &str) -> Vec<String> {
    let plan = kept(text, &PLAN, Holds::Value(plan_again));
    assert_eq!(plan_again(&plan).as_ref(), Some(&*PLAN), "{plan}");
    let list = kept(text, &LIST, Holds::Records(record_again::<Variety>));
    assert_eq!(list_again(&list).as_ref(), Some(&*LIST), "{list}");
    Vec::new()
}
