//! Signals, by handlers that only note their number.

use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use rustix::stdio::stdin;
use rustix::termios::{OptionalActions, SpecialCodeIndex, tcgetattr, tcsetattr};
use signal_hook::consts::{SIGHUP, SIGINT, SIGQUIT, SIGTERM};
use signal_hook::flag;

/// The signals that ask a program to end. `Ctrl-C` and `Ctrl-\` are keys while the screen is open: an
/// interrupt comes from outside.
const TO_END: [i32; 4] = [SIGHUP, SIGINT, SIGQUIT, SIGTERM];

/// Whether the system asked the program to end, and how.
pub(in crate::screen::terminal) struct Asked {
    /// The signal's number, 0 for none.
    signal: Arc<AtomicUsize>,
}

impl Asked {
    /// Listens from now on. A second signal ends the program at once, as the system has it: whoever
    /// sends it found that the first did nothing.
    ///
    /// # Errors
    /// Where the system lets nobody listen.
    pub(in crate::screen::terminal) fn new() -> io::Result<Asked> {
        let signal = Arc::new(AtomicUsize::new(0));
        let again = Arc::new(AtomicBool::new(false));
        for number in TO_END {
            flag::register_conditional_default(number, Arc::clone(&again))?;
            flag::register(number, Arc::clone(&again))?;
            let told = usize::try_from(number).unwrap_or_default();
            flag::register_usize(number, Arc::clone(&signal), told)?;
        }
        Ok(Asked { signal })
    }

    /// The number of the signal that asked to end. A terminal that is gone is one that hung up.
    pub(in crate::screen::terminal) fn signal(&self) -> Option<u8> {
        let number = match self.signal.load(Ordering::Relaxed) {
            0 if tcgetattr(stdin()).is_ok() => return None,
            0 => usize::try_from(SIGHUP).ok()?,
            number => number,
        };
        u8::try_from(number).ok()
    }

    /// A read gives at once what is there. The library reads until it has a whole key, and would wait
    /// for the rest of half a one, deaf to everything else.
    ///
    /// # Errors
    /// Where the terminal is gone.
    pub(in crate::screen::terminal) fn end_of_blocking(&self) -> io::Result<()> {
        let mut modes = tcgetattr(stdin())?;
        modes.special_codes[SpecialCodeIndex::VMIN] = 0;
        modes.special_codes[SpecialCodeIndex::VTIME] = 0;
        tcsetattr(stdin(), OptionalActions::Now, &modes)?;
        Ok(())
    }
}
