//! Kills at random moments of a stream of saves, and of journal entries.

use std::fs;
use std::path::Path;
use std::thread::sleep;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use trug::folder::Folder;
use trug::folder::lock::Access;
use trug::folder::text::read_records;

use crate::child::{next_said, say, spawn};
use crate::{JOURNAL, entry_of, list_of, one_number, read_list};

/// Kills a stream must survive; more for a long run by hand.
const KILLS: &str = "TRUG_TEST_KILLS";
/// The moments of a kill, microseconds after a save.
const MOMENTS: u64 = 12_000;

fn number_of(said: &str) -> u64 {
    let number = said.strip_prefix("saved ").expect(said);
    number.parse().expect(said)
}

/// Starts `job`, waits for its first save, kills it at a random moment of the next `moments`
/// microseconds and answers the last number that it called saved.
pub(crate) fn kill_at_random(
    job: &str,
    dir: &Path,
    moments: u64,
    random: &mut impl FnMut(u64) -> u64,
) -> u64 {
    let (mut child, mut out) = spawn(job, dir);
    let first = next_said(&mut out);
    sleep(Duration::from_micros(random(moments)));
    child.kill().expect("kills");
    child.wait().expect("ends");
    let mut last = number_of(&first.expect("the worker ended before its first save"));
    while let Some(said) = next_said(&mut out) {
        last = number_of(&said);
    }
    last
}

/// A random number below what it is asked for: xorshift, seeded by the clock, for the moments
/// of a kill differ from run to run anyway.
pub(crate) fn random() -> impl FnMut(u64) -> u64 {
    let now = SystemTime::now().duration_since(UNIX_EPOCH);
    let mut state = now.expect("after 1970").as_nanos() as u64 | 1;
    move |below| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state % below
    }
}

pub(crate) fn kills() -> u64 {
    std::env::var(KILLS).map_or(200, |kills| kills.parse().expect(KILLS))
}

#[test]
fn a_folder_killed_during_saves_has_the_last_one_saved_or_the_next() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut random = random();
    let mut interrupted = 0;
    for kill in 0..kills() {
        let said = kill_at_random("save", dir.path(), MOMENTS, &mut random);
        let left = fs::read_dir(dir.path()).expect("lists").any(|entry| {
            let name = entry.expect("lists").file_name();
            name.to_string_lossy().contains(".trug-")
        });
        interrupted += u32::from(left);
        let folder = Folder::open(dir.path(), "now").expect("opens");
        assert!(
            matches!(folder.access(), Access::Write(_)),
            "the lock stayed"
        );
        let found = read_list(&folder).0.expect("is there");
        assert!(
            found == said || found == said + 1,
            "kill {kill}: {said} was called saved, {found} is there"
        );
        if found > 1 {
            let kept = fs::read_to_string(dir.path().join("varieties.ron.last")).expect("is kept");
            let kept = one_number(&read_records("kept", &kept).expect("is whole"));
            assert!(kept == found || kept == found - 1, "kept {kept} of {found}");
        }
    }
    // Otherwise the kills fell between saves and the test has shown nothing.
    assert!(interrupted > 0, "no kill fell into a save");
}

#[test]
fn a_journal_killed_during_entries_has_every_entry_called_saved() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut random = random();
    for kill in 0..kills() {
        let said = kill_at_random("journal", dir.path(), MOMENTS, &mut random);
        let folder = Folder::open(dir.path(), "now").expect("opens");
        let opened = folder.journal(JOURNAL).expect("opens");
        let found = opened.entries.len() as u64;
        assert!(
            found == said || found == said + 1,
            "kill {kill}: {said} were called saved, {found} are there"
        );
        // Only an entry cut short at the end may be amiss.
        let lines: Vec<_> = opened.problems.iter().map(|problem| problem.line).collect();
        assert!(
            lines.is_empty() || lines == [opened.entries.len() + 1],
            "{lines:?}"
        );
        for (at, entry) in opened.entries.iter().enumerate() {
            assert_eq!(entry.text, entry_of(at as u64 + 1));
        }
    }
}

pub(crate) fn stream_saves(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let (number, mut guard) = read_list(&folder);
    for number in number.map_or(1, |number| number + 1).. {
        folder
            .save(&mut guard, &list_of(number))
            .unwrap_or_else(|error| panic!("{error}"));
        say(format_args!("saved {number}"));
    }
}

pub(crate) fn stream_entries(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let opened = folder.journal(JOURNAL).expect("opens");
    let mut journal = opened.journal;
    for number in opened.entries.len() + 1.. {
        folder
            .append(&mut journal, &entry_of(number as u64))
            .unwrap_or_else(|error| panic!("{error}"));
        say(format_args!("saved {number}"));
    }
}
