//! Wrong edits of a rule set or of the table of traits: each is told with file, line, column, what
//! was found and what was expected.

use trug::form::{RuleSet, Traits};

/// A small rule set that is right.
const SET: &str = r#"(
  id: "small",
  name: "a small set",
  source: "this test",
  limits: {"size": "2 in", "most-rows": "5"},
  words: {"tubed": "roll=forward, rolled over 50 %"},
  typical_odds: 5,
  shapes: [
    (id: "plain", name: "plain", means: "", requires: "centre=open, rows at most most-rows, not tubed"),
    (id: "rest", name: "rest", means: "", requires: "", unless: Above, catch_all: true),
  ],
  sizes: [
    (of: [], into: [(id: "{shape}", name: "{shape}", diameter: "")]),
  ],
  size_words: [(word: "small", diameter: "at most size")],
)
"#;

/// A table of traits that is right.
const TABLE: &str = r#"[
  (id: "centre", ask: "", look: "", kind: OneOf([(id: "open", means: ""), (id: "closed", means: "")]), effort: Look, mistake: 0.02),
  (id: "heart", ask: "", look: "", kind: OneOf([(id: "round", means: ""), (id: "long", means: "")]), effort: Look, mistake: 0.02, only_where: "centre=closed"),
  (id: "rolled", ask: "", look: "", kind: Share, effort: Measure, mistake: 0.1),
]
"#;

fn told(text: &str) -> Vec<String> {
    let problems = RuleSet::read("small.ron", text, &Traits::embedded()).err();
    let problems = problems.unwrap_or_default();
    problems.iter().map(ToString::to_string).collect()
}

fn edited(text: &str, from: &str, to: &str) -> String {
    assert_eq!(text.matches(from).count(), 1, "{from}");
    text.replace(from, to)
}

/// The place that a message names is where the text has what the message says was found.
fn check_place(text: &str, told: &str) {
    let number = |before: &str| -> usize {
        let rest = told.split_once(before).expect(told).1;
        let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
        digits.parse().expect(told)
    };
    let line = text.lines().nth(number("line ") - 1).unwrap_or("");
    let there: String = line.chars().skip(number("column ") - 1).collect();
    let said = told.split_once("found ").expect(told).1;
    let said = said.strip_prefix("the field ").unwrap_or(said);
    let quoted = said
        .strip_prefix('"')
        .and_then(|rest| rest.split('"').next());
    if let Some(word) = quoted {
        let there = there.trim_start_matches('"');
        assert!(there.starts_with(word), "{told}\n there: {there}");
    }
}

#[test]
fn the_unedited_texts_are_right() {
    assert_eq!(told(SET), [""; 0]);
    assert!(Traits::read("traits.ron", TABLE).is_ok());
}

#[test]
fn every_wrong_edit_of_a_rule_set_is_told_in_one_sentence() {
    let mut wrong = Vec::new();
    for (from, to, expected) in [
        (
            "means: \"\", requires: \"\"",
            "meaning: \"\", requires: \"\"",
            "line 10, column 32: found the field \"meaning\", expected id, name, means, requires, unless, catch_all or typical",
        ),
        (
            "typical_odds: 5,\n",
            "",
            "line 15, column 1: found no field typical_odds, expected it before the closing )",
        ),
        (
            "typical_odds: 5",
            "typical_odds: five",
            "line 7, column 17: found five, expected a number",
        ),
        (
            "typical_odds: 5",
            "typical_odds: 0",
            "line 7, column 17: found 0 for `typical_odds`, expected 1 to 1000000",
        ),
        (
            "limits: {\"size\": \"2 in\", \"most-rows\": \"5\"},\n",
            "limits: {\"size\": \"2 in\", \"most-rows\": \"5\"},\n  limit_notes: {\"sise\": \"assumed\"},\n",
            "line 6, column 18: found \"sise\", expected the name of a limit",
        ),
        (
            "\"most-rows\": \"5\"",
            "\"most-rows\": 5",
            "line 5, column 41: found 5, expected text in double quotes",
        ),
        (
            "\"small\",\n",
            "\"small\"\n",
            "line 3, column 3: found name, expected a comma or a closing bracket",
        ),
        (
            "  ],\n  sizes",
            "  sizes",
            "line 11, column 3: found sizes, expected a record, beginning with (",
        ),
        (
            "at most size\")],\n)",
            "at most size\")],\n",
            "line 17, column 1: found the end of the file, expected the rest of the text",
        ),
        (
            "unless: Above",
            "unless: Below",
            "line 10, column 65: found \"Below\", expected Above or These",
        ),
        (
            "catch_all: true",
            "catch_all: yes",
            "line 10, column 83: found yes, expected true or false",
        ),
        (
            "name: \"rest\"",
            "name: \"rest\", name: \"more\"",
            "line 10, column 32: found the field name a second time, expected it once",
        ),
        (
            "centre=open",
            "center=open",
            "line 9, column 56: found \"center\", expected a trait (centre, rows, collar, roll, rolled, line, tip, set, outline, gradient, width, heart, diameter, tubed)",
        ),
        (
            "centre=open",
            "centre=ajar",
            "line 9, column 63: found \"ajar\", expected closed, open or pincushion",
        ),
        (
            "at most most-rows",
            "at most 41",
            "line 9, column 82: found \"41\", expected a whole number from 1 to 40, or the name of a limit that is one",
        ),
        (
            "at most most-rows",
            "at most more-rows",
            "line 9, column 82: found \"more-rows\", expected a whole number from 1 to 40, or the name of a limit that is one",
        ),
        (
            "at most most-rows",
            "at most size",
            "line 9, column 82: found \"size\", expected a whole number from 1 to 40, or the name of a limit that is one; \"size\" is \"2 in\"",
        ),
        (
            "\"5\"",
            "\"many\"",
            "line 9, column 82: found \"most-rows\", expected a whole number from 1 to 40, or the name of a limit that is one; \"most-rows\" is \"many\"",
        ),
        (
            "not tubed",
            "(not tubed",
            "line 9, column 103: found the end, expected a `)`",
        ),
        (
            "unless: Above",
            "unless: These([\"later\"])",
            "line 10, column 73: found \"later\", expected the id of a shape written above this one",
        ),
        (
            "id: \"rest\"",
            "id: \"plain\"",
            "line 10, column 11: found \"plain\", expected each shape once",
        ),
        (
            "of: []",
            "of: [\"double\"]",
            "line 13, column 12: found \"double\", expected the id of a shape",
        ),
        (
            "of: []",
            "of: [\"plain\"]",
            "line 10, column 11: found \"rest\", expected a line of `sizes` for this shape, or one with `of: []`",
        ),
        (
            "(of: [], into: [(id: \"{shape}\", name: \"{shape}\", diameter: \"\")]),",
            "",
            "line 9, column 11: found \"plain\", expected a line of `sizes` for this shape, or one with `of: []`",
        ),
        (
            "[(id: \"{shape}\", name: \"{shape}\", diameter: \"\")]",
            "[]",
            "line 9, column 11: found \"plain\", expected a form for this shape in `into`, which is empty",
        ),
        (
            "diameter: \"\"",
            "diameter: \"over 2 in, under 1 in\"",
            "line 13, column 86: found the end, expected relations that can all hold, with commas",
        ),
        (
            "id: \"{shape}\"",
            "id: \"one\"",
            "line 13, column 27: found \"one\", expected each form once, and \"one\" is there already",
        ),
        (
            "at most size",
            "at most 2",
            "line 15, column 51: found \"2\", expected a length over 0 and up to 500mm, such as 98mm, 9.8cm or 3 1/2 in, or the name of a limit that is one",
        ),
    ] {
        let told = told(&edited(SET, from, to));
        let first = told.first().map_or("nothing", String::as_str);
        check_place(&edited(SET, from, to), first);
        if first != format!("small.ron, {expected}") {
            wrong.push(format!("{to}\n told {first}\n want small.ron, {expected}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn several_problems_are_told_together() {
    let text = edited(SET, "centre=open", "centre=ajar");
    let text = edited(&text, "typical_odds: 5", "typical_odds: 0.5");
    let text = edited(&text, "at most size", "at most sighs");
    assert_eq!(told(&text).len(), 3, "{:?}", told(&text));
}

#[test]
fn a_set_without_shapes_is_refused() {
    let start = SET.find("    (id: \"plain\"").expect("a shape");
    let end = SET.find("  ],\n  sizes").expect("the end of shapes");
    let text = format!("{}{}", &SET[..start], &SET[end..]);
    assert_eq!(
        told(&text),
        ["small.ron, line 8, column 11: found no shape for `shapes`, expected at least one"]
    );
}

#[test]
fn every_wrong_edit_of_the_table_is_told() {
    let mut wrong = Vec::new();
    for (from, to, expected) in [
        (
            "effort: Measure",
            "effort: Guess",
            "line 4, column 58: found \"Guess\", expected Look, Count or Measure",
        ),
        (
            "kind: Share",
            "kind: Count(1)",
            "line 4, column 50: found 1 values, expected 2",
        ),
        (
            "kind: Share",
            "kind: Length(\"500\")",
            "line 4, column 50: found \"500\", expected a length such as 98mm, 9.8cm, 3.5in or 3 1/2 in",
        ),
        (
            "(id: \"long\"",
            "(id: \"round\"",
            "line 3, column 9: found the state \"round\" of \"heart\" a second time, expected each id once",
        ),
        (
            "only_where",
            "zero_where",
            "line 3, column 9: found zero_where for \"heart\", expected it only where the answer is a number",
        ),
        (
            "0.1)",
            "0.9)",
            "line 4, column 9: found mistake 0.9 for \"rolled\", expected a chance over 0 and under 0.5",
        ),
    ] {
        let problems = Traits::read("traits.ron", &edited(TABLE, from, to)).expect_err(to);
        let first = problems[0].to_string();
        check_place(&edited(TABLE, from, to), &first);
        if first != format!("traits.ron, {expected}") {
            wrong.push(format!("{to}\n told {first}\n want traits.ron, {expected}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A table that lacks the diameter cannot split shapes by size; said, not skipped.
#[test]
fn a_table_without_a_diameter_is_refused() {
    let traits = Traits::read("traits.ron", TABLE).expect("a table");
    let text = edited(
        SET,
        "centre=open, rows at most most-rows, not tubed",
        "centre=open",
    );
    let text = edited(&text, "roll=forward, rolled over 50 %", "rolled over 50 %");
    let problems = RuleSet::read("small.ron", &text, &traits).expect_err("no diameter");
    assert_eq!(
        problems[0].to_string(),
        "small.ron, line 2, column 8: found \"small\", expected a trait `diameter`, a length, in the table of traits"
    );
}

/// Text made to be dear: refused in a moment, in words, without a crash.
#[test]
fn a_text_that_would_blow_up_is_refused() {
    let deep = format!("{}centre=open{}", "(".repeat(100_000), ")".repeat(100_000));
    let nots = format!("{}centre=open", "not ".repeat(100_000));
    for text in [deep, nots] {
        let told = told(&edited(
            SET,
            "centre=open, rows at most most-rows, not tubed",
            &text,
        ));
        assert!(
            told[0].contains("expected at most 64 brackets"),
            "{}",
            told[0]
        );
    }
    // Each word is twice the one before: spelt out, the last would be a million tests.
    let mut words = String::from("\"w00\": \"centre=open\"");
    for at in 1..=20 {
        words += &format!(", \"w{at:02}\": \"w{0:02} or w{0:02}\"", at - 1);
    }
    let text = edited(SET, "\"tubed\": ", &format!("{words}, \"tubed\": "));
    assert!(
        told(&text)[0].contains("expected at most 10000 tests"),
        "{:?}",
        told(&text)[0]
    );
    // Each shape gives way to the two before it: spelt out, rules grow as Fibonacci's numbers do.
    let mut shapes = String::new();
    for at in 0..60_usize {
        let before: Vec<String> = (at.saturating_sub(2)..at)
            .map(|b| format!("\"s{b}\""))
            .collect();
        shapes += &format!(
            "(id: \"s{at}\", name: \"\", means: \"\", requires: \"rows={}\", unless: These([{}])),\n",
            1 + at % 40,
            before.join(",")
        );
    }
    let text = edited(
        SET,
        "    (id: \"plain\"",
        &format!("{shapes}    (id: \"plain\""),
    );
    let told = told(&text);
    assert!(told[0].contains("too tangled to prove"), "{}", told[0]);
}
