//! Windows. Written with the care of the other side, and never run where this was written.
//!
//! The standard library tells neither how many names a file has nor its number on the disk, so that two
//! names of one file are told apart only by their paths: [`names`] is 1 and [`identity`] `None`.

use std::fs::{Metadata, OpenOptions};
use std::io;
use std::os::windows::fs::OpenOptionsExt;
use std::path::Path;

use super::Identity;

/// `FILE_FLAG_OPEN_REPARSE_POINT`: a link is opened itself, and then is no regular file.
const THE_LINK_ITSELF: u32 = 0x0020_0000;
/// `ERROR_INVALID_FUNCTION` and `ERROR_NOT_SUPPORTED`: what a disk says that knows no locks.
const NO_LOCKS: [i32; 2] = [1, 50];

/// Pipes have a name space of their own here, and opening one of its files never waits.
pub(in super::super) fn at_once(options: &mut OpenOptions) -> &mut OpenOptions {
    options
}

pub(in super::super) fn not_through_a_link(options: &mut OpenOptions) -> &mut OpenOptions {
    options.custom_flags(THE_LINK_ITSELF)
}

pub(in super::super) fn kind(found: &Metadata) -> &'static str {
    let kind = found.file_type();
    if kind.is_symlink() {
        "a link"
    } else if kind.is_dir() {
        "a folder"
    } else {
        "a device"
    }
}

pub(in super::super) fn identity(_: &Metadata) -> Option<Identity> {
    None
}

pub(in super::super) fn names(_: &Metadata) -> u64 {
    1
}

/// Who may write a file is in its list of rights here, which opening it to write asks.
pub(in super::super) fn is_ours(_: &Metadata, _: &Metadata) -> bool {
    true
}

/// As [`is_ours`].
pub(in super::super) fn is_safe_to_find(folder: &Path) -> bool {
    folder.is_dir()
}

pub(in super::super) fn has_no_locks(error: &io::Error) -> bool {
    error
        .raw_os_error()
        .is_some_and(|code| NO_LOCKS.contains(&code))
}

/// A folder cannot be opened as a file here, and the system orders its names itself.
pub(in super::super) fn sync_folder(_: &Path) -> io::Result<()> {
    Ok(())
}

pub(in super::super) fn host() -> String {
    std::env::var("COMPUTERNAME").unwrap_or_default()
}

pub(in super::super) fn machine() -> String {
    host()
}

pub(in super::super) fn boot() -> String {
    String::new()
}

/// Not told without a call of the system's own: whoever holds the folder is taken to run, and the
/// sentence that names it says how to let go of a hold that was left behind.
pub(in super::super) fn started(_: u32) -> Option<String> {
    Some(String::new())
}
