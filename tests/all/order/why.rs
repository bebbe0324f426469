//! Why needs are not met, as `trug order` tells it: each cause on a plan made to have it.

use crate::common::order_lane::{LIST, Lane, PLAN, hundredths};
use serde_json::{Value, json};

/// Singles from before the first cut on, which is on the last day of July.
fn bees() -> String {
    PLAN.replace(
        "weeks: (35, 36), forms: [\"single\"]",
        "weeks: (26, 36), forms: [\"single\"]",
    )
}

/// The causes of a need.
fn causes<'a>(answer: &'a Value, need: &str) -> Vec<&'a Value> {
    let all = answer["causes"].as_array().expect("causes");
    all.iter().filter(|cause| cause["need"] == need).collect()
}

fn cause<'a>(answer: &'a Value, need: &str) -> &'a Value {
    let [cause] = causes(answer, need)[..] else {
        panic!("{need}: {:#}", answer["causes"]);
    };
    cause
}

#[test]
fn weeks_before_the_first_cut_are_set_aside_and_the_rest_is_ordered() {
    let lane = Lane::new(&bees());
    let answer = lane.json(&[]);
    assert_eq!(answer["status"], "short");
    assert_eq!(
        answer["set_aside"],
        json!([{ "need": "chapel", "weeks": [26, 27, 28, 29], "kept": "other_weeks" }])
    );
    let why = cause(&answer, "chapel");
    assert_eq!(why["why"], "before_first_cut");
    assert_eq!(why["day"], "2027-07-31");
    let told = "chapel, weeks 26 to 29: nothing that could serve it is cut before 31 July 2027";
    let text = lane.out(&[]);
    for told in [
        told,
        "chapel in weeks 26 to 29 is set aside, and its other weeks are ordered for",
        "All else that is asked for is met in a usual season for",
        "chapel: short in weeks 26 to 29, 16.0 stems in all",
    ] {
        assert!(text.contains(told), "{told:?} is not in\n{text}");
    }
    // All else is met, and its least cost is proved: it is that of the plan without those weeks.
    assert_eq!(
        (&answer["gap"], &answer["bound"]),
        (&json!(0.0), &answer["cost"])
    );
    assert_eq!(answer["all_needs_cost"], Value::Null);
    let short = answer["short"].as_array().expect("a list");
    let short: Vec<_> = short
        .iter()
        .map(|one| (&one["need"], &one["week"]))
        .collect();
    let chapel = json!("chapel");
    let weeks = [26, 27, 28, 29].map(|week| json!(week));
    let expected: Vec<_> = weeks.iter().map(|week| (&chapel, week)).collect();
    assert_eq!(short, expected);
    let narrower = lane.json(&["--set", "chapel=30-36"]);
    assert_eq!(narrower["status"], "optimal");
    assert_eq!(narrower["cost"], answer["cost"]);
    assert_eq!(narrower["causes"], json!([]));
    // And so it is advised.
    let mends = answer["mends"].as_array().expect("mends");
    let weeks = mends
        .iter()
        .find(|mend| mend["by"] == "weeks")
        .expect("weeks");
    assert_eq!(weeks["set"], json!(["chapel=30-36"]));
    assert_eq!(weeks["least"], true);
    assert!(hundredths(&weeks["cost"]) >= hundredths(&answer["cost"]));
    let told = weeks["told"].as_str().expect("a sentence");
    assert!(told.starts_with("chapel only in weeks 30 to 36"), "{told}");
}

#[test]
fn of_what_is_beyond_two_changes_together_are_advised() {
    // Too early, and too dear.
    let lane = Lane::new(&bees().replace("money: \"450\"", "money: \"40\""));
    let answer = lane.json(&[]);
    assert_eq!(answer["status"], "short");
    let mends = answer["mends"].as_array().expect("mends");
    let both = mends
        .iter()
        .find(|mend| mend["by"] == "weeks" && mend["and"]["by"] == "money");
    let both = both.unwrap_or_else(|| panic!("{mends:#?}"));
    let sets = both["set"].as_array().expect("edits").iter();
    let words: Vec<&str> =
        { sets.flat_map(|set| ["--set", set.as_str().expect("an edit")]) }.collect();
    let made = lane.json(&words);
    assert_eq!(made["status"], "optimal", "{made:#}");
    assert!(hundredths(&made["cost"]) <= hundredths(&both["cost"]));
    // Either alone does not do.
    for one in words.chunks(2) {
        assert_eq!(lane.json(one)["status"], "short", "{one:?}");
    }
    // Only what is not set aside is called too dear.
    let why = causes(&answer, "chapel");
    assert_eq!(why[0]["why"], "before_first_cut", "{why:#?}");
    let others: Vec<&str> = { answer["causes"].as_array().expect("causes").iter() }
        .filter_map(|cause| cause["why"].as_str())
        .filter(|why| *why != "before_first_cut")
        .collect();
    assert!(
        !others.is_empty() && others.iter().all(|why| *why == "money"),
        "{others:?}"
    );
}

#[test]
fn each_cause_is_told_by_what_would_do_away_with_it() {
    let lane = Lane::new(PLAN);
    let alone = ["--drop", "quay stall", "--drop", "lifeboat day"];
    let frost = PLAN
        .replace(
            "first_frost: (date: \"2027-10-10\")",
            "first_frost: (date: \"2027-10-04\")",
        )
        .replace("weeks: (35, 36)", "weeks: (39, 40)");
    let closed = PLAN.replace("ordered: \"2027-01-15\"", "ordered: \"2027-02-15\"");
    let fixed = PLAN.replace(
        "  needs: [",
        "  fixed: [(variety: \"=Haaf Drift\", supplier: \"Oar Bulbs\", packs: 1)],\n  needs: [",
    );
    let [frost, closed, fixed] = [frost, closed, fixed].map(|plan| Lane::new(&plan));
    let money = [&alone[..], &["--set", "money=3"]].concat();
    let least = ["--set", "money=40", "--set", "Oar Bulbs=least=60"];
    let least = [&alone[..], &least].concat();
    let fewer = "quay stall=colours=white within=5";
    let from_one = "quay stall=colours=plum within=5 most=40";
    for (lane, words, need, why, told) in [
        (
            &frost,
            &[][..],
            "chapel",
            "after_frost",
            "the first frost is looked for on 4 October 2027",
        ),
        (
            &closed,
            &[],
            "chapel",
            "closed",
            "closed by 1 February 2027",
        ),
        (
            &lane,
            &["--shortlist"],
            "lifeboat day",
            "shortlist",
            "not on the shortlist",
        ),
        (
            &fixed,
            &[],
            "chapel",
            "fixed",
            "fixed by hand stands in its way",
        ),
        (
            &lane,
            &least,
            "chapel",
            "least_order",
            "the least order of Oar Bulbs stands in its way",
        ),
        (
            &lane,
            &money,
            "chapel",
            "money",
            "even if nothing else were asked for; more money would do",
        ),
        (
            &lane,
            &["--set", "quay stall=varieties=3"],
            "quay stall",
            "too_few_varieties",
            "of the 3 varieties asked for only 2",
        ),
        (
            &lane,
            &["--set", "quay stall=different=2 forms=ball,pompon"],
            "quay stall",
            "too_few_forms",
            "asking for no number of forms would do",
        ),
        (
            &lane,
            &["--set", fewer],
            "quay stall",
            "too_few_tubers",
            "gives 7.2 of the 12 stems",
        ),
        (
            &lane,
            &["--set", from_one],
            "quay stall",
            "most_from_one",
            "from one no more than 40 in a hundred",
        ),
        (
            &lane,
            &["--set", "lifeboat day=colours=apricot"],
            "lifeboat day",
            "no_variety",
            "no variety is of its colours; the nearest",
        ),
        (
            &lane,
            &["--set", "lifeboat day=forms=stellar"],
            "lifeboat day",
            "no_variety",
            "Haaf Bell (of another form)",
        ),
    ] {
        let answer = lane.json(words);
        assert_eq!(answer["status"], "short", "{words:?}");
        let found = cause(&answer, need);
        assert_eq!(found["why"], why, "{words:?}: {found:#}");
        let sentence = found["told"].as_str().expect("a sentence");
        assert!(sentence.contains(told), "{told:?} is not in {sentence:?}");
        // As text it is folded.
        let text = lane.out(words);
        let text: Vec<&str> = text.split_whitespace().collect();
        assert!(text.join(" ").contains(sentence), "{sentence}");
    }
    // A colour that nothing has names what is nearest, and how far it is.
    let answer = lane.json(&["--set", "lifeboat day=colours=apricot"]);
    let nearest = &cause(&answer, "lifeboat day")["nearest"];
    assert_eq!(nearest.as_array().map(Vec::len), Some(1), "{nearest}");
    assert!(nearest[0]["distance"].as_f64() > Some(8.0), "{nearest}");
    // The others are ordered for as if it were not there.
    let without = lane.json(&["--drop", "lifeboat day"]);
    assert_eq!(answer["cost"], without["cost"]);
    // As many as there are is ordered for of what there is too little of.
    let some = lane.json(&["--set", fewer]);
    assert_eq!(some["set_aside"][0]["kept"], "most");
    let given = some["needs"].as_array().expect("needs").iter();
    let mut given = given.filter(|one| one["need"] == "quay stall");
    assert!(
        given.all(|one| one["needed"] == 12.0 && one["given"] == 7.2),
        "{some:#}"
    );
}

#[test]
fn two_weddings_that_want_one_bed_are_told_to_compete() {
    let plan = PLAN
        .replace(
            "length: \"20m\", width: \"1.2m\"",
            "length: \"4m\", width: \"400mm\"",
        )
        .replace(
            "stems: 12, weeks: (33, 38), forms: [\"ball\"]",
            "stems: 8, weeks: (36, 36), colours: [\"white\"]",
        );
    let lane = Lane::new(&plan);
    let alone = ["--drop", "chapel"];
    let answer = lane.json(&alone);
    assert_eq!(answer["status"], "short");
    assert_eq!(answer["set_aside"], json!([]));
    let short = &answer["short"][0]["need"];
    let other = match short.as_str() {
        Some("quay stall") => "lifeboat day",
        _ => "quay stall",
    };
    let why = cause(&answer, short.as_str().expect("a name"));
    assert_eq!(
        (&why["why"], &why["competes"]),
        (&json!("beds"), &json!([[other]]))
    );
    let told = why["told"].as_str().expect("a sentence");
    assert!(
        told.contains("the beds are too small for it beside the others"),
        "{told}"
    );
    assert!(
        told.contains(&format!("so would an order without {other}")),
        "{told}"
    );
    // Without the other it is met.
    let words = [&alone[..], &["--drop", other]].concat();
    assert_eq!(lane.json(&words)["status"], "optimal");
    // With two more of which one is enough to leave out, any one of them is told.
    let of_three = lane.json(&["--set", "chapel=2 36-36", "--set", "sea wall=6m"]);
    for cause in of_three["causes"].as_array().expect("causes") {
        for set in cause["competes"].as_array().expect("sets") {
            let drops = set.as_array().expect("needs").iter();
            let drops = drops.flat_map(|need| ["--drop", need.as_str().expect("a name")]);
            let drops: Vec<&str> = drops.collect();
            let words = ["--set", "chapel=2 36-36", "--set", "sea wall=6m"];
            let words = [&words[..], &drops].concat();
            assert_eq!(lane.json(&words)["status"], "optimal", "{cause:#}");
        }
    }
}

#[test]
fn a_promise_that_the_frost_may_break_says_in_which_weeks() {
    let plan = PLAN
        .replace(
            "first_frost: (date: \"2027-10-10\")",
            "first_frost: (risks: [(chance: 10, on: \"2027-10-08\"), (chance: 50, on: \"2027-10-24\")])",
        )
        .replace("weeks: (36, 36), colours", "weeks: (40, 41), sure: 0.95, colours");
    let lane = Lane::with(LIST, &plan).surely();
    let answer = lane.json(&[]);
    let why = cause(&answer, "lifeboat day");
    assert_eq!(why["why"], "early_frost", "{answer:#}");
    let weeks = why["weeks"].as_array().expect("weeks");
    assert_eq!(weeks.last(), Some(&json!(41)));
    let share = why["share"].as_f64().expect("a share");
    assert!((0.05..0.4).contains(&share), "{share}");
    let told = why["told"].as_str().expect("a sentence");
    assert!(
        told.contains("seasons of 100 are the best that can be had"),
        "{told}"
    );
    let met: Vec<&str> = { answer["promises"].as_array().expect("promises").iter() }
        .filter(|promise| promise["met"] == true)
        .filter_map(|promise| promise["need"].as_str())
        .collect();
    for need in met {
        assert_eq!(causes(&answer, need), Vec::<&Value>::new(), "{need}");
    }
}

/// What is met in a usual season may not be surer for want of plants, in beds of any size for any money.
#[test]
fn a_promise_that_only_the_offers_hold_back_says_so() {
    let alone = [
        "--drop",
        "quay stall",
        "--drop",
        "chapel",
        "--set",
        "money=2000",
    ];
    let two = r#"pack: 1), (supplier: "Ebb Nursery", price: "9.00", pack: 3)]"#;
    assert!(LIST.contains(two));
    let few = Lane::with(&LIST.replace(two, "pack: 1, available: 10)]"), PLAN).surely();
    let answer = few.json(&alone);
    let why = cause(&answer, "lifeboat day");
    assert_eq!(why["why"], "too_little_offered", "{answer:#}");
    let chance = answer["promises"][0]["chance"].as_f64().expect("a chance");
    let share = why["share"].as_f64().expect("a share");
    assert!(
        chance < 0.8 && (share - chance).abs() < 0.06,
        "{share} {chance}"
    );
    // As many as are asked for are enough once there are more.
    let more = Lane::with(&LIST.replace(two, "pack: 1, available: 30)]"), PLAN).surely();
    assert_eq!(more.json(&alone)["promises"][0]["met"], true);
    // What is fixed by hand holds it back as well, and says so.
    let lane = Lane::new(PLAN).surely();
    let fixed = lane.json(&[&alone[..], &["--fix", "Haaf Bell=10"]].concat());
    assert_eq!(cause(&fixed, "lifeboat day")["why"], "fixed", "{fixed:#}");
    assert_eq!(lane.json(&alone)["promises"][0]["met"], true);
}
