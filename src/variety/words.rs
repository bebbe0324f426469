//! Words with typos: which names hold every word of a query, one slip of the keyboard forgiven.
//!
//! A query word is found in a name (or its raiser) where it is a part of one of the words, or, from
//! four letters on, where it is the beginning of one but for one slip: a letter mistaken, missing,
//! doubled or otherwise too many, or two neighbours swapped. Another word never finds more.

mod lexicon;
mod names;

use super::text::folded;
pub(super) use names::Names;

/// Slips are forgiven from this many letters on: any two short words are alike but for one slip.
const LEAST_FOR_SLIP: usize = 4;

/// A query, split at spaces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    words: Vec<Word>,
}

/// One word of a query, folded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Word {
    text: String,
    letters: u64,
}

/// How a word of a query is in a text, the best last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) enum Match {
    /// Not at all.
    #[default]
    None,
    /// One slip forgiven.
    ButForASlip,
    /// As it was typed.
    AsTyped,
}

impl Query {
    /// Reads a query; without words it finds everything.
    pub fn new(text: &str) -> Query {
        let text = folded(text);
        let word = |text: &str| Word {
            text: text.to_string(),
            letters: letters(text),
        };
        Query {
            words: text.split_whitespace().map(word).collect(),
        }
    }

    pub(super) fn words(&self) -> &[Word] {
        &self.words
    }
}

impl Word {
    /// Whether it is long enough for a slip to be forgiven.
    fn may_slip(&self) -> bool {
        self.text.chars().nth(LEAST_FOR_SLIP - 1).is_some()
    }

    /// How `text`, which is folded, or one of its words begins so.
    pub(super) fn begins(&self, text: &str) -> Match {
        let as_typed =
            text.starts_with(&self.text) || parts(text).any(|part| part.starts_with(&self.text));
        match as_typed {
            true => Match::AsTyped,
            false if self.begins_but_for_a_slip(text) => Match::ButForASlip,
            false => Match::None,
        }
    }

    fn begins_but_for_a_slip(&self, text: &str) -> bool {
        let plain = text.is_ascii() && self.text.is_ascii();
        if let (true, [first, second, ..]) = (plain, self.text.as_bytes()) {
            let parts = text
                .as_bytes()
                .split(|byte| matches!(byte, b' ' | b'-' | b'\''));
            // One slip leaves one of the first two letters among the first two.
            let near = |part: &[u8]| {
                let mut early = part.iter().take(2);
                early.any(|byte| byte == first || byte == second)
            };
            let mut near = parts.filter(|part| near(part));
            return near.any(|part| slip(self.text.as_bytes(), part));
        }
        parts(text).any(|part| begins_but_for_a_slip(&self.text, part))
    }
}

/// The words of a name.
fn parts(text: &str) -> impl Iterator<Item = &str> {
    text.split([' ', '-', '\''])
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
        names.push(name, "");
        let query = Query::new(query);
        query.words.iter().all(|word| {
            let matches = names.matches(word);
            let mut words = names.words_of(0).iter();
            words.any(|place| matches[*place as usize] != Match::None)
        })
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
            let (query, text) = (Query::new(&word), folded(&name));
            let plainly = |word: &Word| text.contains(&word.text) || word.begins_but_for_a_slip(&text);
            prop_assert_eq!(found(&word, &name), query.words.iter().all(plainly));
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
