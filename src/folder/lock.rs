//! One writer at a time: a lock of the kernel's, which a killed program lets go of.

use std::fmt;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::Path;
use std::time::{Duration, Instant};

use super::system::in_words;

/// What this program may do with a folder.
#[derive(Debug)]
pub enum Access {
    /// Read and save. Other programs open the folder to read only until this is dropped.
    Write(WriteLock),
    /// Read only, and why.
    ReadOnly(Reason),
}

/// Why a folder is open to read only. Displays as a clause: `process 4711 on skerry has the folder
/// open since 14:05`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// Nothing more was asked for.
    Asked,
    /// Another program is the writer: who it is, as it wrote itself down.
    Held(String),
    /// The system refuses: why, in words.
    Refused(String),
}

/// The right to save in one folder, held until it is dropped or the program ends, however it ends.
#[derive(Debug)]
pub struct WriteLock {
    file: File,
}

/// The file that is locked. It stays when the lock is let go: removing it would let two programs
/// lock two files of that name.
const LOCK_FILE: &str = ".trug.lock";
/// How long to wait for a quick command of another program to finish.
const PATIENCE: Duration = Duration::from_millis(200);
/// The most of another program's line that is shown.
const LONGEST_NAME: u64 = 200;

/// Tries to become the writer of `dir`. `since` is the time now as other programs should show it.
///
/// # Errors
/// If there is no such folder.
pub(super) fn acquire(dir: &Path, since: &str) -> io::Result<Access> {
    let path = dir.join(LOCK_FILE);
    let opened = OpenOptions::new()
        .read(true)
        .write(true)
        .create(true)
        .truncate(false)
        .open(&path);
    let mut file = match opened {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Err(error),
        Err(error) => return Ok(Access::ReadOnly(Reason::Refused(in_words(&error)))),
    };
    let began = Instant::now();
    loop {
        match file.try_lock() {
            Ok(()) => break,
            Err(TryLockError::WouldBlock) if began.elapsed() < PATIENCE => {
                std::thread::sleep(Duration::from_millis(10));
            }
            Err(TryLockError::WouldBlock) => {
                return Ok(Access::ReadOnly(Reason::Held(holder(&mut file))));
            }
            Err(TryLockError::Error(error)) => {
                return Ok(Access::ReadOnly(Reason::Refused(in_words(&error))));
            }
        }
    }
    // OK to fail, as on a full disk: the lock holds without it, and the other program then says
    // 'another program'.
    let _ = write_holder(&mut file, since);
    Ok(Access::Write(WriteLock { file }))
}

impl Drop for WriteLock {
    fn drop(&mut self) {
        // Nobody has it now. OK to fail: the name is only read while somebody holds the lock.
        let _ = self.file.set_len(0);
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::Asked => f.write_str("the folder was opened to read only"),
            Reason::Held(who) => write!(f, "{who} has the folder open"),
            Reason::Refused(why) => write!(f, "the folder cannot be written to, {why}"),
        }
    }
}

fn write_holder(file: &mut File, since: &str) -> io::Result<()> {
    let host = fs::read_to_string("/proc/sys/kernel/hostname").unwrap_or_default();
    let on = match host.trim() {
        "" => String::new(),
        host => format!(" on {host}"),
    };
    file.set_len(0)?;
    file.rewind()?;
    // In one write, so that nobody reads half of it.
    let line = format!("process {}{on}, since {since},\n", std::process::id());
    file.write_all(line.as_bytes())
}

/// Who wrote itself into the lock file, free of anything that could move a terminal's cursor.
fn holder(file: &mut File) -> String {
    let mut line = Vec::new();
    let read = file
        .rewind()
        .and_then(|()| file.take(LONGEST_NAME).read_to_end(&mut line));
    let line: String = String::from_utf8_lossy(&line)
        .chars()
        .filter(|c| !c.is_control())
        .collect();
    match read {
        Ok(_) if !line.trim().is_empty() => line.trim().to_string(),
        _ => "another program".to_string(),
    }
}
