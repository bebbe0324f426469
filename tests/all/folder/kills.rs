//! Kills at random moments of a stream of saves, and of journal entries.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::thread::sleep;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use trug::folder::Folder;
use trug::folder::journal::Entry;
use trug::folder::lock::Access;
use trug::folder::text::read_records;

use super::child::{next_said, say, spawn};
use super::{JOURNAL, entry_number, entry_of, list_of, one_number, read_list};

/// Kills a stream must survive; more for a long run by hand.
const KILLS: &str = "TRUG_TEST_KILLS";
/// Kills that must have fallen into a save, its temporary file being there.
const INTERRUPTED: u32 = 3;
/// Kills after which a test that saw too few of those gives up.
const MOST_KILLS: u64 = 20_000;
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
    let said = said_until_killed(job, dir, moments, random);
    *said.last().expect("it said one before it was killed")
}

/// The same, answering every number that it called saved, in the order in which it did.
pub(crate) fn said_until_killed(
    job: &str,
    dir: &Path,
    moments: u64,
    random: &mut impl FnMut(u64) -> u64,
) -> Vec<u64> {
    let (mut child, mut out) = spawn(job, dir);
    let first = next_said(&mut out);
    sleep(Duration::from_micros(random(moments)));
    child.kill().expect("kills");
    child.wait().expect("ends");
    let first = first.expect("the worker ended before its first save");
    let mut said = vec![number_of(&first)];
    while let Some(next) = next_said(&mut out) {
        said.push(number_of(&next));
    }
    said
}

/// What a killed stream of entries left in its file, against what was called saved: every number
/// that ever was is there, and beside those at most the one entry that was being written at each
/// kill. A number may be missing between two: an entry cut short takes its number with it.
#[derive(Default)]
pub(crate) struct Ledger {
    /// What must be there from now on.
    owed: BTreeSet<u64>,
}

impl Ledger {
    #[track_caller]
    pub(crate) fn check(&mut self, kill: u64, said: &[u64], found: &[u64]) {
        self.owed.extend(said);
        let there: BTreeSet<u64> = found.iter().copied().collect();
        assert!(
            found.windows(2).all(|pair| pair[0] < pair[1]),
            "kill {kill}: out of order, or one number twice: {found:?}"
        );
        let lost: Vec<_> = self.owed.difference(&there).collect();
        assert!(
            lost.is_empty(),
            "kill {kill}: called saved and lost: {lost:?}"
        );
        let unsaid: Vec<_> = there.difference(&self.owed).collect();
        let last = said.last().copied().unwrap_or(0);
        assert!(
            unsaid.is_empty() || unsaid == [&(last + 1)],
            "kill {kill}: {last} was the last called saved, and there are {unsaid:?}"
        );
        // What was found once was on the disk, and must stay.
        self.owed = there;
    }
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

/// Kills a stream of saves as often as is asked, and on until enough of the kills fell into a save:
/// one that falls between two saves shows nothing. `check` is given each kill's number and the last
/// number that was called saved.
pub(crate) fn kill_during_saves(
    job: &str,
    dir: &Path,
    moments: u64,
    mut check: impl FnMut(u64, u64),
) {
    let mut random = random();
    let mut interrupted = 0;
    for kill in 0..MOST_KILLS {
        if kill >= kills() && interrupted >= INTERRUPTED {
            return;
        }
        let said = kill_at_random(job, dir, moments, &mut random);
        let left = fs::read_dir(dir).expect("lists").any(|entry| {
            let name = entry.expect("lists").file_name();
            name.to_string_lossy().contains(".trug-")
        });
        interrupted += u32::from(left);
        check(kill, said);
    }
    panic!("of {MOST_KILLS} kills only {interrupted} fell into a save");
}

#[test]
fn a_folder_killed_during_saves_has_the_last_one_saved_or_the_next() {
    let dir = tempfile::tempdir().expect("a folder");
    kill_during_saves("save", dir.path(), MOMENTS, |kill, said| {
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
    });
}

#[test]
fn a_journal_killed_during_entries_has_every_entry_called_saved() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut random = random();
    let mut ledger = Ledger::default();
    for kill in 0..kills() {
        let said = said_until_killed("journal", dir.path(), MOMENTS, &mut random);
        let folder = Folder::open(dir.path(), "now").expect("opens");
        let opened = folder.journal(JOURNAL).expect("opens");
        let number = |entry: &Entry| {
            let number = entry_number(&entry.text);
            assert_eq!(entry.text, entry_of(number));
            number
        };
        let found: Vec<u64> = opened.entries.iter().map(number).collect();
        ledger.check(kill, &said, &found);
        // Only an entry cut short at the end may be amiss.
        let lines: Vec<_> = opened.problems.iter().map(|problem| problem.line).collect();
        assert!(
            lines.is_empty() || lines == [opened.entries.len() + 1],
            "{lines:?}"
        );
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
    let last = opened.entries.last();
    let next = last.map_or(1, |entry| entry_number(&entry.text) + 1);
    for number in next.. {
        folder
            .append(&mut journal, &entry_of(number))
            .unwrap_or_else(|error| panic!("{error}"));
        say(format_args!("saved {number}"));
    }
}
