//! What reaches the screen from outside beside keys.

use std::io;

use super::asked::Asked;
use super::inquiry::Late;
use super::painter::Painter;

/// The system, the terminal's late answers, and pictures that were made.
pub(super) struct Outside {
    /// Whether the system asks to end.
    pub(super) asked: Asked,
    /// What the terminal may still answer.
    pub(super) late: Late,
    /// Who makes pictures.
    pub(super) painter: Painter,
}

impl Outside {
    /// Listens from now on.
    ///
    /// # Errors
    /// Where the system lets nobody listen.
    pub(super) fn new() -> io::Result<Outside> {
        Ok(Outside {
            asked: Asked::new()?,
            late: Late::nothing(),
            painter: Painter::new(),
        })
    }
}
