//! Many programs at once in one folder, one that has it for long, and one that is killed as it writes
//! a file for others.

use std::fs;
use std::process::{Command, Stdio};
use std::time::{Duration, SystemTime};

use trug::folder::Folder;

use crate::common::lane::SmallLane;
use crate::common::shell::command;

const NOTES: usize = 100;

#[test]
fn a_hundred_notes_at_once_are_all_saved() {
    let lane = SmallLane::new();
    let start = |number: usize| -> std::process::Child {
        command(lane.home())
            .args(["row", "note", "26-001", "--at", "lane"])
            .arg(format!("note=note {number}"))
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .expect("starts")
    };
    let notes: Vec<_> = (0..NOTES).map(start).collect();
    for note in notes {
        let output = note.wait_with_output().expect("ends");
        assert!(output.status.success(), "{output:?}");
    }
    let book = lane.text("trial.journal");
    assert_eq!(book.lines().count(), NOTES);
    for number in 0..NOTES {
        assert!(
            book.contains(&format!("\"note {number}\"")),
            "{number}: {book}"
        );
    }
    assert!(lane.trug(&["row"]).done().contains("26-001"));
    assert_eq!(lane.text(".trug.lock"), "");
}

#[test]
fn two_programs_at_once_never_sell_one_tuber_twice() {
    let lane = SmallLane::new();
    let date = |day: &str| format!("date=2026-{day}");
    let lifted = lane.trug(&["stock", "note", "26-001", "divided=60", &date("10-20")]);
    lifted.done();
    let sell = |_| -> std::process::Child {
        command(lane.home())
            .args([
                "stock",
                "note",
                "26-001",
                "sold=4",
                "price=4.50",
                "--even-so",
            ])
            .args([&date("11-02"), "--at", "lane"])
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .expect("starts")
    };
    let sales: Vec<_> = (0..20).map(sell).collect();
    let ends = sales.into_iter().map(|sale| {
        let output = sale.wait_with_output().expect("ends");
        let told = String::from_utf8_lossy(&output.stderr);
        let refused = told.contains("expected at most the 0 tubers that are here");
        assert!(output.status.success() != refused, "{told}");
        output.status.success()
    });
    assert_eq!(ends.filter(|sold| *sold).count(), 15);
    assert_eq!(lane.text("stock.journal").lines().count(), 16);
    let shown = lane.trug(&["stock", "26-001", "--json"]).done();
    let shown: serde_json::Value = serde_json::from_str(&shown).expect("an object");
    let lifting = &shown["liftings"][0];
    assert_eq!(
        (&lifting["in_store"], &lifting["sold"]),
        (&0.into(), &60.into())
    );
    assert_eq!(lifting["takings"], 270.0);
}

#[test]
fn who_waits_for_a_program_that_has_the_folder_is_told_for_which() {
    let lane = SmallLane::new();
    let holder = Folder::open(&lane.dir(), "14:05").expect("opens");
    let mut words = command(lane.home());
    words.args([
        "row",
        "note",
        "26-001",
        "cut=3",
        "--even-so",
        "--at",
        "lane",
    ]);
    let waits = words.stderr(Stdio::piped()).stdout(Stdio::null()).spawn();
    let waits = waits.expect("starts");
    std::thread::sleep(Duration::from_millis(2_500));
    drop(holder);
    let output = waits.wait_with_output().expect("ends");
    let told = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{told}");
    let who = format!("trug: waiting: process {}", std::process::id());
    assert!(
        told.starts_with(&who) && told.lines().count() == 1,
        "{told}"
    );
    assert_eq!(lane.entries(), 1);

    let _holder = Folder::open(&lane.dir(), "14:05").expect("opens");
    let refused = lane.note();
    assert_eq!(refused.status, Some(1));
    let last = refused.error.lines().last().expect("a sentence");
    assert!(
        last.contains("since 14:05, has the folder open; nothing was lost"),
        "{refused:?}"
    );
    assert_eq!(lane.entries(), 1);
}

/// Names in a place that end as a file being written.
fn left(lane: &SmallLane) -> Vec<std::path::PathBuf> {
    let entries = fs::read_dir(lane.home()).expect("lists").flatten();
    let paths = entries.map(|entry| entry.path());
    paths
        .filter(|path| path.to_string_lossy().ends_with(".trug-out"))
        .collect()
}

#[test]
fn a_file_whose_writing_was_killed_is_absent_or_whole_and_what_was_left_is_swept() {
    let lane = SmallLane::new();
    let model = |name: &str| {
        let mut words = command(lane.home());
        words.args(["rules", "prove", "--smt", name, "--at", "lane"]);
        words
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        words
    };
    let whole = model("whole.smt2").status().expect("runs");
    assert!(whole.success());
    let whole = fs::read(lane.home().join("whole.smt2")).expect("is written");
    for moment in 0..40 {
        let file = lane.home().join("killed.smt2");
        let mut child: std::process::Child =
            Command::spawn(&mut model("killed.smt2")).expect("starts");
        std::thread::sleep(Duration::from_micros(fastrand::u64(0..400_000 + moment)));
        child.kill().expect("kills");
        child.wait().expect("ends");
        if let Ok(bytes) = fs::read(&file) {
            assert!(bytes == whole, "half a file");
            fs::remove_file(&file).expect("removes");
        }
    }
    // As if it were from another day, whether or not a kill fell into the writing.
    fs::write(lane.home().join(".killed.smt2.4711.trug-out"), "half").expect("writes");
    for path in left(&lane) {
        let file = fs::File::options().write(true).open(path).expect("opens");
        file.set_modified(SystemTime::now() - Duration::from_secs(86_400))
            .expect("sets");
    }
    assert!(model("killed.smt2").status().expect("runs").success());
    assert_eq!(left(&lane), Vec::<std::path::PathBuf>::new());
}
