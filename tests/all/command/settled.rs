//! What was settled is kept beside the plan, and settled again only where something has changed.

use std::fs;

use crate::common::order_lane::{Lane, PLAN};
use crate::common::shell::trug;

const KEPT: &str = "order.settled.ron";

/// What the file says of the day on which the first order in it was settled, made another one: nothing
/// is worked out from it, so it tells who settled what stands there.
fn mark(lane: &Lane) {
    let path = lane.path(KEPT);
    let kept = fs::read_to_string(&path).expect("kept");
    let at = kept.find("on: \"").expect("a day") + 5;
    fs::write(
        &path,
        format!("{}2026-01-31{}", &kept[..at], &kept[at + 10..]),
    )
    .expect("writes");
}

fn is_marked(lane: &Lane) -> bool {
    let kept = fs::read_to_string(lane.path(KEPT)).expect("kept");
    kept.contains("2026-01-31")
}

#[test]
fn what_has_not_changed_is_not_settled_again() {
    let lane = Lane::new(PLAN);
    let first = lane.json(&["--risk"]);
    mark(&lane);
    assert_eq!(lane.json(&["--risk"]), first);
    let again = lane.trug(&["--sheet"]);
    assert_eq!(again.error, "");
    assert!(again.done().contains("Haaf Bell"));
    assert!(is_marked(&lane));
}

#[test]
fn what_has_changed_is_settled_again_and_that_is_said() {
    let lane = Lane::new(PLAN);
    let first = lane.json(&[]);
    mark(&lane);
    let path = lane.path("varieties.ron");
    let list = fs::read_to_string(&path).expect("a list");
    fs::write(&path, list.replace("price: \"9.00\"", "price: \"9.50\"")).expect("writes");
    let again = lane.trug(&["--json"]);
    assert_eq!(
        again.error,
        "trug: what the order of 31 January 2026 was settled from has changed: it is settled again\n"
    );
    assert_ne!(again.object()["cost"], first["cost"]);
    assert!(!is_marked(&lane));
}

/// What is only tried leaves what is kept as it is; what is saved is kept.
#[test]
fn what_is_only_tried_is_not_kept() {
    let lane = Lane::new(PLAN);
    let first = lane.json(&[]);
    mark(&lane);
    let tried = lane.trug(&["--json", "--set", "quay stall=10"]);
    assert_eq!(tried.error, "");
    assert_ne!(tried.object()["cost"], first["cost"]);
    assert!(is_marked(&lane));
    let saved = lane.json(&["--set", "quay stall=10", "--save"]);
    assert!(!is_marked(&lane));
    mark(&lane);
    assert_eq!(lane.json(&[])["cost"], saved["cost"]);
    assert!(is_marked(&lane));
}

/// A figure in the file that is not what was settled is not believed, nor is a file that is none.
#[test]
fn what_was_changed_by_hand_is_settled_again() {
    let lane = Lane::new(PLAN);
    let first = lane.json(&[]);
    let kept = fs::read_to_string(lane.path(KEPT)).expect("kept");
    let at = kept.find("(\"Haaf Bell\", ").expect("its plants") + 14;
    let fewer = format!("{}1{}", &kept[..at], &kept[at + 1..]);
    for spoiled in [fewer, "[(".to_string(), String::new()] {
        assert_ne!(spoiled, kept);
        fs::write(lane.path(KEPT), &spoiled).expect("writes");
        assert_eq!(lane.json(&[]), first, "{spoiled}");
        let whole = fs::read_to_string(lane.path(KEPT)).expect("kept");
        assert_eq!(whole, kept, "{spoiled}");
    }
}

/// Where nothing can be written beside the plan the order is settled and printed all the same.
#[test]
fn what_cannot_be_kept_is_settled_each_time() {
    let lane = Lane::new(PLAN);
    fs::create_dir(lane.path(KEPT)).expect("something in its place");
    let first = lane.json(&[]);
    assert_eq!(lane.json(&[]), first);
}

/// The demo comes with its settled orders, as they are settled in a folder that holds the same. With
/// `TRUG_WRITE_SETTLED` set they are written.
#[test]
fn the_demo_comes_as_it_settles() {
    let home = tempfile::tempdir().expect("a home");
    trug(home.path(), &["start", "own", "--demo"]).done();
    let path = home.path().join("own").join(KEPT);
    let shipped = fs::read_to_string(&path).expect("it comes with it");
    fs::remove_file(&path).expect("is there");
    for aim in [
        &["order", "--at", "own", "--seconds", "3000"][..],
        &["order", "--at", "own", "--on-average", "--seconds", "3000"],
    ] {
        trug(home.path(), aim).done();
    }
    let settled = fs::read_to_string(&path).expect("kept");
    if std::env::var_os("TRUG_WRITE_SETTLED").is_some() {
        fs::write(concat!("catalogue/", "order.settled.ron"), settled).expect("writes");
        return;
    }
    let undated = |text: &str| {
        let lines = text.lines().filter(|line| !line.trim().starts_with("on: "));
        lines.map(String::from).collect::<Vec<String>>()
    };
    assert_eq!(undated(&settled), undated(&shipped));
}
