//! A set of rows of the list, one bit a row.

/// Fewer rows are worked on before a thread has started.
pub(super) const ROWS_A_THREAD: usize = 1_000;

/// Rows of a list of a fixed length.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Rows {
    words: Vec<u64>,
    length: usize,
}

impl Rows {
    /// Every row of a list of this length.
    pub fn all(length: usize) -> Rows {
        Rows::none(length).others()
    }

    /// No row of a list of this length.
    pub fn none(length: usize) -> Rows {
        Rows {
            words: vec![0; length.div_ceil(64)],
            length,
        }
    }

    /// The rows for which `holds`.
    pub fn of(length: usize, holds: impl Fn(usize) -> bool) -> Rows {
        let word = |at: usize| {
            let rows = at * 64..length.min(at * 64 + 64);
            rows.fold(0_u64, |word, row| {
                word | u64::from(holds(row)) << (row % 64)
            })
        };
        Rows {
            words: (0..length.div_ceil(64)).map(word).collect(),
            length,
        }
    }

    /// One row of a list of this length.
    pub fn only(length: usize, row: usize) -> Rows {
        let mut rows = Rows::none(length);
        rows.put(row, true);
        rows
    }

    /// Puts a row of the list into the set, or takes it out.
    pub fn put(&mut self, row: usize, within: bool) {
        let (word, bit) = (&mut self.words[row / 64], 1 << (row % 64));
        match within {
            true => *word |= bit,
            false => *word &= !bit,
        }
    }

    /// Keeps the rows for which `holds`, and asks of no others.
    pub fn retain(&mut self, mut holds: impl FnMut(usize) -> bool) {
        for (at, word) in self.words.iter_mut().enumerate() {
            let mut left = *word;
            while left != 0 {
                let bit = left.trailing_zeros() as usize;
                left &= left - 1;
                if !holds(at * 64 + bit) {
                    *word &= !(1 << bit);
                }
            }
        }
    }

    /// Keeps the rows that are in `other` too. Both are of the same list.
    pub fn keep(&mut self, other: &Rows) {
        for (word, other) in self.words.iter_mut().zip(&other.words) {
            *word &= other;
        }
    }

    /// Those of the rows that are not in `other`. Both are of the same list.
    pub fn without(&self, other: &Rows) -> Rows {
        let words = self.words.iter().zip(&other.words);
        Rows {
            words: words.map(|(word, other)| word & !other).collect(),
            length: self.length,
        }
    }

    /// Takes in the rows that are in `other`. Both are of the same list.
    pub fn add(&mut self, other: &Rows) {
        for (word, other) in self.words.iter_mut().zip(&other.words) {
            *word |= other;
        }
    }

    /// The rows that are not in the set.
    pub fn others(&self) -> Rows {
        let mut words: Vec<u64> = self.words.iter().map(|word| !word).collect();
        let used = self.length % 64;
        if let (Some(last), true) = (words.last_mut(), used > 0) {
            *last &= (1 << used) - 1;
        }
        Rows {
            words,
            length: self.length,
        }
    }

    /// Whether the row is in the set.
    pub fn has(&self, row: usize) -> bool {
        self.words
            .get(row / 64)
            .is_some_and(|word| word >> (row % 64) & 1 == 1)
    }

    /// How many rows there are.
    pub fn count(&self) -> usize {
        self.words
            .iter()
            .map(|word| word.count_ones() as usize)
            .sum()
    }

    /// The rows, rising.
    pub fn iter(&self) -> impl Iterator<Item = usize> + '_ {
        self.words.iter().enumerate().flat_map(|(at, word)| {
            let mut word = *word;
            std::iter::from_fn(move || {
                let bit = word.trailing_zeros() as usize;
                word &= word.wrapping_sub(1);
                (bit < 64).then_some(at * 64 + bit)
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_what_was_put_in() {
        for length in [0, 1, 63, 64, 65, 200] {
            let thirds = Rows::of(length, |row| row % 3 == 0);
            let expected: Vec<usize> = (0..length).filter(|row| row % 3 == 0).collect();
            assert_eq!(thirds.iter().collect::<Vec<_>>(), expected);
            assert_eq!(thirds.count(), expected.len());
            assert_eq!(Rows::all(length), Rows::of(length, |_| true));
            assert_eq!(Rows::none(length), Rows::of(length, |_| false));
            let mut more = Rows::of(length, |row| row % 3 == 1);
            more.add(&thirds);
            assert_eq!(more, Rows::of(length, |row| row % 3 < 2));
            let mut both = Rows::all(length);
            both.keep(&thirds);
            assert_eq!(both, thirds);
            both.retain(|row| row % 2 == 0);
            assert_eq!(both, Rows::of(length, |row| row % 6 == 0));
            assert!(!both.has(length));
            let odd = Rows::of(length, |row| row % 6 == 3);
            assert_eq!(thirds.without(&both), odd);
            assert_eq!(thirds.others(), Rows::of(length, |row| row % 3 != 0));
            for row in 0..length {
                assert_eq!(Rows::only(length, row), Rows::of(length, |one| one == row));
                let mut without = thirds.clone();
                without.put(row, false);
                let others = Rows::of(length, |one| one % 3 == 0 && one != row);
                assert_eq!(without, others);
            }
        }
    }
}
