//! One word of a query, looked up in the names of a list.

use super::names::Names;
use crate::matching::{InOrder, Rank, Word};

/// A word of a query, and how it is in each word that the names share: each of those is compared with it
/// once, and a row only looks its own up.
#[derive(Debug)]
pub(in crate::variety) struct WordInNames<'a> {
    names: &'a Names,
    word: &'a Word,
    /// By place in the lexicon.
    shared: Vec<Option<Rank>>,
    in_order: InOrder,
}

impl Names {
    /// Looks a word of a query up.
    pub(in crate::variety) fn look_up<'a>(&'a self, word: &'a Word) -> WordInNames<'a> {
        WordInNames {
            names: self,
            word,
            shared: self.lexicon().ranks(word),
            in_order: InOrder::default(),
        }
    }
}

impl WordInNames<'_> {
    /// How the word is in the name or the raiser of a row.
    pub(in crate::variety) fn rank(&self, row: usize) -> Option<Rank> {
        let own = self.names.words_of(row).iter();
        let own = own.filter_map(|place| self.shared[*place as usize]).min();
        let best = own.is_some_and(|own| own <= Rank::INITIALS);
        if best || !self.word.may_spread(self.names.letters_of(row)) {
            return own;
        }
        self.word.spread(self.names.name(row), own, &self.in_order)
    }
}
