//! A part of the list goes out by the narrowing of `trug choose`.

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use super::grower::Grower;

const LIST: &str = "name,form,size,colour,height,shortlist\n\
    Haaf Lamp,ball,small,peach,90-120cm,yes\n\
    Ebb Bobbin,pompon,,dark red,60cm,\n\
    Noust Ember,ball,,orange,,\n";

/// The names of an export, and of what `trug choose` leaves under the same words.
fn both(grower: &Grower, words: &[&str]) -> (BTreeSet<String>, BTreeSet<String>) {
    let out = grower.path("out.csv");
    let (status, answer) = grower.json(&[&["export", out.as_str(), "--replace"], words].concat());
    assert_eq!(status, 0, "{words:?}");
    let written = fs::read_to_string(&out).expect("an export");
    let names = written.lines().skip(1);
    let names: BTreeSet<String> = names
        .filter_map(|line| Some(line.split(',').next()?.to_string()))
        .collect();
    assert_eq!(answer["varieties"].as_u64(), Some(names.len() as u64));
    let (_, chosen) = grower.json(&[&["choose"], words].concat());
    let chosen = chosen["varieties"].as_array().expect("a list");
    let chosen = chosen
        .iter()
        .filter_map(|one| one["name"].as_str().map(str::to_string));
    (names, chosen.collect())
}

#[test]
fn an_export_has_what_choose_leaves() {
    let grower = Grower::new();
    let file = grower.write("sheet.csv", LIST);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    for (words, count) in [
        (&[][..], 3),
        (&["--shortlist"], 1),
        (&["--form", "ball"], 2),
        (&["--form", "ball", "--where", "size=unknown"], 1),
        (&["--colour", "peach", "--within", "10"], 1),
        (&["lamp"], 1),
        // A span of heights is in every band that it reaches into.
        (&["--where", "height=middle"], 2),
        (&["--where", "height=tall"], 1),
        (&["--where", "height=unknown"], 1),
        (&["zzzzzz"], 0),
    ] {
        let (exported, chosen) = both(&grower, words);
        assert_eq!((exported.len(), &exported), (count, &chosen), "{words:?}");
    }
}

#[test]
fn a_span_of_heights_is_kept_and_told_as_one() {
    let grower = Grower::new();
    let file = grower.write("sheet.csv", LIST);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    assert!(grower.list().contains("height: \"90cm to 120cm\""));
    let again: Value = grower.json(&["import", &file]).1;
    assert_eq!(again["same"].as_u64(), Some(3), "{again:#}");
}

#[test]
fn a_colour_without_a_distance_narrows_nothing_and_is_refused() {
    let grower = Grower::new();
    let out = grower.path("out.csv");
    let answer = grower.trug(&[
        "export",
        &out,
        "--colour",
        "peach",
        "--at",
        &grower.path("lane"),
    ]);
    answer.refused("expected a distance");
    assert!(!fs::exists(&out).expect("looks"));
}
