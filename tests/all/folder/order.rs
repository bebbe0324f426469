//! Kills at random moments of saves of an order: it is then the last one saved or the next, whole.

use std::path::Path;

use trug::folder::Folder;
use trug::folder::order::{ORDER, OrderFile, demo_file, open_plan};
use trug::order::Plan;
use trug::variety::Money;

use super::child::say;
use super::kills::{kill_at_random, kills, random};

/// The moments of a kill, microseconds after a save.
const MOMENTS: u64 = 12_000;

/// The demo's order with so much money as saves were made, in hundredths: a mix of two shows.
fn order_of(number: u64) -> Plan {
    let (file, text) = demo_file();
    let mut plan = Plan::read(file, text).expect("the demo's order");
    plan.money = Some(Money::hundredths(number));
    plan
}

/// The number of the save that the folder opens with; 0 of none.
#[track_caller]
fn opened(folder: &Folder) -> (u64, OrderFile) {
    let (plan, file) = open_plan(folder).unwrap_or_else(|error| panic!("{error}"));
    let number = plan.map_or(0, |plan| {
        let number = plan.money.expect("a number").in_hundredths();
        assert_eq!(plan, order_of(number), "a mix");
        number
    });
    (number, file)
}

#[test]
fn an_order_killed_during_saves_is_the_last_one_saved_or_the_next() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut random = random();
    for kill in 0..kills() / 4 {
        let said = kill_at_random("save-order", dir.path(), MOMENTS, &mut random);
        let folder = Folder::open(dir.path(), "now").expect("opens");
        let found = opened(&folder).0;
        assert!(
            found == said || found == said + 1,
            "kill {kill}: {said} was called saved, {found} is there"
        );
        let text = std::fs::read_to_string(dir.path().join(ORDER)).expect("reads");
        assert!(text.ends_with(")\n"), "not whole: {text}");
    }
}

pub(crate) fn stream_saves(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let (number, mut file) = opened(&folder);
    for number in number + 1.. {
        file.save(&folder, &order_of(number))
            .unwrap_or_else(|error| panic!("{error}"));
        say(format_args!("saved {number}"));
    }
}
