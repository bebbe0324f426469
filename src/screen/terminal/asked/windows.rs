//! There are no signals: `Ctrl-C` comes as a key while the screen is open, a program that is ended from
//! outside is not asked, and a console that is closed has nothing to be restored.

use std::io;

/// Nothing is ever asked.
pub(in crate::screen::terminal) struct Asked;

impl Asked {
    /// Nothing to listen to.
    ///
    /// # Errors
    /// None.
    pub(in crate::screen::terminal) fn new() -> io::Result<Asked> {
        Ok(Asked)
    }

    /// None.
    pub(in crate::screen::terminal) fn signal(&self) -> Option<u8> {
        None
    }

    /// Keys come as whole events already.
    ///
    /// # Errors
    /// None.
    pub(in crate::screen::terminal) fn end_of_blocking(&self) -> io::Result<()> {
        Ok(())
    }
}
