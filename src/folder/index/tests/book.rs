//! Long books of invented entries.

use std::fs;

use jiff::civil::Date;

use crate::folder::Folder;
use crate::folder::names::{ENTRIES, SEEDLINGS};
use crate::folder::text::{write_line, write_records};
use crate::trial::{Entry, Number, Observation, Seedling, Subject, What};
use crate::variety::Text;

/// Whose entry, what it says, and how far back among its plant's the one is that it changes.
pub(super) type Drawn = (u8, u8, Option<u8>);

pub(super) const PLANTS: u8 = 6;

pub(super) fn subject(at: u8) -> Subject {
    match at % PLANTS {
        5 => Subject::Variety(Text::new("Haaf Kettle").expect("a name")),
        own => Subject::Seedling(Number::new(2026, u16::from(own) + 1).expect("a number")),
    }
}

/// Long enough that some hundred entries are a long book. Some withdraw, if they change anything; of
/// the blooms one in 32 is odd beside the others.
pub(super) fn entry(id: u32, whose: u8, what: u8, corrects: Option<u32>) -> Entry {
    let mm = match what % 64 {
        0 => 228,
        _ => 80 + u32::from(what % 9),
    };
    let seen = Observation {
        diameters: match what % 2 {
            0 => vec![format!("{mm}mm").parse().expect("a length")],
            _ => Vec::new(),
        },
        tubers: (what % 4 == 1).then_some(u32::from(what)),
        sound: (what % 8 == 3).then_some(300),
        note: Text::new("x".repeat(490)).ok(),
        ..Observation::default()
    };
    Entry {
        id,
        corrects,
        date: Date::constant(2026, 8, 1 + (what % 28) as i8),
        by: None,
        of: subject(whose),
        what: match what % 3 {
            2 if corrects.is_some() => What::Withdrawn,
            _ => What::Observed(seen),
        },
    }
}

/// The next entry of a book, which changes one of its own plant or none.
pub(super) fn next(book: &[Entry], id: u32, (whose, what, back): Drawn) -> Entry {
    let of = subject(whose);
    let own = book.iter().rev().filter(|entry| entry.of == of);
    let named = back.and_then(|back| own.map(|entry| entry.id).nth(usize::from(back) % 12));
    entry(id, whose, what, named)
}

pub(super) fn book(drawn: impl IntoIterator<Item = Drawn>) -> Vec<Entry> {
    let mut book = Vec::new();
    for (id, drawn) in (1..).zip(drawn) {
        book.push(next(&book, id, drawn));
    }
    book
}

/// One entry after another, none of which changes another.
pub(super) fn plain_book() -> Vec<Entry> {
    book((1..=520_u32).map(|id| ((id % 6) as u8, (id % 251) as u8, None)))
}

pub(super) fn line(entry: &Entry) -> String {
    let text = write_line(entry).expect("writes");
    format!("{:08x} {text}\n", crc32fast::hash(text.as_bytes()))
}

pub(super) fn text(entries: &[Entry]) -> String {
    entries.iter().map(line).collect()
}

/// A folder whose book has these entries.
pub(super) fn folder(entries: &[Entry]) -> (tempfile::TempDir, Folder) {
    let dir = tempfile::tempdir().expect("a folder");
    let seedlings = (0..5).map(|own| match subject(own) {
        Subject::Seedling(number) => Seedling::numbered(number),
        Subject::Variety(_) => unreachable!("a seedling"),
    });
    let seedlings = write_records(&seedlings.collect::<Vec<_>>()).expect("writes");
    fs::write(dir.path().join(SEEDLINGS), seedlings).expect("writes");
    fs::write(dir.path().join(ENTRIES), text(entries)).expect("writes");
    let folder = Folder::open(dir.path(), "now").expect("opens");
    (dir, folder)
}
