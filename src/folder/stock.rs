//! The stock book's file, which only grows.

use std::path::Path;

use super::entries::{Lines, Unread};
use super::journal::{self, Journal};
use super::row::unwritten;
use super::text::write_line;
use super::{Folder, FolderError};
use crate::stock::{Entry, Stock};
use crate::trial::Trial;

pub use super::names::STOCK;

/// The demo's.
const DEMO: &str = include_str!("../../catalogue/stock.journal");

/// A stock book as it was read.
#[derive(Debug)]
pub struct ReadStock {
    /// The book.
    pub stock: Stock,
    /// Sentences on what could not be read or does not fit together; the rest is in the book.
    pub problems: Vec<String>,
}

/// The right to add to the stock book of an opened folder.
#[derive(Debug)]
pub struct StockFile {
    entries: Journal,
    /// Lines of the book, damaged ones among them.
    lines: u32,
}

/// The stock book of a folder beside its row, or the demo's where there is none. An empty book where the
/// folder has none yet.
///
/// # Errors
/// [`FolderError`] where the file cannot be read. A damaged entry is among the book's problems.
pub fn stock(folder: Option<&Path>, trial: &Trial) -> Result<ReadStock, FolderError> {
    match folder {
        Some(dir) => Ok(open_stock(&Folder::open_to_read(dir)?, trial)?.0),
        // OK because a test reads the demo.
        None => {
            let unread = Unread::of(STOCK);
            let opened = journal::parse(STOCK, DEMO.as_bytes().to_vec(), |line| unread.read(line));
            Ok(joined(opened, unread, trial).0)
        }
    }
}

/// The stock book of an opened folder beside its row, and the right to add to it.
///
/// # Errors
/// As [`stock`]; nothing can then be added.
pub fn open_stock(folder: &Folder, trial: &Trial) -> Result<(ReadStock, StockFile), FolderError> {
    let unread = Unread::of(STOCK);
    let opened = folder.journal_as(STOCK, |line| unread.read(line))?;
    let lines = u32::try_from(opened.lines).unwrap_or(u32::MAX);
    let (read, entries) = joined(opened, unread, trial);
    Ok((read, StockFile { entries, lines }))
}

/// The demo's file as it is laid out in a folder: name and text.
pub fn demo_file() -> (&'static str, &'static str) {
    (STOCK, DEMO)
}

impl StockFile {
    /// The number of the next entry. A damaged entry keeps its own, so that a number never means
    /// two.
    pub fn next_id(&self, stock: &Stock) -> u32 {
        stock.book().next_id().max(self.lines.saturating_add(1))
    }

    /// Puts an entry at the end of the book. When this returns without error it is on the disk.
    ///
    /// # Errors
    /// [`FolderError`]; the book is then as it was, and the entry may be tried again.
    pub fn enter(&mut self, folder: &Folder, entry: &Entry) -> Result<(), FolderError> {
        let line = write_line(entry).map_err(|error| unwritten(folder, STOCK, error))?;
        folder.append(&mut self.entries, &line)?;
        self.lines = self.lines.saturating_add(1);
        Ok(())
    }
}

fn joined(opened: journal::Opened<Entry>, unread: Unread, trial: &Trial) -> (ReadStock, Journal) {
    let mut problems = unread.problems(&opened);
    let lines = Lines::of(STOCK, &opened);
    let (stock, misfits) = Stock::read(opened.entries, trial);
    problems.extend(lines.placed(&misfits, STOCK));
    (ReadStock { stock, problems }, opened.journal)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::folder::row::row;

    #[test]
    fn the_demo_is_read_whole() {
        let trial = row(None).expect("the demo's row").trial;
        let read = stock(None, &trial).expect("the demo's book");
        assert_eq!(read.problems, Vec::<String>::new());
        assert!(read.stock.subjects().len() > 20);
    }
}
