//! `trug order` as a grower uses it: words in; text, errors and an exit status out.

use std::fs;

use serde_json::Value;

use crate::common::order_lane::{Lane, PLAN, hundredths};
use crate::common::shell::trug_anywhere;

fn sum(list: &Value, field: &str) -> i64 {
    list.as_array()
        .expect("a list")
        .iter()
        .map(|one| hundredths(&one[field]))
        .sum()
}

/// Every total is the sum of its lines, needs are met, and the beds hold what is planted.
#[test]
fn the_answer_is_one_object_whose_totals_are_sums() {
    let answer = Lane::new(PLAN).json(&["--risk"]);
    assert_eq!(answer["status"], "optimal", "{answer:#}");
    assert_eq!(answer["gap"], 0.0);
    assert_eq!(answer["short"], serde_json::json!([]));
    let goods = sum(&answer["lines"], "cost");
    assert_eq!(
        hundredths(&answer["cost"]),
        goods + hundredths(&answer["postage"])
    );
    assert_eq!(
        hundredths(&answer["cost"]),
        sum(&answer["suppliers"], "total")
    );
    assert_eq!(sum(&answer["suppliers"], "goods"), goods);
    for line in answer["lines"].as_array().expect("lines") {
        let packs = line["packs"].as_i64().expect("packs");
        assert_eq!(
            hundredths(&line["cost"]),
            packs * hundredths(&line["price"]),
            "{line}"
        );
    }
    for need in answer["needs"].as_array().expect("needs") {
        assert_eq!(need["needed"], need["given"], "{need}");
    }
    let whole = |list: &Value, field: &str| -> u64 {
        let list = list.as_array().expect("a list");
        list.iter()
            .map(|one| one[field].as_u64().expect("a number"))
            .sum()
    };
    assert_eq!(
        whole(&answer["beds"], "plants"),
        whole(&answer["planted"], "plants")
    );
    let own: Vec<&str> = (answer["figures"].as_array().expect("figures").iter())
        .filter(|one| one["source"] == "the grower's")
        .filter_map(|one| one["name"].as_str())
        .collect();
    assert!(
        own.contains(&"stems a week") && !own.contains(&"weeks to the first cut"),
        "{own:?}"
    );
    for week in answer["weeks"].as_array().expect("weeks") {
        let of = |field: &str| week[field].as_f64().expect("a number");
        assert!(
            of("low") <= of("high") && of("needed") <= of("expected") + 1e-6,
            "{week}"
        );
    }
    let risk = answer["risk"].as_array().expect("chances");
    // Nine weeks of needs, and each of the three needs in all of its weeks.
    assert_eq!(risk.len(), 9 + 3);
    assert!(
        answer["risk_told"]
            .as_str()
            .is_some_and(|told| told.contains("What does not vary"))
    );
    assert!(
        risk.iter()
            .all(|one| (0.0..=1.0).contains(&one["chance"].as_f64().expect("a share")))
    );
}

#[test]
fn each_part_can_be_asked_for_alone() {
    let lane = Lane::new(PLAN);
    for (words, seen) in [
        (
            &[][..],
            &[
                "no order that meets them costs less (proved)",
                "All orders:",
                "lifeboat day",
                "Dates:",
                "Reckoned with:",
                "(the grower's)",
            ][..],
        ),
        (
            &["--sheet"],
            &["Oar Bulbs, order by 2027-02-01", "goods", "postage 5.00"],
        ),
        (&["--chart"], &["needed  expected", "| stems needed"]),
        (
            &["--beds", "--units", "mm"],
            &["sea wall: 20.0 m long, 3 rows"],
        ),
        (
            &["--beds", "--units", "in"],
            &["sea wall: 65.6 ft long, 3 rows"],
        ),
        (&["--risk"], &["Chance in 100"]),
        (
            &["--why", "Haaf Bell"],
            &[
                "for lifeboat day in week 36",
                "no way to meet every need without it was found",
            ],
        ),
        (
            &["--why", "ebb kist"],
            &[
                "Ebb Kist: 8 planted; 0 bought, 8 on hand",
                "doing without it costs",
            ],
        ),
        (
            &["--fix", "Haaf Bell=18", "--sheet"],
            &["Haaf Bell", "54.00"],
        ),
        (
            &["--shortlist"],
            &[
                "Not every need can be met",
                "chapel: short in weeks 35 to 36",
            ],
        ),
    ] {
        let told = lane.out(words);
        for text in seen {
            assert!(told.contains(text), "{words:?}: {text:?} is not in\n{told}");
        }
    }
    // What is asked for on the command line alone is not kept.
    assert_eq!(
        fs::read_to_string(lane.path("order.ron")).expect("reads"),
        PLAN
    );
}

#[test]
fn what_is_short_says_how_much_and_what_mends_it() {
    let lane = Lane::new(&PLAN.replace("money: \"450\"", "money: \"20\""));
    let answer = lane.json(&[]);
    assert_eq!(answer["status"], "short");
    let short = answer["short"].as_array().expect("a list");
    assert!(!short.is_empty() && short.iter().all(|one| one["stems"].as_f64() > Some(0.0)));
    assert!(hundredths(&answer["cost"]) <= 2000, "{answer:#}");
    let mends = answer["mends"].as_array().expect("a list");
    let money = mends
        .iter()
        .find(|one| one["by"] == "money")
        .expect("more money");
    // With so much more it can be done, and with a hundredth less it cannot.
    let more = hundredths(&money["more"]);
    for (money, status) in [(2000 + more, "optimal"), (1999 + more, "short")] {
        let money = format!("money: \"{}.{:02}\"", money / 100, money % 100);
        let again = Lane::new(&PLAN.replace("money: \"450\"", &money)).json(&[]);
        assert_eq!(again["status"], status, "{money}");
    }
}

#[test]
fn what_is_lacking_beside_stems_is_told() {
    let lane = Lane::new(PLAN);
    for (change, need, told) in [
        (
            "quay stall=varieties=3",
            Some("quay stall"),
            "2 of the 3 varieties asked for in weeks 33 to 38: the list has 2 that could",
        ),
        (
            "quay stall=different=2 forms=ball,pompon",
            Some("quay stall"),
            "1 of the 2 forms asked for",
        ),
        ("forms to try=stellar", None, "no stellar is planted"),
    ] {
        let answer = lane.json(&["--set", change]);
        assert_eq!(answer["status"], "short", "{change}");
        let lacking = &answer["lacking"][0];
        assert_eq!(lacking["need"].as_str(), need, "{change}");
        assert!(
            lacking["told"]
                .as_str()
                .is_some_and(|own| own.contains(told)),
            "{lacking}"
        );
        assert!(lane.out(&["--set", change]).contains(told), "{change}");
    }
    let told = lane.out(&["--fix", "Haaf Bell=300"]);
    assert!(
        told.contains("fixed by hand costs 900.00 by itself"),
        "{told}"
    );
}

#[test]
fn bad_input_is_one_sentence() {
    let lane = Lane::new(PLAN);
    lane.refused(&["--why", "Haaf Nobody"], "--why: found \"Haaf Nobody\"");
    lane.refused(&["--fix", "Haaf Nobody=3"], "--fix: found \"Haaf Nobody\"");
    lane.refused(
        &["--fix", "Haaf Bell=many"],
        "expected a variety and its tubers",
    );
    lane.refused(
        &["--fix", "Ebb Kist=3"],
        "expected a variety that someone offers",
    );
    lane.refused(&["--chart", "season.png"], "ends in .pdf or .svg");
    lane.refused(&["--calendar", "dates.txt"], "ends in .ics");
    lane.refused(&["--csv", "order.xlsx"], "ends in .csv");
    lane.refused(&["--sheet", "order.doc"], "ends in .pdf");
    lane.refused(
        &["--sheet", "order.pdf", "--paper", "a9"],
        "found the paper \"a9\"",
    );
    for (from, to, told) in [
        (
            "weeks: (36, 36)",
            "weeks: (36, 50)",
            "order.ron, line 10, column 50: lifeboat day: found week 50",
        ),
        ("money: \"450\"", "money: \"-450\"", "order.ron, line 6"),
        (
            "closes: \"2027-02-28\"",
            "closes: \"2027-01-02\"",
            "order.ron, line 7, column 75: Oar Bulbs: found a supplier that closed",
        ),
        (
            "forms: [\"ball\"]",
            "forms: [\"bell\"]",
            "order.ron, line 9, column 62: quay stall: found the form \"bell\"",
        ),
    ] {
        Lane::new(&PLAN.replace(from, to)).refused(&[], told);
    }
    let none = Lane::new(PLAN);
    fs::remove_file(none.path("order.ron")).expect("removes");
    none.refused(&[], "found no order.ron");
    lane.refused(&["--begin"], "never written over");
    for (words, told) in [
        (["--set", "money"], "such as money=450"),
        (
            ["--set", "monny=3"],
            "found \"monny\", expected one of quay stall",
        ),
        (["--set", "money=-3"], "--set: money: found \"-3\""),
        (["--set", "quay stall=33-50"], "found week 50"),
        (["--add", "wedding"], "--add: found \"wedding\""),
        (["--add", "quay stall: 3 35-35"], "a second time"),
        (
            ["--drop", "wedding"],
            "expected a need: quay stall, lifeboat day, chapel",
        ),
    ] {
        lane.refused(&words, told);
    }
    trug_anywhere(&["order", "--set", "money=9", "--save"]).refused("no folder of your own");
}

#[test]
fn a_search_that_is_stopped_says_so() {
    let answer = Lane::new(PLAN).json(&["--seconds", "0"]);
    let status = answer["status"].as_str().expect("a status");
    // Where the very first step proves it, there is nothing to stop.
    assert!(["stopped", "optimal"].contains(&status), "{answer:#}");
    if status == "stopped" && !answer["cost"].is_null() {
        assert!(answer["gap"].as_f64() > Some(0.0), "{answer:#}");
    }
}

#[test]
fn what_is_changed_is_tried_and_kept_only_where_that_is_asked() {
    let lane = Lane::new(PLAN);
    let words = [
        "--set",
        "quay stall=14 34-37",
        "--set",
        "sea wall=30m",
        "--add",
        "wedding: 5 36-36 colours=plum",
        "--drop",
        "Chapel",
        "--fix",
        "Haaf Bell=30",
    ];
    let told = lane.out(&words);
    for text in [
        "wedding",
        "34 to 37",
        "225 places",
        "3      30          9.00",
    ] {
        assert!(told.contains(text), "{text:?} is not in\n{told}");
    }
    assert!(!told.contains("chapel"), "{told}");
    assert_eq!(
        fs::read_to_string(lane.path("order.ron")).expect("reads"),
        PLAN
    );
    let kept = lane.out(&[&words[..], &["--save"]].concat());
    assert!(
        kept.contains("order.ron is saved.") && kept.contains("Dates:"),
        "{kept}"
    );
    let saved = lane.json(&[]);
    assert_eq!(saved["status"], "optimal");
    let freed = lane.json(&["--fix", "Haaf Bell=", "--save"]);
    assert!(freed["cost"].as_f64() < saved["cost"].as_f64(), "{freed:#}");
    let text = fs::read_to_string(lane.path("order.ron")).expect("reads");
    assert!(
        text.contains("wedding") && !text.contains("fixed"),
        "{text}"
    );
}

#[test]
fn a_folder_without_an_order_begins_one() {
    let lane = Lane::new(PLAN);
    fs::remove_file(lane.path("order.ron")).expect("removes");
    assert!(lane.out(&["--begin"]).contains("order.ron is laid out"));
    let told = lane.out(&[]);
    assert!(
        told.contains("bunches") && told.contains("assumed"),
        "{told}"
    );
}

#[test]
fn a_supplier_without_terms_is_told_as_assumed() {
    let told = "Ebb Nursery has no terms in the plan: no postage and no least order are assumed.";
    let lane = Lane::new(PLAN);
    assert!(lane.out(&[]).contains(told));
    let notes = &lane.json(&[])["notes"];
    assert_eq!(notes.as_array().map(Vec::len), Some(1), "{notes}");
    let terms = PLAN.replace(
        "suppliers: [",
        "suppliers: [(name: \"Ebb Nursery\", postage: \"0\"), ",
    );
    assert!(!Lane::new(&terms).out(&[]).contains("has no terms"));
}
