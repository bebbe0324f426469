//! The trial row's book: kills at random moments while entries stream in, and damage to its file.

use std::fs;
use std::path::Path;

use trug::folder::Folder;
use trug::folder::row::{ENTRIES, open_row};
use trug::trial::read::Draft;
use trug::trial::{Entry, Observation, Seedling, What};
use trug::variety::Text;

use super::child::say;
use super::kills::{Ledger, random, said_until_killed};

/// As the book's promise is put: whenever the program is killed, every entry that it called saved
/// is there.
const KILLS: u64 = 1_000;
/// So many kills a folder: a longer book takes longer to look through and shows nothing more.
const KILLS_A_FOLDER: u64 = 100;
/// The moments of a kill, microseconds after an entry.
const MOMENTS: u64 = 6_000;

/// Entry `number`: its note says which it is.
fn entry_of(number: u32) -> Entry {
    let draft = Draft {
        date: Some(
            "2026-08-20"
                .parse::<jiff::civil::Date>()
                .expect("a day")
                .into(),
        ),
        by: None,
        corrects: None,
        what: What::Observed(Observation {
            cut: Some(number % 50),
            note: Text::new(format!("entry {number} from the sea wall")).ok(),
            ..Observation::default()
        }),
    };
    let day = "2026-08-20".parse().expect("a day");
    draft.entry(number, "26-001".parse().expect("a number"), day)
}

fn lay_out(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let (_, mut files) = open_row(&folder).expect("opens");
    let number = "26-001".parse().expect("a number");
    files
        .save_seedlings(&folder, &[Seedling::numbered(number)])
        .expect("saves");
}

pub(crate) fn stream_entries(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let (row, mut files) = open_row(&folder).expect("opens");
    for number in files.next_id(&row.trial).. {
        let entered = files.enter(&folder, &entry_of(number));
        entered.unwrap_or_else(|error| panic!("{error}"));
        say(format_args!("saved {number}"));
    }
}

#[test]
fn a_row_killed_a_thousand_times_has_every_entry_called_saved() {
    let mut random = random();
    for _ in 0..KILLS / KILLS_A_FOLDER {
        let dir = tempfile::tempdir().expect("a folder");
        lay_out(dir.path());
        let mut ledger = Ledger::default();
        for kill in 0..KILLS_A_FOLDER {
            let said = said_until_killed("row", dir.path(), MOMENTS, &mut random);
            let folder = Folder::open(dir.path(), "now").expect("opens");
            let (row, _) = open_row(&folder).expect("opens");
            let entries = row.trial.entries();
            let found: Vec<u64> = entries.iter().map(|entry| entry.id.into()).collect();
            ledger.check(kill, &said, &found);
            for entry in entries {
                assert_eq!(*entry, entry_of(entry.id));
            }
            // Only an entry cut short at the end may be amiss, and it was never called saved.
            let problems = &row.problems;
            assert!(
                problems.is_empty() || problems.len() == 1 && problems[0].contains("cut short"),
                "{problems:?}"
            );
        }
    }
}

#[test]
fn a_damaged_entry_is_told_with_its_place_and_the_rest_is_read_and_kept() {
    let dir = tempfile::tempdir().expect("a folder");
    lay_out(dir.path());
    let folder = Folder::open(dir.path(), "now").expect("opens");
    let (_, mut files) = open_row(&folder).expect("opens");
    for number in 1..=5 {
        files.enter(&folder, &entry_of(number)).expect("saves");
    }
    let path = dir.path().join(ENTRIES);
    let whole = fs::read(&path).expect("is there");
    let starts: Vec<usize> = (0..whole.len())
        .filter(|at| *at == 0 || whole[at - 1] == b'\n')
        .collect();
    assert_eq!(starts.len(), 5);
    for flipped in 0..whole.len() {
        let mut bytes = whole.clone();
        bytes[flipped] ^= 0b100;
        fs::write(&path, &bytes).expect("writes");
        let (row, _) = open_row(&folder).expect("opens");
        let line = starts.iter().filter(|start| **start <= flipped).count();
        // A line end that is gone joins two lines.
        let joined = whole[flipped] == b'\n';
        let told = row.problems.join("; ");
        assert!(
            told.contains(&format!("{ENTRIES}, line {line}")),
            "byte {flipped}: {told}"
        );
        let numbers: Vec<u32> = row.trial.entries().iter().map(|entry| entry.id).collect();
        let lost =
            |number: &u32| *number as usize == line || joined && *number as usize == line + 1;
        let expected: Vec<u32> = (1..=5).filter(|number| !lost(number)).collect();
        assert_eq!(numbers, expected, "byte {flipped}: {told}");
    }
    // What is damaged stays in the file, and keeps its number, when the next entry is saved.
    let mut bytes = whole.clone();
    bytes[starts[4] + 20] ^= 1;
    fs::write(&path, &bytes).expect("writes");
    let (row, mut files) = open_row(&folder).expect("opens");
    let next = files.next_id(&row.trial);
    assert_eq!(next, 6);
    files.enter(&folder, &entry_of(next)).expect("saves");
    let after = fs::read(&path).expect("is there");
    assert!(
        after.starts_with(&bytes),
        "the damaged entry was overwritten"
    );
    let (row, _) = open_row(&folder).expect("opens");
    assert_eq!(row.trial.entries().len(), 5);
}

#[test]
fn a_book_cut_anywhere_keeps_what_is_whole() {
    let dir = tempfile::tempdir().expect("a folder");
    lay_out(dir.path());
    let folder = Folder::open(dir.path(), "now").expect("opens");
    let (_, mut files) = open_row(&folder).expect("opens");
    for number in 1..=3 {
        files.enter(&folder, &entry_of(number)).expect("saves");
    }
    let path = dir.path().join(ENTRIES);
    let whole = fs::read(&path).expect("is there");
    for length in 0..whole.len() {
        fs::write(&path, &whole[..length]).expect("writes");
        let (row, mut files) = open_row(&folder).expect("opens");
        let ends = whole[..length]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count();
        let found = row.trial.entries().len();
        // The last entry is whole without its line end.
        let unended = whole[length] == b'\n';
        assert_eq!(found, ends + usize::from(unended), "{length} bytes");
        files.enter(&folder, &entry_of(9)).expect("saves");
        let (row, _) = open_row(&folder).expect("opens");
        assert_eq!(row.trial.entries().len(), found + 1, "{length} bytes");
        // OK if there was none.
        let _ = fs::remove_file(dir.path().join(format!("{ENTRIES}.torn")));
    }
}
