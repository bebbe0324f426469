//! What the order makes of the stock book: tubers on hand, and how many of them keep.

use proptest::prelude::*;
use trug::folder::{row, stock};
use trug::order::{Candidates, ListContext, Plan, Status, settle};
use trug::variety::{Index, StoreCount, Varieties};

use crate::common::order_lane::{Lane, PLAN};
use crate::common::orders::Demo;
use crate::common::shell::trug;

/// Ball in white: in store, and to be had.
const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed), colours: [(colour: "plum", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1), (supplier: "Ebb Nursery", price: "9.00", pack: 3)]),
  (name: "=Haaf Drift", form: (id: "single", known: keyed), colours: [(colour: "white", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "3.00", pack: 1)]),
  (name: "Ebb Kist", form: (id: "ball", known: keyed), colours: [(colour: "white", part: main, pattern: self)], on_hand: 10),
]"#;

fn with<T>(demo: &Demo, then: impl FnOnce(ListContext<'_>) -> T) -> T {
    let index = Index::new(&demo.list, demo.grounds());
    then(ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    })
}

/// The demo's book ends where its list begins: what it says of the winter moves no tuber of the order.
#[test]
fn the_demos_book_leaves_its_order_as_it_was() {
    let plain = Demo::read();
    let trial = row::row(None).expect("the demo's row").trial;
    let book = stock::stock(None, &trial).expect("the demo's book").stock;
    let informed = Demo {
        list: book.informed(&plain.list, Some(plain.plan.season.planted.year())),
        ..Demo::read()
    };
    let told = informed
        .list
        .list()
        .iter()
        .filter(|one| one.store.is_some());
    assert_eq!(told.count(), 20);
    let model = |demo: &Demo| {
        with(demo, |against| {
            let candidates = Candidates::of(&demo.plan, against);
            candidates.expect("a plan that means something").model
        })
    };
    assert_eq!(model(&plain), model(&informed));
}

fn cost(keeps: f64, on_hand: u32) -> Option<u64> {
    let mut list = Varieties::read("varieties.ron", LIST).expect("a list");
    let mut kist = list.list()[2].clone();
    kist.on_hand = Some(on_hand);
    kist.store = Some(StoreCount {
        counted: Some(jiff::civil::date(2026, 11, 20)),
        keeps: Some(keeps),
    });
    list.replace(2, kist).expect("the name stays");
    let demo = Demo {
        list,
        plan: Plan::read("order.ron", PLAN).expect("a plan"),
        ..Demo::read()
    };
    let settled = with(&demo, |against| {
        settle(&demo.plan, against, &mut |_| false).expect("a plan that means something")
    });
    let met = settled.status == Status::Optimal && !settled.falls_short();
    met.then(|| settled.order.expect("an order").cost.in_hundredths())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn a_better_store_never_makes_an_order_dearer(keeps in 0.0..1.0_f64, better in 0.0..1.0_f64, on_hand in 0..30_u32) {
        let (worse, better) = (cost(keeps, on_hand), cost(keeps + (1.0 - keeps) * better, on_hand));
        prop_assert!(worse.is_some() && better <= worse, "{:?} {:?}", worse, better);
    }
}

/// Played through at a shell: what was lifted, kept and lost is what the next order takes.
#[test]
fn the_order_takes_what_the_book_has() {
    let lane = Lane::with(LIST, PLAN);
    let at = lane.dir().display().to_string();
    let stock = |words: &[&str]| trug(lane.dir(), &[&["stock"], words, &["--at", &at]].concat());
    lane.out(&["--why", "Ebb Kist"]);
    for words in [
        &[
            "note",
            "Ebb Kist",
            "date=2025-10-20",
            "lifted=12",
            "divided=43",
            "stored=43",
            "place=byre",
        ][..],
        &[
            "note",
            "Ebb Kist",
            "date=2026-01-11",
            "lost=3",
            "why=rotten",
        ],
        &["note", "Ebb Kist", "date=2026-03-25", "sound=40"],
        &["note", "Ebb Kist", "date=2026-05-20", "planted=40"],
        &[
            "note",
            "ebb kist",
            "date=2026-10-20",
            "lifted=12",
            "divided=43",
        ],
        &[
            "note",
            "Ebb Kist",
            "date=2026-11-11",
            "lost=3",
            "why=rotten",
        ],
        &[
            "note",
            "Ebb Kist",
            "date=2026-11-18",
            "sold=31",
            "price=4.50",
            "to=quay stall",
        ],
    ] {
        stock(words).done();
    }
    let shown = stock(&["Ebb Kist"]).done();
    assert!(
        shown.contains("Free to sell: 9 of 9 at 4.50 each."),
        "{shown}"
    );
    // Three were lost already, more than a winter takes of a dozen: all nine are reckoned with.
    let told = lane.out(&[]);
    let told: Vec<&str> = told.split_whitespace().collect();
    let told = told.join(" ");
    let on_hand = "on hand, of those in the stock book: 9 tubers of 1 variety, counted on 2026-11-18 (the stock book's)";
    assert!(told.contains(on_hand), "{told}");
    let keeps = "kept in store, of those in the stock book: 100 of 100, for 1 variety";
    assert!(told.contains(keeps), "{told}");
    let why = lane.out(&["--why", "Ebb Kist"]);
    assert!(
        why.contains("Ebb Kist: 9 planted; 0 bought, 9 on hand"),
        "{why}"
    );
    let chosen = trug(lane.dir(), &["choose", "kist", "--at", &at, "--json"]).object();
    assert_eq!(chosen["found"], 1);
    let plan = stock(&["--plan"]).done();
    assert!(
        plan.contains("Ebb Kist") && plan.contains("to plant"),
        "{plan}"
    );
    stock(&["note", "Ebb Kist", "date=2026-11-19", "sold=9", "price=4"]).done();
    let shown = stock(&["--json"]).object();
    let first = &shown["plants"][0];
    assert_eq!(
        (&first["in_store"], &first["sold"], &first["lost"]),
        (&0.into(), &40.into(), &3.into())
    );
    stock(&["note", "Ebb Kist", "sold=1"]).refused("expected at most the 0 tubers that are here");
    stock(&["note", "Ebb Kist", "--withdraw", "8"]).done();
    let shown = stock(&["--json"]).object();
    assert_eq!(shown["plants"][0]["in_store"], 9);
}
