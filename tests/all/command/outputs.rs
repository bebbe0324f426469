//! What commands write for others stands in nobody's way: no file of a folder is written over, and
//! any other file only where that was asked for.

use std::fs;
use std::path::Path;

use crate::common::order_lane::{Lane, PLAN};

/// Every command that writes a file, with the file's name to be put last.
const WRITERS: [&[&str]; 17] = [
    &["export", "out.csv"],
    &["row", "sheet", "--out", "out.csv"],
    &["row", "sheet", "--out", "out.pdf"],
    &["row", "sheet", "--out", "out.txt"],
    &["stock", "sheet", "Haaf Bell", "--out", "out.pdf"],
    &["stock", "--csv", "out.csv"],
    &["tag", "Haaf Bell", "--kind", "stake", "--out", "out.csv"],
    &["tag", "Haaf Bell", "--kind", "stake", "--out", "out.svg"],
    &["tag", "--stock", "out.ron"],
    &["rules", "prove", "--smt", "out.smt2"],
    &["rules", "card", "--out", "out.pdf"],
    &["choose", "--book", "out.pdf"],
    &["choose", "--chart", "out.svg"],
    &["order", "--csv", "out.csv"],
    &["order", "--calendar", "out.ics"],
    &["order", "--model", "out.mps"],
    &["order", "--chart", "out.svg"],
];

fn trug(lane: &Lane, words: &[&str]) -> crate::common::shell::Answer {
    let at = lane.dir().display().to_string();
    crate::common::shell::trug(lane.dir(), &[words, &["--at", &at]].concat())
}

fn read(lane: &Lane, name: &str) -> Vec<u8> {
    fs::read(lane.dir().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

#[test]
fn a_file_that_is_there_is_replaced_only_with_replace() {
    let lane = Lane::new(PLAN);
    for words in WRITERS {
        let name = words[words.len() - 1];
        fs::write(lane.dir().join(name), "mine").expect("writes");
        trug(&lane, words).refused("there already, expected a new name: --replace replaces it");
        assert_eq!(read(&lane, name), b"mine", "{words:?}");
        let replaced = trug(&lane, &[words, &["--replace"]].concat());
        assert_eq!(replaced.status, Some(0), "{words:?}: {replaced:?}");
        assert!(read(&lane, name).len() > 10, "{words:?}");
        fs::remove_file(lane.dir().join(name)).expect("removes");
    }
    let left = fs::read_dir(lane.dir()).expect("lists").flatten();
    let left = left.filter(|entry| entry.file_name().to_string_lossy().contains("out"));
    assert_eq!(left.count(), 0);
}

#[test]
fn no_command_writes_over_a_file_of_the_folder() {
    let lane = Lane::new(PLAN);
    let names = [
        "varieties.ron",
        "order.ron",
        "trial.journal",
        "order.ron.last",
        ".trug.lock",
    ];
    fs::write(lane.dir().join("trial.journal"), "").expect("writes");
    fs::write(lane.dir().join("order.ron.last"), "kept").expect("writes");
    fs::write(lane.dir().join(".trug.lock"), "").expect("writes");
    for name in names {
        let before = read(&lane, name);
        for words in [
            &["rules", "prove", "--smt", name][..],
            &["order", "--model", name],
            &["tag", "--stock", name],
        ] {
            let words = [words, &["--replace"]].concat();
            trug(&lane, &words).refused("a file of a grower's folder, expected another name");
            assert_eq!(read(&lane, name), before, "{words:?}");
        }
    }
    // Nor by a link or a second name.
    let list = read(&lane, "varieties.ron");
    #[cfg(unix)]
    for name in ["link.csv", "second.csv"] {
        let (own, other) = (lane.dir().join("varieties.ron"), lane.dir().join(name));
        match name {
            "link.csv" => std::os::unix::fs::symlink(&own, &other),
            _ => fs::hard_link(&own, &other),
        }
        .expect("links");
        let refused = trug(&lane, &["export", name, "--replace"]);
        refused.refused("a file of a grower's folder, expected another name");
        assert!(read(&lane, "varieties.ron") == list && other.exists());
    }
    // A file of tags may be begun in it.
    trug(&lane, &["tag", "--stock", "tags.ron"]).done();
    assert!(read(&lane, "tags.ron").starts_with(b"// What tags say"));
}

#[test]
fn a_file_marked_read_only_is_not_replaced() {
    let lane = Lane::new(PLAN);
    let path = lane.dir().join("out.csv");
    fs::write(&path, "mine").expect("writes");
    let mut may = fs::metadata(&path).expect("is there").permissions();
    may.set_readonly(true);
    fs::set_permissions(&path, may).expect("sets");
    trug(&lane, &["export", "out.csv", "--replace"]).refused("marked read-only");
    assert_eq!(read(&lane, "out.csv"), b"mine");
}

#[test]
fn of_several_files_all_are_written_or_none() {
    let lane = Lane::new(PLAN);
    let is_there = |name: &str| Path::exists(&lane.dir().join(name));
    // Of three pages the second is there.
    let three = ["tag", "Haaf Bell", "Ebb Kist", "=Haaf Drift"];
    let to = [
        "--kind",
        "tuber",
        "--sheet",
        "tuber-roll",
        "--out",
        "out.svg",
    ];
    fs::write(lane.dir().join("out-2.svg"), "mine").expect("writes");
    let refused = trug(&lane, &[&three[..], &to].concat());
    refused.refused("out-2.svg there already");
    assert!(!is_there("out-1.svg"));
    // Before the order is searched for, and before the plan is saved.
    fs::write(lane.dir().join("out.ics"), "mine").expect("writes");
    let plan = read(&lane, "order.ron");
    lane.refused(
        &[
            "--set",
            "money=400",
            "--save",
            "--csv",
            "out.csv",
            "--calendar",
            "out.ics",
        ],
        "out.ics there already",
    );
    assert!(!is_there("out.csv"));
    assert_eq!(read(&lane, "order.ron"), plan);
    lane.refused(
        &["--csv", "same.csv", "--model", "same.csv"],
        "same.csv twice",
    );
    assert!(!is_there("same.csv"));
}
