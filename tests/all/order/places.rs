//! What is wrong with an order's file is told at its own field, whatever else the file holds.

use crate::common::order_lane::{LIST, PLAN};
use crate::common::plans::{drawn, read};
use crate::common::shipped::Shipped;
use fastrand::Rng;
use trug::order::{Candidates, Fixed, Frost, ListContext, Need, Plan};
use trug::problem::Problem;
use trug::variety::{Index, Text, Varieties};

/// What is wrong with the text: in itself, or read against a small list.
fn problems(text: &str) -> Vec<Problem> {
    let plan = match Plan::read("order.ron", text) {
        Ok(plan) => plan,
        Err(problems) => return problems,
    };
    let shipped = Shipped::new();
    let grounds = shipped.context(8.0);
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let against = ListContext {
        list: &list,
        index: &Index::new(&list, grounds),
        grounds,
        sure: trug::order::USUALLY_SURE,
    };
    let wrong = Candidates::of(&plan, against).expect_err("a plan that means nothing");
    Problem::all("order.ron", text, wrong)
}

/// The first problem of the changed plan begins so, and stands at the text that was put in.
#[track_caller]
fn check(changes: &[(&str, &str)], told: &str) {
    let mut text = PLAN.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    let first = problems(&text).remove(0).to_string();
    assert!(
        first.starts_with(&format!("order.ron, {told}")),
        "{first}\n{text}"
    );
}

#[test]
fn a_name_that_looks_like_part_of_a_sentence_or_of_the_file_is_no_matter() {
    let colon = ("\"quay stall\"", "\"wedding: Anna\"");
    let bouquets = ("forms: [\"ball\"]", "use: \"bouquets\"");
    let told = "line 9, column 62: wedding: Anna: found the use \"bouquets\"";
    check(&[colon, bouquets], told);
    let quotes = (
        "\"quay stall\"",
        r#""a \"use: (\" and \u{e9}, name: \"chapel\"""#,
    );
    let told = "line 9, column 90: a \"use: (\" and é, name: \"chapel\": found the use";
    check(&[quotes, bouquets], told);
    for name in [
        "\"try\"",
        "\"needs\"",
        "\"fixed, Haaf Bell from Oar Bulbs\"",
    ] {
        let changes = [
            ("\"lifeboat day\"", name),
            ("(36, 36)", "(36, 36), forms: [\"bell\"]"),
        ];
        check(&changes, "line 10, column ");
    }
}

#[test]
fn of_two_with_one_name_the_second_is_told() {
    let changes = [("\"lifeboat day\"", "\"quay stall\"")];
    check(
        &changes,
        "line 10, column 12: found the name \"quay stall\"",
    );
    // A variety of the season's counts has the name of a need.
    let counted = "lost: 0.0, counted: [(variety: \"chapel\", plants: 3, stems: [(33, 1)])]),";
    let changes = [
        ("lost: 0.0),", counted),
        (
            "(35, 36), forms: [\"single\"]",
            "(35, 36), forms: [\"singles\"]",
        ),
    ];
    check(&changes, "line 11, column 57: chapel: found the form");
}

#[test]
fn comments_and_the_ends_of_lines_are_no_matter() {
    let comment = (
        "  needs: [\n",
        "  // needs: [(name: \"quay stall\", forms: [\"bell\"]\n  /* (( \" */ needs: [\n",
    );
    let changes = [comment, ("[\"ball\"]", "[\"ball\", \"bell\"]")];
    check(&changes, "line 10, column 70: quay stall: found the form");
    let one_line = PLAN.lines().skip(1).collect::<String>();
    let bad = one_line.replace("\"ball\"", "\"bell\"");
    let first = &problems(&bad)[0];
    let before = bad.find("\"bell\"").expect("the form");
    assert_eq!((first.line, first.column), (1, 1 + before), "{first}");
}

#[test]
fn a_part_of_the_season_is_told_at_its_own_line() {
    let season = ("stems_a_week", "\n    ramp: [1.0, 0.5],\n    stems_a_week");
    check(
        &[season],
        "line 5, column 11: found [1.0, 0.5] for the ramp",
    );
    let season = ("stems_a_week", "\n    curve: [1.0, 0.5],\n    stems_a_week");
    check(
        &[season],
        "line 5, column 12: found [1.0, 0.5] for the ramp",
    );
    let season = ("stems_lost: 0.0", "\n    stems_lost: 100.0");
    check(&[season], "line 5, column 17: found a loss");
}

#[test]
fn what_is_tried_or_fixed_is_told_at_its_own_word() {
    let fixed = |fixed: &str| format!("  ],\n  fixed: [{fixed}],\n)");
    for (from, told) in [
        (
            "(variety: \"Haaf Bel\", supplier: \"Oar Bulbs\", packs: 1)",
            "line 13, column 21: fixed, Haaf Bel from Oar Bulbs: found a variety that is not",
        ),
        (
            "(variety: \"Haaf Bell\", supplier: \"Oar\", packs: 1)",
            "line 13, column 44: fixed, Haaf Bell from Oar: found no offer",
        ),
    ] {
        check(&[("  ],\n)", &fixed(from))], told);
    }
    let tried = ("  needs:", "  try: [\"ball\", \"balls\"],\n  needs:");
    check(&[tried], "line 8, column 17: try: found the form \"balls\"");
}

/// Names that could be taken for something else.
const NAMES: [&str; 6] = [
    "wedding: Anna",
    "a \"quoted\" (one), weeks: (33, 34)",
    "try",
    "fixed, x from y: z",
    "back\\slash",
    "\u{e9}t\u{e9} // no comment",
];

/// Makes one field of the plan wrong: how the field is written then.
fn spoil(plan: &mut Plan, dice: &mut Rng) -> &'static str {
    let text = |text: &str| Text::new(text).expect("a text");
    let at = dice.usize(..plan.needs.len());
    let need: &mut Need = &mut plan.needs[at];
    match dice.u8(..14) {
        0 => need.weeks.1 = 52,
        1 => need.weeks.1 = 77,
        2 => {
            need.for_use = Some(text("use: none"));
            return "\"use: none\"";
        }
        3 => {
            need.colours.push(text("no: colour"));
            return "\"no: colour\"";
        }
        4 => {
            need.forms.insert(0, text("form)"));
            // A need may ask for no more different forms than it takes.
            need.different_forms = None;
            return "\"form)\"";
        }
        5 => {
            need.fitness = Some(7.25);
            return "7.25";
        }
        6 => {
            need.within = Some(777.5);
            return "777.5";
        }
        7 => {
            plan.season.ramp = vec![0.875, 0.125];
            return "[0.875, 0.125]";
        }
        8 => {
            plan.season.plants_lost = Some(123.5);
            return "123.5";
        }
        9 => {
            plan.storage_kept = Some(321.5);
            return "321.5";
        }
        10 => {
            plan.beds[1].spacing = "0mm".parse().expect("a length");
            return "\"0mm\"";
        }
        11 => {
            plan.tried.push(text("tried: x"));
            return "\"tried: x\"";
        }
        12 => {
            plan.fixed.push(Fixed {
                variety: text("name: nobody"),
                supplier: text("Oar Bulbs"),
                packs: 1,
            });
            return "\"name: nobody\"";
        }
        _ => {
            plan.season.first_frost = Frost::on("2026-10-02".parse().expect("a day"));
            // Planting is then in another year than the frost.
            return "\"2027-05-";
        }
    }
    match need.weeks.1 {
        52 => "52",
        _ => "77",
    }
}

/// Of drawn plans with names that could be taken for something else, one field is made wrong: the
/// place that is told is that field's.
#[test]
fn one_wrong_field_of_a_drawn_plan_is_told_at_that_field() {
    let mut dice = Rng::with_seed(7);
    for seed in 1..=40 {
        let right = drawn(seed);
        read(&right, |against| {
            for _ in 0..6 {
                let mut plan = right.plan.clone();
                for need in &mut plan.needs {
                    let name = format!("{} {}", need.name, NAMES[dice.usize(..NAMES.len())]);
                    need.name = Text::new(name).expect("a name");
                }
                let written = spoil(&mut plan, &mut dice);
                let text = plan.write().expect("writes");
                let problems = match Plan::read("order.ron", &text) {
                    Err(problems) => problems,
                    Ok(plan) => {
                        let wrong = Candidates::of(&plan, against).expect_err(written);
                        Problem::all("order.ron", &text, wrong)
                    }
                };
                let at = |one: &Problem| {
                    let line = text.lines().nth(one.line - 1).expect("a line");
                    line.chars().skip(one.column - 1).collect::<String>()
                };
                let first = at(&problems[0]);
                assert!(
                    first.starts_with(written),
                    "{seed}: {written}: {}\n{first}\n{text}",
                    problems[0]
                );
            }
        });
    }
}
