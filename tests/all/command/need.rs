//! Which varieties serve a need, what is said of how they do, and what there is to work with on a day.

use serde_json::{Value, json};

use crate::common::order_lane::Lane;
use crate::common::shell::trug;

/// A cheap peony of four inches whose heart is plum and whose petals are magenta; a dear bloom of plum;
/// a ball that is half white; and one of which nobody knows but its name and price.
const LIST: &str = r#"[
  (name: "Foam Peony", form: (id: "peony", known: stated), size: "small", colours: [(colour: "magenta", part: main, pattern: blend), (colour: "plum", part: second, pattern: blend)], stem: "400mm", offers: [(supplier: "Oar Bulbs", price: "1.00", pack: 1)]),
  (name: "Haaf Great", form: (id: "informal-decorative", known: keyed), diameters: ["210mm"], colours: [(colour: "plum", part: main, pattern: self)], stem: "600mm", offers: [(supplier: "Oar Bulbs", price: "6.00", pack: 1)]),
  (name: "Noust Halves", form: (id: "formal-decorative", known: stated), colours: [(colour: "plum", part: main, pattern: bicolour), (colour: "white", part: second, pattern: bicolour)], stem: "500mm", offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1)]),
  (name: "Wrack Unseen", offers: [(supplier: "Oar Bulbs", price: "0.50", pack: 1)]),
]"#;
const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-01", stems_a_week: 0.9, plants_lost: 0.0, stems_lost: 0.0),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  suppliers: [(name: "Oar Bulbs", postage: "5")],
  needs: [
    (name: "lifeboat day", stems: 9, weeks: (36, 36), use: "event-focal", colours: ["plum"], within: 12.0),
  ],
)"#;

fn lane() -> Lane {
    Lane::with(LIST, PLAN)
}

/// What is planted, by name.
fn planted(answer: &Value) -> Vec<&str> {
    let all = answer["planted"].as_array().expect("a list");
    let name = |one: &Value| one["plants"].as_u64() > Some(0);
    let all = all.iter().filter(|one| name(one));
    all.map(|one| one["variety"].as_str().expect("a name"))
        .collect()
}

#[test]
fn a_need_for_a_use_buys_no_four_inch_peony_where_no_fitness_was_said() {
    let lane = lane();
    let answer = lane.json(&[]);
    assert!(!planted(&answer).contains(&"Foam Peony"), "{answer:#}");
    let figures = answer["figures"].as_array().expect("figures");
    let told = figures.iter().find(|one| one["name"] == "least fitness");
    let told = told.expect("what is assumed");
    assert_eq!(told["value"], "70 % for lifeboat day");
    assert!(told["source"].as_str().expect("words").contains("assumed"));
    // It is told in the text, too, and who says a figure is asked no more.
    assert!(lane.out(&[]).contains("70 % for lifeboat day"));
    let said = lane.json(&["--set", "lifeboat day=fitness=0.7"]);
    let figures = said["figures"].as_array().expect("figures").iter();
    assert_eq!(
        figures.filter(|one| one["name"] == "least fitness").count(),
        0
    );
    // What is lower buys it by any of its colours, and not by its heart.
    let low = "lifeboat day=fitness=0.3";
    assert!(!planted(&lane.json(&["--set", low])).contains(&"Foam Peony"));
    let any = lane.json(&["--set", &format!("{low} by=any")]);
    assert_eq!(planted(&any), ["Foam Peony"]);
}

#[test]
fn a_colour_is_judged_by_the_parts_of_the_bloom_that_were_asked_for() {
    let lane = lane();
    for (by, bought) in [
        ("", "Noust Halves"),
        ("by=mostly", "Noust Halves"),
        ("by=main", "Noust Halves"),
        ("by=every", "Haaf Great"),
    ] {
        let answer = lane.json(&["--set", &format!("lifeboat day=within=12 {by}")]);
        assert_eq!(planted(&answer), [bought], "{by}");
    }
    let every = lane.json(&[
        "--add",
        "altar: 5 36-36 colours=plum within=12 by=every",
        "--drop",
        "lifeboat day",
    ]);
    assert_eq!(planted(&every), ["Haaf Great"]);
    lane.refused(
        &["--set", "lifeboat day=by=heart"],
        "mostly, main, any or every",
    );
}

#[test]
fn what_nobody_knows_of_serves_no_use_however_cheap_it_is() {
    let lane = lane();
    let open = "lifeboat day=colours= fitness=0";
    // At a fitness of 0 all will do, and what is known is not ranked under what is not.
    let answer = lane.json(&["--set", "lifeboat day=colours="]);
    assert!(!planted(&answer).contains(&"Wrack Unseen"), "{answer:#}");
    let answer = lane.json(&["--set", open]);
    assert_eq!(planted(&answer), ["Wrack Unseen"]);
}

#[test]
fn each_variety_bought_tells_its_fit_its_distance_and_what_is_only_expected() {
    let lane = lane();
    let answer = lane.json(&["--fix", "Haaf Great=4"]);
    let all = answer["planted"].as_array().expect("a list");
    let own = all.iter().find(|one| one["variety"] == "Haaf Great");
    let gives = &own.expect("it is planted")["gives"][0];
    assert_eq!(gives["need"], "lifeboat day");
    assert!(gives["fitness"].as_f64() > Some(0.9), "{gives}");
    assert_eq!(gives["distance"], 0.0);
    assert_eq!(
        gives["known"],
        json!({ "seen": ["form", "size"], "stated": ["stem"], "expected": ["vase life"], "unknown": [] })
    );
    let why = lane.out(&["--why", "Noust Halves"]);
    let told = "form and stem stated; size and vase life only expected of its form";
    assert!(why.contains(told), "{why}");
    // Of a need without a use and a colour neither is said.
    let plain = lane.json(&["--set", "lifeboat day=use= colours="]);
    let gives = &plain["planted"][0]["gives"][0];
    for field in ["fitness", "distance", "known"] {
        assert_eq!(gives[field], Value::Null, "{field}");
    }
}

#[test]
fn what_there_is_to_work_with_on_a_day_is_told_with_what_is_free_of_promises() {
    let lane = lane();
    for day in ["2027-09-08", "8 Sep", "week 36"] {
        let answer = lane.json(&["--have", day]);
        assert_eq!(answer["have_week"], 36, "{day}");
        let all = answer["have"].as_array().expect("a list");
        let sum = |field: &str| -> f64 { all.iter().filter_map(|one| one[field].as_f64()).sum() };
        assert!(
            (sum("stems") - sum("promised") - sum("free")).abs() < 0.2,
            "{all:?}"
        );
        // The one need of the week has all that it asks for.
        assert!((sum("promised") - 9.0).abs() < 0.2, "{all:?}");
        assert_eq!(all[0]["needs"][0]["need"], "lifeboat day");
    }
    // A week that no need runs in: all is free. And one after the frost: there is nothing.
    let answer = lane.json(&["--have", "2027-09-15"]);
    let all = answer["have"].as_array().expect("a list");
    assert!(!all.is_empty() && all.iter().all(|one| one["promised"] == 0.0));
    assert_eq!(lane.json(&["--have", "2027-11-20"])["have"], json!([]));
    let told = lane.out(&["--have", "8 Sep"]);
    assert!(
        told.contains("Noust Halves") && told.contains("lifeboat day"),
        "{told}"
    );
    lane.refused(
        &["--have", "1 Sep - 30 Sep"],
        "expected one day or one week",
    );
    lane.refused(&["--have", "someday"], "--have");
}

#[test]
fn varieties_are_found_by_the_week_in_which_they_are_in_bloom() {
    let lane = lane();
    let choose = |words: &[&str]| -> Value {
        let dir = lane.path("");
        let words = [&["choose", "--json", "--at", &dir], words].concat();
        trug(lane.dir(), &words).object()
    };
    // Planted on 1 May and first cut after 13 weeks, from the last days of July to the frost.
    for (day, found) in [
        ("37", 4),
        ("12 Sep", 4),
        ("2027-09-12", 4),
        ("20", 0),
        ("45", 0),
        ("28-31", 4),
    ] {
        assert_eq!(choose(&["--in-bloom", day])["found"], found, "{day}");
    }
    let facet = choose(&["--where", "in-bloom=37"]);
    assert_eq!(facet["found"], 4);
    assert_eq!(facet["left"]["in-bloom"]["37"], 4);
    assert_eq!(facet["varieties"][0]["in_bloom"]["seen"], json!([]));
    // What the row saw ahead of the season stands beside what is expected.
    let dir = lane.path("");
    let note = [
        "row",
        "note",
        "Haaf Great",
        "diameter=200mm",
        "date=2026-07-08",
    ];
    trug(
        lane.dir(),
        &[&note[..], &["--even-so", "--at", &dir]].concat(),
    )
    .done();
    let early = choose(&["--in-bloom", "28"]);
    assert_eq!(early["found"], 1, "{early:#}");
    assert_eq!(early["varieties"][0]["name"], "Haaf Great");
    assert_eq!(early["varieties"][0]["in_bloom"]["seen"], json!([28]));
    let told = trug(lane.dir(), &["choose", "--in-bloom", "28", "--at", &dir]).done();
    assert!(told.contains("seen in 28, else expected"), "{told}");
}
