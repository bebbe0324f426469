//! Where the values of a text of RON stand in it.

use super::scan::{Scan, Token};
use super::{Path, Problem, Step, Wrong, told};

/// RON's reader takes no text with more brackets within brackets.
const MOST_DEPTH: usize = 128;

/// The places of all values of one text, read once however much is looked up.
#[derive(Debug, Clone)]
pub struct Places<'a> {
    text: &'a str,
    whole: Value,
    /// Where each line begins.
    lines: Vec<usize>,
}

/// A value with those within it.
#[derive(Debug, Clone)]
struct Value {
    start: usize,
    end: usize,
    within: Vec<Held>,
}

/// A value within another.
#[derive(Debug, Clone)]
struct Held {
    /// The field's name, or what else stands before a colon.
    name: Option<(usize, usize)>,
    value: Value,
}

impl<'a> Places<'a> {
    /// Of a text that was read as RON. Of any other it is not said what is found.
    pub fn of(text: &'a str) -> Places<'a> {
        let mut scan = Scan::new(text);
        while is_attribute(&scan, text) {
            scan.next();
            value(&mut scan, text, 0);
        }
        let after_line = text.match_indices('\n').map(|(at, _)| at + 1);
        Places {
            whole: value(&mut scan, text, 0),
            lines: std::iter::once(0).chain(after_line).collect(),
            text,
        }
    }

    /// Where the value at the end of the path begins; of one that is left out in the text, the
    /// record or list that would hold it.
    pub fn offset(&self, path: &Path) -> usize {
        let mut here = &self.whole;
        for step in path.steps() {
            let named = |name: &str| {
                let is_it = |held: &&Held| held.name.is_some_and(|at| self.word(at) == name);
                here.within.iter().find(is_it)
            };
            let held = match step {
                Step::Field(name) => named(name),
                Step::Renamed { now, once } => named(now).or_else(|| named(once)),
                Step::At(place) => here.within.get(*place),
            };
            match held {
                Some(held) => here = &held.value,
                None => break,
            }
        }
        here.start
    }

    /// What is wrong, with its line and column in the text.
    pub fn problem(&self, file: &str, wrong: Wrong) -> Problem {
        let offset = self.offset(&wrong.at);
        let line = self.lines.partition_point(|start| *start <= offset);
        let before = &self.text[self.lines[line - 1]..offset];
        Problem {
            file: file.to_string(),
            line,
            column: 1 + before.chars().count(),
            message: told(&wrong.message),
        }
    }

    /// The word between two offsets; `r#` before a name is no part of it.
    fn word(&self, (start, end): (usize, usize)) -> &'a str {
        let word = &self.text[start..end];
        word.strip_prefix("r#").unwrap_or(word)
    }
}

/// Whether `#![...]` comes next, which switches extensions of RON on.
fn is_attribute(scan: &Scan<'_>, text: &str) -> bool {
    let next = scan.clone().next();
    next.is_some_and(|(_, range)| text[range].starts_with("#!"))
}

/// The value that comes next, with all that is within it.
fn value(scan: &mut Scan<'_>, text: &str, depth: usize) -> Value {
    let (first, range) = match scan.clone().next() {
        Some((token @ (Token::Open | Token::Word), range)) => (token, range),
        // A value is lacking here.
        lacking => {
            let at = lacking.map_or(text.len(), |(_, range)| range.start);
            return Value::bare(at, at);
        }
    };
    scan.next();
    let mut found = Value::bare(range.start, range.end);
    if first == Token::Word {
        // It may be the name of a record.
        let next = scan.clone().next();
        if next.is_none_or(|(_, range)| &text[range] != "(") {
            return found;
        }
        scan.next();
    }
    if depth >= MOST_DEPTH {
        pass_over(scan);
        return found;
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
    match &found.within[..] {
        [Held { name: None, .. }] if first == Token::Word && &text[range] == "Some" => {
            // OK because there is one.
            found.within.pop().map_or(found, |held| held.value)
        }
        _ => found,
    }
}

/// A value within another, its name before it where it has one.
fn held(scan: &mut Scan<'_>, text: &str, depth: usize) -> Held {
    let first = value(scan, text, depth);
    if scan.peek() != Some(Token::Colon) {
        return Held {
            name: None,
            value: first,
        };
    }
    scan.next();
    Held {
        name: Some((first.start, first.end)),
        value: value(scan, text, depth),
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

impl Value {
    fn bare(start: usize, end: usize) -> Value {
        Value {
            start,
            end,
            within: Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests;
