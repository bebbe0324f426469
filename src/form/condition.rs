//! Conditions on a bloom, as a rule set writes them, and the blocks where they hold.
//!
//! ```text
//! centre=closed, tip=pointed, roll=back, rolled over cactus-roll
//! roll=flat or rolled under flat-roll
//! roll=forward, not (tubed or line=incurved)
//! ```
//! A comma and `and` mean the same and bind tighter than `or`. A number may be a limit's name.

use std::collections::BTreeMap;

use super::space::{Block, Scale, Span};
use super::traits::{Kind, Traits};
use crate::measure::Exact;
use crate::problem::{Problem, offset_in};

/// The most blocks that one condition may need; a rule past it is too tangled to be proved.
pub const MOST_BLOCKS: usize = 20_000;

/// The most parts that one condition may be made of, words spelt out.
pub const MOST_PARTS: usize = 10_000;
/// The most brackets and `not`s around one test.
const MOST_DEPTH: usize = 64;

/// What a bloom must show.
#[derive(Debug, Clone, PartialEq)]
pub enum Condition {
    /// Every one of these; everything where there are none.
    All(Vec<Condition>),
    /// At least one of these; nothing where there are none.
    Any(Vec<Condition>),
    /// Not this.
    Not(Box<Condition>),
    /// The trait with this index has one of the states of the mask.
    States(usize, u64),
    /// The trait with this index has a number in the span.
    Number(usize, Span),
}

/// Some blocks, parted by a condition.
#[derive(Debug, Clone, Default)]
pub struct Parted {
    /// Where it holds.
    pub inside: Vec<Block>,
    /// Where it does not.
    pub outside: Vec<Block>,
}

impl Condition {
    /// Parts disjoint blocks into disjoint blocks where the condition holds and where it does not,
    /// or `None` where that would take more than [`MOST_BLOCKS`]. A trait that does not apply
    /// fulfils no test of its value.
    pub fn part(&self, scales: &[Scale], blocks: Vec<Block>) -> Option<Parted> {
        if blocks.len() > MOST_BLOCKS {
            return None;
        }
        let parted = match self {
            Condition::States(index, states) => {
                part_by(*index, scales[*index].states(*states), &blocks)
            }
            Condition::Number(index, span) => {
                part_by(*index, scales[*index].touched(*span), &blocks)
            }
            Condition::Not(condition) => condition.part(scales, blocks)?.turned(),
            Condition::All(conditions) => {
                let mut parted = Parted {
                    inside: blocks,
                    outside: Vec::new(),
                };
                for condition in conditions {
                    let next = condition.part(scales, parted.inside)?;
                    parted.inside = next.inside;
                    parted.outside.extend(next.outside);
                }
                parted
            }
            Condition::Any(conditions) => {
                let mut parted = Parted {
                    inside: Vec::new(),
                    outside: blocks,
                };
                for condition in conditions {
                    let next = condition.part(scales, parted.outside)?;
                    parted.outside = next.outside;
                    parted.inside.extend(next.inside);
                }
                parted
            }
        };
        (parted.inside.len() + parted.outside.len() <= MOST_BLOCKS).then_some(parted)
    }

    /// How many tests and joints the condition is made of.
    pub fn parts(&self) -> usize {
        match self {
            Condition::All(list) | Condition::Any(list) => {
                1 + list.iter().map(Condition::parts).sum::<usize>()
            }
            Condition::Not(condition) => 1 + condition.parts(),
            Condition::States(..) | Condition::Number(..) => 1,
        }
    }

    /// Every number that the condition names, with the index of its trait.
    pub fn cuts(&self, into: &mut Vec<(usize, Exact)>) {
        match self {
            Condition::All(list) | Condition::Any(list) => list.iter().for_each(|c| c.cuts(into)),
            Condition::Not(condition) => condition.cuts(into),
            Condition::States(..) => {}
            Condition::Number(index, span) => {
                into.extend([(*index, span.low), (*index, span.high)])
            }
        }
    }
}

impl Parted {
    fn turned(self) -> Parted {
        Parted {
            inside: self.outside,
            outside: self.inside,
        }
    }
}

fn part_by(index: usize, mask: u64, blocks: &[Block]) -> Parted {
    let narrowed = |mask| {
        blocks
            .iter()
            .filter_map(|b| b.narrowed(index, mask))
            .collect()
    };
    Parted {
        inside: narrowed(mask),
        outside: narrowed(!mask),
    }
}

/// Reads the conditions of one file and collects everything that is wrong with them.
pub struct Reader<'a> {
    file: &'a str,
    text: &'a str,
    pub(super) traits: &'a Traits,
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
    pub fn note_field(&mut self, field: &str, found: &str, expected: &str) {
        let offset = self.text.rfind(&format!("{field}:")).unwrap_or(0);
        let message = format!("found {found} for `{field}`, expected {expected}");
        self.problems
            .push(Problem::at(self.file, self.text, offset, message));
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
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Condition, String> {
        let traits = Traits::embedded();
        let mut reader = Reader::new("f", text, &traits);
        reader.limits.insert("tube-roll", "67 %");
        reader
            .words
            .insert("rolled-back", Condition::States(3, 0b100));
        let read = reader.read(text);
        read.ok_or_else(|| reader.problems[0].to_string())
    }

    #[test]
    fn a_comma_binds_tighter_than_or() {
        let a = || Condition::States(0, 1);
        let b = || Condition::States(6, 0b110);
        assert_eq!(read("centre=closed"), Ok(a()));
        assert_eq!(
            read(
                "centre=closed, tip=pointed|split or centre=closed and not (tip = pointed | split)"
            ),
            Ok(Condition::Any(vec![
                Condition::All(vec![a(), b()]),
                Condition::All(vec![a(), Condition::Not(Box::new(b()))]),
            ]))
        );
    }

    #[test]
    fn numbers_may_be_named_and_have_their_unit_apart() {
        for text in [
            "rolled over tube-roll",
            "rolled over 67",
            "rolled over 67%",
            "rolled over 67 %",
        ] {
            let expected = Span {
                low_in: false,
                ..Span::closed(Exact::whole(67), Exact::whole(100))
            };
            assert_eq!(read(text), Ok(Condition::Number(4, expected)), "{text}");
        }
        assert_eq!(
            read("diameter at most 2 in, rows=4..7").map(|c| matches!(c, Condition::All(_))),
            Ok(true)
        );
        assert_eq!(read("rolled-back"), Ok(Condition::States(3, 0b100)));
    }

    #[test]
    fn a_fault_says_where_what_and_what_instead() {
        for (text, told) in [
            (
                "centre=shut",
                "column 8: found \"shut\", expected closed, open or pincushion",
            ),
            (
                "centre over 3",
                "column 8: found \"over\", expected `centre=` and closed, open or pincushion",
            ),
            (
                "rows over",
                "column 10: found the end, expected a whole number from 1 to 40, or the name of a limit that is one",
            ),
            (
                "rows=50",
                "column 6: found \"50\", expected a whole number from 1 to 40, or the name of a limit that is one",
            ),
            (
                "rows=7..4",
                "column 10: found the end, expected a whole number from 1 to 40 in rising order",
            ),
            ("(rows=1", "column 8: found the end, expected a `)`"),
            (
                "rows=1 rows=2",
                "column 8: found \"rows\", expected a comma, `and`, `or` or the end",
            ),
            (
                "rolled at 5",
                "column 11: found \"5\", expected `at least` or `at most`",
            ),
        ] {
            let error = read(text).expect_err(text);
            assert_eq!(error, format!("f, line 1, {told}"), "{text}");
        }
    }
}
