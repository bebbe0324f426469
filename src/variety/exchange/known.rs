//! What cells said before: a column of a long list has few forms, colours and lengths, again and
//! again.

use std::cell::RefCell;
use std::collections::HashMap;

use super::Terms;
use super::kind::Kind;
use super::term::{Meaning, meant};
use super::{colours, lengths};
use crate::measure::LengthUnit;
use crate::variety::extent::{Extent, Reach};
use crate::variety::record::ColourNote;

/// Texts that are remembered of one kind: more than a column of lengths has, and no file can fill
/// the memory.
const MOST: usize = 10_000;

/// What was read of cells so far, under the same terms.
pub(super) struct Known<'a> {
    /// The terms that all of it is read by.
    pub(super) terms: &'a Terms<'a>,
    forms: Remembered<(), Option<Meaning>>,
    colours: Remembered<(), Result<Option<Vec<ColourNote>>, Vec<String>>>,
    reaches: Remembered<Option<LengthUnit>, Result<Reach, String>>,
    lengths: Remembered<Option<LengthUnit>, Result<Vec<Extent>, String>>,
}

impl<'a> Known<'a> {
    pub(super) fn new(terms: &'a Terms<'a>) -> Known<'a> {
        Known {
            terms,
            forms: Remembered::default(),
            colours: Remembered::default(),
            reaches: Remembered::default(),
            lengths: Remembered::default(),
        }
    }

    /// The form's id, as [`meant`].
    pub(super) fn form(&self, word: &str) -> Option<Meaning> {
        self.forms
            .of((), word, || meant(Kind::Form, word, self.terms))
    }

    /// As [`colours::read`].
    pub(super) fn colours(&self, cell: &str) -> Result<Option<Vec<ColourNote>>, Vec<String>> {
        self.colours
            .of((), cell, || colours::read(cell, self.terms))
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
