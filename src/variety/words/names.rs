//! The names of a list and their raisers, and in which of them a word is.

use memchr::memmem::Finder;

use super::{Word, letters};
use crate::variety::bits::Rows;
use crate::variety::list::Varieties;
use crate::variety::record::Variety;
use crate::variety::text::folded;

/// One row of so many is looked at by itself sooner than all names as one text.
const FEW: usize = 8;

/// The names of a list and their raisers, folded once.
#[derive(Debug, Clone, PartialEq, Default)]
pub(in crate::variety) struct Names {
    text: String,
    /// Where each name ends, and where its raiser does.
    ends: Vec<(u32, u32)>,
    /// Which letters each name has.
    letters: Vec<u64>,
}

impl Names {
    /// The names of a list.
    pub(in crate::variety) fn of(list: &Varieties) -> Names {
        let mut names = Names::default();
        for one in list.list() {
            names.push(&one.name, one.raiser.as_deref().unwrap_or_default());
        }
        names
    }

    /// Takes in the name and the raiser of a row; whether the name is another one.
    pub(in crate::variety) fn put(&mut self, row: usize, variety: &Variety) -> bool {
        let mut one = Names::default();
        let raiser = variety.raiser.as_deref().unwrap_or_default();
        one.push(&variety.name, raiser);
        let (start, (name_end, end)) = (self.start(row), self.ends[row]);
        let renamed = self.text[start..name_end as usize] != one.text[..one.ends[0].0 as usize];
        if self.text[start..end as usize] == one.text {
            return renamed;
        }
        self.text.replace_range(start..end as usize, &one.text);
        self.letters[row] = one.letters[0];
        let (before, after) = (end - start as u32, one.ends[0].1);
        self.ends[row] = (start as u32 + one.ends[0].0, start as u32 + after);
        for (name, raiser) in &mut self.ends[row + 1..] {
            *name = *name - before + after;
            *raiser = *raiser - before + after;
        }
        renamed
    }

    pub(super) fn push(&mut self, name: &str, raiser: &str) {
        let start = self.text.len();
        self.text.push_str(&folded(name));
        let name_end = self.text.len() as u32;
        self.text.push(' ');
        self.text.push_str(&folded(raiser));
        self.ends.push((name_end, self.text.len() as u32));
        self.letters.push(letters(&self.text[start..]));
    }

    /// Each row's place in the order of names.
    pub(in crate::variety) fn order(&self) -> Vec<u32> {
        let name = |row: usize| &self.text[self.start(row)..self.ends[row].0 as usize];
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

    fn start(&self, row: usize) -> usize {
        let before = row.checked_sub(1).map(|before| self.ends[before].1);
        before.unwrap_or_default() as usize
    }

    /// Those of `rows` that [hold](Names::holds) the word.
    pub(in crate::variety) fn holding(&self, rows: &Rows, word: &Word, forgiving: bool) -> Rows {
        let mut found = rows.clone();
        if rows.count() < self.ends.len() / FEW {
            found.retain(|row| self.holds(row, word, forgiving));
            return found;
        }
        found.keep(&self.with_part(&word.text));
        if forgiving && word.may_slip() {
            let mut others = found.others();
            others.keep(rows);
            others.retain(|row| self.slips(row, word));
            found.add(&others);
        }
        found
    }

    /// The rows of which a word is a part, found in all names as one text.
    fn with_part(&self, word: &str) -> Rows {
        let mut found = Rows::none(self.ends.len());
        let finder = Finder::new(word);
        let (text, mut row, mut from) = (self.text.as_bytes(), 0, 0);
        while let Some(at) = finder.find(&text[from..]) {
            let start = from + at;
            while self.ends[row].1 as usize <= start {
                row += 1;
            }
            let end = self.ends[row].1 as usize;
            // What begins in one row and ends in the next is in neither.
            let within = start + word.len() <= end;
            from = if within { end } else { start + 1 };
            if within {
                found.put(row, true);
            }
        }
        found
    }

    fn slips(&self, row: usize, word: &Word) -> bool {
        // One slip brings in at most one letter that the name does not have.
        (word.letters & !self.letters[row]).count_ones() <= 1
            && word.begins_but_for_a_slip(self.words_of(row))
    }

    fn words_of(&self, row: usize) -> &str {
        &self.text[self.start(row)..self.ends[row].1 as usize]
    }

    /// Whether the word is a part of the row's name or raiser, or the beginning of one of their
    /// words but for one slip where `forgiving`.
    pub(in crate::variety) fn holds(&self, row: usize, word: &Word, forgiving: bool) -> bool {
        let has_letters = word.letters & !self.letters[row] == 0;
        has_letters && self.words_of(row).contains(&word.text)
            || forgiving && word.may_slip() && self.slips(row, word)
    }
}

#[cfg(test)]
mod tests {
    use super::super::Query;
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// All names as one text find what each by itself finds.
        #[test]
        fn rows_are_found_together_as_one_by_one(named in prop::collection::vec(("[ab]{0,4}( [ab]{1,3})?", "[ab]{0,5}"), 0..80), word in "[ab]{1,5}") {
            let mut names = Names::default();
            named.iter().for_each(|(name, raiser)| names.push(name, raiser));
            let query = Query::new(&word);
            for (some, forgiving) in [(1, true), (1, false), (3, true), (11, false)] {
                let rows = Rows::of(named.len(), |row| row % some == 0);
                let mut one_by_one = rows.clone();
                one_by_one.retain(|row| names.holds(row, &query.words[0], forgiving));
                prop_assert_eq!(names.holding(&rows, &query.words[0], forgiving), one_by_one);
            }
        }
    }
}
