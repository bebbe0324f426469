//! A text of RON cut into words, texts and marks, with blanks and comments passed over.

use std::ops::Range;

/// What stands at one place of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Token {
    /// `(`, `[` or `{`.
    Open,
    /// `)`, `]` or `}`.
    Close,
    /// `:`.
    Colon,
    /// `,`.
    Comma,
    /// A word, a number, a text in quotes, or any other mark.
    Word,
}

/// Reads a text from its start; of any text, RON or not, it comes to the end.
#[derive(Debug, Clone)]
pub(crate) struct Scan<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scan<'a> {
    pub(crate) fn new(text: &'a str) -> Scan<'a> {
        Scan { text, at: 0 }
    }

    /// Reads on from a place that is in no comment and no text.
    pub(crate) fn from(text: &'a str, at: usize) -> Scan<'a> {
        Scan { text, at }
    }

    /// What comes next, without taking it.
    pub(crate) fn peek(&self) -> Option<Token> {
        self.clone().next().map(|(token, _)| token)
    }

    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    /// Goes on behind blanks and comments, to where it then is.
    pub(crate) fn pass_over_blanks(&mut self) -> usize {
        loop {
            let rest = self.rest();
            let code = rest.trim_start();
            self.at += rest.len() - code.len();
            self.at += match code.as_bytes() {
                [b'/', b'/', ..] => code.find('\n').unwrap_or(code.len()),
                [b'/', b'*', ..] => block_comment(code),
                _ => return self.at,
            };
        }
    }
}

impl Iterator for Scan<'_> {
    type Item = (Token, Range<usize>);

    fn next(&mut self) -> Option<(Token, Range<usize>)> {
        self.pass_over_blanks();
        let (start, rest) = (self.at, self.rest());
        let first = rest.chars().next()?;
        let (token, length) = match first {
            '(' | '[' | '{' => (Token::Open, 1),
            ')' | ']' | '}' => (Token::Close, 1),
            ':' => (Token::Colon, 1),
            ',' => (Token::Comma, 1),
            _ => (Token::Word, word(rest)),
        };
        self.at = (start + length).min(self.text.len());
        Some((token, start..self.at))
    }
}

/// The length of a comment from `/*` to its end; such comments lie within each other.
pub(crate) fn block_comment(code: &str) -> usize {
    let (mut depth, mut at) = (0_usize, 0);
    let bytes = code.as_bytes();
    while at < bytes.len() {
        match &bytes[at..] {
            [b'/', b'*', ..] => (depth, at) = (depth + 1, at + 2),
            [b'*', b'/', ..] => (depth, at) = (depth - 1, at + 2),
            _ => at += 1,
        }
        if depth == 0 {
            return at;
        }
    }
    code.len()
}

/// The length of the word, number, text or mark that `rest` begins with. `rest` is not empty.
fn word(rest: &str) -> usize {
    let bytes_off = rest.strip_prefix('b').unwrap_or(rest);
    let before = rest.len() - bytes_off.len();
    if bytes_off.starts_with(['"', '\'']) {
        return before + quoted(bytes_off);
    }
    if let Some(raw) = bytes_off.strip_prefix('r') {
        let hashes = raw.len() - raw.trim_start_matches('#').len();
        if let Some(inside) = raw[hashes..].strip_prefix('"') {
            let end = format!("\"{}", "#".repeat(hashes));
            let length = inside.find(&end).map_or(inside.len(), |at| at + end.len());
            return rest.len() - inside.len() + length;
        }
    }
    let ends = |c: char| c.is_whitespace() || "()[]{}:,\"'/".contains(c);
    let first = rest.chars().next().map_or(1, char::len_utf8);
    rest[first..]
        .find(ends)
        .map_or(rest.len(), |length| first + length)
}

/// The length of a text or a character in the quotes that it begins with.
fn quoted(text: &str) -> usize {
    let mut characters = text.char_indices();
    let quote = characters.next().map(|(_, quote)| quote);
    while let Some((at, c)) = characters.next() {
        match c {
            '\\' => drop(characters.next()),
            // The quote of `'''` is within it.
            _ if Some(c) == quote && !(quote == Some('\'') && at == 1) => return at + 1,
            _ => {}
        }
    }
    text.len()
}
