//! The trial row's two files: its seedlings, and the book of entries that only grows.

use std::io;
use std::path::Path;

use super::entries::{Lines, Unread};
use super::index::{self, Excerpt, Seen};
use super::journal::{self, Journal};
use super::text::kept::Holds;
use super::text::{read_records, record_again, write_line, write_records};
use super::{FileGuard, Folder, FolderError};
use crate::trial::{Entry, Seedling, Subject, Trial};

pub use super::names::{ENTRIES, SEEDLINGS};

/// The demo's.
const DEMO_SEEDLINGS: &str = include_str!("../../catalogue/trial.ron");
const DEMO_ENTRIES: &str = include_str!("../../catalogue/trial.journal");

/// A row as it was read.
#[derive(Debug)]
pub struct ReadRow {
    /// The row.
    pub trial: Trial,
    /// Sentences on what could not be read or does not fit together; the rest is in the row.
    pub problems: Vec<String>,
}

/// The right to add to the row of an opened folder.
#[derive(Debug)]
pub struct RowFiles {
    seedlings: FileGuard,
    entries: Journal,
    /// Lines of the book, damaged ones among them.
    lines: u32,
    /// The index that a part of the book was read by.
    seen: Option<Seen>,
}

/// The row of a folder, or the demo's where there is none. An empty row where the folder has none
/// yet.
///
/// # Errors
/// [`FolderError`] where the seedlings cannot be read, with the place of what is wrong. A damaged
/// entry is among the row's problems.
pub fn row(folder: Option<&Path>) -> Result<ReadRow, FolderError> {
    match folder {
        Some(dir) => Ok(open_row(&Folder::open_to_read(dir)?)?.0),
        // OK because a test reads the demo.
        None => {
            let unread = Unread::of(ENTRIES);
            let demo = DEMO_ENTRIES.as_bytes().to_vec();
            let opened = journal::parse(ENTRIES, demo, |line| unread.read(line));
            let seedlings = read_records(SEEDLINGS, DEMO_SEEDLINGS).unwrap_or_default();
            Ok(join(seedlings, opened, unread).0)
        }
    }
}

/// The row of an opened folder, and the right to add to it.
///
/// # Errors
/// As [`row`]; nothing can then be added.
pub fn open_row(folder: &Folder) -> Result<(ReadRow, RowFiles), FolderError> {
    let (seedlings, guard) = folder.read(SEEDLINGS, read_records::<Seedling>)?;
    let unread = Unread::of(ENTRIES);
    let opened = folder.journal_as(ENTRIES, |line| unread.read(line))?;
    let lines = opened.lines;
    let (row, entries) = join(seedlings.unwrap_or_default(), opened, unread);
    let files = RowFiles {
        seedlings: guard,
        entries,
        lines: u32::try_from(lines).unwrap_or(u32::MAX),
        seen: None,
    };
    Ok((row, files))
}

/// As [`open_row`], with as much of the book as a note on one plant is checked against: of other
/// plants the row then has no entry. `corrects` is the entry that the note replaces or withdraws. What
/// a note costs does not grow with the book.
///
/// # Errors
/// As [`open_row`].
pub fn open_row_of(
    folder: &Folder,
    subject: &Subject,
    corrects: Option<u32>,
) -> Result<(ReadRow, RowFiles), FolderError> {
    let Some(excerpt) = index::excerpt(folder, ENTRIES, subject, corrects) else {
        return open_row(folder);
    };
    let (seedlings, guard) = folder.read(SEEDLINGS, read_records::<Seedling>)?;
    let Excerpt {
        entries,
        journal,
        subjects,
        last,
        seen,
    } = excerpt;
    let (trial, problems) = Trial::of(seedlings.unwrap_or_default(), entries);
    let is_known = |subject: &Subject| match subject {
        Subject::Seedling(number) => trial.seedling(*number).is_some(),
        Subject::Variety(_) => true,
    };
    if !problems.is_empty() || !subjects.iter().all(is_known) {
        return open_row(folder);
    }
    let files = RowFiles {
        seedlings: guard,
        entries: journal,
        lines: last,
        seen: Some(seen),
    };
    Ok((ReadRow { trial, problems }, files))
}

/// The demo's two files as they are laid out in a folder: name and text.
pub fn demo_files() -> [(&'static str, &'static str); 2] {
    [(SEEDLINGS, DEMO_SEEDLINGS), (ENTRIES, DEMO_ENTRIES)]
}

impl RowFiles {
    /// The number of the next entry. A damaged entry keeps its own, so that a number never means
    /// two.
    pub fn next_id(&self, trial: &Trial) -> u32 {
        trial.next_id().max(self.lines.saturating_add(1))
    }

    /// Puts an entry at the end of the book. When this returns without error it is on the disk.
    ///
    /// # Errors
    /// [`FolderError`]; the book is then as it was, and the entry may be tried again.
    pub fn enter(&mut self, folder: &Folder, entry: &Entry) -> Result<(), FolderError> {
        let line = write_line(entry).map_err(|error| unwritten(folder, ENTRIES, error))?;
        folder.append(&mut self.entries, &line)?;
        if let Some(seen) = &self.seen {
            seen.note(folder, ENTRIES);
        }
        self.lines = self.lines.saturating_add(1);
        Ok(())
    }

    /// Saves the seedlings in place of those in the folder.
    ///
    /// # Errors
    /// [`FolderError`]; after every error but [`FolderError::Unconfirmed`] the file is as it was.
    pub fn save_seedlings(
        &mut self,
        folder: &Folder,
        seedlings: &[Seedling],
    ) -> Result<(), FolderError> {
        let text = write_records(seedlings).map_err(|error| unwritten(folder, SEEDLINGS, error))?;
        let holds = Holds::Records(record_again::<Seedling>);
        folder.save_value(&mut self.seedlings, &text, holds)
    }
}

pub(super) fn unwritten(folder: &Folder, name: &str, error: ron::Error) -> FolderError {
    FolderError::Write(folder.dir().join(name), io::Error::other(error))
}

fn join(
    seedlings: Vec<Seedling>,
    opened: journal::Opened<Entry>,
    unread: Unread,
) -> (ReadRow, Journal) {
    let mut problems = unread.problems(&opened);
    let lines = Lines::of(ENTRIES, &opened);
    let (trial, misfits) = Trial::read(seedlings, opened.entries);
    problems.extend(lines.placed(&misfits, SEEDLINGS));
    (ReadRow { trial, problems }, opened.journal)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demo_is_read_whole() {
        let row = row(None).expect("the demo");
        assert_eq!(row.problems, Vec::<String>::new());
        assert_eq!(row.trial.seedlings().len(), 60);
    }
}
