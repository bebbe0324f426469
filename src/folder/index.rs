//! Where each plant's entries stand in a long book, so that a note of one plant reads those alone
//! and costs the same at any length of the book.
//!
//! The index is no evidence: what a note is checked against is read from the book itself, line by
//! line by its check sum; the index says only where. It is gone by where the book is as it was last
//! seen (its length, its time of change, its file), or where the bytes that it covers have the sum
//! that they had; what was added behind them is read each time. Where neither holds it is made anew
//! of the whole book. A book of which something has to be told (damage, a number twice, a correction of
//! nothing or of another plant's entry) gets none: it is read whole each time, so that it is told each
//! time. An entry changes its own plant alone, so that one plant's entries are all that a note on it is
//! held against.

mod file;
mod places;

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::path::Path;

use super::journal::{self, Journal, Line};
use super::names::GROWING;
use super::store::{self, Stamp};
use super::{Folder, regular, text};
use crate::trial::{Entry, Subject};
use file::{Head, Index};
use places::{Mention, OnlyWhole, Place, Places, find};

/// A shorter book is read whole in a few milliseconds.
const WORTH_AN_INDEX: u64 = 256 * 1024;
/// With more bytes behind those that it covers an index is made anew: some thousand entries.
const MOST_ADDED: u64 = 128 * 1024;
/// Nearly every line is shorter.
const USUAL_LINE: u64 = 1024;

/// What of a book one plant's note needs.
#[derive(Debug)]
pub(super) struct Excerpt {
    /// Every entry of the plant, by number.
    pub(super) entries: Vec<Entry>,
    /// The end of the book.
    pub(super) journal: Journal,
    /// Whom the book has entries of, some of them more than once.
    pub(super) subjects: Vec<Subject>,
    /// How many entries the book has, and the greatest number of one, whichever is more.
    pub(super) last: u32,
    /// The index that it was read by.
    pub(super) seen: Seen,
}

/// The index that a book was read by.
#[derive(Debug)]
pub(super) struct Seen(Head);

impl Seen {
    /// Notes that the book is now as this program has left it. OK to fail: the next note looks
    /// closer at the book then.
    pub(super) fn note(&self, folder: &Folder, book: &str) {
        if let Ok(Some(stamp)) = store::stamp(&folder.dir.join(book)) {
            let _ = file::seen(&folder.dir, &self.0, stamp.bytes());
        }
    }
}

/// What of the book called `name` a note on `of` needs, which may correct the entry `corrects`;
/// `None` where the book has to be read whole.
pub(super) fn excerpt(
    folder: &Folder,
    name: &str,
    of: &Subject,
    corrects: Option<u32>,
) -> Option<Excerpt> {
    let path = folder.dir.join(name);
    let is_long = |stamp: &Stamp| (WORTH_AN_INDEX..=GROWING).contains(&stamp.length());
    let stamp = store::stamp(&path).ok()?.filter(is_long)?;
    folder.writable(&path).ok()?;
    let of_book = || part(folder, &path, &stamp, of).ok().flatten();
    let part = match of_book() {
        Some(part) => part,
        None => {
            make(folder, name, &stamp)?;
            of_book()?
        }
    };
    let (file, _) = regular::open(&path).ok()?;
    let mut book = Book { name, file };
    book.gather(part, &stamp, of, corrects).ok()?
}

/// The folder's index and one plant's places in it, if it is of this book and whole as far as that.
fn part(
    folder: &Folder,
    path: &Path,
    stamp: &Stamp,
    of: &Subject,
) -> io::Result<Option<(Index, Vec<Place>)>> {
    let Some(mut index) = file::open(&folder.dir)? else {
        return Ok(None);
    };
    let Some(places) = index.places(of)? else {
        return Ok(None);
    };
    let head = &index.head;
    let added = stamp.length().checked_sub(head.covered);
    if added.is_none_or(|added| added > MOST_ADDED) {
        return Ok(None);
    }
    if head.stamp != stamp.bytes() {
        if sum(regular::open(path)?.0, head.covered)? != head.sum {
            return Ok(None);
        }
        // OK to fail: the sum is then taken again.
        let _ = file::seen(&folder.dir, head, stamp.bytes());
    }
    Ok(Some((index, places)))
}

/// Makes the index anew of the whole book; `None` of a book that is to have none.
fn make(folder: &Folder, name: &str, stamp: &Stamp) -> Option<()> {
    let path = folder.dir.join(name);
    let mention = |line: Line<'_>| {
        let entry = text::read_line(name, line.text).ok();
        Some(entry.map(|entry| Mention::of(&entry, line.start as u64)))
    };
    let opened = folder.journal_as(name, mention).ok()?;
    if !opened.problems.is_empty() || opened.journal.end() != stamp.length() {
        return None;
    }
    let mut places = Places::default();
    for mention in opened.entries {
        places.add(mention?).ok()?;
    }
    let covered = stamp.length();
    let sum = sum(regular::open(&path).ok()?.0, covered).ok()?;
    if store::stamp(&path).ok()?.as_ref() != Some(stamp) {
        return None;
    }
    file::write(&folder.dir, &places, stamp.bytes(), covered, sum).ok()
}

/// The sum of a file's first bytes.
fn sum(file: File, covered: u64) -> io::Result<u32> {
    let mut sum = crc32fast::Hasher::new();
    let mut left = file.take(covered);
    let mut some = vec![0; 256 * 1024];
    loop {
        match left.read(&mut some)? {
            0 => return Ok(sum.finalize()),
            read => sum.update(&some[..read]),
        }
    }
}

/// The book, open to be read in places.
struct Book<'a> {
    name: &'a str,
    file: File,
}

impl Book<'_> {
    /// What a note on `of` needs; `None` where an entry is not as the index has it, or only the whole
    /// can tell.
    fn gather(
        &mut self,
        (mut index, places): (Index, Vec<Place>),
        stamp: &Stamp,
        of: &Subject,
        corrects: Option<u32>,
    ) -> io::Result<Option<Excerpt>> {
        let mut entries = Vec::with_capacity(places.len() + 1);
        for place in places {
            match self.entry_at(place, of)? {
                Some(entry) => entries.push(entry),
                None => return Ok(None),
            }
        }
        let Some(added) = self.added(&mut index, stamp)? else {
            return Ok(None);
        };
        let count = index.head.entries.saturating_add(added.len() as u32);
        let last = added.last().map_or(index.head.last, |entry| entry.id);
        let mut subjects: Vec<Subject> = index.plants().cloned().collect();
        subjects.extend(added.iter().map(|entry| entry.of.clone()));
        entries.extend(added.into_iter().filter(|entry| entry.of == *of));
        // An entry of another plant, or none at all: only the whole book can say which.
        let holds = |id: u32| entries.binary_search_by_key(&id, |entry| entry.id).is_ok();
        if corrects.is_some_and(|id| !holds(id)) {
            return Ok(None);
        }
        Ok(Some(Excerpt {
            entries,
            journal: Journal::at_end(self.name, stamp.length()),
            subjects,
            last: last.max(count),
            seen: Seen(index.head),
        }))
    }

    /// Every entry behind those that the index covers; `None` where a line is not whole, or where one is
    /// what only the whole can tell.
    fn added(&mut self, index: &mut Index, stamp: &Stamp) -> io::Result<Option<Vec<Entry>>> {
        let covered = index.head.covered;
        self.file.seek(SeekFrom::Start(covered))?;
        let mut bytes = Vec::new();
        let added = stamp.length() - covered;
        (&mut self.file).take(added).read_to_end(&mut bytes)?;
        let Some(added) = whole_lines(self.name, bytes) else {
            return Ok(None);
        };
        let mut last = index.head.last;
        for (at, entry) in added.iter().enumerate() {
            if Mention::of(entry, 0).follows(last) == Err(OnlyWhole) {
                return Ok(None);
            }
            last = entry.id;
            let Some(named) = entry.corrects else {
                continue;
            };
            let is_it = |before: &Entry| before.id == named && before.of == entry.of;
            if !added[..at].iter().any(is_it) && !self.has(index, named, &entry.of)? {
                return Ok(None);
            }
        }
        Ok(Some(added))
    }

    /// Whether the covered bytes have an entry of this number and this plant.
    fn has(&mut self, index: &mut Index, id: u32, of: &Subject) -> io::Result<bool> {
        let places = index.places(of)?.unwrap_or_default();
        match find(&places, id) {
            Some(place) => Ok(self.entry_at(place, of)?.is_some()),
            None => Ok(false),
        }
    }

    /// The entry of a plant whose line begins at a place; `None` where it is not whole, or another.
    fn entry_at(&mut self, place: Place, of: &Subject) -> io::Result<Option<Entry>> {
        let mut line = Vec::new();
        let mut room = USUAL_LINE;
        let end = loop {
            let from = place.start + line.len() as u64;
            self.file.seek(SeekFrom::Start(from))?;
            let read = (&mut self.file).take(room).read_to_end(&mut line)?;
            let new = line.len() - read;
            match memchr::memchr(b'\n', &line[new..]) {
                Some(at) => break new + at,
                None if read == 0 => return Ok(None),
                None => room *= 2,
            }
        };
        let text = journal::entry(&line[..end]);
        let entry = text.and_then(|text| text::read_line::<Entry>(self.name, text).ok());
        Ok(entry.filter(|entry| entry.id == place.id && entry.of == *of))
    }
}

/// The entries of lines that are all whole.
fn whole_lines(name: &str, bytes: Vec<u8>) -> Option<Vec<Entry>> {
    if bytes.last().is_some_and(|last| *last != b'\n') {
        return None;
    }
    let read = |line: Line<'_>| Some(text::read_line(name, line.text).ok());
    let opened = journal::parse(name, bytes, read);
    let entries = opened.problems.is_empty().then_some(opened.entries);
    entries?.into_iter().collect()
}

#[cfg(test)]
mod tests;
