//! The terms of the list that a word of a table may be meant for.

use super::Terms;
use super::field::Field;
use super::looked_up::looked_up;
use crate::colour::near;

/// What a word is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A form.
    Form,
    /// A size.
    Size,
    /// One colour, or several with their parts.
    Colour,
    /// A heading.
    Heading,
}

impl Kind {
    pub(super) const ALL: [Kind; 4] = [Kind::Form, Kind::Size, Kind::Colour, Kind::Heading];

    /// The word on the command line.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Form => "form",
            Kind::Size => "size",
            Kind::Colour => "colour",
            Kind::Heading => "heading",
        }
    }
}

/// The terms near a word, nearest first: a slip or two away, or with a word in common.
pub(super) fn near_terms(kind: Kind, word: &str, terms: &Terms) -> Vec<String> {
    let all = all(kind, terms);
    let mut found = near(word, all.iter().copied(), 3);
    let wanted = looked_up(word);
    let shared = |term: &&&str| {
        let mut parts = term.split([' ', '-']);
        parts.any(|part| part.len() > 2 && wanted.split([' ', '-', '/']).any(|one| one == part))
    };
    for term in all.iter().filter(shared) {
        if found.len() < 5 && !found.contains(term) {
            found.push(term);
        }
    }
    if found.is_empty() && kind == Kind::Size {
        // There are so few that all can be said.
        found = all;
    }
    found.into_iter().map(str::to_string).collect()
}

/// What was expected of a word, as a clause.
pub(super) fn expected(kind: Kind, word: &str, terms: &Terms) -> String {
    let near = near_terms(kind, word, terms);
    match kind {
        _ if !near.is_empty() => format!("a {} such as {}", kind.word(), near.join(", ")),
        Kind::Form => format!("a form of {}, as trug rules lists them", terms.rules.id),
        Kind::Colour => "a colour word, #rrggbb or lab(L a b)".to_string(),
        Kind::Size | Kind::Heading => format!("one of {}", all(kind, terms).join(", ")),
    }
}

fn all<'a>(kind: Kind, terms: &Terms<'a>) -> Vec<&'a str> {
    match kind {
        Kind::Form => terms
            .rules
            .forms
            .iter()
            .map(|form| form.id.as_str())
            .collect(),
        Kind::Size => {
            let words = terms.rules.size_words.iter();
            words.map(|(word, _)| word.as_str()).collect()
        }
        Kind::Colour => {
            let words = terms.colours.words().iter();
            words.flat_map(|word| word.spellings()).collect()
        }
        Kind::Heading => Field::ALL.iter().map(|field| field.heading()).collect(),
    }
}
