//! Linux, macOS and their kin.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io;
use std::os::unix::fs::{FileTypeExt, MetadataExt, OpenOptionsExt};
use std::path::Path;

use rustix::fs::OFlags;
use rustix::io::Errno;
use rustix::process::{Pid, geteuid, test_kill_process};

use super::Identity;

/// Without waiting, and never taking a terminal for its own.
const AT_ONCE: OFlags = OFlags::NONBLOCK.union(OFlags::NOCTTY);

pub(in super::super) fn at_once(options: &mut OpenOptions) -> &mut OpenOptions {
    options.custom_flags(AT_ONCE.bits().cast_signed())
}

pub(in super::super) fn not_through_a_link(options: &mut OpenOptions) -> &mut OpenOptions {
    options.custom_flags(AT_ONCE.union(OFlags::NOFOLLOW).bits().cast_signed())
}

pub(in super::super) fn kind(found: &Metadata) -> &'static str {
    let kind = found.file_type();
    if kind.is_symlink() {
        "a link"
    } else if kind.is_dir() {
        "a folder"
    } else if kind.is_fifo() {
        "a pipe"
    } else if kind.is_socket() {
        "a socket"
    } else {
        "a device"
    }
}

pub(in super::super) fn identity(found: &Metadata) -> Option<Identity> {
    Some((found.dev(), found.ino()))
}

pub(in super::super) fn names(found: &Metadata) -> u64 {
    found.nlink()
}

pub(in super::super) fn is_ours(file: &Metadata, folder: &Metadata) -> bool {
    file.uid() == geteuid().as_raw() || file.uid() == folder.uid()
}

pub(in super::super) fn is_safe_to_find(folder: &Path) -> bool {
    let mine = [geteuid().as_raw(), 0];
    fs::metadata(folder).is_ok_and(|found| mine.contains(&found.uid()))
}

pub(in super::super) fn has_no_locks(error: &io::Error) -> bool {
    let known = [Errno::NOTSUP, Errno::OPNOTSUPP, Errno::NOLCK, Errno::NOSYS];
    Errno::from_io_error(error).is_some_and(|error| known.contains(&error))
}

pub(in super::super) fn sync_folder(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

pub(in super::super) fn host() -> String {
    rustix::system::uname()
        .nodename()
        .to_string_lossy()
        .into_owned()
}

pub(in super::super) fn machine() -> String {
    // Two containers may share a name and not see one another's processes.
    let space = fs::read_link("/proc/self/ns/pid").unwrap_or_default();
    format!("{} {}", host(), space.to_string_lossy())
}

pub(in super::super) fn boot() -> String {
    let id = fs::read_to_string("/proc/sys/kernel/random/boot_id").unwrap_or_default();
    id.trim().to_string()
}

pub(in super::super) fn started(process: u32) -> Option<String> {
    let pid = Pid::from_raw(i32::try_from(process).ok()?)?;
    if test_kill_process(pid) == Err(Errno::SRCH) {
        return None;
    }
    // Its name is in brackets and may hold spaces; its beginning is the 20th field behind them.
    let told = fs::read_to_string(format!("/proc/{process}/stat")).unwrap_or_default();
    let behind = told.rsplit_once(')').map_or("", |(_, behind)| behind);
    let began = behind.split_whitespace().nth(19).unwrap_or_default();
    Some(began.to_string())
}
