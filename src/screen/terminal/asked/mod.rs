//! What the system asks of the screen beside keys: to end, so that another program or a terminal that is
//! closed does not leave it half done.
//!
//! Both sides have one type, `Asked`, and the same functions:
//!
//! - `Asked::new()` listens from now on;
//! - `signal()` is the number of the signal that asked to end, once one did, or that of a terminal that
//!   went away without a word;
//! - `end_of_blocking()`, once keys come one by one, keeps a read from waiting for the rest of a key.

#[cfg(unix)]
mod unix;
#[cfg(windows)]
mod windows;

#[cfg(unix)]
pub(super) use unix::Asked;
#[cfg(windows)]
pub(super) use windows::Asked;
