//! Files that are written for others (a table, a page, a calendar, a model): the one place for all.
//!
//! Each is written whole or not at all. One that is there is replaced only where that was asked for, one
//! marked read-only never, and no file of any grower's folder, by whatever name it is called.

use std::fs::{self, Metadata, OpenOptions, Permissions};
use std::io::{self, Write};
use std::path::Path;
use std::process;
use std::time::Duration;

use super::{FolderError, ownership, regular, store, system};

/// What is so of every file that one command writes.
#[derive(Debug, Clone, Copy)]
pub struct Output<'a> {
    /// The grower's folder, if there is one.
    pub folder: Option<&'a Path>,
    /// Whether a file that is there may be replaced.
    pub replace: bool,
}

/// Why a file was not written; nothing was changed. Displays as one sentence.
#[derive(Debug)]
pub enum OutputError {
    /// It is not to be written by that name.
    Refused(String),
    /// It could not be written, or [`FolderError::Unconfirmed`].
    Failed(FolderError),
}

/// The end of the name of a file that is being written.
const ENDING: &str = ".trug-out";
/// After so long such a file was left by a program that was killed: writing takes seconds.
const LEFT_BEHIND: Duration = Duration::from_secs(600);

impl Output<'_> {
    /// Whether a file may be written, to be asked before much is worked out for it.
    ///
    /// # Errors
    /// [`OutputError::Refused`], as [`Output::write`] would.
    pub fn check(&self, path: &Path) -> Result<(), OutputError> {
        self.standing(path, false).map(drop)
    }

    /// Writes a file whole or not at all.
    ///
    /// # Errors
    /// [`OutputError`]: what was there before is unchanged, but after [`FolderError::Unconfirmed`].
    pub fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), OutputError> {
        let there = self.standing(path, false)?;
        self.put(path, bytes, there)
    }

    /// Writes a file that may become one of a grower's folder, where the folder has none by that name.
    ///
    /// # Errors
    /// As [`Output::write`].
    pub fn begin(&self, path: &Path, bytes: &[u8]) -> Result<(), OutputError> {
        let there = self.standing(path, true)?;
        self.put(path, bytes, there)
    }

    /// What stands there now, where that may be written over. `begun` if a file that is not there yet
    /// may become one of a folder.
    fn standing(&self, path: &Path, begun: bool) -> Result<Option<Metadata>, OutputError> {
        let shown = path.display();
        let refused = |told: String| Err(OutputError::Refused(told));
        let found = match fs::metadata(path) {
            Ok(found) => Some(found),
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            Err(error) => return Err(failed(path, error)),
        };
        if found.is_none() && path.is_symlink() {
            return refused(format!(
                "found {shown}, a link that leads nowhere, expected a file name; nothing was changed"
            ));
        }
        if !(begun && found.is_none()) && ownership::is_of_a_folder(path, self.folder) {
            return refused(format!(
                "found {shown}, a file of a grower's folder, expected another name: those are \
                 never written over; nothing was changed"
            ));
        }
        let Some(there) = &found else { return Ok(None) };
        match regular::check(there) {
            Ok(()) if there.permissions().readonly() => refused(format!(
                "found {shown} marked read-only, expected another name; nothing was changed"
            )),
            Ok(()) if !self.replace => refused(format!(
                "found {shown} there already, expected a new name: --replace replaces it; nothing \
                 was changed"
            )),
            Err(error) if there.is_dir() => Err(failed(path, error)),
            // A pipe or a terminal has no old content to lose.
            _ => Ok(found),
        }
    }

    fn put(&self, path: &Path, bytes: &[u8], there: Option<Metadata>) -> Result<(), OutputError> {
        match there {
            Some(there) if !there.is_file() => {
                let opened = OpenOptions::new().write(true).open(path);
                opened
                    .and_then(|mut file| file.write_all(bytes))
                    .map_err(|error| failed(path, error))
            }
            there => {
                let may = there.map(|there| there.permissions());
                match place(&store::follow(path), bytes, may.as_ref()) {
                    // Another program made it in between.
                    Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                        self.standing(path, false).map(drop)?;
                        Err(failed(path, error))
                    }
                    Err(error) => Err(failed(path, error)),
                    Ok(parent) => parent.map_err(|error| {
                        OutputError::Failed(FolderError::Unconfirmed(path.to_path_buf(), error))
                    }),
                }
            }
        }
    }
}

impl std::fmt::Display for OutputError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            OutputError::Refused(told) => f.write_str(told),
            OutputError::Failed(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for OutputError {}

fn failed(path: &Path, error: io::Error) -> OutputError {
    OutputError::Failed(FolderError::Write(path.to_path_buf(), error))
}

/// Writes a file beside, and gives it its name: that of a file with these permissions, or a new one.
/// Once it has it, what the disk says of whether the name would survive a power cut.
fn place(path: &Path, bytes: &[u8], replaced: Option<&Permissions>) -> io::Result<io::Result<()>> {
    sweep(path);
    // The process id keeps two programs from writing one another's half, and the ending keeps the
    // folder's writer from taking it for a leftover of a save.
    let new = store::beside(path, &format!(".{}{ENDING}", process::id()));
    let placed = store::write_new(&new, bytes, replaced).and_then(|_| match replaced {
        Some(_) => fs::rename(&new, path),
        None => name_new(&new, path),
    });
    placed.inspect_err(|_| {
        // OK to fail: the next file that is written here sweeps it.
        let _ = fs::remove_file(&new);
    })?;
    Ok(store::sync_parent(path))
}

/// Gives a file its name where nothing has it: a rename would replace what came in between.
fn name_new(new: &Path, path: &Path) -> io::Result<()> {
    match fs::hard_link(new, path) {
        Ok(()) => fs::remove_file(new),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Err(error),
        // A disk without second names.
        Err(_) if path.symlink_metadata().is_ok() => Err(io::ErrorKind::AlreadyExists.into()),
        Err(_) => fs::rename(new, path),
    }
}

/// Removes what killed programs left beside `path`: only files of this program's kind of name that
/// belong to this user, and that nobody can be writing any more.
fn sweep(path: &Path) {
    let Some(folder) = store::parent(path) else {
        return;
    };
    let (Ok(entries), Ok(own)) = (fs::read_dir(folder), fs::metadata(folder)) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let Some(found) = name.to_str().filter(|name| is_unfinished(name)) else {
            continue;
        };
        let left = fs::symlink_metadata(folder.join(found)).is_ok_and(|found| {
            let age = found.modified().ok().and_then(|at| at.elapsed().ok());
            found.is_file()
                && system::is_ours(&found, &own)
                && age.is_some_and(|age| age > LEFT_BEHIND)
        });
        if left {
            // OK to fail: it is in nobody's way.
            let _ = fs::remove_file(folder.join(found));
        }
    }
}

/// Whether a name is that of a file being written: `.sheet.csv.4711.trug-out`.
fn is_unfinished(name: &str) -> bool {
    let inner = name
        .strip_prefix('.')
        .and_then(|name| name.strip_suffix(ENDING));
    let process = inner.and_then(|inner| inner.rsplit_once('.'));
    process.is_some_and(|(of, process)| !of.is_empty() && process.parse::<u32>().is_ok())
}

#[cfg(test)]
mod tests;
