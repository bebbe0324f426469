//! The terms of the list, and what a word of a table stands for.

use super::Terms;
use super::colours;
use super::field::Field;
use super::kind::Kind;
use super::looked_up::tight;
use super::nearest::nearest;
use super::own_words::UNKNOWN;
use super::spellings;
use crate::colour::{Pattern, either_way, pattern_named};
use crate::variety::record::Foliage;

/// What a word stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Meaning {
    /// This term.
    Term(String),
    /// No term: the grower's words say so.
    Left,
}

/// Terms that are offered for a word, at most.
const MOST_OFFERED: usize = 5;

/// What a word stands for: by the grower's own words, else as the list or the trade has it; `None` of a word
/// that nobody knows, or that may mean either of several.
pub(super) fn meant(kind: Kind, word: &str, terms: &Terms) -> Option<Meaning> {
    match terms.own.find(kind, word) {
        Some(UNKNOWN) => Some(Meaning::Left),
        Some(term) => term_of(kind, term, terms).map(Meaning::Term),
        None => term_of(kind, word, terms).map(Meaning::Term),
    }
}

/// The term that is spelt so, by the list or by the trade.
pub(super) fn term_of(kind: Kind, word: &str, terms: &Terms) -> Option<String> {
    let wanted = tight(word);
    let own = spelt(kind, terms)
        .into_iter()
        .find(|(spelt, _)| tight(spelt) == wanted);
    if let Some((_, term)) = own {
        return Some(term.to_string());
    }
    if kind == Kind::Pattern {
        return pattern_named(word).map(|one| one.word().to_string());
    }
    match &open(kind, spellings::meanings(kind, word), terms)[..] {
        [one] => Some((*one).to_string()),
        _ => None,
    }
}

/// The terms near a word, best first.
pub(super) fn near_terms(kind: Kind, word: &str, terms: &Terms) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    if kind == Kind::Colour {
        let both = either_way(word).into_iter().flatten();
        found.extend(both.filter(|one| colours::listed(one, terms).is_ok()));
    }
    let several = open(kind, spellings::meanings(kind, word), terms);
    found.extend(several.into_iter().map(str::to_string));
    let spelt = spelt(kind, terms);
    let of_trade = spellings::of_kind(kind).flat_map(|(spelling, means)| {
        let open = open(kind, means, terms);
        open.into_iter().map(move |term| (spelling, term))
    });
    for term in nearest(word, spelt.iter().copied().chain(of_trade), MOST_OFFERED) {
        if found.len() < MOST_OFFERED && !found.iter().any(|one| one == term) {
            found.push(term.to_string());
        }
    }
    if found.is_empty() && matches!(kind, Kind::Size | Kind::Foliage | Kind::Pattern) {
        // There are so few that all can be said.
        found = all(kind, terms);
    }
    found
}

/// What was expected of a word, as a clause.
pub(super) fn expected(kind: Kind, word: &str, terms: &Terms) -> String {
    let near = near_terms(kind, word, terms);
    match kind {
        _ if !near.is_empty() => format!("a {} such as {}", kind.word(), near.join(", ")),
        Kind::Form => format!("a form of {}, as trug rules lists them", terms.rules.id),
        Kind::Colour => "a colour word, #rrggbb or lab(L a b)".to_string(),
        _ => format!("one of {}", all(kind, terms).join(", ")),
    }
}

/// Every term of a kind once, in its own order.
pub(super) fn all(kind: Kind, terms: &Terms) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for (_, term) in spelt(kind, terms) {
        if all.last().is_none_or(|last| last != term) {
            all.push(term.to_string());
        }
    }
    all
}

/// Those of the terms that this list has.
fn open<'a>(kind: Kind, means: &'a [String], terms: &Terms) -> Vec<&'a str> {
    let known = |term: &&'a str| match kind {
        Kind::Form => terms.rules.find(term).is_some(),
        Kind::Size => terms.rules.size_words.iter().any(|(word, _)| word == term),
        _ => true,
    };
    means.iter().map(String::as_str).filter(known).collect()
}

/// The terms of a kind as the list spells them, each with the term: those of one term together.
fn spelt<'a>(kind: Kind, terms: &Terms<'a>) -> Vec<(&'a str, &'a str)> {
    let same = |one: &'a str| (one, one);
    match kind {
        Kind::Form => {
            let forms = terms.rules.forms.iter();
            let both = forms
                .map(|form| [&form.id, &form.name].map(|one| (one.as_str(), form.id.as_str())));
            both.flatten().collect()
        }
        Kind::Size => {
            let words = terms.rules.size_words.iter();
            words.map(|(word, _)| same(word)).collect()
        }
        Kind::Colour => {
            let words = terms.colours.words().iter();
            let each = |word: &'a crate::colour::Word| {
                word.spellings().map(|one| (one, word.word.as_str()))
            };
            words.flat_map(each).collect()
        }
        Kind::Foliage => Foliage::ALL.map(|one| same(one.word())).to_vec(),
        Kind::Pattern => Pattern::ALL.map(|one| same(one.word())).to_vec(),
        Kind::Heading => Field::spellings()
            .map(|(spelt, field)| (spelt, field.heading()))
            .collect(),
    }
}
