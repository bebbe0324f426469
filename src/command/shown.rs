//! The one door from commands to the terminal: what would steer it is shown, and never acts.
//!
//! Names in a file, cells of a sheet and arguments may hold characters that move the cursor, change
//! colours or turn the direction of writing. Each is written as its escape, `\u{1b}`, whether a terminal
//! or a pipe is at the other end, for what is piped is read in a terminal too. Ends of lines, tabs, and a
//! carriage return before the end of a line stay. Files that are written are not touched.

use std::io::{self, Write};

use serde_json::Value;

use crate::problem::steers;

/// Writes text on, with what would steer a terminal shown.
#[derive(Debug)]
pub struct Shown<W: Write> {
    inner: W,
    /// What was written last where more must come to tell what it is: the beginning of a character, or
    /// a carriage return.
    held: Vec<u8>,
}

impl<W: Write> Shown<W> {
    /// Writes to `inner`.
    pub fn new(inner: W) -> Shown<W> {
        Shown {
            inner,
            held: Vec::new(),
        }
    }

    /// Writes all that is whole, and gives back what may be completed by what comes next.
    fn write_whole<'a>(&mut self, bytes: &'a [u8]) -> io::Result<&'a [u8]> {
        let mut rest = bytes;
        while !rest.is_empty() {
            let (text, after) = match std::str::from_utf8(rest) {
                Ok(text) => (text, &rest[rest.len()..]),
                Err(error) => {
                    let (text, after) = rest.split_at(error.valid_up_to());
                    // OK because so far it is valid.
                    (std::str::from_utf8(text).unwrap_or_default(), after)
                }
            };
            if after.is_empty() && text.ends_with('\r') {
                self.write_text(&text[..text.len() - 1])?;
                return Ok(&rest[rest.len() - 1..]);
            }
            self.write_text(text)?;
            if after.len() < 4 && std::str::from_utf8(after).is_err_and(|e| e.error_len().is_none())
            {
                return Ok(after);
            }
            rest = after;
            if let [byte, after @ ..] = rest {
                write!(self.inner, "\\x{byte:02x}")?;
                rest = after;
            }
        }
        Ok(rest)
    }

    fn write_text(&mut self, text: &str) -> io::Result<()> {
        if is_plain(text.as_bytes()) {
            return self.inner.write_all(text.as_bytes());
        }
        let mut written = 0;
        for (at, c) in text.char_indices() {
            let ends_line = c == '\r' && text[at + 1..].starts_with('\n');
            if acts(c) && !ends_line {
                self.inner.write_all(&text.as_bytes()[written..at])?;
                write!(self.inner, "{}", c.escape_unicode())?;
                written = at + c.len_utf8();
            }
        }
        self.inner.write_all(&text.as_bytes()[written..])
    }
}

impl<W: Write> Write for Shown<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.held.is_empty() {
            let rest = self.write_whole(bytes)?;
            self.held.extend_from_slice(rest);
        } else {
            let mut all = std::mem::take(&mut self.held);
            all.extend_from_slice(bytes);
            let rest = self.write_whole(&all)?.to_vec();
            self.held = rest;
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        for byte in std::mem::take(&mut self.held) {
            write!(self.inner, "\\x{byte:02x}")?;
        }
        self.inner.flush()
    }
}

/// A text as [`Shown`] writes it.
pub fn shown(text: &str) -> String {
    let mut all = Shown::new(Vec::new());
    // OK because a vector takes every byte.
    let _ = all.write_all(text.as_bytes()).and_then(|()| all.flush());
    String::from_utf8_lossy(&all.inner).into_owned()
}

/// Writes one object for another program, on lines of its own.
pub(super) fn write_object(out: &mut dyn Write, object: &Value) -> io::Result<()> {
    writeln!(out, "{}", json_shown(&format!("{object:#}")))
}

/// JSON with what would steer a terminal as JSON's own escapes: the value is the same.
fn json_shown(json: &str) -> String {
    let mut all = String::with_capacity(json.len());
    for c in json.chars() {
        if acts(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                all += &format!("\\u{unit:04x}");
            }
        } else {
            all.push(c);
        }
    }
    all
}

/// Whether a character does something in a terminal beside standing there or ending a line.
fn acts(c: char) -> bool {
    steers(c) && !matches!(c, '\n' | '\t')
}

/// Whether it is plain ASCII, as nearly all is that is written.
fn is_plain(text: &[u8]) -> bool {
    text.iter()
        .all(|byte| matches!(byte, b' '..=b'~' | b'\n' | b'\t'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_would_steer_a_terminal_is_shown() {
        assert_eq!(
            shown("Haaf\u{1b}[31m \u{202e}thgiL\u{9b}2J é\tx\r\ny\rz\n"),
            "Haaf\\u{1b}[31m \\u{202e}thgiL\\u{9b}2J é\tx\r\ny\\u{d}z\n"
        );
        let mut bytes = Shown::new(Vec::new());
        bytes.write_all(b"a\xffb\xe2\x82").expect("writes");
        bytes.flush().expect("flushes");
        assert_eq!(bytes.inner, b"a\\xffb\\xe2\\x82");
    }

    #[test]
    fn json_keeps_its_values() {
        let value = serde_json::json!({"a\u{202e}b": "\u{1b}[2J\u{9b}\u{e0041}\u{7f} é"});
        let json = json_shown(&format!("{value:#}"));
        assert!(!json.chars().any(acts), "{json}");
        assert_eq!(
            serde_json::from_str::<serde_json::Value>(&json).expect("JSON"),
            value
        );
    }

    proptest! {
        /// However it is cut into writes, also in the midst of a character, the same comes out.
        #[test]
        fn cuts_change_nothing(text in "[\\x00-\\x20a\u{7f}-\u{a0}é€\u{202a}-\u{202e}😀\r\n]{0,40}", cuts in prop::collection::vec(0_usize..90, 0..6)) {
            let whole = shown(&text);
            prop_assert!(!whole.replace("\r\n", "\n").chars().any(acts), "{:?}", whole);
            let mut cuts: Vec<usize> = cuts.into_iter().map(|at| at.min(text.len())).collect();
            cuts.sort_unstable();
            cuts.push(text.len());
            let (mut all, mut from) = (Shown::new(Vec::new()), 0);
            for at in cuts {
                all.write_all(&text.as_bytes()[from..at]).expect("writes");
                from = at;
            }
            all.flush().expect("flushes");
            prop_assert_eq!(String::from_utf8(all.inner).expect("UTF-8"), whole);
        }
    }
}
