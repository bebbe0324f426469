//! The table of traits: what can be observed of a bloom, as data.

use serde::Deserialize;

use super::condition::{Condition, Reader};
use super::part;
use super::space::{MOST_TRAITS, Span};
use crate::measure::{Exact, Length};
use crate::problem::{Problem, offset_in, read_ron};

/// The table as it ships.
const EMBEDDED: &str = include_str!("../../assets/traits.ron");

/// Every trait, in the order in which a grower would look. Shared by all rule sets.
#[derive(Debug, Clone, PartialEq)]
pub struct Traits {
    list: Vec<Trait>,
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

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TraitSource<'a> {
    id: &'a str,
    ask: String,
    look: String,
    kind: KindSource,
    effort: Effort,
    mistake: f64,
    #[serde(borrow, default)]
    only_where: Option<&'a str>,
    #[serde(borrow, default)]
    zero_where: Option<&'a str>,
}

#[derive(Deserialize)]
enum KindSource {
    OneOf(Vec<State>),
    Count(i64, i64),
    Share,
    Length(Length),
}

impl Traits {
    /// The table that ships in the binary.
    ///
    /// # Panics
    /// Never: a test reads the embedded table.
    pub fn embedded() -> Traits {
        Traits::read("traits.ron", EMBEDDED).expect("the embedded traits are read by a test")
    }

    /// Reads the table from RON, or says everything that is wrong with it.
    pub fn read(file: &str, text: &str) -> Result<Traits, Vec<Problem>> {
        let sources: Vec<TraitSource<'_>> =
            read_ron(file, text).map_err(|problem| vec![problem])?;
        let mut traits = Traits { list: Vec::new() };
        let mut problems = Vec::new();
        for source in &sources {
            let at = offset_in(text, source.id);
            if let Some(message) = source.fault(&traits) {
                problems.push(Problem::at(file, text, at, message));
            }
            traits.list.push(source.without_conditions());
        }
        if sources.len() > MOST_TRAITS {
            let message = format!(
                "found {} traits, expected at most {MOST_TRAITS}",
                sources.len()
            );
            problems.push(Problem::at(file, text, 0, message));
        }
        let bare = traits.clone();
        let mut reader = Reader::new(file, text, &bare);
        for (one, source) in traits.list.iter_mut().zip(&sources) {
            one.only_where = source.only_where.and_then(|text| reader.read(text));
            one.zero_where = source.zero_where.and_then(|text| reader.read(text));
        }
        problems.append(&mut reader.problems);
        if problems.is_empty() {
            Ok(traits)
        } else {
            Err(problems)
        }
    }

    /// All traits in order.
    pub fn list(&self) -> &[Trait] {
        &self.list
    }

    /// The trait at `index`.
    pub fn get(&self, index: usize) -> &Trait {
        &self.list[index]
    }

    /// The index of the trait with this id.
    pub fn find(&self, id: &str) -> Option<usize> {
        self.list.iter().position(|one| one.id == id)
    }

    /// The ids in order, for messages.
    pub fn ids(&self) -> String {
        let ids: Vec<&str> = self.list.iter().map(|one| one.id.as_str()).collect();
        ids.join(", ")
    }
}

impl TraitSource<'_> {
    fn fault(&self, before: &Traits) -> Option<String> {
        let id = self.id;
        if before.find(id).is_some() {
            return Some(format!(
                "found the trait {id:?} a second time, expected each id once"
            ));
        }
        if !(self.mistake > 0.0 && self.mistake < 0.5) {
            return Some(format!(
                "found mistake {} for {id:?}, expected a chance over 0 and under 0.5",
                self.mistake
            ));
        }
        match &self.kind {
            KindSource::OneOf(states) if !(2..=60).contains(&states.len()) => Some(format!(
                "found {} states for {id:?}, expected 2 to 60",
                states.len()
            )),
            KindSource::OneOf(states) if repeated(states).is_some() => {
                repeated(states).map(|state| {
                    format!(
                        "found the state {state:?} of {id:?} a second time, expected each id once"
                    )
                })
            }
            KindSource::OneOf(_) if self.zero_where.is_some() => Some(format!(
                "found zero_where for {id:?}, expected it only where the answer is a number"
            )),
            KindSource::Count(least, most) if least >= most => Some(format!(
                "found Count({least}, {most}) for {id:?}, expected the least before the most"
            )),
            _ => None,
        }
    }

    fn without_conditions(&self) -> Trait {
        Trait {
            id: self.id.to_string(),
            ask: self.ask.clone(),
            look: self.look.clone(),
            kind: match &self.kind {
                KindSource::OneOf(states) => Kind::OneOf(states.clone()),
                KindSource::Count(least, most) => Kind::Count(*least, *most),
                KindSource::Share => Kind::Share,
                KindSource::Length(most) => Kind::Length(*most),
            },
            effort: self.effort,
            mistake: self.mistake,
            only_where: None,
            zero_where: None,
        }
    }
}

/// The id of a state that is there twice.
fn repeated(states: &[State]) -> Option<&str> {
    let again = |at: usize| states[..at].iter().any(|state| state.id == states[at].id);
    let at = (0..states.len()).find(|at| again(*at))?;
    Some(&states[at].id)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_embedded_table_is_whole() {
        let traits = Traits::embedded();
        assert_eq!(
            traits.ids(),
            "centre, rows, collar, roll, rolled, line, tip, set, outline, gradient, width, heart, diameter"
        );
        let gated: Vec<&str> = traits
            .list()
            .iter()
            .filter(|one| one.only_where.is_some())
            .map(|one| one.id.as_str())
            .collect();
        assert_eq!(gated, ["collar", "heart"]);
    }

    #[test]
    fn every_problem_is_told_with_its_place() {
        let text = r#"[
  (id: "a", ask: "", look: "", kind: OneOf([]), effort: Look, mistake: 0.05),
  (id: "a", ask: "", look: "", kind: Share, effort: Look, mistake: 0.05),
  (id: "b", ask: "", look: "", kind: Share, effort: Look, mistake: 0.05, only_where: "c=1"),
]"#;
        let problems = Traits::read("traits.ron", text).expect_err("three problems");
        let told: Vec<String> = problems.iter().map(Problem::to_string).collect();
        assert_eq!(
            told,
            [
                "traits.ron, line 2, column 9: found 0 states for \"a\", expected 2 to 60",
                "traits.ron, line 3, column 9: found the trait \"a\" a second time, expected each id once",
                "traits.ron, line 4, column 87: found \"c\", expected a trait (a, a, b)",
            ]
        );
    }
}
