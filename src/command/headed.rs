//! What stands over an answer, and only over one: an error has no head.

use std::io::{self, Write};

/// A writer that puts a text before the first thing that is written.
pub(super) struct Headed<'a> {
    out: &'a mut dyn Write,
    /// Empty where it is written, or where there is none.
    head: &'a str,
}

impl<'a> Headed<'a> {
    pub(super) fn new(out: &'a mut dyn Write, head: &'a str) -> Headed<'a> {
        Headed { out, head }
    }
}

impl Write for Headed<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if !bytes.is_empty() {
            self.out
                .write_all(std::mem::take(&mut self.head).as_bytes())?;
        }
        self.out.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}
