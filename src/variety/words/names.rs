//! The names of a list and their raisers, and in which of them a word is.

use std::ops::Range;

use super::lexicon::Lexicon;
use crate::matching::{Name, folded};
use crate::variety::list::Varieties;
use crate::variety::record::Variety;

/// The names of a list and their raisers, folded once.
#[derive(Debug, Clone, Default)]
pub struct Names {
    /// The names, one after the other, and where each ends.
    text: String,
    ends: Vec<u32>,
    /// Of each name its letters, and the first letters of its words.
    letters: Vec<(u64, u64)>,
    lexicon: Lexicon,
    /// The words of each row's name and raiser by their places in the lexicon, and where each row's end.
    words: Vec<u32>,
    word_ends: Vec<u32>,
}

impl Names {
    /// The names of a list.
    pub fn of(list: &Varieties) -> Names {
        let mut names = Names::default();
        for one in list.list() {
            names.push(&one.name, one.raiser.as_deref().unwrap_or_default());
        }
        names
    }

    /// Takes in the name and the raiser of a row; whether the name is another one.
    pub(in crate::variety) fn put(&mut self, row: usize, variety: &Variety) -> bool {
        let (name, raiser) = (&variety.name, variety.raiser.as_deref());
        let (name, raiser) = (folded(name), folded(raiser.unwrap_or_default()));
        let own: Vec<u32> = words(&name, &raiser)
            .map(|word| self.lexicon.place(word))
            .collect();
        let before = span(&self.word_ends, row);
        if self.words[before.clone()] != own {
            shift(&mut self.word_ends[row..], before.len(), own.len());
            self.words.splice(before, own);
        }
        let before = span(&self.ends, row);
        let renamed = self.text[before.clone()] != name;
        if renamed {
            shift(&mut self.ends[row..], before.len(), name.len());
            self.text.replace_range(before, &name);
            self.letters[row] = sets(&name);
        }
        renamed
    }

    pub(super) fn push(&mut self, name: &str, raiser: &str) {
        let (name, raiser) = (folded(name), folded(raiser));
        self.text.push_str(&name);
        self.ends.push(self.text.len() as u32);
        self.letters.push(sets(&name));
        let own = words(&name, &raiser).map(|word| self.lexicon.place(word));
        self.words.extend(own);
        self.word_ends.push(self.words.len() as u32);
    }

    /// Each row's place in the order of names.
    pub(in crate::variety) fn order(&self) -> Vec<u32> {
        let name = |row: usize| &self.text[span(&self.ends, row)];
        // Most names differ early, and a number is compared sooner than a text.
        let early = |row: usize| {
            let mut head = [0; 16];
            let bytes = name(row).as_bytes();
            let kept = bytes.len().min(head.len());
            head[..kept].copy_from_slice(&bytes[..kept]);
            u128::from_be_bytes(head)
        };
        let mut order: Vec<(u128, usize)> =
            (0..self.ends.len()).map(|row| (early(row), row)).collect();
        order.sort_unstable_by(|(a, row), (b, other)| {
            a.cmp(b).then_with(|| name(*row).cmp(name(*other)))
        });
        let mut places = vec![0; order.len()];
        for (place, (_, row)) in (0..).zip(order) {
            places[row] = place;
        }
        places
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    pub(super) fn lexicon(&self) -> &Lexicon {
        &self.lexicon
    }

    /// Which letters the name of a row has.
    pub(super) fn letters_of(&self, row: usize) -> u64 {
        self.letters[row].0
    }

    /// The name of a row, to be looked through.
    pub(super) fn name(&self, row: usize) -> Name<'_> {
        let (letters, firsts) = self.letters[row];
        let text = &self.text[span(&self.ends, row)];
        Name {
            text,
            letters,
            firsts,
        }
    }

    /// The words of a row's name and raiser, by their places in the lexicon.
    pub(super) fn words_of(&self, row: usize) -> &[u32] {
        &self.words[span(&self.word_ends, row)]
    }
}

/// Two are equal where every row has the same words, in whatever order they came to the lexicon.
impl PartialEq for Names {
    fn eq(&self, other: &Names) -> bool {
        let words = |names: &Names| -> Vec<String> {
            let word = |place: &u32| names.lexicon.word(*place).to_string();
            names.words.iter().map(word).collect()
        };
        self.text == other.text
            && self.ends == other.ends
            && self.word_ends == other.word_ends
            && words(self) == words(other)
    }
}

/// The letters of a folded name, and the first letters of its words.
fn sets(name: &str) -> (u64, u64) {
    let Name {
        letters, firsts, ..
    } = Name::of(name);
    (letters, firsts)
}

/// The words of a folded name and raiser.
fn words<'a>(name: &'a str, raiser: &'a str) -> impl Iterator<Item = &'a str> {
    let words = name.split(' ').chain(raiser.split(' '));
    words.filter(|word| !word.is_empty())
}

/// Where what is of a row stands, in a run of which each row's part ends so.
fn span(ends: &[u32], row: usize) -> Range<usize> {
    let before = row.checked_sub(1).map(|before| ends[before]);
    before.unwrap_or_default() as usize..ends[row] as usize
}

/// The ends as they are once the first part is so long in place of what it was.
fn shift(ends: &mut [u32], before: usize, after: usize) {
    if before != after {
        let shifted = ends.iter_mut();
        shifted.for_each(|end| *end = *end - before as u32 + after as u32);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::{Finder, Folded, Query, letters};
    use proptest::prelude::*;

    proptest! {
        /// The words of all names together find what each name by itself does.
        #[test]
        fn rows_are_found_together_as_one_by_one(named in prop::collection::vec(("[ab]{0,4}([ '-][ab]{1,5})?", "[ab]{0,6}"), 0..80), word in "[ab][ab'-]{0,5}") {
            let mut names = Names::default();
            named.iter().for_each(|(name, raiser)| names.push(name, raiser));
            let query = Query::new(&word);
            let together = names.look_up(&query.words()[0]);
            for (row, (name, raiser)) in named.iter().enumerate() {
                let of_name = Finder::of(&query).rank(&Folded::of(name), "");
                // Of a raiser neither first letters nor letters in order are looked for.
                let word = &query.words()[0];
                let with_a_slip = || word.with_a_slip(raiser, letters(raiser));
                let of_raiser = word.as_typed(raiser).or_else(with_a_slip);
                let alone = of_name.into_iter().chain(of_raiser).min();
                prop_assert_eq!(together.rank(row), alone, "{} {}", name, raiser);
            }
        }
    }
}
