//! The grower's folder: the only module of the crate that touches files.
//!
//! What is stored is text that a person can read and put under version control. Four things hold
//! at every instant, and the types and tests here hold them:
//!
//! - a save leaves the old file or the new one, whole, and the old one is kept (`store`);
//! - a file that could not be read is never overwritten: a save asks for the [`FileGuard`] that
//!   only a whole reading gives, and refuses if the file was changed since;
//! - one program writes, others read and are told who writes ([`lock`]);
//! - an entry of a [`journal`] is on the disk before it is called saved.
//!
//! The folder has no clock: a time to show is handed in.

pub mod aside;
pub mod browse;
pub mod contents;
mod entries;
pub mod error;
pub mod file;
mod growing;
mod index;
pub mod journal;
pub mod lock;
pub mod names;
pub mod order;
pub mod output;
mod ownership;
pub mod place;
mod regular;
pub mod row;
pub mod rule_sets;
mod saving;
pub mod settings;
pub mod settled;
pub mod sheet;
pub mod stock;
mod store;
mod system;
pub mod text;

use std::io;
use std::path::{Path, PathBuf};

pub use error::FolderError;
use lock::{Access, Reason, Wait};
use text::kept::Past;

use crate::problem::Problem;

/// A folder that is open, to write or to read only.
#[derive(Debug)]
pub struct Folder {
    dir: PathBuf,
    access: Access,
}

/// The right to save one file over what it held: made only by reading it whole or finding it
/// absent. It goes stale when another program changes the file.
#[derive(Debug)]
pub struct FileGuard {
    name: String,
    stamp: Option<store::Stamp>,
    /// The texts that it had while the program runs.
    past: Past,
}

impl Folder {
    /// Opens a folder to write, or to read only where another program writes it or the system
    /// refuses: [`Folder::access`] says which and why. `since` is the time now as other programs
    /// are to show it, such as `2026-08-20 14:05`.
    ///
    /// # Errors
    /// [`FolderError::NoFolder`], or [`FolderError::Read`] if it cannot be looked at.
    pub fn open(dir: &Path, since: &str) -> Result<Folder, FolderError> {
        Folder::open_after(dir, since, Wait::AMoment)
    }

    /// The same, waiting some seconds for another program that has the folder, and longer while others
    /// come and go. After half a second `tell` is given a clause: who it is that is waited for.
    ///
    /// # Errors
    /// As [`Folder::open`].
    pub fn open_patiently(
        dir: &Path,
        since: &str,
        tell: &mut dyn FnMut(&str),
    ) -> Result<Folder, FolderError> {
        Folder::open_after(dir, since, Wait::Patiently(tell))
    }

    fn open_after(dir: &Path, since: &str, wait: Wait<'_>) -> Result<Folder, FolderError> {
        let mut folder = Folder::open_to_read(dir)?;
        folder.access = lock::acquire(dir, since, wait).map_err(|e| read_error(dir, e))?;
        if let Access::Write(_) = folder.access {
            store::remove_leftovers(dir).map_err(|e| read_error(dir, e))?;
        }
        Ok(folder)
    }

    /// Opens a folder to read only and keeps no other program from writing. A file is read as it
    /// was before or after any save, never between.
    ///
    /// # Errors
    /// [`FolderError::NoFolder`], or [`FolderError::Read`] if it cannot be looked at.
    pub fn open_to_read(dir: &Path) -> Result<Folder, FolderError> {
        match std::fs::metadata(dir) {
            Ok(metadata) if metadata.is_dir() => Ok(Folder {
                dir: dir.to_path_buf(),
                access: Access::ReadOnly(Reason::Asked),
            }),
            Ok(_) => Err(read_error(dir, io::ErrorKind::NotADirectory.into())),
            Err(error) => Err(read_error(dir, error)),
        }
    }

    /// What this program may do here.
    pub fn access(&self) -> &Access {
        &self.access
    }

    /// Where the folder is.
    pub fn dir(&self) -> &Path {
        &self.dir
    }

    /// Reads one file by `parse`, which is given the file's name and text, and hands out the right
    /// to save it. The value is `None` if the folder has no such file.
    ///
    /// # Errors
    /// [`FolderError::Unreadable`] with the place in the file, [`FolderError::Read`], or
    /// [`FolderError::OnlyKept`] if the file was taken away and only the kept copy is there.
    pub fn read<T>(
        &self,
        name: &str,
        parse: impl FnOnce(&str, &str) -> Result<T, Problem>,
    ) -> Result<(Option<T>, FileGuard), FolderError> {
        let path = self.dir.join(name);
        let kept = store::kept(&path);
        let guard = |stamp| FileGuard {
            name: name.to_string(),
            stamp,
            past: Past::default(),
        };
        let Some(loaded) = store::load(&path, names::most(&path))? else {
            return if kept.exists() {
                Err(FolderError::OnlyKept(path))
            } else {
                Ok((None, guard(None)))
            };
        };
        match plain_text(name, &loaded.bytes).and_then(|text| parse(name, text)) {
            Ok(value) => Ok((Some(value), guard(Some(loaded.stamp)))),
            Err(problem) => {
                let name = kept.file_name().map(|name| name.to_string_lossy());
                Err(FolderError::Unreadable {
                    problem,
                    kept: name.filter(|_| kept.exists()).map(String::from),
                })
            }
        }
    }

    /// Saves `text` as the file that `guard` was given for. When this returns without error the
    /// file is on the disk, and the one before is kept with `.last` added to its name.
    ///
    /// # Errors
    /// After every error but [`FolderError::Unconfirmed`] the file is as it was.
    pub fn save(&self, guard: &mut FileGuard, text: &str) -> Result<(), FolderError> {
        let path = self.dir.join(&guard.name);
        self.writable(&path)?;
        match store::stamp(&path) {
            Ok(stamp) if stamp == guard.stamp => {}
            Ok(_) => return Err(FolderError::Changed(path)),
            Err(error) => return Err(FolderError::Write(path, error)),
        }
        let saved = store::save(&path, text);
        if let Err(FolderError::Unconfirmed(..)) = saved {
            guard.stamp = store::stamp(&path).ok().flatten();
        }
        guard.stamp = Some(saved?);
        Ok(())
    }

    /// Refuses what would write `path` where this program is not the writer.
    fn writable(&self, path: &Path) -> Result<(), FolderError> {
        match &self.access {
            Access::Write(_) => Ok(()),
            Access::ReadOnly(reason) => {
                Err(FolderError::ReadOnly(path.to_path_buf(), reason.clone()))
            }
        }
    }
}

fn read_error(path: &Path, error: io::Error) -> FolderError {
    if error.kind() == io::ErrorKind::NotFound {
        FolderError::NoFolder(path.to_path_buf())
    } else {
        FolderError::Read(path.to_path_buf(), error)
    }
}

/// The text, if it is one: neither a broken character nor a control character that no person
/// writes, which are what a damaged disk leaves and what could move a terminal's cursor.
fn plain_text<'a>(file: &str, bytes: &'a [u8]) -> Result<&'a str, Problem> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let at = error.valid_up_to();
            let good = String::from_utf8_lossy(&bytes[..at]);
            let message = format!(
                "found a damaged byte, {:#04x}, expected UTF-8 text",
                bytes[at]
            );
            return Err(Problem::at(file, &good, at, message));
        }
    };
    let odd = |b: &u8| b.is_ascii_control() && !matches!(b, b'\n' | b'\r' | b'\t');
    // Chunks without a way out halfway are looked at many bytes at a time.
    let amiss = |chunk: &[u8]| chunk.iter().fold(false, |amiss, b| amiss | odd(b));
    let chunk = bytes.chunks(4096).position(amiss).map(|at| at * 4096);
    match chunk.and_then(|from| Some(from + bytes[from..].iter().position(odd)?)) {
        Some(at) => {
            let message = format!(
                "found a control character, {:#04x}, expected text",
                bytes[at]
            );
            Err(Problem::at(file, text, at, message))
        }
        None => Ok(text),
    }
}

#[cfg(test)]
mod tests;
