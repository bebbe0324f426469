//! Words with typos: which names hold every word of a query, one slip of the keyboard forgiven.
//!
//! A query word is found in a name (or its raiser) where it is a part of one of the words, or, from
//! four letters on, where it is the beginning of one but for one slip: a letter mistaken, missing,
//! doubled or otherwise too many, or two neighbours swapped. Another word never finds more.

use memchr::memmem::Finder;

use super::bits::Rows;
use super::list::Varieties;
use super::record::Variety;
use super::text::folded;

/// Slips are forgiven from this many letters on: any two short words are alike but for one slip.
const LEAST_FOR_SLIP: usize = 4;

/// One row of so many is looked at by itself sooner than all names as one text.
const FEW: usize = 8;

/// The names of a list and their raisers, folded once.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Names {
    text: String,
    /// Where each name ends, and where its raiser does.
    ends: Vec<(u32, u32)>,
    /// Which letters each name has.
    letters: Vec<u64>,
}

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

impl Names {
    /// The names of a list.
    pub(super) fn of(list: &Varieties) -> Names {
        let mut names = Names::default();
        for one in list.list() {
            names.push(&one.name, one.raiser.as_deref().unwrap_or_default());
        }
        names
    }

    /// Takes in the name and the raiser of a row; whether the name is another one.
    pub(super) fn put(&mut self, row: usize, variety: &Variety) -> bool {
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

    fn push(&mut self, name: &str, raiser: &str) {
        let start = self.text.len();
        self.text.push_str(&folded(name));
        let name_end = self.text.len() as u32;
        self.text.push(' ');
        self.text.push_str(&folded(raiser));
        self.ends.push((name_end, self.text.len() as u32));
        self.letters.push(letters(&self.text[start..]));
    }

    /// Each row's place in the order of names.
    pub(super) fn order(&self) -> Vec<u32> {
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
    pub(super) fn holding(&self, rows: &Rows, word: &Word, forgiving: bool) -> Rows {
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
    pub(super) fn holds(&self, row: usize, word: &Word, forgiving: bool) -> bool {
        let has_letters = word.letters & !self.letters[row] == 0;
        has_letters && self.words_of(row).contains(&word.text)
            || forgiving && word.may_slip() && self.slips(row, word)
    }
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

    /// Whether `text`, which is folded, or one of its words begins so, one slip forgiven where
    /// `forgiving`.
    pub(super) fn begins_in(&self, text: &str, forgiving: bool) -> bool {
        text.starts_with(&self.text)
            || parts(text).any(|part| part.starts_with(&self.text))
            || forgiving && self.begins_but_for_a_slip(text)
    }

    fn begins_but_for_a_slip(&self, text: &str) -> bool {
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
        query.words.iter().all(|word| names.holds(0, word, true))
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
