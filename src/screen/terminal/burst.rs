//! All that waits is taken in before the screen is drawn: keys typed faster than it draws, a paste, a
//! window that is being pulled larger.

use std::io;
use std::time::{Duration, Instant};

use ratatui::crossterm::event::{self, Event, KeyEventKind};

use super::inquiry::{self, ahead};
use super::outside::Outside;
use crate::screen::kit::line::Edit;
use crate::screen::{App, Message};

/// How long to ask for the next event of those that wait. The library looks only where it is given
/// time; it takes none where something is there.
const BRIEFLY: Duration = Duration::from_micros(200);

/// So often the system is asked whether the program is to end, while nothing happens.
const QUIET: Duration = Duration::from_millis(200);

/// So many bytes are written on a line at once.
const AT_ONCE: usize = 1000;

/// After so long the screen is drawn though more waits: whoever pastes a book sees that it goes on.
const LONGEST: Duration = Duration::from_millis(100);

/// What came of a look at the keys.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Came {
    /// Nothing.
    Nothing,
    /// Something, which was done.
    Something,
    /// It is to end: the grower quits.
    Quit,
    /// It is to end: the system asked by this signal.
    Signal(u8),
}

/// Waits until something happens and does it, with all that waits behind it.
pub(super) fn wait(
    app: &mut App,
    outside: &mut Outside,
    does: &mut dyn FnMut(&mut App, Message) -> bool,
) -> io::Result<Came> {
    loop {
        if let Some(signal) = outside.asked.signal() {
            return Ok(Came::Signal(signal));
        }
        if event::poll(outside.painter.patience(QUIET))? {
            return take(app, outside, does);
        }
        if outside.painter.look(app)? {
            return Ok(Came::Something);
        }
    }
}

/// Does all that waits, and does not wait itself. `does` is given each message, and answers whether
/// the screen goes on.
pub(super) fn take(
    app: &mut App,
    outside: &mut Outside,
    does: &mut dyn FnMut(&mut App, Message) -> bool,
) -> io::Result<Came> {
    let began = Instant::now();
    let mut came = Came::Nothing;
    let mut written = String::new();
    loop {
        let comes = began.elapsed() < LONGEST && event::poll(outside.late.patience(BRIEFLY))?;
        let events = match comes {
            true => outside.late.typed(event::read()?),
            false => outside.late.let_go(),
        };
        if let Some(signal) = outside.asked.signal() {
            came = Came::Signal(signal);
            break;
        }
        if comes || !events.is_empty() {
            came = Came::Something;
        }
        for event in events {
            if !happens(app, event, &mut written, does) {
                return Ok(Came::Quit);
            }
        }
        if !comes {
            break;
        }
    }
    match write(app, &mut written, does) {
        true => Ok(came),
        false => Ok(Came::Quit),
    }
}

/// Does what was typed before anything was shown; answers whether the screen goes on.
pub(super) fn typed_before(
    app: &mut App,
    typed: &[u8],
    does: &mut dyn FnMut(&mut App, Message) -> bool,
) -> bool {
    let mut written = String::new();
    let mut events = ahead::events(typed).into_iter();
    events.all(|event| happens(app, event, &mut written, does)) && write(app, &mut written, does)
}

/// Does what an event means. Characters of one line are written together: none of them ends the line, so
/// that what the next key means is known before they are written.
fn happens(
    app: &mut App,
    event: Event,
    written: &mut String,
    does: &mut dyn FnMut(&mut App, Message) -> bool,
) -> bool {
    if matches!(event, Event::Resize(..)) && app.abilities().pixels.is_some() {
        app.update(Message::Sees(inquiry::resized(app.abilities())));
    }
    match message(app, event) {
        None => true,
        Some(Message::Edit(Edit::Write(text))) if written.len() < AT_ONCE => {
            written.push_str(&text);
            true
        }
        Some(message) => write(app, written, does) && does(app, message),
    }
}

/// Writes what was typed so far.
fn write(
    app: &mut App,
    written: &mut String,
    does: &mut dyn FnMut(&mut App, Message) -> bool,
) -> bool {
    let text = std::mem::take(written);
    text.is_empty() || does(app, Message::Edit(Edit::Write(text)))
}

/// What an event means as things stand.
fn message(app: &App, event: Event) -> Option<Message> {
    match event {
        Event::Key(key) if key.kind != KeyEventKind::Release => app.message(key),
        Event::Paste(text) => Some(Message::Pasted(text)),
        Event::Resize(width, height) => Some(Message::Resize(width, height)),
        _ => None,
    }
}
