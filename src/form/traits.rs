//! The table of traits: what can be observed of a bloom, as data.

use serde::Deserialize;

use super::condition::Condition;
use super::part;
use super::space::Span;
use crate::measure::{Exact, Length, same_id};

/// Every trait, in the order in which a grower would look. Shared by all rule sets.
#[derive(Debug, Clone, PartialEq)]
pub struct Traits {
    pub(super) list: Vec<Trait>,
}

/// One trait of a bloom.
#[derive(Debug, Clone, PartialEq)]
pub struct Trait {
    /// The id used in files, commands and JSON.
    pub id: String,
    /// The question in plain words.
    pub ask: String,
    /// What to look at, and how.
    pub look: String,
    /// How a sentence says it, `{}` in place of the answer: `tips {}`, `{} across`.
    pub phrase: String,
    /// The same of the number 1, where a plural would be wrong: `one row of florets`.
    pub phrase_of_one: Option<String>,
    /// The same of whatever is over 0: `florets rolled at all`.
    pub phrase_of_some: Option<String>,
    /// What an answer may be.
    pub kind: Kind,
    /// What answering costs the grower: breaks ties between equally telling questions.
    pub effort: Effort,
    /// The chance (0 to 1) that one answer is wrong. Assumed, and editable.
    pub mistake: f64,
    /// Where the trait applies; everywhere if `None`.
    pub only_where: Option<Condition>,
    /// The number is 0 exactly where this holds.
    pub zero_where: Option<Condition>,
}

/// What an answer may be.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// One of a few states.
    OneOf(Vec<State>),
    /// A whole number from the first to the second.
    Count(i64, i64),
    /// 0 to 100 per cent.
    Share,
    /// A length over 0, up to this.
    Length(Length),
}

/// One state of a trait.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct State {
    /// The id used in files, commands and JSON.
    pub id: String,
    /// What it looks like.
    pub means: String,
    /// What stands in the trait's phrase: `bent toward the stem`; the id where it is empty.
    #[serde(default)]
    pub word: String,
}

impl State {
    /// What stands for it in the trait's phrase.
    pub fn word(&self) -> &str {
        match self.word.as_str() {
            "" => &self.id,
            word => word,
        }
    }
}

/// What it takes to answer, least first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Effort {
    /// A look at the bloom.
    Look,
    /// Counting.
    Count,
    /// A rule or tape.
    Measure,
}

impl Traits {
    /// All traits in order.
    pub fn list(&self) -> &[Trait] {
        &self.list
    }

    /// The trait at `index`.
    pub fn get(&self, index: usize) -> &Trait {
        &self.list[index]
    }

    /// The index of the trait with this id, however its words are joined.
    pub fn find(&self, id: &str) -> Option<usize> {
        let own = self.list.iter().position(|one| one.id == id);
        own.or_else(|| self.list.iter().position(|one| same_id(id, &one.id)))
    }

    /// The ids in order, for messages.
    pub fn ids(&self) -> String {
        let ids: Vec<&str> = self.list.iter().map(|one| one.id.as_str()).collect();
        ids.join(", ")
    }
}

impl Trait {
    /// The states, or none for an ordered trait.
    pub fn states(&self) -> &[State] {
        match &self.kind {
            Kind::OneOf(states) => states,
            _ => &[],
        }
    }

    /// The numbers that an ordered trait may take; `None` for a trait of states.
    pub fn domain(&self) -> Option<Span> {
        let (zero, hundred) = (Exact::zero(), Exact::whole(100));
        match &self.kind {
            Kind::OneOf(_) => None,
            Kind::Count(least, most) => {
                Some(Span::closed(Exact::whole(*least), Exact::whole(*most)))
            }
            Kind::Share => Some(Span::closed(zero, hundred)),
            Kind::Length(most) => Some(Span {
                low_in: false,
                ..Span::closed(zero, most.mm())
            }),
        }
    }

    /// Reads one number of this trait: `5`, `62.5 %`, `2/3`, `3.5in`. A bare fraction of a share is a
    /// part of the whole. Not checked against the domain.
    pub fn number(&self, text: &str) -> Option<Exact> {
        match &self.kind {
            Kind::OneOf(_) => None,
            Kind::Count(..) => text.parse().ok(),
            Kind::Share => part::fraction(text).or_else(|| {
                let percent = text.trim_end().trim_end_matches('%').trim_end();
                percent.parse().ok()
            }),
            Kind::Length(_) => text.parse().ok().map(Length::mm),
        }
    }

    /// Prints one number of this trait so that [`Trait::number`] reads it back.
    pub fn print(&self, number: Exact) -> String {
        match &self.kind {
            Kind::Length(_) => Length::from_mm(number).to_string(),
            // A bare fraction would be a part: 100/3 per cent is not a hundred thirds of the whole.
            Kind::Share if number.to_string().contains('/') => format!("{number}%"),
            _ => number.to_string(),
        }
    }

    /// What an answer may look like, for messages: [`Trait::expected`], and what only an answer may
    /// be.
    pub fn expected_answer(&self) -> String {
        let expected = self.expected();
        match &self.kind {
            Kind::Count(..) => format!("{expected}, 4..7, or 10+ for ten or more"),
            Kind::Share => format!(
                "{expected}, or by eye a quarter, a third, half, two thirds or three quarters"
            ),
            _ => expected,
        }
    }

    /// What a value looks like, for messages: `closed, open or pincushion`; `1 to 40`.
    pub fn expected(&self) -> String {
        match &self.kind {
            Kind::OneOf(states) => {
                let ids: Vec<&str> = states.iter().map(|state| state.id.as_str()).collect();
                list_or(&ids)
            }
            Kind::Count(least, most) => format!("a whole number from {least} to {most}"),
            Kind::Share => "a share from 0 to 100 %".to_string(),
            Kind::Length(most) => {
                format!("a length over 0 and up to {most}, such as 98mm, 9.8cm or 3 1/2 in")
            }
        }
    }
}

/// `a, b or c`.
pub fn list_or(words: &[&str]) -> String {
    listed(words, "or")
}

/// `a, b and c`.
pub fn list_and(words: &[&str]) -> String {
    listed(words, "and")
}

fn listed(words: &[&str], joiner: &str) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_string(),
        [rest @ .., last] => format!("{} {joiner} {last}", rest.join(", ")),
    }
}
