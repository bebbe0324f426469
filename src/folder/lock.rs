//! One writer at a time: by a lock of the kernel's, and on a disk without locks by a file that says
//! who writes.

mod held;
mod holder;
mod kernel;
mod reason;

use std::fs::File;
use std::io;
use std::path::Path;
use std::time::{Duration, Instant};

use held::HeldFile;
use kernel::{KernelLock, TryLock};
use reason::Attempt;
pub use reason::Reason;

/// What this program may do with a folder.
#[derive(Debug)]
pub enum Access {
    /// Read and save. Other programs open the folder to read only until this is dropped.
    Write(WriteLock),
    /// Read only, and why.
    ReadOnly(Reason),
}

/// The right to save in one folder, held until it is dropped or the program ends.
#[derive(Debug)]
pub struct WriteLock {
    _held: Held,
}

#[derive(Debug)]
enum Held {
    ByKernel { _lock: KernelLock },
    ByFile { _file: HeldFile },
}

/// How long to wait for another program that has the folder.
pub enum Wait<'a> {
    /// As long as a person takes for at once: a quick command of another program may just be ending.
    AMoment,
    /// Some seconds, and longer while others come and go; after half a second who it is waited for
    /// is told, as a clause.
    Patiently(&'a mut dyn FnMut(&str)),
}

const A_MOMENT: Duration = Duration::from_millis(200);
/// How long one program is waited for: a screen that is open will not end in that time, any command
/// but a long import does.
const FOR_ONE: Duration = Duration::from_secs(5);
/// How long in all, one after another having the folder: 1,000 notes at once.
const IN_ALL: Duration = Duration::from_secs(60);
/// A person who waits longer wants to know for what.
const TOLD_AFTER: Duration = Duration::from_millis(500);
/// The longest pause between two attempts, microseconds.
const PAUSE: u64 = 20_000;

/// Tries to become the writer of `dir`. `since` is the time now as other programs should show it.
///
/// # Errors
/// If there is no such folder.
pub(super) fn acquire(dir: &Path, since: &str, wait: Wait<'_>) -> io::Result<Access> {
    acquire_by(File::try_lock, dir, since, wait)
}

fn acquire_by(try_lock: TryLock, dir: &Path, since: &str, wait: Wait<'_>) -> io::Result<Access> {
    let mut queue = Queue::new(wait);
    loop {
        match attempt(try_lock, dir, since)? {
            Attempt::Taken(held) => return Ok(Access::Write(WriteLock { _held: held })),
            Attempt::Not(reason) if queue.goes_on(&reason) => {}
            Attempt::Not(reason) => return Ok(Access::ReadOnly(reason)),
        }
    }
}

/// Asks once, in the way that the disk knows.
fn attempt(try_lock: TryLock, dir: &Path, since: &str) -> io::Result<Attempt<Held>> {
    Ok(match kernel::attempt(try_lock, dir, since)? {
        Some(Attempt::Not(reason)) => Attempt::Not(reason),
        // Another machine may see this folder through a way that knows no locks.
        Some(Attempt::Taken(lock)) => match held::by_another(dir) {
            Some(reason) => Attempt::Not(reason),
            None => Attempt::Taken(Held::ByKernel { _lock: lock }),
        },
        None => match held::attempt(dir, since) {
            Attempt::Taken(file) => Attempt::Taken(Held::ByFile { _file: file }),
            Attempt::Not(reason) => Attempt::Not(reason),
        },
    })
}

/// One who waits.
struct Queue<'a> {
    wait: Wait<'a>,
    began: Instant,
    /// Who has the folder now, and since when this was seen.
    now: Option<(Reason, Instant)>,
    told: bool,
}

impl Queue<'_> {
    fn new(wait: Wait<'_>) -> Queue<'_> {
        Queue {
            wait,
            began: Instant::now(),
            now: None,
            told: false,
        }
    }

    /// Waits a little, and answers whether another attempt is worth it.
    fn goes_on(&mut self, reason: &Reason) -> bool {
        if !matches!(reason, Reason::Held(_) | Reason::HeldByFile(_)) {
            return false;
        }
        let waited = self.began.elapsed();
        let of_this = match &self.now {
            Some((who, since)) if who == reason => since.elapsed(),
            _ => {
                self.now = Some((reason.clone(), Instant::now()));
                Duration::ZERO
            }
        };
        match &mut self.wait {
            Wait::AMoment if waited >= A_MOMENT => return false,
            Wait::Patiently(_) if of_this >= FOR_ONE || waited >= IN_ALL => return false,
            Wait::Patiently(tell) if waited >= TOLD_AFTER && !self.told => {
                self.told = true;
                tell(&format!("waiting: {reason}"));
            }
            _ => {}
        }
        // Who has waited longer asks more often, so that those who come later do not go first; and
        // no two ask in step.
        let most = PAUSE / (1 + waited.as_secs());
        std::thread::sleep(Duration::from_micros(fastrand::u64(most / 2..=most)));
        true
    }
}

#[cfg(test)]
mod tests;
