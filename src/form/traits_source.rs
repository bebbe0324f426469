//! The table of traits as it is written in RON, checked and turned into [`Traits`].

use serde::Deserialize;

use super::condition::Reader;
use super::space::MOST_TRAITS;
use super::traits::{Effort, Kind, State, Trait, Traits};
use crate::measure::Length;
use crate::problem::{Problem, offset_in, read_ron};

/// States of one trait: a set of them is one number of 64 bits.
const MOST_STATES: usize = 60;

/// The table as it ships.
const EMBEDDED: &str = include_str!("../../assets/traits.ron");

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TraitSource<'a> {
    id: &'a str,
    ask: String,
    look: String,
    #[serde(default)]
    phrase: Option<String>,
    #[serde(default)]
    one: Option<String>,
    some: Option<String>,
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
        if self
            .phrase
            .as_ref()
            .is_some_and(|phrase| !phrase.contains("{}"))
        {
            return Some(format!(
                "found a phrase for {id:?} without {{}}, expected {{}} where the answer stands"
            ));
        }
        match &self.kind {
            KindSource::OneOf(states) if !(2..=MOST_STATES).contains(&states.len()) => {
                Some(format!(
                    "found {} states for {id:?}, expected 2 to {MOST_STATES}",
                    states.len()
                ))
            }
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
            phrase: { self.phrase.clone() }.unwrap_or_else(|| format!("{} {{}}", self.id)),
            phrase_of_one: self.one.clone(),
            phrase_of_some: self.some.clone(),
            kind: match &self.kind {
                // With more the table is refused; what else is wrong with it is told too.
                KindSource::OneOf(states) => {
                    Kind::OneOf(states.iter().take(MOST_STATES).cloned().collect())
                }
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
    fn a_condition_on_more_states_than_a_trait_may_have_is_refused_like_them() {
        let states: Vec<String> = (0..70)
            .map(|at| format!("(id: \"s{at}\", means: \"\")"))
            .collect();
        let text = format!(
            "[(id: \"a\", ask: \"\", look: \"\", kind: OneOf([{}]), effort: Look, mistake: 0.05),\n\
             (id: \"b\", ask: \"\", look: \"\", kind: Share, effort: Look, mistake: 0.05, only_where: \"a=s69\")]",
            states.join(", ")
        );
        let problems = Traits::read("traits.ron", &text).expect_err("too many states");
        let told = problems[0].to_string();
        assert!(
            told.ends_with("found 70 states for \"a\", expected 2 to 60"),
            "{told}"
        );
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
