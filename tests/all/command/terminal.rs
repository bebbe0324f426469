//! Nothing that a file, a cell, a name of a file or an argument holds reaches the terminal as more than
//! signs on it.

use std::fs;
use std::path::Path;

use crate::common::shell::{Answer, trug};

/// What clears a window, turns the direction of writing, and hides.
const STEERS: &str = "\u{1b}[2Jx\u{202e}y\u{9b}31m\u{200b}z";

#[track_caller]
fn nothing_steers(text: &str) {
    let steers = |c: char| trug::problem::steers(c) && !matches!(c, '\n' | '\t');
    assert!(!text.chars().any(steers), "{text:?}");
}

#[track_caller]
fn only_signs(answer: &Answer) {
    let text = format!("{}{}", answer.out, answer.error);
    nothing_steers(&text);
    // The parser of arguments leaves out what begins with an escape.
    assert!(
        text.contains("\\u{202e}") || text.contains("\\u202e"),
        "{text:?}"
    );
}

#[test]
fn an_argument_that_is_said_again_is_shown() {
    let home = tempfile::tempdir().expect("a place");
    for words in [
        &["key", STEERS][..],
        &["key", &format!("centre={STEERS}")],
        &["choose", "--form", STEERS],
        &["choose", "--where", STEERS],
        &["choose", &format!("--{STEERS}")],
        &["choose", "--top", STEERS],
        &[STEERS],
        &["colour", STEERS],
        &["row", STEERS],
        &["order", "--set", STEERS],
        &["key", "--from", &format!("{STEERS}.csv")],
        &["--at", STEERS, "choose"],
    ] {
        only_signs(&trug(home.path(), words));
    }
    // What is wrong with a name is said without it.
    for words in [&["name", STEERS][..], &["name", STEERS, "--json"]] {
        nothing_steers(&trug(home.path(), words).out);
    }
}

#[test]
fn names_in_files_are_shown() {
    let home = tempfile::tempdir().expect("a place");
    trug(home.path(), &["start", "lane"]).done();
    let lane = home.path().join("lane");
    let put = |name: &str, text: String| fs::write(lane.join(name), text).expect("writes");
    fs::create_dir_all(lane.join("rules")).expect("a folder");
    let set = include_str!("../../../assets/rules/trade-inch.ron");
    let escaped = STEERS.escape_unicode().to_string();
    let name = set
        .lines()
        .find(|line| line.trim_start().starts_with("name:"))
        .expect("a name");
    let own = set.replacen("id: \"trade-inch\"", "id: \"own\"", 1);
    put(
        "rules/own.ron",
        own.replacen(name, &format!("name: \"{escaped}\","), 1),
    );
    only_signs(&trug(home.path(), &["rules", "--at", "lane"]));
    only_signs(&trug(home.path(), &["rules", "--at", "lane", "--json"]));
    put(&format!("rules/{STEERS}.ron"), "(".to_string());
    only_signs(&trug(home.path(), &["choose", "--at", "lane"]));
    let import = format!("{STEERS}.csv");
    only_signs(&trug(home.path(), &["import", &import, "--at", "lane"]));
    put("traits.ron", format!("[(id: \"{escaped}\")]"));
    put("settings.ron", format!("({STEERS}: 1)"));
    let answer = trug(home.path(), &["choose", "--at", "lane"]);
    assert_ne!(answer.status, Some(0));
}

#[test]
fn cells_of_keyed_blooms_are_shown_and_are_no_formulas() {
    let home = tempfile::tempdir().expect("a place");
    let file = Path::new("blooms.csv");
    let text = format!("bed,centre,=cmd\n{STEERS},closed,=1+1\n@SUM(A1),disc,é\n");
    fs::write(home.path().join(file), text).expect("writes");
    let answer = trug(home.path(), &["key", "--from", "blooms.csv"]);
    only_signs(&answer);
    let lines: Vec<&str> = answer.out.lines().collect();
    assert_eq!(lines[0], "bed,centre,'=cmd,form,status");
    assert!(lines[1].contains(",closed,'=1+1,"), "{lines:?}");
    assert!(lines[2].starts_with("'@SUM(A1),disc,é,"), "{lines:?}");
}

#[test]
fn a_plant_that_is_called_like_a_formula_is_none_in_a_sheet() {
    let home = tempfile::tempdir().expect("a place");
    trug(home.path(), &["start", "lane"]).done();
    let list = "[\n  (name: \"=1+1\"),\n]\n";
    fs::write(home.path().join("lane/varieties.ron"), list).expect("writes");
    trug(
        home.path(),
        &[
            "row",
            "note",
            "=1+1",
            "diameter=98mm",
            "date=2026-08-20",
            "--at",
            "lane",
        ],
    )
    .done();
    for purpose in ["blooms", "counts"] {
        let words = [
            "row",
            "sheet",
            "=1+1",
            "--for",
            purpose,
            "--out",
            "sheet.csv",
            "--at",
            "lane",
        ];
        let _ = fs::remove_file(home.path().join("sheet.csv"));
        trug(home.path(), &words).done();
        let sheet = fs::read_to_string(home.path().join("sheet.csv")).expect("a sheet");
        assert!(
            sheet.contains("'=1+1") && !sheet.contains(",=1+1"),
            "{sheet}"
        );
        assert!(!sheet.starts_with('='), "{sheet}");
    }
}
