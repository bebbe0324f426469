//! An entry as it is told to a person. What is typed and kept stands in [`print`](super::print).

use std::fmt::Display;

use crate::colour::Part;
use crate::form::phrase::answer_said;
use crate::form::{Answers, Traits};
use crate::measure::{Length, SizeUnits};
use crate::trial::entry::{Entry, Observation, Shade, Visits, What};
use crate::variety::{Extent, Weather};

impl Entry {
    /// The entry with its day and who made it: `2026-08-20, Ann: 66, 72 mm across; edges rolled forward`.
    /// Lengths are told as they were typed.
    pub fn told(&self, traits: &Traits) -> String {
        let by = self
            .by
            .as_ref()
            .map_or(String::new(), |by| format!(", {by}"));
        format!("{}{by}: {}", self.date, self.what_told(traits))
    }

    /// What it tells, its day apart.
    pub fn what_told(&self, traits: &Traits) -> String {
        match &self.what {
            What::Observed(seen) => seen.told(traits).join("; "),
            What::Decided(decision) => {
                let why = decision.reason.as_ref();
                let why = why.map_or(String::new(), |why| format!(": {why}"));
                format!("{}{why}", decision.fate.done())
            }
            What::Withdrawn => "withdrawn".to_string(),
        }
    }
}

impl Observation {
    /// Each thing that was seen.
    fn told(&self, traits: &Traits) -> Vec<String> {
        let mut told = Vec::new();
        let mut say = |one: Option<String>| told.extend(one);
        say(lengths(&self.diameters).map(|all| format!("{all} across")));
        say(listed(self.colours.iter().map(shade)));
        say(lengths(&self.stems).map(|all| format!("stems {all}")));
        say(lengths(self.height.as_slice()).map(|all| format!("height {all}")));
        say(self.open.map(|count| format!("{count} open")));
        say(listed(&self.vase).map(|days| format!("in the vase {days} days")));
        say(listed(self.weather.iter().map(damage)));
        let visits = |seen: Visits| format!("{} visits in {} minutes", seen.count, seen.minutes);
        say(self.visits.map(visits));
        say(self.tubers.map(|count| format!("{count} tubers")));
        say(self.sound.map(|count| format!("{count} sound in spring")));
        say(self.plants.map(|count| format!("{count} plants standing")));
        say(self.cut.map(|count| format!("{count} stems cut")));
        say(self.novelty.map(|own| match own {
            true => "a form of its own".to_string(),
            false => "no form of its own".to_string(),
        }));
        let bloom = self.bloom.as_deref().unwrap_or_default();
        for pair in bloom.split_whitespace() {
            let read = Answers::read_pair(pair, traits);
            let said = read.map(|(at, one)| answer_said(traits.get(at), &one, SizeUnits::Mm));
            say(Some(said.unwrap_or_else(|_| pair.replace('=', " "))));
        }
        say(self
            .note
            .as_ref()
            .map(|note| format!("{:?}", note.as_str())));
        told
    }
}

/// Lengths as they were typed, the unit once where it is one: `66, 72 mm`.
fn lengths(list: &[Extent]) -> Option<String> {
    let apart = |length: Length| {
        let text = length.to_string();
        let at = text.find(char::is_alphabetic).unwrap_or(text.len());
        let (number, unit) = text.split_at(at);
        (number.to_string(), unit.to_string())
    };
    let all: Vec<(String, String)> = list.iter().map(|one| apart(one.length())).collect();
    let (_, unit) = all.last()?;
    let one_unit = all.iter().all(|(_, own)| own == unit);
    let told = all.iter().map(|(number, own)| match one_unit {
        true => number.clone(),
        false => format!("{number} {own}"),
    });
    let told = listed(told)?;
    Some(match one_unit {
        true => format!("{told} {unit}"),
        false => told,
    })
}

fn shade(shade: &Shade) -> String {
    match shade.part {
        Part::Main => shade.colour.to_string(),
        part => format!("{} {}", part.word(), shade.colour),
    }
}

fn damage(seen: &Weather) -> String {
    format!(
        "{} damaged {} of {}",
        seen.kind.word(),
        seen.damaged,
        seen.open
    )
}

fn listed<T: Display>(list: impl IntoIterator<Item = T>) -> Option<String> {
    let list: Vec<String> = list.into_iter().map(|one| one.to_string()).collect();
    (!list.is_empty()).then(|| list.join(", "))
}
