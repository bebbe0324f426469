//! What one system does otherwise than another, behind one set of functions: links, pipes, owners,
//! locks, and whether a process still runs. `unix` and `windows` have the same functions and promise
//! what is said here; nothing outside asks which system it is on.
//!
//! - [`at_once`]: a file is opened without waiting for the other end of a pipe.
//! - [`not_through_a_link`]: opening never goes on to where a link leads; what is opened is a link, or
//!   the opening fails.
//! - [`kind`]: what stands there where it is no regular file: "a link", "a folder", "a pipe".
//! - [`identity`]: one pair of numbers a file, whatever its names; `None` where the system tells none.
//! - [`names`]: how many names (hard links) a file has; 1 where the system does not tell.
//! - [`is_ours`]: whether a file belongs to this user, or to whoever the folder belongs to.
//! - [`is_safe_to_find`]: whether a folder that was only come upon belongs to this user, or to who runs the
//!   machine.
//! - [`has_no_locks`]: whether an error says that the disk knows no locks at all.
//! - [`sync_folder`]: the names in a folder survive a power cut.
//! - [`host`], [`machine`], [`boot`]: this machine as people call it, as it and those who share its
//!   processes are told from all others, and since when it has been on; empty where nobody tells.
//! - [`started`]: when a process began, in the system's own count; `None` where it runs no more.

#[cfg(unix)]
mod unix;
#[cfg(windows)]
mod windows;
mod words;

#[cfg(unix)]
pub(super) use unix::{
    at_once, boot, has_no_locks, host, identity, is_ours, is_safe_to_find, kind, machine, names,
    not_through_a_link, started, sync_folder,
};
#[cfg(windows)]
pub(super) use windows::{
    at_once, boot, has_no_locks, host, identity, is_ours, is_safe_to_find, kind, machine, names,
    not_through_a_link, started, sync_folder,
};
pub(super) use words::in_words;

/// What tells one file from all others: the disk, and the number on it.
pub(super) type Identity = (u64, u64);
