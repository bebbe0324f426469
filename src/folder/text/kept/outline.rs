//! Where the records of a long list stand, without reading them.

use super::place::Span;
use crate::problem::{Scan, Token};

/// So many of the next new records are looked at for the one that stands in the text.
const LOOKED_AT: usize = 4;

/// Where the records of a list stand.
pub(super) struct Outline<'a> {
    /// What is switched on at its head.
    pub(super) attributes: &'a str,
    pub(super) begin: usize,
    pub(super) end: usize,
    pub(super) spans: Vec<Span>,
    /// The place of the new record that each is to the letter.
    pub(super) same: Vec<Option<usize>>,
}

impl<'a> Outline<'a> {
    /// What is switched on at the head of a list, and where its inside begins.
    pub(super) fn begin(text: &'a str) -> Option<(&'a str, usize)> {
        let mut scan = Scan::new(text);
        let mut attributes = 0;
        loop {
            let (token, range) = scan.next()?;
            match &text[range.clone()] {
                "#!" => {
                    // Its brackets.
                    let mut open = 0_usize;
                    for (token, range) in scan.by_ref() {
                        match token {
                            Token::Open => open += 1,
                            Token::Close => open = open.checked_sub(1)?,
                            _ => {}
                        }
                        if open == 0 {
                            attributes = range.end;
                            break;
                        }
                    }
                }
                "[" if token == Token::Open => {
                    return Some((&text[..attributes], range.end));
                }
                _ => return None,
            }
        }
    }

    pub(super) fn of(text: &'a str, new: &[&str]) -> Option<Outline<'a>> {
        let (attributes, begin) = Outline::begin(text)?;
        let mut outline = Outline {
            attributes,
            begin,
            end: begin,
            spans: Vec::with_capacity(new.len()),
            same: Vec::with_capacity(new.len()),
        };
        let mut scan = Scan::from(text, begin);
        let mut next = 0;
        loop {
            let start = scan.pass_over_blanks();
            if *text.as_bytes().get(start)? == b']' {
                outline.end = start;
                scan.next();
                return scan.next().is_none().then_some(outline);
            }
            let rest = &text[start..];
            let mut ahead = (next..new.len()).take(LOOKED_AT);
            // What is switched on may give the same words another meaning.
            let same = ahead.find(|at| attributes.is_empty() && rest.starts_with(new[*at]));
            let end = match same {
                Some(at) => {
                    next = at + 1;
                    start + new[at].len()
                }
                None => closed(&mut scan)?,
            };
            outline.spans.push(Span { start, end });
            outline.same.push(same);
            scan = Scan::from(text, end);
            if scan.peek() == Some(Token::Comma) {
                scan.next();
            } else if scan.peek() != Some(Token::Close) {
                return None;
            }
        }
    }
}

/// Where the record that comes next is closed; it may have a name before its bracket.
pub(super) fn closed(scan: &mut Scan<'_>) -> Option<usize> {
    if scan.peek() == Some(Token::Word) {
        scan.next();
    }
    let mut open = 0_usize;
    loop {
        let (token, range) = scan.next()?;
        match token {
            Token::Open => open += 1,
            Token::Close => open = open.checked_sub(1)?,
            Token::Colon | Token::Comma | Token::Word => {}
        }
        if open == 0 {
            return (token == Token::Close).then_some(range.end);
        }
    }
}
