//! What cells said before: a column of a long list has few forms, colours and lengths, again and
//! again.

use std::cell::RefCell;
use std::collections::HashMap;

use super::Terms;
use super::looked_up::looked_up;
use super::own_words::UNKNOWN;
use super::term::Kind;
use super::{cell, lengths};
use crate::measure::LengthUnit;
use crate::variety::extent::{Extent, Reach};
use crate::variety::record::ColourNote;

/// Texts that are remembered of one kind: more than a column of lengths has, and no file can fill
/// the memory.
const MOST: usize = 10_000;

/// What a word stands for.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Meaning<T> {
    /// One of the terms.
    Term(T),
    /// Nothing: the grower said so.
    Nothing,
    /// Nobody said.
    Unknown,
}

/// What was read of cells so far, under the same terms.
pub(super) struct Known<'a> {
    terms: &'a Terms<'a>,
    /// The rule set's forms by id and by name, as they are looked up.
    spellings: HashMap<String, usize>,
    forms: Remembered<(), Meaning<usize>>,
    colours: Remembered<(), Meaning<Vec<ColourNote>>>,
    reaches: Remembered<Option<LengthUnit>, Result<Reach, String>>,
    lengths: Remembered<Option<LengthUnit>, Result<Vec<Extent>, String>>,
}

impl<'a> Known<'a> {
    pub(super) fn new(terms: &'a Terms<'a>) -> Known<'a> {
        let mut spellings = HashMap::new();
        for (at, form) in terms.rules.forms.iter().enumerate() {
            for spelling in [&form.id, &form.name] {
                spellings.entry(spelt(spelling)).or_insert(at);
            }
        }
        Known {
            terms,
            spellings,
            forms: Remembered::default(),
            colours: Remembered::default(),
            reaches: Remembered::default(),
            lengths: Remembered::default(),
        }
    }

    /// The form by the grower's word, or by its id or name.
    pub(super) fn form(&self, word: &str) -> Meaning<usize> {
        self.forms.of((), word, || {
            let term = self.terms.own.find(Kind::Form, word);
            match self.spellings.get(&spelt(term.unwrap_or(word))) {
                Some(at) => Meaning::Term(*at),
                None if term == Some(UNKNOWN) => Meaning::Nothing,
                None => Meaning::Unknown,
            }
        })
    }

    /// A cell's colours, by the grower's words or the trade's.
    pub(super) fn colours(&self, cell: &str) -> Meaning<Vec<ColourNote>> {
        self.colours.of((), cell, || {
            let term = self.terms.own.find(Kind::Colour, cell);
            if term == Some(UNKNOWN) {
                return Meaning::Nothing;
            }
            let found = cell::colours(term.unwrap_or(cell), self.terms);
            found.map_or(Meaning::Unknown, Meaning::Term)
        })
    }

    /// As [`lengths::reach`].
    pub(super) fn reach(&self, cell: &str, unit: Option<LengthUnit>) -> Result<Reach, String> {
        self.reaches.of(unit, cell, || lengths::reach(cell, unit))
    }

    /// As [`lengths::lengths`].
    pub(super) fn lengths(
        &self,
        cell: &str,
        unit: Option<LengthUnit>,
    ) -> Result<Vec<Extent>, String> {
        self.lengths.of(unit, cell, || lengths::lengths(cell, unit))
    }
}

fn spelt(text: &str) -> String {
    looked_up(&text.replace(['-', '_'], " "))
}

/// What texts mean, each worked out once under each of a few conditions.
struct Remembered<C, T>(RefCell<Vec<(C, HashMap<String, T>)>>);

impl<C: PartialEq, T: Clone> Remembered<C, T> {
    fn of(&self, under: C, text: &str, meaning: impl FnOnce() -> T) -> T {
        let mut all = self.0.borrow_mut();
        let at = all.iter().position(|(one, _)| *one == under);
        let at = at.unwrap_or_else(|| {
            all.push((under, HashMap::new()));
            all.len() - 1
        });
        let known = &mut all[at].1;
        if let Some(known) = known.get(text) {
            return known.clone();
        }
        let meaning = meaning();
        if known.len() < MOST {
            known.insert(text.to_string(), meaning.clone());
        }
        meaning
    }
}

impl<C, T> Default for Remembered<C, T> {
    fn default() -> Self {
        Remembered(RefCell::default())
    }
}
