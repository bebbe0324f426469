//! Reads conditions as they are written, and says what is wrong with them.

use std::collections::BTreeMap;

use super::{Condition, MOST_PARTS};
use crate::form::space::Span;
use crate::form::traits::{Kind, Traits};
use crate::measure::Exact;
use crate::problem::{Path, Places, Problem, Wrong, offset_in};

/// The most brackets and `not`s around one test.
const MOST_DEPTH: usize = 64;

/// Reads the conditions of one file and collects everything that is wrong with them.
pub struct Reader<'a> {
    file: &'a str,
    text: &'a str,
    pub(in crate::form) traits: &'a Traits,
    /// Named numbers, as written: `tube-roll` is `67 %`.
    pub limits: BTreeMap<&'a str, &'a str>,
    /// Named conditions.
    pub words: BTreeMap<&'a str, Condition>,
    /// What was wrong so far.
    pub problems: Vec<Problem>,
}

type Token<'a> = &'a str;

impl<'a> Reader<'a> {
    /// A reader of conditions that are slices of `text`.
    pub fn new(file: &'a str, text: &'a str, traits: &'a Traits) -> Reader<'a> {
        Reader {
            file,
            text,
            traits,
            limits: BTreeMap::new(),
            words: BTreeMap::new(),
            problems: Vec::new(),
        }
    }

    /// Reads one condition, which holds everywhere where `source` is empty; on `None` the problem has been noted.
    pub fn read(&mut self, source: &'a str) -> Option<Condition> {
        let tokens = tokens(source);
        if tokens.is_empty() {
            return Some(Condition::All(Vec::new()));
        }
        let mut parser = Parser {
            reader: self,
            tokens: &tokens,
            end: &source[source.len()..],
            depth: 0,
            parts: 0,
        };
        let read = parser
            .any()
            .and_then(|condition| match parser.tokens.first() {
                None => Ok(condition),
                Some(token) => Err((*token, "a comma, `and`, `or` or the end".to_string())),
            });
        read.map_err(|(found, expected)| self.note(found, &expected))
            .ok()
    }

    /// Reads relations of one ordered trait, `over 2 in, at most 4 in`, as the span of all of them;
    /// the whole domain where `source` is empty.
    pub fn read_span(&mut self, index: usize, source: &'a str) -> Option<Span> {
        let domain = self.traits.get(index).domain()?;
        let tokens = tokens(source);
        let mut parser = Parser {
            reader: self,
            tokens: &tokens,
            end: &source[source.len()..],
            depth: 0,
            parts: 0,
        };
        let mut whole = domain;
        while !parser.tokens.is_empty() {
            let met = parser.relation(index, domain).and_then(|span| {
                let end = parser.tokens.is_empty() || parser.take(",");
                let met = span.meet(whole).filter(|_| end);
                met.ok_or_else(|| {
                    (
                        parser.before(),
                        "relations that can all hold, with commas".into(),
                    )
                })
            });
            match met {
                Ok(met) => whole = met,
                Err((found, expected)) => {
                    self.note(found, &expected);
                    return None;
                }
            }
        }
        Some(whole)
    }

    /// Notes that `found`, a slice of the text, is not what was expected.
    pub fn note(&mut self, found: &str, expected: &str) {
        let shown = if found.is_empty() {
            "the end".to_string()
        } else {
            format!("{found:?}")
        };
        let offset = offset_in(self.text, found);
        let message = format!("found {shown}, expected {expected}");
        self.problems
            .push(Problem::at(self.file, self.text, offset, message));
    }

    /// Notes that a field of the file's outermost record is not what was expected.
    pub fn note_field(&mut self, field: &'static str, found: &str, expected: &str) {
        let message = format!("found {found} for `{field}`, expected {expected}");
        let wrong = Wrong::new(Path::field(field), message);
        self.problems
            .push(Places::of(self.text).problem(self.file, wrong));
    }
}

/// Words, numbers with their units, and the marks `= | , ( ) ..`.
fn tokens(source: &str) -> Vec<Token<'_>> {
    let mut tokens = Vec::new();
    let mut rest = source.trim_start();
    while let Some(first) = rest.chars().next() {
        let length = if rest.starts_with("..") {
            2
        } else if "=|,()".contains(first) {
            1
        } else {
            let ends = |(at, c): (usize, char)| {
                let mark = c.is_whitespace() || "=|,()".contains(c) || rest[at..].starts_with("..");
                mark.then_some(at)
            };
            rest.char_indices().find_map(ends).unwrap_or(rest.len())
        };
        tokens.push(&rest[..length]);
        rest = rest[length..].trim_start();
    }
    tokens
}

struct Parser<'p, 'a> {
    reader: &'p Reader<'a>,
    tokens: &'p [Token<'a>],
    end: Token<'a>,
    /// Brackets and `not`s around the test being read.
    depth: usize,
    /// Parts read so far.
    parts: usize,
}

/// What was found, and what was expected.
type Fault<'a> = (Token<'a>, String);

impl<'a> Parser<'_, 'a> {
    fn any(&mut self) -> Result<Condition, Fault<'a>> {
        let mut list = vec![self.all()?];
        while self.take("or") {
            list.push(self.all()?);
        }
        Ok(one_or(list, Condition::Any))
    }

    fn all(&mut self) -> Result<Condition, Fault<'a>> {
        let mut list = vec![self.unit()?];
        while self.take(",") || self.take("and") {
            list.push(self.unit()?);
        }
        Ok(one_or(list, Condition::All))
    }

    fn unit(&mut self) -> Result<Condition, Fault<'a>> {
        if self.depth > MOST_DEPTH {
            return Err((
                self.before(),
                format!("at most {MOST_DEPTH} brackets and `not`s in one another"),
            ));
        }
        self.depth += 1;
        let unit = self.bare_unit()?;
        self.depth -= 1;
        Ok(unit)
    }

    fn bare_unit(&mut self) -> Result<Condition, Fault<'a>> {
        if self.take("not") {
            return Ok(Condition::Not(Box::new(self.unit()?)));
        }
        if self.take("(") {
            let inner = self.any()?;
            return if self.take(")") {
                Ok(inner)
            } else {
                Err((self.next(), "a `)`".into()))
            };
        }
        let name = self.next();
        let word = self.reader.words.get(name);
        self.parts += word.map_or(1, Condition::parts);
        if self.parts > MOST_PARTS {
            return Err((
                name,
                format!("at most {MOST_PARTS} tests in one condition, with its words spelt out"),
            ));
        }
        if let Some(word) = word {
            return Ok(word.clone());
        }
        match self.reader.traits.find(name) {
            Some(index) => self.test(index),
            None => {
                let mut known = self.reader.traits.ids();
                for word in self.reader.words.keys() {
                    known = format!("{known}, {word}");
                }
                Err((name, format!("a trait ({known})")))
            }
        }
    }

    fn test(&mut self, index: usize) -> Result<Condition, Fault<'a>> {
        let one = self.reader.traits.get(index);
        let Some(domain) = one.domain() else {
            return match self.next() {
                "=" => self.states(index),
                other => Err((other, format!("`{}=` and {}", one.id, one.expected()))),
            };
        };
        self.relation(index, domain)
            .map(|span| Condition::Number(index, span))
    }

    /// `over 2 in`, `at most 7`, `=1..5`.
    fn relation(&mut self, index: usize, domain: Span) -> Result<Span, Fault<'a>> {
        let span = match self.next() {
            "over" => Span {
                low: self.number(index)?,
                low_in: false,
                ..domain
            },
            "under" => Span {
                high: self.number(index)?,
                high_in: false,
                ..domain
            },
            "at" => match self.next() {
                "least" => Span {
                    low: self.number(index)?,
                    low_in: true,
                    ..domain
                },
                "most" => Span {
                    high: self.number(index)?,
                    high_in: true,
                    ..domain
                },
                other => return Err((other, "`at least` or `at most`".into())),
            },
            "=" => {
                let low = self.number(index)?;
                let high = if self.take("..") {
                    self.number(index)?
                } else {
                    low
                };
                Span::closed(low, high)
            }
            other => {
                return Err((
                    other,
                    "`=`, `over`, `under`, `at least` or `at most`".into(),
                ));
            }
        };
        // A span outside the domain would make a rule that always or never holds.
        let expected = || {
            format!(
                "{} in rising order",
                self.reader.traits.get(index).expected()
            )
        };
        span.meet(domain).ok_or_else(|| (self.before(), expected()))
    }

    fn states(&mut self, index: usize) -> Result<Condition, Fault<'a>> {
        let one = self.reader.traits.get(index);
        let Kind::OneOf(states) = &one.kind else {
            return Err((self.end, one.expected()));
        };
        let mut mask = 0;
        loop {
            let name = self.next();
            let found = states.iter().position(|state| state.id == name);
            mask |= 1_u64 << found.ok_or_else(|| (name, one.expected()))?;
            if !self.take("|") {
                return Ok(Condition::States(index, mask));
            }
        }
    }

    fn number(&mut self, index: usize) -> Result<Exact, Fault<'a>> {
        let one = self.reader.traits.get(index);
        let token = self.next();
        let written = self.reader.limits.get(token).copied().unwrap_or(token);
        // `50 %` and `2 in` are two tokens.
        let with_unit = self
            .tokens
            .first()
            .and_then(|unit| one.number(&format!("{written}{unit}")));
        if with_unit.is_some() {
            self.tokens = &self.tokens[1..];
        }
        let number = with_unit.or_else(|| one.number(written));
        number
            .filter(|n| one.domain().is_some_and(|d| d.low <= *n && *n <= d.high))
            .ok_or_else(|| {
                let mut expected =
                    format!("{}, or the name of a limit that is one", one.expected());
                if written != token {
                    expected += &format!("; {token:?} is {written:?}");
                }
                (token, expected)
            })
    }

    fn take(&mut self, token: &str) -> bool {
        let there = self.tokens.first() == Some(&token);
        if there {
            self.tokens = &self.tokens[1..];
        }
        there
    }

    fn next(&mut self) -> Token<'a> {
        let Some((first, rest)) = self.tokens.split_first() else {
            return self.end;
        };
        self.tokens = rest;
        first
    }

    /// The token that faults of a finished test point at.
    fn before(&self) -> Token<'a> {
        self.tokens.first().copied().unwrap_or(self.end)
    }
}

fn one_or(mut list: Vec<Condition>, many: fn(Vec<Condition>) -> Condition) -> Condition {
    if list.len() == 1 {
        list.remove(0)
    } else {
        many(list)
    }
}
#[cfg(test)]
mod tests;
