//! A file that only grows: one entry a line, each with its check sum, each on the disk before it
//! is called saved.
//!
//! A line is the CRC-32 of the entry's text as eight hexadecimal digits, a space, and the text.
//! What a kill, a power cut or a full disk can leave is one unfinished line at the end, which was
//! never called saved. Anything else that does not fit its sum is damage, or an edit by hand: it is
//! reported with its line, the rest is read, and the file keeps it.

use std::fs::File;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

mod lines;

pub use lines::Line;
pub(super) use lines::entry;

use super::names::GROWING;
use super::{Folder, FolderError, growing, store};
use crate::problem::Problem;

/// One entry as it was saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its line in the file, from 1.
    pub line: usize,
    /// Its text, without line ends.
    pub text: String,
}

/// What a journal's file holds.
#[derive(Debug)]
pub struct Opened<E = Entry> {
    /// The entries that are whole, oldest first.
    pub entries: Vec<E>,
    /// The line of each, from 1.
    pub numbers: Vec<usize>,
    /// The lines that are not, with their place.
    pub problems: Vec<Problem>,
    /// Lines of the file, damaged ones and one cut short among them.
    pub lines: usize,
    /// Where the next entry goes.
    pub journal: Journal,
}

/// The end of a journal's file, to add entries with [`Folder::append`].
#[derive(Debug)]
pub struct Journal {
    name: String,
    /// Bytes of the file that are to stay.
    length: u64,
    /// Bytes after them, left by a save that was cut short.
    torn: Vec<u8>,
    /// The last entry is whole but for its line end.
    unended: bool,
    /// Adding an entry failed, and its first bytes may still be at the end of the file.
    failed: bool,
}

impl Folder {
    /// Reads a journal. A file that is not there is an empty journal.
    ///
    /// # Errors
    /// [`FolderError::Read`] only: damaged lines are among the result's problems.
    pub fn journal(&self, name: &str) -> Result<Opened, FolderError> {
        self.journal_as(name, |line| {
            Some(Entry {
                line: line.number,
                text: line.text.to_string(),
            })
        })
    }

    /// Reads a journal, each entry by `read`, which may leave it out. A long one is read in parts on
    /// all cores.
    ///
    /// # Errors
    /// As [`Folder::journal`].
    pub fn journal_as<E: Send>(
        &self,
        name: &str,
        read: impl Fn(Line<'_>) -> Option<E> + Sync,
    ) -> Result<Opened<E>, FolderError> {
        let loaded = store::load(&self.dir.join(name), GROWING)?;
        let bytes = loaded.map_or(Vec::new(), |loaded| loaded.bytes);
        Ok(parse(name, bytes, read))
    }

    /// Adds `text`, one line without control characters, such as
    /// [`write_line`](super::text::write_line) gives. When this returns without error the entry is
    /// on the disk. What an earlier save left unfinished is first moved to a file with `.torn`
    /// added to the name.
    ///
    /// # Errors
    /// After any error the journal is as it was, and the entry may be tried again.
    pub fn append(&self, journal: &mut Journal, text: &str) -> Result<(), FolderError> {
        let path = self.dir.join(&journal.name);
        self.writable(&path)?;
        journal.append(&path, text).map_err(|error| match error {
            Failure::Changed => FolderError::Changed(path.clone()),
            Failure::Disk(error) => FolderError::Write(path.clone(), error),
        })
    }
}

enum Failure {
    Changed,
    Disk(io::Error),
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        Failure::Disk(error)
    }
}

impl Journal {
    /// The end of a journal of so many bytes, which has no line that was cut short.
    pub(super) fn at_end(name: &str, length: u64) -> Journal {
        Journal {
            name: name.to_string(),
            length,
            torn: Vec::new(),
            unended: false,
            failed: false,
        }
    }

    /// Where it ends, in bytes, if its last line has its end and nothing lies behind; else 0.
    pub(super) fn end(&self) -> u64 {
        match self.unended || !self.torn.is_empty() {
            true => 0,
            false => self.length,
        }
    }

    fn append(&mut self, path: &Path, text: &str) -> Result<(), Failure> {
        if text.chars().any(char::is_control) {
            return Err(io::Error::other("found a control character, expected one line").into());
        }
        let (mut file, is_new) = growing::open(path)?;
        let found = file.metadata()?.len();
        if self.failed && found > self.length {
            file.set_len(self.length)?;
        } else if found != self.length + self.torn.len() as u64 {
            return Err(Failure::Changed);
        }
        if is_new {
            store::sync_parent(path)?;
        }
        self.set_torn_aside(path, &file)?;
        let end = if self.unended { "\n" } else { "" };
        let line = format!("{end}{:08x} {text}\n", crc32fast::hash(text.as_bytes()));
        let added = file
            .write_all(line.as_bytes())
            .and_then(|()| file.sync_data());
        if let Err(error) = added {
            // OK if this fails too: the next entry tries it again before anything else.
            self.failed = file.set_len(self.length).and(file.sync_data()).is_err();
            return Err(error.into());
        }
        self.length += line.len() as u64;
        self.unended = false;
        self.failed = false;
        Ok(())
    }

    /// Moves unfinished bytes to a file of their own before they are cut off, since what looks
    /// like a save cut short may be an entry whose line end was damaged.
    fn set_torn_aside(&mut self, path: &Path, file: &File) -> io::Result<()> {
        if self.torn.is_empty() {
            return Ok(());
        }
        let aside = torn(path);
        let mut copy = growing::open_aside(&aside)?;
        copy.write_all(&self.torn)?;
        copy.write_all(b"\n")?;
        copy.sync_all()?;
        store::sync_parent(&aside)?;
        file.set_len(self.length)?;
        file.sync_all()?;
        self.torn.clear();
        Ok(())
    }
}

/// What the bytes of a journal's file hold, each entry by `read`.
pub(super) fn parse<E: Send>(
    name: &str,
    mut bytes: Vec<u8>,
    read: impl Fn(Line<'_>) -> Option<E> + Sync,
) -> Opened<E> {
    let end = memchr::memrchr(b'\n', &bytes).map_or(0, |at| at + 1);
    let lines::Ended {
        mut entries,
        mut numbers,
        damaged,
        lines,
    } = lines::ended(&bytes[..end], &read);
    let problem = |line, message: String| Problem {
        file: name.to_string(),
        line,
        column: 1,
        message,
    };
    let damage = |line| {
        let message = "found an entry that does not fit its check sum, expected it as it was saved; it is damaged or was changed by hand, is left out, and stays in the file";
        problem(line, message.to_string())
    };
    let mut problems: Vec<Problem> = damaged.into_iter().map(damage).collect();
    let mut torn = bytes.split_off(end);
    let whole = entry(&torn).map(|text| {
        read(Line {
            number: lines + 1,
            start: end,
            text,
        })
    });
    let unended = whole.is_some();
    let all_lines = lines + usize::from(!torn.is_empty());
    let mut length = end;
    if let Some(whole) = whole {
        length += torn.len();
        torn.clear();
        numbers.extend(whole.is_some().then_some(lines + 1));
        entries.extend(whole);
    } else if !torn.is_empty() {
        let message = format!(
            "found an entry cut short, expected its end; it is left out, and is moved to \
             {name}.torn when the next entry is saved"
        );
        problems.push(problem(lines + 1, message));
    }
    let journal = Journal {
        name: name.to_string(),
        length: length as u64,
        torn,
        unended,
        failed: false,
    };
    Opened {
        entries,
        numbers,
        problems,
        lines: all_lines,
        journal,
    }
}

fn torn(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".torn");
    PathBuf::from(name)
}

#[cfg(test)]
mod tests;
