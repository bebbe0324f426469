//! The answers of a terminal among the bytes that came: each begins with an escape and ends as its kind
//! does (ECMA-48, 5.4 and 5.6). All that is no answer was typed.

use crate::colour::Srgb;

const ESCAPE: u8 = 0x1b;
const BELL: u8 = 0x07;
/// No answer is longer; what is was never one.
const LONGEST: usize = 4096;

/// What a terminal answered so far.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Replies {
    /// It looked at a picture in kitty's form, and took it.
    pub(super) takes_kitty: bool,
    /// A cell's pixels: across, down.
    pub(super) cell: Option<(u16, u16)>,
    /// The colour of its ground.
    pub(super) ground: Option<Srgb>,
    /// Its name, with its version as it writes it.
    pub(super) name: Option<String>,
    /// What it says that it can do, by numbers: the answer that every terminal gives.
    attributes: Option<Vec<u16>>,
    typed: Vec<u8>,
    /// What began with an escape and is not ended.
    begun: Vec<u8>,
}

/// What a sequence is that is not ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Begun {
    /// Its escape alone.
    Escape,
    /// One that ends with a letter.
    Control,
    /// One that ends with a string's end.
    Text,
}

impl Replies {
    /// Takes in what came.
    pub(super) fn take(&mut self, bytes: &[u8]) {
        for byte in bytes {
            match self.begun.is_empty() && *byte != ESCAPE {
                true => self.typed.push(*byte),
                false => self.go_on(*byte),
            }
        }
    }

    /// Whether the answer came that ends them.
    pub(super) fn is_ended(&self) -> bool {
        self.attributes.is_some()
    }

    /// Whether it says that it shows sixels: attribute 4.
    pub(super) fn takes_sixels(&self) -> bool {
        self.attributes.as_ref().is_some_and(|all| all.contains(&4))
    }

    /// What was typed.
    pub(super) fn typed(&self) -> &[u8] {
        &self.typed
    }

    /// What is not ended.
    pub(super) fn begun(&self) -> Option<Begun> {
        match self.begun.as_slice() {
            [] => None,
            [_] => Some(Begun::Escape),
            [_, b'[', ..] => Some(Begun::Control),
            _ => Some(Begun::Text),
        }
    }

    fn go_on(&mut self, byte: u8) {
        self.begun.push(byte);
        let ended = match self.begun.as_slice() {
            [_] => false,
            [_, b'[' | b']' | b'P' | b'_'] => false,
            [_, b'[', .., last] => matches!(last, 0x40..=0x7e),
            [_, b']', .., BELL] => true,
            [_, b']' | b'P' | b'_', .., ESCAPE, b'\\'] => true,
            [_, b']' | b'P' | b'_', ..] => self.begun.len() > LONGEST,
            _ => true,
        };
        if ended {
            let sequence = std::mem::take(&mut self.begun);
            if !self.answer(&sequence) {
                self.typed.extend(sequence);
            }
        }
    }

    /// Takes an answer in; `false` where it is none.
    fn answer(&mut self, sequence: &[u8]) -> bool {
        let Ok(text) = std::str::from_utf8(sequence) else {
            return false;
        };
        let body = text.trim_end_matches(['\x07']).trim_end_matches("\x1b\\");
        if let Some(told) = body.strip_prefix("\x1b_G") {
            self.takes_kitty = told.ends_with(";OK");
        } else if let Some(colour) = body.strip_prefix("\x1b]11;") {
            self.ground = ground(colour);
        } else if let Some(name) = body.strip_prefix("\x1bP>|") {
            self.name = Some(name.to_string());
        } else if let Some(size) = between(body, "\x1b[6;", 't') {
            let size = numbers(size);
            self.cell = match size.as_slice() {
                [high, wide] => Some((*wide, *high)),
                _ => None,
            };
        } else if let Some(all) = between(body, "\x1b[?", 'c') {
            self.attributes = Some(numbers(all));
        } else {
            // Another string's end is an answer to a question that somebody else asked.
            return matches!(sequence.get(1), Some(b']' | b'P' | b'_'));
        }
        true
    }
}

fn between<'a>(text: &'a str, first: &str, last: char) -> Option<&'a str> {
    text.strip_prefix(first)?.strip_suffix(last)
}

fn numbers(text: &str) -> Vec<u16> {
    text.split(';').filter_map(|one| one.parse().ok()).collect()
}

/// A colour as X writes it: `rgb:` and one to four hexadecimal digits a channel (XParseColor).
fn ground(text: &str) -> Option<Srgb> {
    let channels = text.strip_prefix("rgb:").or(text.strip_prefix("rgba:"))?;
    let channel = |digits: &str| {
        let most = match digits.len() {
            len @ 1..=4 => 16_u32.pow(u32::try_from(len).ok()?) - 1,
            _ => return None,
        };
        let value = u32::from_str_radix(digits, 16).ok()?;
        u8::try_from((value * 255 + most / 2) / most).ok()
    };
    let mut all = channels.split('/').map(channel);
    Some(Srgb {
        r: all.next()??,
        g: all.next()??,
        b: all.next()??,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// What kitty answers, byte by byte.
    const KITTY: &str = "\x1b_Gi=31;OK\x1b\\\x1b[6;20;10t\x1b]11;rgb:1e1e/2020/2121\x1b\\\x1bP>|kitty(0.42.1)\x1b\\\x1b[?62;52;c";

    #[test]
    fn all_answers_are_taken_out_and_what_was_typed_among_them_stays() {
        let mut replies = Replies::default();
        for byte in KITTY.replace("\x1b[6", "dq\x1b[A\x1b[6").bytes() {
            assert!(!replies.is_ended());
            replies.take(&[byte]);
        }
        assert!(replies.is_ended() && replies.takes_kitty && !replies.takes_sixels());
        assert_eq!(replies.cell, Some((10, 20)));
        assert_eq!(replies.ground, "#1e2021".parse().ok());
        assert_eq!(replies.name.as_deref(), Some("kitty(0.42.1)"));
        assert_eq!(replies.typed(), b"dq\x1b[A");
        assert_eq!(replies.begun(), None);
    }

    #[test]
    fn a_terminal_that_shows_sixels_says_so_and_a_refusal_is_none() {
        let mut replies = Replies::default();
        replies.take(b"\x1b_Gi=31;ENOTSUPPORTED:no\x1b\\\x1b]11;rgb:f/8/0\x07\x1b[?62;4;22c");
        assert!(replies.takes_sixels() && !replies.takes_kitty);
        assert_eq!(replies.ground, "#ff8800".parse().ok());
        let mut half = Replies::default();
        half.take(b"\x1b]11;rgb:ffff/");
        assert_eq!((half.begun(), half.is_ended()), (Some(Begun::Text), false));
    }

    proptest! {
        #[test]
        fn any_bytes_are_taken(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
            let mut whole = Replies::default();
            whole.take(&bytes);
            let mut parts = Replies::default();
            bytes.iter().for_each(|byte| parts.take(&[*byte]));
            prop_assert_eq!(whole, parts);
        }
    }
}
