//! Books of entries as they are read: lines that are whole and no entries, and what does not fit
//! together, each told with its line.

use std::sync::{Mutex, PoisonError};

use serde::de::DeserializeOwned;

use super::journal::{Line, Opened};
use super::text::read_line;
use crate::book::{Entry, Misfit};
use crate::problem::Problem;

/// Lines that are whole and no entries: each with its number and what is wrong.
pub(super) struct Unread {
    name: &'static str,
    told: Mutex<Vec<(usize, String)>>,
}

impl Unread {
    /// Of the book with this name.
    pub(super) fn of(name: &'static str) -> Unread {
        Unread {
            name,
            told: Mutex::default(),
        }
    }

    /// The entry of a line; one that is none is left out, and told.
    pub(super) fn read<E: DeserializeOwned + 'static>(&self, line: Line<'_>) -> Option<E> {
        let problem = match read_line(self.name, line.text) {
            Ok(entry) => return Some(entry),
            Err(problem) => Problem {
                line: line.number,
                ..problem
            },
        };
        let told = format!("{problem}; the entry is left out, and stays in the file");
        let mut all = self.told.lock().unwrap_or_else(PoisonError::into_inner);
        all.push((line.number, told));
        None
    }

    /// What could not be read of an opened book, in the order of its lines.
    pub(super) fn problems<E>(self, opened: &Opened<E>) -> Vec<String> {
        let mut problems: Vec<String> = opened.problems.iter().map(Problem::to_string).collect();
        let unread = self.told.into_inner();
        let mut unread = unread.unwrap_or_else(PoisonError::into_inner);
        // Read on several cores, they came as they were met.
        unread.sort_unstable();
        problems.extend(unread.into_iter().map(|(_, told)| told));
        problems
    }
}

/// The line of every entry, by its number.
#[derive(Debug)]
pub(super) struct Lines {
    book: &'static str,
    all: Vec<(u32, usize)>,
}

impl Lines {
    /// Of an opened book with this name.
    pub(super) fn of<E: Entry>(book: &'static str, opened: &Opened<E>) -> Lines {
        let ids = opened.entries.iter().map(Entry::id);
        let mut all: Vec<(u32, usize)> = ids.zip(opened.numbers.iter().copied()).collect();
        all.sort_unstable();
        Lines { book, all }
    }

    /// What does not fit together, each with the lines of the book that have its entry's number; what is of
    /// no entry is in the file `beside`.
    pub(super) fn placed(&self, misfits: &[Misfit], beside: &str) -> Vec<String> {
        let book = self.book;
        let told = misfits.iter().map(|misfit| {
            let Some(id) = misfit.entry else {
                return format!("{beside}: {misfit}");
            };
            let own = &self.all[self.all.partition_point(|(other, _)| *other < id)..];
            let own = own.iter().take_while(|(other, _)| *other == id);
            let own: Vec<String> = own.map(|(_, line)| line.to_string()).collect();
            match &own[..] {
                [one] => format!("{book}, line {one}: {misfit}"),
                [first, .., last] => format!("{book}, lines {first} to {last}: {misfit}"),
                [] => format!("{book}: {misfit}"),
            }
        });
        told.collect()
    }
}
