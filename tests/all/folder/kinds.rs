//! What is no file, or larger than a file of its kind may be, in place of one: told at once, never
//! waited for and never read into memory.

use std::fs;
use std::os::unix::fs::symlink;
use std::process::Command;
use std::time::{Duration, Instant};

use crate::common::lane::SmallLane;

/// Long for a refusal, and short for whoever waits for a pipe's other end.
const AT_ONCE: Duration = Duration::from_secs(20);

/// What each command says, which must be said at once and without the file.
#[track_caller]
fn told_at_once(lane: &SmallLane, words: &[&str], says: &str) {
    let began = Instant::now();
    let answer = lane.trug(words);
    assert!(began.elapsed() < AT_ONCE, "{words:?}");
    assert!(answer.error.contains(says), "{words:?}: {answer:?}");
}

#[test]
fn a_pipe_a_device_a_folder_in_place_of_a_file_is_told_at_once() {
    for (name, words) in [
        ("varieties.ron", &["choose"][..]),
        ("trial.ron", &["row"]),
        ("trial.journal", &["row"]),
        ("order.ron", &["order"]),
        ("settings.ron", &["rules"]),
        ("colours.ron", &["rules"]),
        ("tags.ron", &["rules"]),
        ("traits.ron", &["rules"]),
        ("rules/own.ron", &["rules"]),
        ("words.ron", &["import", "new.csv"]),
    ] {
        let lane = SmallLane::new();
        fs::create_dir(lane.file("rules")).expect("makes");
        fs::write(lane.home().join("new.csv"), "name\nHaaf Lamp\n").expect("writes");
        let path = lane.file(name);
        // OK where there was none.
        let _ = fs::remove_file(&path);
        symlink("/dev/zero", &path).expect("links");
        told_at_once(&lane, words, "it is a device, expected a file");
        fs::remove_file(&path).expect("removes");
        let pipe = Command::new("mkfifo").arg(&path).status().expect("runs");
        assert!(pipe.success());
        told_at_once(&lane, words, "it is a pipe, expected a file");
        fs::remove_file(&path).expect("removes");
        fs::create_dir(&path).expect("makes");
        told_at_once(&lane, words, "it is a folder, expected a file");
    }
}

#[test]
fn a_file_that_a_command_names_is_a_regular_one() {
    let lane = SmallLane::new();
    let pipe = lane.home().join("blooms.csv");
    let made = Command::new("mkfifo").arg(&pipe).status().expect("runs");
    assert!(made.success());
    for words in [
        &["key", "--from", "blooms.csv"][..],
        &["import", "blooms.csv"],
        &["row", "import", "blooms.csv"],
    ] {
        told_at_once(&lane, words, "it is a pipe, expected a file");
    }
    told_at_once(
        &lane,
        &["key", "--from", "/dev/zero"],
        "it is a device, expected a file",
    );
}

/// Files without bytes on the disk, which are as long as they say.
#[test]
fn a_file_larger_than_its_kind_may_be_is_refused_unread() {
    const MIB: u64 = 1 << 20;
    for (name, words, most) in [
        ("varieties.ron", &["choose"][..], 256),
        ("trial.ron", &["row"], 256),
        ("trial.journal", &["row"], 1024),
        ("order.ron", &["order"], 4),
        ("settings.ron", &["rules"], 1),
        ("release.ron", &["rules"], 4),
        ("rules/own.ron", &["rules"], 4),
    ] {
        let lane = SmallLane::new();
        fs::create_dir(lane.file("rules")).expect("makes");
        let file = fs::File::create(lane.file(name)).expect("makes");
        file.set_len(most * MIB + 1).expect("grows");
        let says = format!("it is larger than the {most} MiB that such a file may have");
        told_at_once(&lane, words, &says);
    }
}

#[test]
fn a_search_is_given_up_to_a_day() {
    let lane = SmallLane::new();
    for seconds in ["86401", "18446744073709551615", "-1"] {
        let answer = lane.trug(&["order", &format!("--seconds={seconds}")]);
        assert_eq!(answer.status, Some(2), "{answer:?}");
        assert!(answer.error.contains("--seconds"), "{answer:?}");
    }
    // Taken, and then there is no order to settle.
    lane.trug(&["order", "--seconds=86400"])
        .refused("found no order.ron");
}
