//! Which folder answers, and that the demo says that it is the demo.

use std::fs;

use serde_json::Value;

use crate::common::shell::{command, trug, trug_anywhere};

const MINE: &str = r#"[(name: "Haaf Solitary", form: (id: "ball", known: keyed))]"#;

/// What `trug choose` finds where somebody stands, with [`AT`](trug::folder::place::AT) set or not.
fn found(home: &std::path::Path, here: &str, environment: &str, words: &[&str]) -> Value {
    let output = command(home)
        .current_dir(home.join(here))
        .env("TRUG_AT", environment)
        .args(["choose", "--json"])
        .args(words)
        .output()
        .expect("the program starts");
    serde_json::from_slice(&output.stdout).expect("one object")
}

#[test]
fn inside_my_own_folder_i_am_answered_from_it() {
    let home = tempfile::tempdir().expect("a home");
    let (mine, other) = (home.path().join("mine"), home.path().join("other"));
    fs::create_dir_all(mine.join("sheets")).expect("makes");
    fs::write(mine.join("varieties.ron"), MINE).expect("writes");
    trug(home.path(), &["start", &other.display().to_string()]).done();
    for here in ["mine", "mine/sheets"] {
        let answer = found(home.path(), here, "", &[]);
        assert_eq!(
            (&answer["found"], &answer["demo"]),
            (&1.into(), &false.into())
        );
        assert_eq!(answer["varieties"][0]["name"], "Haaf Solitary");
    }
    // Said, it counts more than where I stand; typed, more than what the environment says.
    assert_eq!(found(home.path(), "mine", "../other", &[])["found"], 0);
    assert_eq!(
        found(home.path(), "other", "../other", &["--at", "../mine"])["found"],
        1
    );
    // A name that leads nowhere is told and nothing stands in for it.
    let gone = command(home.path())
        .env("TRUG_AT", "gone")
        .arg("choose")
        .output()
        .expect("the program starts");
    assert_eq!(gone.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&gone.stderr).contains("found no folder gone"));
    // A note goes where it was looked for.
    let noted = command(home.path())
        .current_dir(mine.join("sheets"))
        .args([
            "row",
            "note",
            "Haaf Solitary",
            "diameter=98mm",
            "date=2026-08-20",
        ])
        .output()
        .expect("the program starts");
    assert!(noted.status.success(), "{noted:?}");
    assert!(mine.join("trial.journal").exists() && !mine.join("sheets/trial.journal").exists());
}

#[test]
fn every_answer_of_the_demo_says_so_first() {
    for words in [
        &["choose"][..],
        &["row"],
        &["row", "24-002"],
        &["order"],
        &["tag", "24-002"],
        &["colour", "peach"],
        &["name", "Haaf Lantern"],
        &["key", "--by-list", "rows=5"],
        &["choose", "--palette", "plum,blush"],
    ] {
        let text = trug_anywhere(words).out;
        assert!(text.starts_with("From the demo"), "{words:?}: {text}");
        let object = trug_anywhere(&[words, &["--json"]].concat()).object();
        assert_eq!(object["demo"], true, "{words:?}");
    }
    // A folder of my own is no demo, not even with the demo's records in it.
    let home = tempfile::tempdir().expect("a home");
    let dir = home.path().join("lane").display().to_string();
    trug(home.path(), &["start", &dir, "--demo"]).done();
    assert!(
        !trug(home.path(), &["choose", "--at", &dir])
            .done()
            .contains("From the demo")
    );
}
