//! A text of RON as a tree of its values, each with its place in the text.
//!
//! Of a text that RON's reader takes the tree is what that reader sees; of any other it is some tree,
//! and comes to the end of the text. `Some(...)` is passed over: what is within stands in its place.

use std::ops::Range;

use super::scan::{Scan, Token};

/// RON's reader takes no text with more brackets within brackets.
const MOST_DEPTH: usize = 128;

/// What a value is, as far as its marks tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Shape {
    /// A word, a number or a text.
    Word,
    /// In round brackets: a record, or values without names.
    Round,
    /// A list.
    Square,
    /// A table.
    Curly,
}

/// A value with those within it.
#[derive(Debug, Clone)]
pub(crate) struct Node {
    /// What it is.
    pub(crate) shape: Shape,
    /// Where its name or its first mark begins.
    pub(crate) start: usize,
    /// Where it ends.
    pub(crate) end: usize,
    /// What it holds.
    pub(crate) within: Vec<Held>,
}

/// A value within another.
#[derive(Debug, Clone)]
pub(crate) struct Held {
    /// Where the field's name ends, or what else stands before a colon.
    name_end: Option<usize>,
    /// Where it begins, its name and `Some(` with it.
    pub(crate) start: usize,
    /// Where it ends, the bracket of `Some(` with it.
    pub(crate) end: usize,
    /// The value itself.
    pub(crate) value: Node,
}

impl Node {
    /// The value of a text. What is switched on at its head, `#![...]`, is passed over.
    pub(crate) fn of(text: &str) -> Node {
        let mut scan = Scan::new(text);
        while is_attribute(&scan, text) {
            scan.next();
            value(&mut scan, text, 0);
        }
        value(&mut scan, text, 0).value
    }

    /// What is between its brackets, which it must have.
    pub(crate) fn inside(&self, text: &str) -> Range<usize> {
        let own = &text[self.start..self.end];
        let mut marks = Scan::new(own).filter(|(token, _)| *token == Token::Open);
        let open = marks.next().map_or(0, |(_, range)| range.end);
        self.start + open..(self.end - 1).max(self.start + open)
    }

    /// The name before its bracket, such as that of a record; nothing where there is none.
    pub(crate) fn head<'a>(&self, text: &'a str) -> &'a str {
        let head = self.start..self.inside(text).start;
        text[head].trim_end_matches(['(', '[', '{']).trim_end()
    }
}

impl Held {
    /// Its name as it is written, `r#` before it left out; `None` where it has none.
    pub(crate) fn name<'a>(&self, text: &'a str) -> Option<&'a str> {
        let name = &text[self.start..self.name_end?];
        Some(match name.strip_prefix("r#") {
            Some(word) if !word.starts_with(['"', '#']) => word,
            _ => name,
        })
    }

    /// Whether it has a name.
    pub(crate) fn is_named(&self) -> bool {
        self.name_end.is_some()
    }
}

/// Whether `#![...]` comes next, which switches extensions of RON on.
fn is_attribute(scan: &Scan<'_>, text: &str) -> bool {
    let next = scan.clone().next();
    next.is_some_and(|(_, range)| text[range].starts_with("#!"))
}

/// The value that comes next, with all that is within it.
fn value(scan: &mut Scan<'_>, text: &str, depth: usize) -> Held {
    let (first, range) = match scan.clone().next() {
        Some((token @ (Token::Open | Token::Word), range)) => (token, range),
        // A value is lacking here.
        lacking => {
            let at = lacking.map_or(text.len(), |(_, range)| range.start);
            return Node::word(at, at).unnamed();
        }
    };
    scan.next();
    let mut found = Node::word(range.start, range.end);
    let mut open = range.clone();
    if first == Token::Word {
        // It may be the name of a record.
        match scan.clone().next() {
            Some((_, next)) if &text[next.clone()] == "(" => open = next,
            _ => return found.unnamed(),
        }
        scan.next();
    }
    found.shape = match &text[open] {
        "[" => Shape::Square,
        "{" => Shape::Curly,
        _ => Shape::Round,
    };
    if depth >= MOST_DEPTH {
        pass_over(scan);
        return found.unnamed();
    }
    loop {
        match scan.peek() {
            None => break,
            Some(Token::Close) => {
                found.end = scan.next().map_or(text.len(), |(_, range)| range.end);
                break;
            }
            Some(Token::Comma | Token::Colon) => drop(scan.next()),
            Some(Token::Open | Token::Word) => found.within.push(held(scan, text, depth + 1)),
        }
    }
    let is_some = first == Token::Word && &text[range.clone()] == "Some";
    match &found.within[..] {
        [held] if is_some && !held.is_named() => {
            let end = found.end;
            // OK because there is one.
            let within = found.within.pop().map_or(found, |held| held.value);
            Held {
                start: range.start,
                end,
                ..within.unnamed()
            }
        }
        _ => found.unnamed(),
    }
}

/// A value within another, its name before it where it has one.
fn held(scan: &mut Scan<'_>, text: &str, depth: usize) -> Held {
    let first = value(scan, text, depth);
    if scan.peek() != Some(Token::Colon) {
        return first;
    }
    scan.next();
    let named = value(scan, text, depth);
    Held {
        name_end: Some(first.end),
        start: first.start,
        ..named
    }
}

/// Goes on behind the bracket that closes the one that was opened last.
fn pass_over(scan: &mut Scan<'_>) {
    let mut open = 1_usize;
    for (token, _) in scan {
        match token {
            Token::Open => open += 1,
            Token::Close => open -= 1,
            Token::Colon | Token::Comma | Token::Word => {}
        }
        if open == 0 {
            return;
        }
    }
}

impl Node {
    fn word(start: usize, end: usize) -> Node {
        Node {
            shape: Shape::Word,
            start,
            end,
            within: Vec::new(),
        }
    }

    fn unnamed(self) -> Held {
        Held {
            name_end: None,
            start: self.start,
            end: self.end,
            value: self,
        }
    }
}
