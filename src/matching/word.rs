//! One word of a query, and how it is in a name.

use std::fmt;

use fuzzy_matcher::FuzzyMatcher;
use fuzzy_matcher::skim::SkimMatcherV2;

use super::folded::{Name, bit, firsts, letters, starts};
use super::rank::Rank;
use super::slip::begins_but_for_a_slip;

/// First letters are looked for from this many on: one letter is a beginning already.
const LEAST_FOR_INITIALS: usize = 2;
/// Letters in order are looked for from this many on: two stand in order nearly everywhere.
const LEAST_IN_ORDER: usize = 3;
/// Slips are forgiven from this many letters on: any two short words are alike but for one slip.
const LEAST_FOR_SLIP: usize = 4;
/// What `fuzzy-matcher` gives a letter that begins a word or follows one that does; it takes for each
/// letter between.
const MOST_A_LETTER: i64 = 24;
/// Letters after the first that come to less than this each are too far apart to be meant: more than two
/// stand between them. Our own choice.
const LEAST_A_LETTER: i64 = 11;

/// One word of a query, folded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    text: String,
    letters: u64,
    count: usize,
    /// Whether a digit is in it: a number with another digit is another number.
    is_number: bool,
}

/// What finds letters in order; made for one search, since no two threads may share it.
pub struct InOrder {
    matcher: SkimMatcherV2,
}

impl Default for InOrder {
    fn default() -> InOrder {
        InOrder {
            // Both texts are folded. By its other way it keeps a matrix, and what stood there of one
            // name goes into the score of the next.
            matcher: SkimMatcherV2::default().respect_case().element_limit(1),
        }
    }
}

impl fmt::Debug for InOrder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("InOrder")
    }
}

impl Word {
    pub(super) fn new(folded: &str) -> Word {
        Word {
            text: folded.to_string(),
            letters: letters(folded),
            count: folded.chars().count(),
            is_number: folded.chars().any(char::is_numeric),
        }
    }

    /// The word, folded.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether it is long enough for a slip to be forgiven, and no number.
    pub fn may_slip(&self) -> bool {
        self.count >= LEAST_FOR_SLIP && !self.is_number
    }

    /// How it is in a name, in whatever way.
    pub(super) fn in_name(&self, name: Name<'_>, in_order: &InOrder) -> Option<Rank> {
        let found = self.as_typed(name.text);
        let spread = || self.spread(name, found, in_order);
        spread().or_else(|| self.with_a_slip(name.text, name.letters))
    }

    /// How a word of a text is it or begins with it, one slip forgiven: for what is told of a name, in
    /// which any letters stand in order.
    pub fn begins(&self, text: &str) -> Option<Rank> {
        let as_typed = self.as_typed(text).filter(|rank| *rank < Rank::WITHIN);
        as_typed.or_else(|| self.with_a_slip(text, letters(text)))
    }

    /// How a text has it as it was typed: whole, as a beginning, or within a word.
    pub fn as_typed(&self, text: &str) -> Option<Rank> {
        let mut best = None;
        let mut from = 0;
        while let Some(at) = text[from..].find(&self.text) {
            let at = from + at;
            let before = text[..at].chars().next_back();
            let after = text[at + self.text.len()..].chars().next();
            let joined = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
            let rank = match (joined(before), joined(after)) {
                (false, false) => return Some(Rank::WHOLE),
                (false, true) => Rank::BEGINS,
                (true, _) => Rank::WITHIN,
            };
            best = Some(best.unwrap_or(rank).min(rank));
            from = at + text[at..].chars().next().map_or(1, char::len_utf8);
        }
        best
    }

    /// Whether a word of a text with these letters begins with it but for one slip.
    pub fn with_a_slip(&self, text: &str, letters: u64) -> Option<Rank> {
        // One slip brings in at most one letter that the other word does not have.
        let near = self.may_slip() && (self.letters & !letters).count_ones() <= 1;
        let to_space = |at: usize| text[at..].split(' ').next().unwrap_or_default();
        let slips = |at| begins_but_for_a_slip(&self.text, to_space(at));
        (near && starts(text).any(slips)).then_some(Rank::SLIP)
    }

    /// Whether its letters may stand spread over a name with these: the sets tell most names apart, and are
    /// compared sooner than any text.
    pub fn may_spread(&self, letters: u64) -> bool {
        !self.is_number && self.count >= LEAST_FOR_INITIALS && self.letters & !letters == 0
    }

    /// What is found already, or better: the first letters of the words, or the letters in order, the
    /// first of them at the beginning of a word.
    pub fn spread(&self, name: Name<'_>, found: Option<Rank>, in_order: &InOrder) -> Option<Rank> {
        let better = |rank: Rank| found.is_none_or(|found| rank < found);
        if !self.may_spread(name.letters) {
            return found;
        }
        if better(Rank::INITIALS) && self.letters & !name.firsts == 0 && self.is_initials(name.text)
        {
            return Some(Rank::INITIALS);
        }
        if better(Rank::in_order(0.0)) && self.begins_a_word(name) {
            return in_order.rank(self, name.text).or(found);
        }
        found
    }

    fn is_initials(&self, name: &str) -> bool {
        let mut firsts = firsts(name);
        self.text.chars().all(|c| firsts.any(|first| first == c))
    }

    /// Whether letters in order may be looked for: its first begins a word.
    fn begins_a_word(&self, name: Name<'_>) -> bool {
        let first = self.text.chars().next();
        self.count >= LEAST_IN_ORDER && first.is_some_and(|first| name.firsts & bit(first) != 0)
    }
}

impl InOrder {
    /// How near its letters stand to each other, the first of them at the beginning of a word.
    fn rank(&self, word: &Word, name: &str) -> Option<Rank> {
        let first = word.text.chars().next()?;
        let from = starts(name).find(|at| name[*at..].starts_with(first))?;
        let score = self.matcher.fuzzy_match(&name[from..], &word.text)?;
        let after_the_first = word.count as i64 - 1;
        let apart = MOST_A_LETTER * (after_the_first + 1) - score;
        let farthest = (MOST_A_LETTER - LEAST_A_LETTER) * after_the_first;
        (apart <= farthest).then(|| Rank::in_order(apart as f64 / farthest as f64))
    }

    /// Which characters of a name they are, by their places.
    pub(super) fn places(&self, word: &Word, name: &str) -> Vec<usize> {
        let found = self.matcher.fuzzy_indices(name, &word.text);
        found.map_or_else(Vec::new, |(_, places)| places)
    }
}
