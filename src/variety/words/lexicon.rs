//! The words that a list's names are made of: each is held once and looked at once for a query,
//! however many names have it.

use std::hash::BuildHasher;
use std::ops::Range;

use hashbrown::{DefaultHashBuilder, HashTable};
use memchr::memmem::Finder;

use crate::matching::{Rank, Word, letters};

/// Folded words without spaces, in the order in which they came.
#[derive(Debug, Clone, Default)]
pub(super) struct Lexicon {
    /// Each word and a space.
    text: String,
    /// Where each word ends.
    ends: Vec<u32>,
    /// Which letters each word has.
    letters: Vec<u64>,
    places: HashTable<u32>,
    hasher: DefaultHashBuilder,
}

impl Lexicon {
    /// The word's place; a word that is not there yet is taken in.
    pub(super) fn place(&mut self, word: &str) -> u32 {
        let hash = self.hasher.hash_one(word);
        let is_it = |place: &u32| self.word(*place) == word;
        if let Some(place) = self.places.find(hash, is_it) {
            return *place;
        }
        let place = self.ends.len() as u32;
        self.text.push_str(word);
        self.ends.push(self.text.len() as u32);
        self.text.push(' ');
        self.letters.push(letters(word));
        let (text, ends, hasher) = (&self.text, &self.ends, &self.hasher);
        let hash_of = |place: &u32| hasher.hash_one(&text[span(ends, *place as usize)]);
        self.places.insert_unique(hash, place, hash_of);
        place
    }

    /// The word at a place.
    pub(super) fn word(&self, place: u32) -> &str {
        &self.text[span(&self.ends, place as usize)]
    }

    /// How a word of a query is in each of these, by place: as it was typed, or with a slip.
    pub(super) fn ranks(&self, word: &Word) -> Vec<Option<Rank>> {
        let mut ranks = vec![None; self.ends.len()];
        let finder = Finder::new(word.text());
        let (text, mut place, mut from) = (self.text.as_bytes(), 0, 0);
        // OK because a word of a query has no space: what is found is within one word.
        while let Some(at) = finder.find(&text[from..]) {
            place += self.ends[place..].partition_point(|end| *end as usize <= from + at);
            ranks[place] = word.as_typed(self.word(place as u32));
            from = self.ends[place] as usize;
        }
        if word.may_slip() {
            for (place, own) in ranks.iter_mut().enumerate() {
                if own.is_none() {
                    *own = word.with_a_slip(self.word(place as u32), self.letters[place]);
                }
            }
        }
        ranks
    }
}

/// Where the text at a place is, of texts that end so; a space is between two.
fn span(ends: &[u32], place: usize) -> Range<usize> {
    let before = place.checked_sub(1).map(|before| ends[before] + 1);
    before.unwrap_or_default() as usize..ends[place] as usize
}
