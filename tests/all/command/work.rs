//! Events and rounds as a grower uses them: added, listed, changed, dropped, saved, and settled.

use std::fs;

use serde_json::Value;

use crate::common::order_lane::{Lane, PLAN};
use crate::common::shell::{trug, trug_anywhere};

const WEDDING: &str = "Berry wedding: 2027-09-12 2 jar, 3 buttonhole colours=plum,white within=60";
const SHOP: &str = "shop: fridays 1 jar 2027-09-03 to 2027-09-17";

/// The needs of an answer that are of this work: name, week and stems.
fn needs(answer: &Value, work: &str) -> Vec<(String, u64, f64)> {
    let needs = answer["needs"].as_array().expect("needs").iter();
    let read = |one: &Value| {
        let name = one["need"].as_str().expect("a name").to_string();
        let week = one["week"].as_u64().expect("a week");
        (name, week, one["needed"].as_f64().expect("stems"))
    };
    needs
        .map(read)
        .filter(|(name, ..)| name.starts_with(work))
        .collect()
}

/// Worked by hand: 2 jars of 2 secondary and 3 small stems with 5 % more are 4.2 and 6.3; 3 buttonholes
/// with 25 % more are 3.75. The 12th is a Sunday, two days before it is the Friday of week 36.
#[test]
fn a_wedding_that_is_tried_is_ordered_for_in_the_week_of_its_cut() {
    let lane = Lane::new(PLAN);
    let answer = lane.json(&["--add-event", WEDDING]);
    let own = |part: &str, stems: f64| (format!("Berry wedding: {part}"), 36, stems);
    let expected = [own("secondary", 5.0), own("small", 7.0), own("worn", 4.0)];
    assert_eq!(needs(&answer, "Berry wedding"), expected, "{answer:#}");
    let work = &answer["work"][0];
    assert_eq!(work["stems"], 16, "{work:#}");
    assert_eq!(work["needs"][0]["cut"], "2027-09-10");
    assert_eq!(work["sure"], 0.95);
    // Nothing is saved, and the plan without work has none.
    assert_eq!(lane.json(&[])["work"], serde_json::json!([]));
}

#[test]
fn the_order_shows_a_wedding_folded_under_its_name() {
    let out = Lane::new(PLAN).out(&["--add-event", WEDDING]);
    let lines: Vec<&str> = out.lines().collect();
    let at = lines
        .iter()
        .position(|line| line.trim_start().starts_with("Berry wedding  "));
    let at = at.unwrap_or_else(|| panic!("{out}"));
    for word in ["16", "36", "Sun 12 Sep 2027"] {
        assert!(lines[at].contains(word), "{word}: {}", lines[at]);
    }
    for (nth, part) in ["secondary", "small", "worn"].iter().enumerate() {
        let line = lines[at + 1 + nth];
        assert!(line.starts_with("  ") && line.contains(part), "{line}");
    }
}

#[test]
fn what_is_saved_reads_back_and_the_comments_stay() {
    let lane = Lane::new(PLAN);
    lane.out(&[
        "--work",
        "--save",
        "--add-event",
        WEDDING,
        "--add-round",
        SHOP,
    ]);
    let text = fs::read_to_string(lane.path("order.ron")).expect("the order");
    assert!(text.starts_with("// The order of a test."), "{text}");
    assert!(
        text.contains("pieces: [(2, \"jar\"), (3, \"buttonhole\")]"),
        "{text}"
    );
    assert!(!text.contains("Berry wedding: small"), "{text}");
    let rounds = needs(&lane.json(&[]), "shop");
    let weeks: Vec<u64> = rounds.iter().map(|one| one.1).collect();
    assert_eq!(weeks, [35, 36, 37, 35, 36, 37], "{rounds:?}");

    lane.out(&[
        "--work",
        "--save",
        "--set",
        "Berry wedding=19 Sep 5 jar, 0 buttonhole",
    ]);
    let moved = lane.json(&["--work"]);
    let wedding = &moved["work"][0];
    assert_eq!(wedding["first"], "2027-09-19");
    assert_eq!(
        wedding["pieces"],
        serde_json::json!([{ "piece": "jar", "number": 5 }])
    );
    assert_eq!(wedding["needs"][0]["weeks"], serde_json::json!([37]));
    // A need that came from the event is changed where that is.
    let wider = lane.json(&["--work", "--set", "Berry wedding: small=colours=plum cut=0"]);
    assert_eq!(wider["work"][0]["colours"], serde_json::json!(["plum"]));
    assert_eq!(wider["work"][0]["needs"][0]["cut"], "2027-09-19");

    lane.out(&[
        "--work",
        "--save",
        "--drop-event",
        "berry wedding",
        "--drop-round",
        "Shop",
    ]);
    assert_eq!(lane.json(&["--work"])["work"], serde_json::json!([]));
}

#[test]
fn work_is_listed_by_part_with_what_is_assumed() {
    let lane = Lane::new(PLAN);
    let out = lane.out(&["--work", "--add-event", WEDDING, "--add-round", SHOP]);
    for told in [
        "Berry wedding, event on Sun 12 Sep 2027",
        "2 jars, 3 buttonholes; plum or white.",
        "Cut 2 days before (assumed); spares are counted.",
        "Fri 10 Sep",
        "shop, round on Fridays, 3 Sep to 17 Sep 2027",
        "stems a week",
        "Wednesdays",
    ] {
        assert!(out.contains(told), "{told}: {out}");
    }
    let none = lane.out(&["--work"]);
    assert!(
        none.contains("No events or rounds are in the order"),
        "{none}"
    );
    // Tubers are not said of it, and nothing is solved for it.
    assert!(!out.contains("Every need"), "{out}");
}

#[test]
fn a_piece_of_ones_own_is_taken_and_one_that_is_wrong_is_told_with_its_place() {
    let lane = Lane::new(PLAN);
    let pieces = lane.path("pieces.ron");
    fs::write(&pieces, "(pieces: [(name: \"crown\", stems: {\"worn\": 12}), (name: \"jar\", stems: {\"any\": 9})])").expect("writes");
    let event = "fete: 2027-09-12 1 crown, 2 jar";
    let answer = lane.json(&["--work", "--add-event", event]);
    let stems: Vec<&Value> = answer["work"][0]["needs"]
        .as_array()
        .expect("needs")
        .iter()
        .map(|one| &one["stems"])
        .collect();
    assert_eq!(stems, [12, 18], "{answer:#}");
    fs::write(
        &pieces,
        "(pieces: [\n  (name: \"crown\", stems: {\"warn\": 12}),\n])",
    )
    .expect("writes");
    let answer = lane.trug(&["--work", "--add-event", event]);
    assert!(
        answer
            .error
            .contains("pieces.ron, line 2, column 26: crown: found the part \"warn\"")
            && answer
                .error
                .contains("found the piece \"crown\", expected one of table bowl,"),
        "{answer:?}"
    );
}

#[test]
fn what_means_nothing_is_refused_in_a_sentence() {
    let lane = Lane::new(PLAN);
    for (words, says) in [
        (
            ["--add-event", "Berry wedding: 2027-09-12 2 jra"],
            "Berry wedding: found the piece \"jra\", expected one of table bowl",
        ),
        (
            ["--add-event", "Berry wedding: 2 jar"],
            "--add-event: found no day, expected a name",
        ),
        (
            ["--add-event", "Berry wedding: 2027-11-12 2 jar"],
            "expected a day before the first frost",
        ),
        (
            [
                "--add-event",
                "Berry wedding: 2027-09-12 2 jar colours=plumm",
            ],
            "plumm",
        ),
        (
            ["--add-event", "quay stall: 2027-09-12 2 jar"],
            "found the name of a need",
        ),
        (
            ["--add-round", "shop: 1 jar 2027-09-03 to 2027-09-17"],
            "no day of the week",
        ),
        (
            ["--drop-event", "fete"],
            "--drop-event: found \"fete\", expected an event: and there is none",
        ),
        (
            ["--set", "Berry=1 jar"],
            "--set: found \"Berry\", expected one of",
        ),
    ] {
        lane.refused(&words, says);
    }
    // Of a file it is told with its line.
    let with = |work: &str| PLAN.replace("  needs:", &format!("  work: [{work}],\n  needs:"));
    let lane = Lane::new(&with(
        "(name: \"fete\", on: \"2027-09-12\", pieces: [(2, \"jar\")], colours: [\"plumm\"])",
    ));
    lane.refused(&[], "order.ron, line 8");
    let lane = Lane::new(&with(
        "(name: \"fete\", on: \"2027-09-12\", pieces: [(2, \"jra\")])",
    ));
    lane.refused(&[], "order.ron, line 8, column 56");
}

#[test]
fn days_typed_short_are_told_as_they_were_taken() {
    let answer = Lane::new(PLAN).trug(&["--work", "--add-event", "fete: 12 Sep 2 jar"]);
    assert!(answer.error.contains("fete: Sun 12 Sep 2027"), "{answer:?}");
    assert!(answer.done().contains("Fri 10 Sep"));
    // The demo takes one, too, and says that it is the demo.
    let demo = ["order", "--work", "--add-event", "fete: 2027-09-12 2 jar"];
    assert!(
        trug_anywhere(&demo)
            .of_the_demo()
            .contains("fete, event on")
    );
}

/// What an event needs is among the promises that are left, as what the plan names itself is.
#[test]
fn a_wedding_is_among_the_promises_of_a_season_under_way() {
    let lane = Lane::new(&PLAN.replace("2027", "2025"));
    lane.out(&["--add-event", &WEDDING.replace("2027", "2025"), "--save"]);
    let planted = lane.json(&[]);
    let planted = planted["planted"].as_array().expect("planted").iter();
    let first = { planted.filter(|one| one["plants"].as_u64() > Some(0)) }.next();
    let variety = first.expect("a plant")["variety"].as_str().expect("a name");
    let at = lane.dir().display().to_string();
    let note = [
        "row",
        "note",
        variety,
        "cut=6",
        "date=2025-08-18",
        "--at",
        &at,
    ];
    trug(lane.dir(), &note).done();
    let answer = lane.json(&["--season", "2025"]);
    let promises = answer["promises"].as_array().expect("promises").iter();
    let needs: Vec<&str> = promises.filter_map(|one| one["need"].as_str()).collect();
    for need in ["quay stall", "Berry wedding: worn"] {
        assert!(needs.contains(&need), "{needs:?}");
    }
}
