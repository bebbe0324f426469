//! Words with typos: which names hold every word of a query, one slip of the keyboard forgiven.
//!
//! A query word is found in a name (or its raiser) where it is a part of one of the words, or, from
//! four letters on, where it is the beginning of one but for one slip: a letter mistaken, missing,
//! doubled or otherwise too many, or two neighbours swapped. Another word never finds more.

use super::text::folded;

/// Slips are forgiven from this many letters on: any two short words are alike but for one slip.
const LEAST_FOR_SLIP: usize = 4;

/// The names of a list, folded once.
#[derive(Debug, Clone, Default)]
pub(super) struct Names {
    text: String,
    /// Where each name's text ends.
    ends: Vec<usize>,
    /// Which letters each name has.
    letters: Vec<u64>,
}

/// A query, folded and split at spaces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    words: Vec<(String, u64)>,
}

impl Names {
    /// Adds a name with what else is searched beside it.
    pub(super) fn push(&mut self, parts: &[&str]) {
        let start = self.text.len();
        for (at, part) in parts.iter().enumerate() {
            self.text.push_str(if at > 0 { " " } else { "" });
            self.text.push_str(&folded(part));
        }
        self.ends.push(self.text.len());
        self.letters.push(letters(&self.text[start..]));
    }

    /// The folded text of a row.
    pub(super) fn get(&self, row: usize) -> &str {
        let start = row.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.text[start..self.ends[row]]
    }

    /// Whether every word of the query is found in the row.
    pub(super) fn matches(&self, row: usize, query: &Query) -> bool {
        // One slip brings in at most one letter that the name does not have.
        let known = |(_, wanted): &(String, u64)| (wanted & !self.letters[row]).count_ones() <= 1;
        query.words.iter().all(known) && query.found_in(self.get(row))
    }
}

impl Query {
    /// Reads a query; without words it finds everything.
    pub fn new(text: &str) -> Query {
        let text = folded(text);
        let words = text.split_whitespace();
        Query {
            words: words
                .map(|word| (word.to_string(), letters(word)))
                .collect(),
        }
    }

    /// Whether `text`, which is folded, holds every word as it was typed.
    pub fn held_by(&self, text: &str) -> bool {
        self.words
            .iter()
            .all(|(word, _)| text.contains(word.as_str()))
    }

    /// Whether every word is found in `text`, which is folded.
    pub fn found_in(&self, text: &str) -> bool {
        let found = |(word, _): &(String, u64)| {
            text.contains(word.as_str())
                || text
                    .split([' ', '-', '\''])
                    .any(|other| begins_but_for_a_slip(word, other))
        };
        self.words.iter().all(found)
    }
}

/// Whether `word` is a beginning of `other` but for one slip.
fn begins_but_for_a_slip(word: &str, other: &str) -> bool {
    if word.is_ascii() && other.is_ascii() {
        return slip(word.as_bytes(), other.as_bytes());
    }
    let characters = |text: &str| text.chars().collect::<Vec<char>>();
    slip(&characters(word), &characters(other))
}

fn slip<T: PartialEq>(word: &[T], other: &[T]) -> bool {
    if word.len() < LEAST_FOR_SLIP {
        return false;
    }
    let alike = word.iter().zip(other).take_while(|(a, b)| a == b).count();
    let (rest, left) = (&word[alike..], &other[alike..]);
    if rest.is_empty() {
        return true;
    }
    let after = |skip: usize| rest.get(skip..).unwrap_or_default();
    let swapped = match (rest, left) {
        ([a, b, ..], [c, d, ..]) => a == d && b == c && left[2..].starts_with(after(2)),
        _ => false,
    };
    // Too many, mistaken, missing, swapped.
    left.starts_with(after(1))
        || left.get(1..).is_some_and(|left| left.starts_with(after(1)))
        || left.get(1..).is_some_and(|left| left.starts_with(rest))
        || swapped
}

/// The letters of a folded text as a set: a to z, digits, all else by its low bits.
fn letters(text: &str) -> u64 {
    let bit = |c: char| match c {
        ' ' => 0,
        'a'..='z' => 1 << (c as u64 - 'a' as u64),
        '0'..='9' => 1 << (26 + c as u64 - '0' as u64),
        _ => 1 << (36 + c as u64 % 28),
    };
    text.chars().fold(0, |set, c| set | bit(c))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn found(query: &str, name: &str) -> bool {
        let mut names = Names::default();
        names.push(&[name]);
        names.matches(0, &Query::new(query))
    }

    #[test]
    fn parts_of_words_in_any_order_are_found() {
        for query in [
            "",
            "skerry",
            "lant sker",
            "RRY",
            "lántern",
            "s l",
            "lantern skerry",
        ] {
            assert!(found(query, "Skerry Lantern"), "{query}");
        }
        assert!(!found("skerry lamp", "Skerry Lantern"));
    }

    #[test]
    fn one_slip_is_forgiven_and_two_are_not() {
        for query in [
            "pomopn", "ponpon", "pompn", "pommpon", "pmpon", "opmpon", "xompon", "pomponn", "pomx",
        ] {
            assert!(found(query, "Haaf Pompon"), "{query}");
        }
        for query in ["pmx", "oppmon", "pomxxn", "xxmpon", "pnmopo"] {
            assert!(!found(query, "Haaf Pompon"), "{query}");
        }
    }

    proptest! {
        #[test]
        fn another_word_never_finds_more(a in "[a-f]{0,6}", b in "[a-f]{0,6}", name in "[a-f]{1,6} [a-f]{1,6}") {
            if found(&format!("{a} {b}"), &name) {
                prop_assert!(found(&a, &name) && found(&b, &name));
            }
        }

        #[test]
        fn the_letters_never_hide_a_match(word in "\\PC{1,8}", name in "\\PC{1,12}") {
            let query = Query::new(&word);
            prop_assert_eq!(found(&word, &name), query.found_in(&folded(&name)));
        }

        /// Each kind of slip, made anywhere in a word of four letters and more, is forgiven.
        #[test]
        fn any_one_slip_is_forgiven(word in "[a-z]{4,9}", at in 0_usize..9, letter in proptest::char::range('a', 'z'), kind in 0..4) {
            let mut typed: Vec<char> = word.chars().collect();
            let at = at % typed.len();
            match kind {
                0 => typed[at] = letter,
                1 => typed.insert(at, letter),
                2 if typed.len() > 4 => { typed.remove(at); }
                _ => { let next = (at + 1).min(typed.len() - 1); typed.swap(at, next) }
            }
            let typed: String = typed.into_iter().collect();
            prop_assert!(found(&typed, &word), "{} for {}", typed, word);
        }
    }
}
