//! The plan's records as a person fills them in: a need, a bed, a supplier's terms, and of the plan
//! itself the season with the money.
//!
//! A field is read by the words that the quick line and the commands take: one grammar.

mod bed;
mod need;
mod season;
mod terms;
mod work;

use super::bed::Bed;
use super::need::Need;
use super::plan::Plan;
use super::terms::Terms;
use super::work::{Pieces, Work};
use crate::measure::SizeUnits;
use crate::measure::day::Calendar;
use crate::problem::{Step, Wrong};
use crate::record::{Field, Figure, Key};
use crate::variety::{IndexContext, Text, Varieties};

pub use season::field_of;

/// What a record of a plan is read against.
#[derive(Debug, Clone, Copy)]
pub struct PlanGround<'a> {
    /// The plan that it is of.
    pub plan: &'a Plan,
    /// Its place among those of its kind there; `None` of a new one.
    pub at: Option<usize>,
    /// Uses, colours and forms.
    pub grounds: IndexContext<'a>,
    /// The grower's list, for its suppliers.
    pub list: &'a Varieties,
    /// The units in which the grower reads lengths.
    pub units: SizeUnits,
    /// What a day that is typed is read by.
    pub days: Calendar,
    /// The pieces that events and rounds are made of.
    pub pieces: &'a Pieces,
    /// The colours that were last looked for in the list.
    pub palette: &'a [Text],
}

impl<'a> PlanGround<'a> {
    /// The same for a record at another place.
    pub fn at(self, at: Option<usize>) -> PlanGround<'a> {
        PlanGround { at, ..self }
    }

    /// The suppliers that the list has offers of, each once, by name.
    fn suppliers(self) -> Vec<&'a str> {
        let offers = self.list.list().iter().flat_map(|one| &one.offers);
        let mut names: Vec<&str> = offers.map(|offer| offer.supplier.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        names
    }
}

impl Plan {
    /// The plan with a need at its place, or behind the others.
    pub fn with_need(&self, need: Need, at: Option<usize>) -> (Plan, usize) {
        let mut plan = self.clone();
        let at = put(&mut plan.needs, need, at);
        (plan, at)
    }

    /// The same with a bed.
    pub fn with_bed(&self, bed: Bed, at: Option<usize>) -> (Plan, usize) {
        let mut plan = self.clone();
        let at = put(&mut plan.beds, bed, at);
        (plan, at)
    }

    /// The same with an event or a round.
    pub fn with_work(&self, work: Work, at: Option<usize>) -> (Plan, usize) {
        let mut plan = self.clone();
        let at = put(&mut plan.work, work, at);
        (plan, at)
    }

    /// The same with a supplier's terms.
    pub fn with_terms(&self, terms: Terms, at: Option<usize>) -> (Plan, usize) {
        let mut plan = self.clone();
        let at = put(&mut plan.suppliers, terms, at);
        (plan, at)
    }
}

fn put<T>(list: &mut Vec<T>, one: T, at: Option<usize>) -> usize {
    match at.filter(|at| *at < list.len()) {
        Some(at) => {
            list[at] = one;
            at
        }
        None => {
            list.push(one);
            list.len() - 1
        }
    }
}

/// What is wrong with one record of a list of the plan: its word and the sentence. `words` are the
/// fields as the file has them, each with its word in a form.
fn wrong_of(
    wrong: Vec<Wrong>,
    (list, at): (&str, usize),
    name: &Text,
    words: &[(&str, &'static str)],
) -> Option<(Key, String)> {
    wrong.into_iter().find_map(|one| {
        let field = match one.at.steps() {
            [Step::Field(own), Step::At(place), Step::Field(field), ..]
                if (*own, *place) == (list, at) =>
            {
                field
            }
            [Step::Field(own), Step::At(place)] if (*own, *place) == (list, at) => "name",
            _ => return None,
        };
        let word = words.iter().find(|(own, _)| own == &field);
        let word = word.map_or("name", |(_, word)| word);
        let message = one.message.strip_prefix(&format!("{name}: "));
        Some((Key::of(word), message.unwrap_or(&one.message).to_string()))
    })
}

/// A text without what stands before its first colon, where that is the field's own name.
fn bare(why: String, word: &str) -> String {
    let own = why.strip_prefix(&format!("{word}: ")).map(str::to_string);
    own.unwrap_or(why)
}

/// A name that none of these has: this one with the next free number behind it, such as `bed 3`.
fn unlike<'a>(name: &str, taken: impl Iterator<Item = &'a Text> + Clone, first: usize) -> Text {
    let is_taken = |name: &str| {
        let name = name.to_lowercase();
        taken.clone().any(|one| one.as_str().to_lowercase() == name)
    };
    let mut numbered = (first..).map(|number| format!("{name} {number}"));
    let free = numbered.find(|name| !is_taken(name));
    let free = free.and_then(|name| Text::cleaned(&name));
    free.expect("a word and a number are a text, and there are more numbers than names")
}

/// The name of a copy: the next number behind the name.
fn copied<'a>(name: &Text, taken: impl Iterator<Item = &'a Text> + Clone) -> Text {
    let bare = name.as_str().trim_end_matches(|c: char| c.is_ascii_digit());
    let bare = match bare.trim_end() {
        "" => name.as_str(),
        bare => bare,
    };
    unlike(bare, taken, 2)
}

/// A field of the form, without what it takes.
fn field(key: Key, group: &'static str, name: &'static str, text: String) -> Field {
    Field {
        key,
        group,
        name,
        text,
        means: "",
        takes: String::new(),
        figure: Figure::Chosen,
    }
}

/// A field with what it means and what it takes.
fn told(field: Field, means: &'static str, takes: impl Into<String>) -> Field {
    Field {
        means,
        takes: takes.into(),
        ..field
    }
}

/// A figure of the grower's, or one that is assumed where nothing stands.
fn or_assumed(field: Field) -> Field {
    let figure = Figure::Assumed;
    Field { figure, ..field }
}

#[cfg(test)]
mod tests;
