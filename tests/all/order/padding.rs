//! What is bought only to fill an order up: to a supplier's least order, or to free postage.

use crate::common::order_lane::{Lane, hundredths};
use serde_json::{Value, json};

/// A ball that serves, and singles that serve nothing and cost less.
const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed), offers: [(supplier: "Oar Bulbs", price: "11.00", pack: 1)]),
  (name: "Tangle Mote", form: (id: "single", known: keyed), offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1)]),
]"#;
/// Two plants of the ball give the 20 stems: by the grower's own count each gives 10 in the week.
const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-02", plants_lost: 0.0, stems_lost: 0.0,
    counted: [(variety: "Haaf Bell", plants: 1, stems: [(36, 10)])]),
  beds: [(name: "sea wall", length: "2m", width: "400mm", spacing: "400mm")],
  suppliers: [(name: "Oar Bulbs", postage: "0", least: "30")],
  needs: [(name: "quay stall", stems: 20, weeks: (36, 36), forms: ["ball"])],
)"#;

fn by_free_postage() -> String {
    PLAN.replace(
        "postage: \"0\", least: \"30\"",
        "postage: \"9\", free_over: \"30\"",
    )
}

fn bought(answer: &Value) -> Vec<(&str, i64)> {
    let lines = answer["lines"].as_array().expect("lines");
    (lines.iter())
        .map(|one| {
            let name = one["variety"].as_str().expect("a name");
            (name, one["packs"].as_i64().expect("packs"))
        })
        .collect()
}

/// The list with another single or ball of this supplier's.
fn with(name: &str, form: &str, price: &str, more: &str) -> String {
    let record = format!(
        "  (name: \"{name}\", form: (id: \"{form}\", known: keyed), offers: [(supplier: \"Oar Bulbs\", price: \"{price}\", pack: 1)]{more}),\n]"
    );
    LIST.replace("\n]", &format!("\n{record}"))
}

/// Worked by hand: two balls are 22.00; a third makes 33.00, but two singles make 30.00, the least
/// that the supplier takes. With postage of 9.00 that is free from 30.00 the two balls alone come to
/// 31.00, a third to 33.00, the two singles to 30.00.
#[test]
fn an_order_is_filled_up_with_whatever_costs_least() {
    for plan in [PLAN.to_string(), by_free_postage()] {
        let lane = Lane::with(LIST, &plan);
        let answer = lane.json(&[]);
        let by_hand = lane.json(&["--fix", "Haaf Bell=2", "--fix", "Tangle Mote=2"]);
        assert_eq!(by_hand["short"], json!([]));
        assert_eq!(hundredths(&by_hand["cost"]), 3000);
        assert_eq!(answer["status"], "optimal");
        assert_eq!(hundredths(&answer["cost"]), 3000, "{answer:#}");
        assert_eq!(bought(&answer), [("Haaf Bell", 2), ("Tangle Mote", 2)]);
    }
}

#[test]
fn what_fills_an_order_up_is_told_as_such_and_needs_no_place() {
    let lane = Lane::with(LIST, PLAN);
    let told = "2 packs to reach the least order of 30.00, and needed for nothing else";
    let answer = lane.json(&["--why", "Tangle Mote"]);
    let mote = &answer["lines"][1];
    assert_eq!(answer["lines"][0]["padding"], Value::Null);
    assert_eq!(
        mote["padding"],
        json!({ "packs": 2, "least": 30.0, "free_over": null, "told": told })
    );
    let planted = answer["planted"].as_array().expect("what is planted");
    let mote = planted.iter().find(|one| one["variety"] == "Tangle Mote");
    let mote = mote.expect("it is bought");
    assert_eq!((&mote["plants"], &mote["spare"]), (&json!(0), &json!(2)));
    let beds = answer["beds"].as_array().expect("beds");
    assert!(
        beds.iter().all(|one| one["variety"] == "Haaf Bell"),
        "{beds:?}"
    );
    // A third ball is the next best way.
    assert_eq!(hundredths(&answer["why"][0]["without"]), 300);
    for words in [&[][..], &["--sheet"], &["--why", "Tangle Mote"]] {
        let text = lane.out(words);
        assert!(text.contains(told), "{words:?}: {text}");
    }
    assert!(
        lane.out(&["--why", "Tangle Mote"])
            .contains("it needs no place in the beds")
    );
    let csv = lane.path("order.csv");
    lane.out(&["--csv", &csv]);
    let csv = std::fs::read_to_string(csv).expect("a table");
    assert!(csv.contains(told), "{csv}");

    let lane = Lane::with(LIST, &by_free_postage());
    let told = "2 packs to reach free postage from 30.00";
    assert!(lane.out(&["--sheet"]).contains(told));
    let padding = &lane.json(&[])["lines"][1]["padding"];
    assert_eq!(
        (&padding["least"], &padding["free_over"]),
        (&Value::Null, &json!(30.0))
    );
}

/// A third ball, where nothing else can be had, is told as what it is too.
#[test]
fn tubers_of_a_use_beyond_what_is_needed_are_told_too() {
    let list = LIST.replace("\"4.00\", pack: 1", "\"4.00\", pack: 1, available: 0");
    let answer = Lane::with(&list, PLAN).json(&[]);
    assert_eq!(bought(&answer), [("Haaf Bell", 3)]);
    let told = "1 of 3 packs to reach the least order of 30.00, and needed for nothing else";
    assert_eq!(answer["lines"][0]["padding"]["told"], told);
}

/// At one price a ball, which serves, comes before a single, and a single on the shortlist before one
/// that is not; and nothing else where only the shortlist may be bought.
#[test]
fn among_equal_costs_the_better_fills_an_order_up() {
    let serving = with("Ebb Drift", "ball", "4.00", "");
    let plan = PLAN.replace(
        "counted: [",
        "counted: [(variety: \"Ebb Drift\", plants: 1, stems: [(36, 1)]), ",
    );
    let answer = Lane::with(&serving, &plan).json(&[]);
    assert_eq!(bought(&answer), [("Haaf Bell", 2), ("Ebb Drift", 2)]);
    let wished = with("Tangle Moss", "single", "4.00", ", shortlist: ()");
    let answer = Lane::with(&wished, PLAN).json(&["--why", "Tangle Moss"]);
    assert_eq!(bought(&answer), [("Haaf Bell", 2), ("Tangle Moss", 2)]);
    // Without it the other one, left out as no better, does as well.
    assert_eq!(hundredths(&answer["why"][0]["without"]), 0);
    let wished = LIST.replace(
        "(name: \"Haaf Bell\",",
        "(name: \"Haaf Bell\", shortlist: (),",
    );
    let answer = Lane::with(&wished, PLAN).json(&["--shortlist"]);
    assert_eq!(bought(&answer), [("Haaf Bell", 3)]);
}

/// The file for other solvers has every open offer: one that is dearer than any padding, and one that
/// serves nothing at a supplier without terms; and none that has closed.
#[test]
fn the_model_file_has_every_open_offer() {
    let list = with("Tangle Dear", "single", "90.00", "").replace(
        "\n]",
        "\n  (name: \"Tangle Far\", offers: [(supplier: \"Ebb Nursery\", price: \"2.00\", pack: 1), (supplier: \"Oar Bulbs\", price: \"1.00\", pack: 1, closes: \"2027-01-14\")]),\n]",
    );
    let lane = Lane::with(&list, PLAN);
    let file = lane.path("order.mps");
    lane.out(&["--model", &file]);
    let model = std::fs::read_to_string(file).expect("a model");
    let bounds = model.lines().filter(|line| line.starts_with(" LO bound x"));
    assert_eq!(bounds.count(), 4, "{model}");
}
