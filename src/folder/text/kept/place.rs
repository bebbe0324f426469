//! Where the values between two brackets stand: their commas, their lines, and which comments are
//! whose.
//!
//! A comment behind a value on its line is that value's, and so is one before it on its line. A
//! comment on lines of its own directly above a value stands over all values beneath it, up to the
//! next blank line, the next such comment or the end. It is taken to be of one value alone, and goes
//! with it, where it stands over no other; but one at the head of a list that nothing sets off is the
//! list's, and stays.

use std::ops::Range;

use crate::problem::{Held, Scan, Token, block_comment};

/// A value with its name, by its bytes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    pub(super) start: usize,
    pub(super) end: usize,
}

/// The values between two brackets of a text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row<'a> {
    pub(super) text: &'a str,
    /// Where the inside of the brackets begins and ends.
    pub(super) begin: usize,
    pub(super) end: usize,
    pub(super) spans: &'a [Span],
}

/// What else is on a value's line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Next {
    /// The line ends.
    Line,
    /// The bracket closes.
    Close,
    /// Another value.
    Value,
}

/// What stands between two values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bit {
    /// A line ends here.
    Line(usize),
    /// A comment.
    Comment,
}

impl From<&Held> for Span {
    fn from(held: &Held) -> Span {
        Span {
            start: held.start,
            end: held.end,
        }
    }
}

impl<'a> Row<'a> {
    /// The comma behind a value, where it has one.
    pub(super) fn comma(&self, at: usize) -> Option<usize> {
        let mut behind = Scan::from(self.text, self.spans[at].end);
        match behind.next() {
            Some((Token::Comma, range)) => Some(range.start),
            _ => None,
        }
    }

    /// Where a value ends with its comma.
    fn behind(&self, at: usize) -> usize {
        self.comma(at).map_or(self.spans[at].end, |comma| comma + 1)
    }

    /// Where another value would follow on the line: behind what else is of this one there, if no line
    /// ends in that.
    pub(super) fn next(&self, at: usize) -> usize {
        let (behind, tail) = (self.behind(at), self.tail(at).0);
        match self.text[behind..tail].contains("//") {
            true => behind,
            false => tail,
        }
    }

    /// Where a value ends with its comma and the comment behind it on its line, and what comes then.
    pub(super) fn tail(&self, at: usize) -> (usize, Next) {
        let behind = self.behind(at);
        let mut end = behind;
        loop {
            let rest = &self.text[end..self.end];
            let blanks = rest.len() - rest.trim_start_matches([' ', '\t']).len();
            let next = &rest[blanks..];
            match next.as_bytes() {
                [] => return (end, Next::Close),
                [b'\n', ..] | [b'\r', b'\n', ..] => return (end, Next::Line),
                [b'/', b'/' | b'*', ..] => end += blanks + comment(next),
                _ => return (behind, Next::Value),
            }
        }
    }

    /// What stands before a value and is no other's.
    fn lead(&self, at: usize) -> Range<usize> {
        let before = at.checked_sub(1);
        before.map_or(self.begin, |before| self.tail(before).0)..self.spans[at].start
    }

    /// The end of the line before that of a value, where it is the first on its line.
    pub(super) fn line_before(&self, at: usize) -> Option<usize> {
        let bits = bits(self.text, self.lead(at));
        bits.iter().rev().find_map(Bit::line)
    }

    /// Where a value begins with the comments before it on its line.
    fn beginning(&self, at: usize) -> usize {
        let from = self.line_before(at).unwrap_or(self.lead(at).start);
        let line = &self.text[from..];
        from + (line.len() - line.trim_start().len())
    }

    /// The blanks that its line begins with; `None` where it is not the first on its line.
    pub(super) fn indent(&self, at: usize) -> Option<&'a str> {
        let line = &self.text[self.line_before(at)?..self.beginning(at)];
        Some(line.trim_start_matches(['\r', '\n']))
    }

    /// The end of the line above the comment that stands directly above a value, which is the first
    /// on its line; `None` where there is no such comment.
    fn above(&self, at: usize) -> Option<usize> {
        let bits = bits(self.text, self.lead(at));
        let own = bits.iter().rposition(|bit| bit.line().is_some())?;
        let (mut found, mut until) = (None, own);
        // Lines of comments alone, from the lowest up.
        while let Some(line) = bits[..until].iter().rposition(|bit| bit.line().is_some()) {
            if line + 1 == until {
                break;
            }
            (found, until) = (bits[line].line(), line);
        }
        found
    }

    /// Whether what stands over a value stands over no other that is left.
    fn is_alone(&self, at: usize, goes: &dyn Fn(usize) -> bool) -> bool {
        for next in at + 1..self.spans.len() {
            let bits = bits(self.text, self.lead(next));
            if bits.len() != 1 {
                // A blank line or a comment; where there is none, both are on one line.
                return bits.iter().filter(|bit| bit.line().is_some()).count() > 0;
            }
            if !goes(next) {
                return false;
            }
        }
        at > 0 && !(0..at).all(goes)
    }

    /// What goes with a value: `goes` says of each whether it does.
    pub(super) fn all_of(&self, at: usize, goes: &dyn Fn(usize) -> bool) -> Range<usize> {
        let (tail, next) = self.tail(at);
        let blanks = || {
            let rest = &self.text[tail..self.end];
            tail + (rest.len() - rest.trim_start_matches([' ', '\t']).len())
        };
        match (self.line_before(at), next) {
            (Some(line), Next::Line) => {
                let above = self.above(at).filter(|_| self.is_alone(at, goes));
                above.unwrap_or(line)..tail
            }
            (Some(_), Next::Close) => self.beginning(at)..tail,
            (Some(_), Next::Value) => self.beginning(at)..blanks(),
            (None, Next::Value) if at == 0 => self.beginning(at)..blanks(),
            (None, _) => self.lead(at).start..tail,
        }
    }

    /// Where a value is put in before all others: behind what stands on the bracket's line.
    pub(super) fn head(&self) -> usize {
        if self.spans.is_empty() {
            return self.end;
        }
        let bits = bits(self.text, self.lead(0));
        let first = bits.iter().find_map(Bit::line);
        first.unwrap_or_else(|| self.beginning(0))
    }

    /// The end of the last line within brackets that hold nothing; `None` where they close on the line
    /// that they open on.
    pub(super) fn last_line(&self) -> Option<usize> {
        let bits = bits(self.text, self.begin..self.end);
        bits.iter().rev().find_map(Bit::line)
    }
}

impl Bit {
    fn line(&self) -> Option<usize> {
        match self {
            Bit::Line(at) => Some(*at),
            Bit::Comment => None,
        }
    }
}

/// The lines that end and the comments of a part of a text that has nothing else; a line that ends in a
/// comment ends behind it.
fn bits(text: &str, part: Range<usize>) -> Vec<Bit> {
    let mut bits = Vec::new();
    let mut at = part.start;
    while let Some(rest) = text.get(at..part.end).filter(|rest| !rest.is_empty()) {
        at += match rest.as_bytes() {
            [b'\r', b'\n', ..] => {
                bits.push(Bit::Line(at));
                2
            }
            [b'\n', ..] => {
                bits.push(Bit::Line(at));
                1
            }
            [b'/', b'/' | b'*', ..] => {
                bits.push(Bit::Comment);
                comment(rest)
            }
            _ => rest.chars().next().map_or(1, char::len_utf8),
        };
    }
    bits
}

/// The length of the comment that a text begins with, without the end of its line.
fn comment(text: &str) -> usize {
    if text.starts_with("/*") {
        return block_comment(text);
    }
    let line = text.find('\n').map_or(text, |end| &text[..end]);
    line.strip_suffix('\r').unwrap_or(line).len()
}
