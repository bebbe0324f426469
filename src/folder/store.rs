//! One file, whole at every instant: written beside, synced, renamed, the copy before kept.
//!
//! The steps of a save of `varieties.ron`, and what a kill or a power cut after each leaves:
//!
//! 1. `.varieties.ron.trug-new` is written and synced: the old file, and a leftover that is
//!    removed when the folder is next opened to write.
//! 2. The old file gets a second name, `.varieties.ron.trug-last` (a hard link; where the disk has
//!    none, a synced copy): as before.
//! 3. That name is renamed to `varieties.ron.last`: the old file, twice.
//! 4. `.varieties.ron.trug-new` is renamed to `varieties.ron`: the new file, the old one kept.
//! 5. The folder is synced, so that the names too survive a power cut.
//!
//! Neither `varieties.ron` nor `varieties.ron.last` is ever written in place, and a rename replaces
//! a name in one instant, so each of the two is whole at every instant.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions, Permissions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use super::{FolderError, regular, system};

/// What tells one version of a file from another without reading it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stamp {
    length: u64,
    modified: Option<SystemTime>,
    /// A save by rename is a new file on the disk, even within one tick of the file clock.
    identity: Option<system::Identity>,
}

/// A file's bytes and the version that they are.
pub(super) struct Loaded {
    pub(super) bytes: Vec<u8>,
    pub(super) stamp: Stamp,
}

const NEW: &str = ".trug-new";
const LINK: &str = ".trug-last";

/// Replaces the file at `path` by `text` and keeps what was there as `path` with `.last` added.
pub(super) fn save(path: &Path, text: &str) -> Result<Stamp, FolderError> {
    let path = &follow(path);
    let failed = |error| FolderError::Write(path.to_path_buf(), error);
    regular::refuse_link(path).map_err(failed)?;
    let old = stamp_and_permissions(path).map_err(failed)?;
    if old.as_ref().is_some_and(|(_, may)| may.readonly()) {
        return Err(FolderError::Protected(path.to_path_buf()));
    }
    let (new, link) = (beside(path, NEW), beside(path, LINK));
    let place = || {
        let stamp = write_new(&new, text.as_bytes(), old.as_ref().map(|(_, may)| may))?;
        if old.is_some() {
            keep(path, &link)?;
        }
        fs::rename(&new, path)?;
        Ok(stamp)
    };
    let stamp = place().map_err(|error| {
        // OK to leave either behind: the next save or the next open removes it.
        let _ = fs::remove_file(&new);
        let _ = fs::remove_file(&link);
        failed(error)
    })?;
    match sync_parent(path) {
        Ok(()) => Ok(stamp),
        Err(error) => Err(FolderError::Unconfirmed(path.to_path_buf(), error)),
    }
}

/// The file's bytes, or `None` if it is not there. It must be a regular file of at most so many bytes.
pub(super) fn load(path: &Path, most: u64) -> Result<Option<Loaded>, FolderError> {
    match regular::read(path, most) {
        Ok((bytes, found)) => Ok(Some(Loaded {
            bytes,
            stamp: Stamp::of(&found),
        })),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(FolderError::Read(path.to_path_buf(), error)),
    }
}

/// Writes a file that can be made again at any time, whole or not at all. No copy is kept, and a
/// power cut may take it.
pub(super) fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let new = beside(path, NEW);
    let placed = write_new(&new, bytes, None).and_then(|_| fs::rename(&new, path));
    placed.inspect_err(|_| {
        // OK to leave it behind: the next open removes it.
        let _ = fs::remove_file(&new);
    })
}

/// Where the copy before the last save is kept: beside the file that a link leads to.
pub(super) fn kept(path: &Path) -> PathBuf {
    let mut name = OsString::from(follow(path));
    name.push(".last");
    PathBuf::from(name)
}

/// The version that is on the disk now, or `None` if there is no file.
pub(super) fn stamp(path: &Path) -> io::Result<Option<Stamp>> {
    Ok(stamp_and_permissions(path)?.map(|(stamp, _)| stamp))
}

/// Removes what a killed save left behind. Only for the one writer: another program's save may be
/// under way otherwise.
pub(super) fn remove_leftovers(dir: &Path) -> io::Result<()> {
    for entry in fs::read_dir(dir)? {
        let entry = entry?;
        let name = entry.file_name();
        let name = name.to_string_lossy();
        let ours = name.starts_with('.') && (name.ends_with(NEW) || name.ends_with(LINK));
        if ours && entry.file_type()?.is_file() {
            fs::remove_file(entry.path())?;
        }
    }
    Ok(())
}

/// Makes the folder's names survive a power cut.
pub(super) fn sync_parent(path: &Path) -> io::Result<()> {
    parent(path).map_or(Ok(()), system::sync_folder)
}

/// The folder that a path is in: for a bare name, where the program stands.
pub(super) fn parent(path: &Path) -> Option<&Path> {
    let parent = path.parent()?;
    Some(match parent.as_os_str().is_empty() {
        true => Path::new("."),
        false => parent,
    })
}

impl Stamp {
    /// How many bytes [`Stamp::bytes`] has.
    pub(super) const BYTES: usize = 36;

    /// The file's length in bytes.
    pub(super) fn length(&self) -> u64 {
        self.length
    }

    /// The stamp as it may be kept in a file.
    pub(super) fn bytes(&self) -> [u8; Stamp::BYTES] {
        let since = self
            .modified
            .and_then(|at| at.duration_since(UNIX_EPOCH).ok());
        let since = since.unwrap_or_default();
        // OK as 0 where the system tells no file by its number: length and time are then what tells.
        let (disk, number) = self.identity.unwrap_or_default();
        let mut bytes = [0; Stamp::BYTES];
        bytes[..8].copy_from_slice(&self.length.to_le_bytes());
        bytes[8..16].copy_from_slice(&disk.to_le_bytes());
        bytes[16..24].copy_from_slice(&number.to_le_bytes());
        bytes[24..32].copy_from_slice(&since.as_secs().to_le_bytes());
        bytes[32..].copy_from_slice(&since.subsec_nanos().to_le_bytes());
        bytes
    }

    fn of(metadata: &fs::Metadata) -> Stamp {
        Stamp {
            length: metadata.len(),
            modified: metadata.modified().ok(),
            identity: system::identity(metadata),
        }
    }
}

pub(super) fn stamp_and_permissions(path: &Path) -> io::Result<Option<(Stamp, Permissions)>> {
    match fs::metadata(path) {
        Ok(metadata) => Ok(Some((Stamp::of(&metadata), metadata.permissions()))),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

/// Where a link leads, so that a save replaces the file and leaves the link.
pub(super) fn follow(path: &Path) -> PathBuf {
    if path.is_symlink() {
        path.canonicalize().unwrap_or_else(|_| path.to_path_buf())
    } else {
        path.to_path_buf()
    }
}

/// A hidden name in the same folder, for a rename works in one instant only within one disk.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(ending);
    path.with_file_name(name)
}

/// Writes a file that is not there when it begins, and puts it on the disk.
pub(super) fn write_new(path: &Path, bytes: &[u8], may: Option<&Permissions>) -> io::Result<Stamp> {
    remove_if_there(path)?;
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(bytes)?;
    if let Some(may) = may {
        file.set_permissions(may.clone())?;
    }
    file.sync_all()?;
    Ok(Stamp::of(&file.metadata()?))
}

fn keep(path: &Path, link: &Path) -> io::Result<()> {
    remove_if_there(link)?;
    if fs::hard_link(path, link).is_err() {
        let mut copy = OpenOptions::new().write(true).create_new(true).open(link)?;
        io::copy(&mut File::open(path)?, &mut copy)?;
        copy.set_permissions(fs::metadata(path)?.permissions())?;
        copy.sync_all()?;
    }
    fs::rename(link, kept(path))?;
    // A rename does nothing where both names are one file already, as after a kill between the
    // two renames of a save.
    remove_if_there(link)
}

fn remove_if_there(path: &Path) -> io::Result<()> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
