//! The terminal is asked once what it can show, when the screen opens: whether it shows pixels and in
//! what form, how large a cell is, the colour of its ground, and its name. All is asked at once. The
//! last question is one that every terminal answers, so that its answer ends the wait.
//!
//! From the ground up: `replies` takes the answers out of what came, `judged` says what follows from
//! them, `unix` and `windows` ask, and `late` keeps an answer that comes after the wait from being taken
//! as keys. `ahead` is for what was typed while the answers were waited for.

pub(super) mod ahead;
mod judged;
mod late;
mod replies;
#[cfg(unix)]
mod unix;
#[cfg(windows)]
mod windows;

use std::io;
use std::time::Duration;

use ratatui::crossterm::terminal::window_size;

pub(super) use late::Late;
use replies::Replies;
#[cfg(unix)]
use unix::exchanged;
#[cfg(windows)]
use windows::exchanged;

use crate::screen::abilities::{Abilities, Pixels};

/// So long the answers are waited for. A terminal on this machine has answered in a few milliseconds,
/// one on a line to the other side of the earth in about as long as this; whoever waits longer for a
/// first page begins to wonder. An answer that comes later is taken in and not used.
const LIMIT: Duration = Duration::from_millis(200);

/// A picture of one pixel, to be looked at and not shown; a cell's size; the ground; the name; and what
/// kind of terminal it is, which all of them answer.
const QUESTIONS: &str =
    "\x1b_Gi=31,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\\x1b[16t\x1b]11;?\x1b\\\x1b[>0q\x1b[c";

/// What came of asking.
pub(super) struct Inquiry {
    /// What the terminal can show.
    pub(super) abilities: Abilities,
    /// What of it is yet to come.
    pub(super) late: Late,
    /// What was typed meanwhile, byte by byte.
    pub(super) typed: Vec<u8>,
}

/// Asks the terminal, which must give keys one by one already.
///
/// # Errors
/// Where the terminal is gone.
pub(super) fn asked() -> io::Result<Inquiry> {
    let mut replies = Replies::default();
    exchanged(QUESTIONS, LIMIT, &mut |bytes| {
        replies.take(bytes);
        replies.is_ended()
    })?;
    Ok(Inquiry {
        abilities: judged::abilities(&replies, cell()),
        late: Late::after(&replies),
        typed: replies.typed().to_vec(),
    })
}

/// The pixels of a cell as the system knows them, where it does.
fn cell() -> Option<(u16, u16)> {
    let window = window_size().ok()?;
    let part = |pixels: u16, cells: u16| pixels.checked_div(cells).filter(|part| *part > 0);
    Some((
        part(window.width, window.columns)?,
        part(window.height, window.rows)?,
    ))
}

/// The same in a window that has another size now: where its letters grew, so did its cells.
pub(super) fn resized(before: Abilities) -> Abilities {
    let pixels = before.pixels.map(|pixels| Pixels {
        cell: cell()
            .filter(|cell| judged::is_usual(*cell))
            .unwrap_or(pixels.cell),
        ..pixels
    });
    Abilities { pixels, ..before }
}
