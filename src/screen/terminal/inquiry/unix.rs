//! Asking on the standard streams, with a wait that ends.

use std::io::{self, Write};
use std::time::{Duration, Instant};

use rustix::event::{PollFd, PollFlags, Timespec, poll};
use rustix::io::{Errno, read};
use rustix::stdio::stdin;

/// Writes the questions and hands over what comes, until `ends` says that it is all or the limit is over.
///
/// # Errors
/// Where the terminal is gone.
pub(super) fn exchanged(
    questions: &str,
    limit: Duration,
    ends: &mut dyn FnMut(&[u8]) -> bool,
) -> io::Result<()> {
    let until = Instant::now() + limit;
    let mut out = io::stdout();
    out.write_all(questions.as_bytes())?;
    out.flush()?;
    let mut bytes = [0; 1024];
    loop {
        let left = until.saturating_duration_since(Instant::now());
        let wait = Timespec::try_from(left).map_err(io::Error::other)?;
        let mut streams = [PollFd::from_borrowed_fd(stdin(), PollFlags::IN)];
        match poll(&mut streams, Some(&wait)) {
            Ok(0) => return Ok(()),
            Ok(_) => {}
            Err(Errno::INTR) => continue,
            Err(error) => return Err(error.into()),
        }
        match read(stdin(), &mut bytes) {
            // A terminal that went away is told by whoever reads the keys.
            Ok(0) => return Ok(()),
            Ok(count) if ends(&bytes[..count]) => return Ok(()),
            Ok(_) | Err(Errno::INTR | Errno::AGAIN) => {}
            Err(error) => return Err(error.into()),
        }
    }
}
