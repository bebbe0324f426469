//! The first way to hold a folder: a lock of the kernel's, which a killed program lets go of.
//!
//! The lock is on a file of the folder, `.trug.lock`. It stays when the lock is let go: removing it
//! would let two programs lock two files of that name. Nothing is written to it but a line of this
//! program's, and only where it is empty or has such a line.

use std::fs::{self, File, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::Path;

use super::super::names::LOCK;
use super::super::{regular, system};
use super::holder;
use super::reason::{Attempt, Reason};

/// How the kernel is asked for the lock: a disk without locks is tested with another.
pub(super) type TryLock = fn(&File) -> Result<(), TryLockError>;

/// The lock, held until it is dropped or the program ends, however it ends.
#[derive(Debug)]
pub(super) struct KernelLock {
    file: File,
}

/// Asks once. `None` where the disk knows no locks.
///
/// # Errors
/// If there is no such folder.
pub(super) fn attempt(
    try_lock: TryLock,
    dir: &Path,
    since: &str,
) -> io::Result<Option<Attempt<KernelLock>>> {
    let not = |reason| Ok(Some(Attempt::Not(reason)));
    let path = dir.join(LOCK);
    let mut file = match open(&path, dir) {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Err(error),
        Err(error) => return not(Reason::of_file(LOCK, &error)),
    };
    match try_lock(&file) {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => {
            let text = text(&mut file).unwrap_or_default();
            return not(Reason::Held(holder::who(&text)));
        }
        Err(TryLockError::Error(error)) if system::has_no_locks(&error) => return Ok(None),
        Err(TryLockError::Error(error)) => return not(Reason::of_file(LOCK, &error)),
    }
    if !is_still(&path, &file) {
        // Somebody took the file away between opening and locking it.
        return not(Reason::Held("another program".to_string()));
    }
    match text(&mut file) {
        Ok(text) if holder::is_line(&text) => {}
        Ok(_) => return not(strange("it has a text that trug did not write")),
        Err(error) => return not(Reason::of_file(LOCK, &error)),
    }
    // OK to fail, as on a full disk: the lock holds without it, and the other program then says
    // 'another program'.
    let _ = write(&mut file, since);
    Ok(Some(Attempt::Taken(KernelLock { file })))
}

impl Drop for KernelLock {
    fn drop(&mut self) {
        // Nobody has it now. OK to fail: the name is only read while somebody holds the lock.
        let _ = self.file.set_len(0);
    }
}

/// Opens the file to lock, which must be this program's own.
fn open(path: &Path, dir: &Path) -> io::Result<File> {
    let file = regular::open_own(path)?;
    match system::is_ours(&file.metadata()?, &fs::metadata(dir)?) {
        true => Ok(file),
        false => Err(io::Error::other(
            "it belongs to another user, expected a file of this one",
        )),
    }
}

fn strange(found: &str) -> Reason {
    Reason::Refused(format!("{LOCK}: {found}, expected an empty file"))
}

/// Whether the file is the one that the folder has by that name.
fn is_still(path: &Path, file: &File) -> bool {
    let there = fs::symlink_metadata(path).ok();
    let own = file.metadata().ok();
    there
        .zip(own)
        .is_some_and(|(there, own)| system::identity(&there) == system::identity(&own))
}

/// What it holds, as far as a line of ours could reach and one byte more.
fn text(file: &mut File) -> io::Result<Vec<u8>> {
    let mut text = Vec::new();
    file.rewind()?;
    file.take(holder::LONGEST + 2).read_to_end(&mut text)?;
    Ok(text)
}

fn write(file: &mut File, since: &str) -> io::Result<()> {
    file.set_len(0)?;
    file.rewind()?;
    // In one write, so that nobody reads half of it.
    file.write_all(holder::line(since).as_bytes())
}
