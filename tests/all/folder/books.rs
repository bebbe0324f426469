//! The books that only grow, the trial row's and the stock's: kills at random moments while entries stream
//! in, and damage to their files.

use std::fs;
use std::path::Path;

use trug::folder::Folder;
use trug::folder::row::{self, open_row};
use trug::folder::stock::{self, open_stock};
use trug::stock::{self as tubers, Event};
use trug::trial::{Entry, Observation, Seedling, Trial, What};
use trug::variety::Text;

use super::child::say;
use super::kills::{Ledger, random, said_until_killed};

/// As the promise of a book is put: whenever the program is killed, every entry that it called saved
/// is there. Of each of two books, which are saved by one and the same code.
const KILLS: u64 = 500;
/// So many kills a folder: a longer book takes longer to look through and shows nothing more.
const KILLS_A_FOLDER: u64 = 100;
/// The moments of a kill, microseconds after an entry.
const MOMENTS: u64 = 6_000;

/// A book of the folder, as these tests need it.
pub(crate) trait Book {
    /// What its stream of entries is called.
    const JOB: &'static str;
    /// Its file.
    const FILE: &'static str;

    /// Its entries by number, each of which must be as [`Book::enter`] made it; what is told of the book; the
    /// number of the next entry.
    fn read(folder: &Folder) -> (Vec<u32>, Vec<String>, u32);

    /// Enters those with these numbers, and says each that is saved.
    fn enter(folder: &Folder, numbers: impl Iterator<Item = u32>, saved: impl Fn(u32));
}

/// The trial row's.
struct OfRow;
/// The stock's.
struct OfStock;

fn day() -> jiff::civil::Date {
    "2026-08-20".parse().expect("a day")
}

fn note(number: u32) -> Option<Text> {
    Text::new(format!("entry {number} from the sea wall")).ok()
}

impl OfRow {
    /// Entry `number`: its note says which it is.
    fn entry(number: u32) -> Entry {
        Entry {
            id: number,
            corrects: None,
            date: day(),
            by: None,
            of: "26-001".parse().expect("a number"),
            what: What::Observed(Observation {
                cut: Some(number % 50),
                note: note(number),
                ..Observation::default()
            }),
        }
    }
}

impl OfStock {
    fn entry(number: u32) -> tubers::Entry {
        tubers::Entry {
            id: number,
            corrects: None,
            date: day(),
            by: None,
            of: "26-001".parse().expect("a number"),
            year: Some(2026),
            place: None,
            what: tubers::What::Happened(Box::new(Event {
                divided: Some(number % 50),
                note: note(number),
                ..Event::default()
            })),
        }
    }
}

impl Book for OfRow {
    const JOB: &'static str = "row";
    const FILE: &'static str = row::ENTRIES;

    fn read(folder: &Folder) -> (Vec<u32>, Vec<String>, u32) {
        let (row, files) = open_row(folder).expect("opens");
        let entries = row.trial.entries();
        for entry in entries {
            assert_eq!(*entry, OfRow::entry(entry.id));
        }
        let numbers = entries.iter().map(|entry| entry.id).collect();
        (numbers, row.problems, files.next_id(&row.trial))
    }

    fn enter(folder: &Folder, numbers: impl Iterator<Item = u32>, saved: impl Fn(u32)) {
        let (_, mut files) = open_row(folder).expect("opens");
        for number in numbers {
            let entered = files.enter(folder, &OfRow::entry(number));
            entered.unwrap_or_else(|error| panic!("{error}"));
            saved(number);
        }
    }
}

/// The row that the stock's entries are held against.
fn trial(folder: &Folder) -> Trial {
    open_row(folder).expect("opens").0.trial
}

impl Book for OfStock {
    const JOB: &'static str = "stock";
    const FILE: &'static str = stock::STOCK;

    fn read(folder: &Folder) -> (Vec<u32>, Vec<String>, u32) {
        let (read, file) = open_stock(folder, &trial(folder)).expect("opens");
        let entries = read.stock.book().entries();
        for entry in entries {
            assert_eq!(*entry, OfStock::entry(entry.id));
        }
        let numbers = entries.iter().map(|entry| entry.id).collect();
        (numbers, read.problems, file.next_id(&read.stock))
    }

    fn enter(folder: &Folder, numbers: impl Iterator<Item = u32>, saved: impl Fn(u32)) {
        let (_, mut file) = open_stock(folder, &trial(folder)).expect("opens");
        for number in numbers {
            let entered = file.enter(folder, &OfStock::entry(number));
            entered.unwrap_or_else(|error| panic!("{error}"));
            saved(number);
        }
    }
}

fn lay_out(dir: &Path) -> Folder {
    let folder = Folder::open(dir, "now").expect("opens");
    let (_, mut files) = open_row(&folder).expect("opens");
    let number = "26-001".parse().expect("a number");
    files
        .save_seedlings(&folder, &[Seedling::numbered(number)])
        .expect("saves");
    folder
}

fn stream<B: Book>(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let next = B::read(&folder).2;
    B::enter(&folder, next.., |number| {
        say(format_args!("saved {number}"))
    });
}

/// The child's side.
pub(crate) fn stream_row(dir: &Path) {
    stream::<OfRow>(dir);
}

/// The same of the stock's.
pub(crate) fn stream_stock(dir: &Path) {
    stream::<OfStock>(dir);
}

fn is_killed_time_after_time<B: Book>() {
    let mut random = random();
    for _ in 0..KILLS / KILLS_A_FOLDER {
        let dir = tempfile::tempdir().expect("a folder");
        drop(lay_out(dir.path()));
        let mut ledger = Ledger::default();
        for kill in 0..KILLS_A_FOLDER {
            let said = said_until_killed(B::JOB, dir.path(), MOMENTS, &mut random);
            let folder = Folder::open(dir.path(), "now").expect("opens");
            let (numbers, problems, _) = B::read(&folder);
            let found: Vec<u64> = numbers.into_iter().map(u64::from).collect();
            ledger.check(kill, &said, &found);
            // Only an entry cut short at the end may be amiss, and it was never called saved.
            assert!(
                problems.is_empty() || problems.len() == 1 && problems[0].contains("cut short"),
                "{problems:?}"
            );
        }
    }
}

fn is_damaged<B: Book>() {
    let dir = tempfile::tempdir().expect("a folder");
    let folder = lay_out(dir.path());
    B::enter(&folder, 1..=5, |_| {});
    let path = dir.path().join(B::FILE);
    let whole = fs::read(&path).expect("is there");
    let starts: Vec<usize> = (0..whole.len())
        .filter(|at| *at == 0 || whole[at - 1] == b'\n')
        .collect();
    assert_eq!(starts.len(), 5);
    for flipped in 0..whole.len() {
        let mut bytes = whole.clone();
        bytes[flipped] ^= 0b100;
        fs::write(&path, &bytes).expect("writes");
        let (numbers, problems, _) = B::read(&folder);
        let line = starts.iter().filter(|start| **start <= flipped).count();
        // A line end that is gone joins two lines.
        let joined = whole[flipped] == b'\n';
        let told = problems.join("; ");
        assert!(
            told.contains(&format!("{}, line {line}", B::FILE)),
            "byte {flipped}: {told}"
        );
        let lost =
            |number: &u32| *number as usize == line || joined && *number as usize == line + 1;
        let expected: Vec<u32> = (1..=5).filter(|number| !lost(number)).collect();
        assert_eq!(numbers, expected, "byte {flipped}: {told}");
    }
    // What is damaged stays in the file, and keeps its number, when the next entry is saved.
    let mut bytes = whole.clone();
    bytes[starts[4] + 20] ^= 1;
    fs::write(&path, &bytes).expect("writes");
    let next = B::read(&folder).2;
    assert_eq!(next, 6);
    B::enter(&folder, std::iter::once(next), |_| {});
    let after = fs::read(&path).expect("is there");
    assert!(
        after.starts_with(&bytes),
        "the damaged entry was overwritten"
    );
    assert_eq!(B::read(&folder).0.len(), 5);
}

fn is_cut_anywhere<B: Book>() {
    let dir = tempfile::tempdir().expect("a folder");
    let folder = lay_out(dir.path());
    B::enter(&folder, 1..=3, |_| {});
    let path = dir.path().join(B::FILE);
    let whole = fs::read(&path).expect("is there");
    for length in 0..whole.len() {
        fs::write(&path, &whole[..length]).expect("writes");
        let found = B::read(&folder).0.len();
        let ends = whole[..length]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count();
        // The last entry is whole without its line end.
        let unended = whole[length] == b'\n';
        assert_eq!(found, ends + usize::from(unended), "{length} bytes");
        B::enter(&folder, std::iter::once(9), |_| {});
        assert_eq!(B::read(&folder).0.len(), found + 1, "{length} bytes");
        // OK if there was none.
        let _ = fs::remove_file(dir.path().join(format!("{}.torn", B::FILE)));
    }
}

#[test]
fn a_row_killed_time_after_time_has_every_entry_called_saved() {
    is_killed_time_after_time::<OfRow>();
}

#[test]
fn a_stock_book_killed_time_after_time_has_every_entry_called_saved() {
    is_killed_time_after_time::<OfStock>();
}

#[test]
fn a_damaged_entry_is_told_with_its_place_and_the_rest_is_read_and_kept() {
    is_damaged::<OfRow>();
    is_damaged::<OfStock>();
}

#[test]
fn a_book_cut_anywhere_keeps_what_is_whole() {
    is_cut_anywhere::<OfRow>();
    is_cut_anywhere::<OfStock>();
}
