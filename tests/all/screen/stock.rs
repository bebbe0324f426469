//! A year of the stock book at a real screen, by keys alone: October to May.

use serde_json::Value;

use super::Session;
use crate::common::order_lane::{LIST, PLAN};
use crate::common::shell::trug;

/// Presses keys, then waits until each of the texts is on the screen.
fn press(session: &mut Session, keys: &str, texts: &[&str]) {
    session.press(keys);
    for text in texts {
        session.wait_for_text(text);
    }
}

/// From lifting 12 plants to 31 sold, 3 rotten and 9 kept; what is kept is what next year's order plants.
#[test]
fn what_was_lifted_sold_and_kept_by_keys_is_what_the_next_order_takes() {
    let home = tempfile::tempdir().expect("a folder");
    let at = home.path().display().to_string();
    std::fs::write(home.path().join("varieties.ron"), LIST).expect("writes");
    std::fs::write(home.path().join("order.ron"), PLAN.replace("2027", "2026")).expect("writes");
    let mut session = Session::start(&["--at", &at], true);
    session.wait_for_text("> centre ?");
    press(
        &mut session,
        "\t\t\t\t",
        &["[Stock]", "> Ebb Kist", "1 lifted"],
    );
    let day = |day: &str| format!("t\x15{day} Ann\r");
    press(
        &mut session,
        &day("2025-10-20"),
        &["notes of 2025-10-20 Ann"],
    );
    press(&mut session, "pbyre\r", &["is at byre."]);
    press(
        &mut session,
        "112 43\r",
        &["12 clumps lifted; 43 with an eye, divided (saved)"],
    );
    press(&mut session, "343\r", &["43 put in store (saved)"]);
    press(&mut session, &day("2026-01-11"), &["notes of 2026-01-11"]);
    press(&mut session, "43 rotten\r", &["3 lost (rotten) (saved)"]);
    press(&mut session, &day("2026-02-20"), &["notes of 2026-02-20"]);
    press(
        &mut session,
        "72 the neighbour\r",
        &["2 promised to the neighbour (saved)"],
    );
    press(&mut session, "99\r", &["9 to be kept back (saved)"]);
    press(&mut session, &day("2026-04-18"), &["notes of 2026-04-18"]);
    // More than there are: refused, the line stays, and is put right.
    press(
        &mut session,
        "699 4.50\r",
        &["expected at most the 40 tubers"],
    );
    press(
        &mut session,
        "\x1529 4.50 the market\r",
        &["29 sold at 4.50 each to the market (saved)"],
    );
    press(
        &mut session,
        "62 4.50 the neighbour\r",
        &["2 sold at 4.50 each to the neighbour (saved)"],
    );
    // A slip, taken back and made again.
    press(&mut session, "41\r", &["1 lost (saved)"]);
    press(&mut session, "u", &["took back", "1 lost (saved)"]);
    press(&mut session, "\x12", &["done again"]);
    press(&mut session, "u", &["took back"]);
    press(&mut session, &day("2026-05-01"), &["notes of 2026-05-01"]);
    press(&mut session, "59\r", &["9 sound in store (saved)"]);
    session.quit("q");

    let told = trug(home.path(), &["stock", "--at", &at, "--json"]).object();
    let plant = &told["plants"][0];
    let counts = [
        "clumps", "divided", "sold", "lost", "in_store", "free", "promised",
    ];
    let counts: Vec<&Value> = counts.iter().map(|key| &plant[*key]).collect();
    assert_eq!(counts, [12, 43, 31, 3, 9, 0, 0]);
    let why = ["order", "--on-average", "--why", "Ebb Kist", "--at", &at];
    let why = trug(home.path(), &why).done();
    assert!(
        why.contains("Ebb Kist: 9 planted; 0 bought, 9 on hand"),
        "{why}"
    );
}
