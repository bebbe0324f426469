//! The command line as a grower uses it: words in; text, errors and an exit status out.

use std::fs;

use serde_json::Value;

use crate::common::shell::{Answer, trug_anywhere};

fn trug(words: &str) -> Answer {
    trug_anywhere(&words.split_whitespace().collect::<Vec<_>>())
}

fn out(words: &str) -> String {
    trug(words).done()
}

fn json(words: &str) -> Value {
    let answer = trug(&format!("{words} --json"));
    let object = answer.object();
    answer.done();
    object
}

fn refused(words: &str, says: &str) {
    trug(words).refused(says);
}

#[test]
fn key_answers_one_documented_object() {
    let settled = json("key centre=open rows=6 diameter=4in");
    assert_eq!(settled["rules"], "trade-inch");
    assert_eq!(settled["status"], "settled");
    assert_eq!(settled["form"], "novelty-open");
    assert_eq!(settled["size"], "miniature");
    assert_eq!(settled["possible"], serde_json::json!(["novelty-open"]));
    assert_eq!(settled["ask"], Value::Null);
    let likely = settled["likely"].as_array().expect("a list");
    let shares: Vec<f64> = likely
        .iter()
        .filter_map(|one| one["share"].as_f64())
        .collect();
    assert!(shares.is_sorted_by(|a, b| a >= b) && (shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    let ball = settled["ruled_out"]
        .as_array()
        .expect("a list")
        .iter()
        .find(|one| one["form"] == "ball");
    assert_eq!(
        ball.expect("ball is ruled out")["by"],
        serde_json::json!(["centre"])
    );

    let open =
        json("key --rules register-mm centre=closed tip=pointed roll=back rolled=55 line=straight");
    assert_eq!(
        (open["status"].as_str(), &open["form"]),
        (Some("open"), &Value::Null)
    );
    // Whether it is a double orchid hangs on the width and the heart.
    assert_eq!(open["ask"]["trait"], "width");
    assert!(open["ask"]["bits"].as_f64().expect("bits") > 0.0);

    let none = json("key roll=flat rolled=30");
    assert_eq!(none["status"], "none");
    assert_eq!(
        none["conflict"]["traits"],
        serde_json::json!(["roll", "rolled"])
    );

    let close = json(
        "key centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90 diameter=87mm,91mm,89mm,92mm",
    );
    let call = &close["close"][0];
    assert_eq!(call["forms"], serde_json::json!(["miniature-ball", "ball"]));
    assert!((0.5..1.0).contains(&call["chance"].as_f64().expect("four blooms")));
}

#[test]
fn bad_input_gets_one_sentence_and_status_two() {
    refused(
        "key centre=shut",
        "centre: found \"shut\", expected closed, open or pincushion",
    );
    refused("key petals=5", "petals: found \"petals\", expected a trait");
    refused("key rows=1 rows=2", "expected each trait once");
    refused(
        "key diameter=98",
        "expected a length over 0 and up to 500mm",
    );
    refused(
        "--rules gardeners key",
        "found the rule set \"gardeners\", expected one of trade-inch, register-mm",
    );
    refused(
        "rules show tulip",
        "found the form \"tulip\", expected one of trade-inch: anemone",
    );
    refused("--at /no/such/folder key", "/no/such/folder");
    refused("key --frm x", "--frm");
}

#[test]
fn many_blooms_are_keyed_and_a_bad_line_does_not_stop_the_others() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("blooms.csv");
    fs::write(
        &path,
        "\u{feff}label,centre,rows,collar,diameter\n\"a, b\",open,3,none,4in\nc,shut,3,none,4in\nd,closed,,,\ne,pincushion,,,75mm,extra\nf,pincushion,,,75mm\n",
    )
    .expect("written");
    let output = trug(&format!("key --from {}", path.display()));
    assert_eq!(output.status, Some(1));
    assert_eq!(
        output.out,
        "label,centre,rows,collar,diameter,form,status\n\"a, b\",open,3,none,4in,peony,settled\nc,shut,3,none,4in,,unread\nd,closed,,,,,open\ne,pincushion,,,75mm,extra,,unread\nf,pincushion,,,75mm,anemone,settled\n"
    );
    let errors = output.error;
    assert!(
        errors.contains("line 3: centre: found \"shut\""),
        "{errors}"
    );
    assert!(
        errors.contains("line 5: found 6 cells, expected 5"),
        "{errors}"
    );
}

#[test]
fn rules_are_listed_shown_proved_and_compared() {
    assert!(out("rules").contains("trade-inch: the trade's forms, limits in inches  (used)"));
    let pompon = out("rules show pompon");
    assert!(
        pompon.contains("pompon                     at most 2 in"),
        "{pompon}"
    );
    // Drawn in dots, or with characters that any terminal and printer has; never in the one object.
    let dots = |text: &str| text.contains(|c| matches!(c, '\u{2801}'..='\u{28ff}'));
    assert!(dots(&pompon) && pompon.lines().all(|line| line.chars().count() < 120));
    let (face, collar) = ("--plain rules show single", "--plain rules show collarette");
    let drawing = |words: &str| {
        let shown = out(words);
        assert!(shown.is_ascii(), "{shown}");
        let (_, drawing) = shown.split_once("face and side:\n\n").expect("a drawing");
        assert_eq!(drawing.lines().count(), 18, "{drawing}");
        assert!(drawing.lines().all(|line| line.len() <= 76), "{drawing}");
        drawing.to_string()
    };
    assert_ne!(drawing(face), drawing(collar));
    assert!(json("rules show pompon")["forms"].is_array());
    let proof = json("rules prove");
    assert_eq!(
        (&proof["total"], &proof["disjoint"], &proof["witness"]),
        (&Value::Bool(true), &Value::Bool(true), &Value::Null)
    );
    assert!(proof["cells"].as_u64().expect("a count") > 3_000_000);
    let same = out("rules compare trade-inch trade-inch");
    assert!(same.contains("ball: as before"));
    assert!(same.contains("No plant of the row has another likeliest form."));
    assert!(
        out("rules compare trade-inch register-mm").contains("laciniated: all become fimbriated")
    );
}

/// Runs `words` in a folder of its own, whose `rules/trade-inch.ron` is the trade's set with each first
/// text of `edits` in place of the second's.
fn under_edited(edits: &[(&str, &str)], words: &str) -> Answer {
    let folder = tempfile::tempdir().expect("a folder");
    let rules = folder.path().join("rules");
    fs::create_dir(&rules).expect("made");
    let mut text = include_str!("../../../assets/rules/trade-inch.ron").to_string();
    for (from, to) in edits {
        assert!(text.contains(from), "{from} is not in the set");
        text = text.replace(from, to);
    }
    fs::write(rules.join("trade-inch.ron"), text).expect("written");
    trug(&format!("--at {} {words}", folder.path().display()))
}

const CACTUS: &str = "key centre=closed tip=pointed roll=back rolled=55 line=straight set=regular diameter=140mm --json";

#[test]
fn an_edited_rule_set_in_the_folder_takes_effect() {
    let edits = [("\"cactus-roll\": \"50 %\"", "\"cactus-roll\": \"60 %\"")];
    let output = under_edited(&edits, CACTUS);
    let keyed: Value = output.object();
    assert_eq!(keyed["form"], "semi-cactus");
}

#[test]
fn a_wrong_rule_set_is_passed_over_with_every_problem() {
    let edits = [("centre=pincushion", "centre=pin"), ("rows=1,", "rows=0,")];
    let output = under_edited(&edits, CACTUS);
    let errors = output.error;
    assert!(output.status == Some(0));
    let rules = include_str!("../../../assets/rules/trade-inch.ron");
    let (before, _) = rules.split_once("centre=pincushion").expect("a rule");
    let line = before.lines().count();
    let told = format!("rules/trade-inch.ron, line {line}, column 24: found \"pin\"");
    assert!(errors.contains(&told), "{errors}");
    assert!(
        errors.lines().count() >= 5,
        "every problem is told: {errors}"
    );
    assert!(errors.contains("this file is passed over"), "{errors}");
    assert!(output.out.contains("\"form\": \"straight-cactus\""));
}

#[test]
fn a_rule_set_that_gives_a_bloom_two_forms_is_refuted_with_one() {
    let own = ("id: \"trade-inch\"", "id: \"edited\"");
    let prove = "--rules edited rules prove";

    let output = under_edited(&[own, ("rolled over cactus-roll", "rolled over 55")], prove);
    let text = &output.out;
    assert!(
        output.status == Some(0),
        "the catch-all takes what cactus leaves: {text}"
    );

    let output = under_edited(&[own, ("rows=2..open-rows", "rows=1..open-rows")], prove);
    let text = &output.out;
    assert_eq!(output.status, Some(1), "{text}");
    assert!(
        text.contains("a bloom that is both single and peony"),
        "{text}"
    );
    assert!(
        text.contains("for example: centre=open rows=1 collar=none"),
        "{text}"
    );
}

#[test]
fn the_field_key_prints_on_a_page_with_its_length_against_the_bound() {
    let card = out("rules card");
    assert!(
        card.lines().count() <= 66 && card.lines().all(|line| line.chars().count() <= 80),
        "{card}"
    );
    // 5.17 is the least possible mean for 35 equally likely kinds by yes/no tests.
    assert!(
        card.contains("pincushion: anemone") && card.contains("5.17"),
        "{card}"
    );
    let mean = json("rules card")["mean"].as_f64().expect("a mean");
    assert!((4.0..5.0).contains(&mean), "to the shape: {mean}");
}

#[test]
fn a_name_is_checked_against_the_code_and_the_list() {
    let refused = json("name Skerry Sport");
    assert_eq!(refused["written"], "\u{2018}Skerry Sport\u{2019}");
    assert_eq!(refused["errors"].as_array().map(Vec::len), Some(1));
    let near = json("name Haaf Lanters");
    assert_eq!(near["errors"], serde_json::json!([]));
    let warned = near["warnings"][0].as_str().expect("a sentence");
    assert!(warned.contains("Haaf Lantern"), "{warned}");
    assert!(out("name Kelp Bell").contains("registrar has the last word"));
}

/// An eye's half is on both sides of a limit of 50 %: both forms stay, and that is said.
#[test]
fn a_part_by_eye_and_ten_or_more_are_answers() {
    let cactus = "key centre=closed tip=pointed roll=back line=straight set=regular diameter=6in";
    for rolled in ["1/2", "half", "\u{bd}"] {
        let told = out(&format!("{cactus} rolled={rolled}"));
        assert!(
            told.contains("about half (45 % to 55 %) for rolled is on both sides of 50 %"),
            "{told}"
        );
    }
    let possible = |answers: &str| json(answers)["possible"].clone();
    assert_eq!(
        possible(&format!("{cactus} rolled=half")),
        serde_json::json!(["straight-cactus", "semi-cactus"])
    );
    assert_eq!(
        possible(&format!("{cactus} rolled=2/3")),
        serde_json::json!(["straight-cactus"])
    );
    assert_eq!(
        possible("key centre=open collar=none rows=10+ diameter=4in"),
        serde_json::json!(["novelty-open"])
    );
    refused(
        "key rows=many",
        "expected a whole number from 1 to 40, 4..7, or 10+ for ten or more",
    );
    refused("key rolled=5/4", "or by eye a quarter, a third");
}

#[test]
fn the_words_of_the_trade_and_what_lists_differ_on_are_told() {
    assert!(out("rules words").contains("petaloid"));
    let words = json("rules words");
    assert_eq!(words["words"][0]["word"], "ray floret");
    let orchid = out("rules show orchid");
    assert!(
        orchid.contains("rolled at least 67 % of their length") && !orchid.contains('='),
        "{orchid}"
    );
    let orchid = out("rules show orchid --source");
    for told in [
        "tubed is roll=forward, rolled at least tube-roll",
        "tube-roll is 67 %",
        "ray floret: what most people call a petal",
    ] {
        assert!(orchid.contains(told), "{orchid}");
    }
    // Published lists differ on a ball of exactly 3.5 in.
    let ball = out("rules show ball");
    assert!(ball.contains("3.5 in: Published lists differ"), "{ball}");
    let ball = "key centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90";
    let exactly = out(&format!("{ball} diameter=3.5in"));
    assert!(
        exactly.contains("Settled: ball") && exactly.contains("lists differ"),
        "{exactly}"
    );
    assert!(!out(&format!("{ball} diameter=3.6in")).contains("lists differ"));
}

/// Where `miniature` stands in a text, it is a part of a form's name or is said to be a size.
fn check_sizes(told: &str, forms: &[Value]) {
    let mut text = told
        .to_lowercase()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    for form in forms {
        let form = form.as_str().expect("an id").replace('-', " ");
        if form.contains("miniature") {
            text = text.replace(&form, "_");
        }
    }
    for (at, _) in text.match_indices("miniature") {
        let before = &text[..at];
        let said = ["size ", "size between "];
        assert!(
            said.iter().any(|said| before.ends_with(said)),
            "{}",
            &text[at.saturating_sub(60)..at + 9]
        );
    }
}

/// Over the whole demo: every text in which a form and a size stand together.
#[test]
fn no_size_reads_as_a_part_of_a_form() {
    let rules = json("rules");
    let forms = rules["rules"][0]["forms"].as_array().expect("forms");
    let list = json("choose --top 240");
    let varieties = list["varieties"].as_array().expect("varieties");
    // The very pairs that were misread are in the demo.
    let pair = |form: &str| {
        let is_it = |one: &&Value| one["form"] == form && one["size"] == "miniature";
        varieties.iter().filter(is_it).count()
    };
    assert!(pair("ball") > 5 && pair("micro-anemone") > 0);
    let lines = out("choose --top 240");
    let (lines, _) = lines
        .split_once("What each value would leave")
        .expect("both");
    check_sizes(lines, forms);
    assert!(
        lines.contains(": ball, 3.5 to 4 in across (size miniature); "),
        "{lines}"
    );
    let row = json("row");
    for plant in row["plants"].as_array().expect("plants").iter().take(12) {
        let id = plant["id"].as_str().expect("an id");
        check_sizes(&out(&format!("row {id}")), forms);
    }
}

/// An old id of a use means the use in its place, wherever one is typed.
#[test]
fn an_old_word_for_a_use_is_still_read() {
    let today = out("choose --use filler --where use=filler --top 5");
    assert_eq!(
        out("choose --use tuck-in --where use=tuck-in --top 5"),
        today
    );
    assert!(today.contains("fitness"), "{today}");
    refused("choose --use tuck", "floating, filler, accent");
    let help = out("choose --help");
    assert!(help.contains("--within <DISTANCE>"), "{help}");
}
