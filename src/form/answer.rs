//! What the grower answered of one bloom.

use std::fmt;

use super::part;
use super::space::{Block, Scale, Span, bits};
use super::traits::{Kind, Trait, Traits};
use crate::measure::brief;
use crate::measure::{Exact, same_id};
use crate::problem::told;

/// An answer to one question.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// `I can't tell`: asked and passed.
    CannotTell,
    /// One of the states of this mask.
    States(u64),
    /// Measured or counted; of several the mean decides. Never empty.
    Values(Vec<Exact>),
    /// Somewhere in the span.
    Range(Span),
}

/// Every answer of one bloom, in the order given; at most one stands for each trait.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answers {
    given: Vec<(usize, Answer)>,
    /// Looks at a trait before the one that stands: they count for belief, not for the verdict.
    earlier: Vec<(usize, Answer)>,
}

/// Why a text is not an answer: one sentence with what was found and what was expected.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnswerError {
    /// The trait, or what stood in its place.
    pub about: String,
    found: String,
    expected: String,
}

impl Answers {
    /// Gives or changes the answer to a trait.
    pub fn set(&mut self, index: usize, answer: Answer) {
        self.earlier.retain(|(earlier, _)| *earlier != index);
        match self.given.iter_mut().find(|(given, _)| *given == index) {
            Some(slot) => slot.1 = answer,
            None => self.given.push((index, answer)),
        }
    }

    /// Answers a trait again after a second look: the new answer stands, both count for belief.
    pub fn look_again(&mut self, index: usize, answer: Answer) {
        match self.given.iter_mut().find(|(given, _)| *given == index) {
            Some(slot) => {
                let before = std::mem::replace(&mut slot.1, answer);
                self.earlier.push((index, before));
            }
            None => self.given.push((index, answer)),
        }
    }

    /// Takes the answer to a trait back; `false` where there was none.
    pub fn take_back(&mut self, index: usize) -> bool {
        let before = self.given.len();
        self.given.retain(|(given, _)| *given != index);
        self.earlier.retain(|(earlier, _)| *earlier != index);
        self.given.len() < before
    }

    /// The answer that stands for a trait.
    pub fn get(&self, index: usize) -> Option<&Answer> {
        self.given
            .iter()
            .find(|(given, _)| *given == index)
            .map(|(_, answer)| answer)
    }

    /// The answers that stand, in the order given.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (usize, &Answer)> {
        self.given.iter().map(|(index, answer)| (*index, answer))
    }

    /// Every look at a trait, the one that stands last.
    pub fn looks(&self, index: usize) -> impl Iterator<Item = &Answer> {
        let both = self.earlier.iter().chain(&self.given);
        both.filter(move |(given, _)| *given == index)
            .map(|(_, answer)| answer)
    }

    /// Whether nothing was asked yet.
    pub fn is_empty(&self) -> bool {
        self.given.is_empty()
    }

    /// The observations that the answers leave, trait by trait; whether one of them can be is for
    /// the verdict to say.
    pub fn block(&self, scales: &[Scale]) -> Block {
        let mut block = Block::whole(scales);
        for (index, answer) in self.iter() {
            block.0[index] = answer.mask(&scales[index]);
        }
        block
    }

    /// Reads `TRAIT=VALUE` pairs; a trait named twice is an error.
    pub fn read<S: AsRef<str>>(pairs: &[S], traits: &Traits) -> Result<Answers, AnswerError> {
        let mut answers = Answers::default();
        for pair in pairs {
            let (index, answer) = Answers::read_pair(pair.as_ref(), traits)?;
            if answers.get(index).is_some() {
                return Err(AnswerError {
                    about: traits.get(index).id.clone(),
                    found: format!("{:?} as a second answer", brief(pair)),
                    expected: "each trait once".to_string(),
                });
            }
            answers.set(index, answer);
        }
        Ok(answers)
    }

    /// Reads one `TRAIT=VALUE`.
    pub fn read_pair(pair: &str, traits: &Traits) -> Result<(usize, Answer), AnswerError> {
        let (name, value) = pair.split_once('=').ok_or_else(|| AnswerError {
            about: told(&brief(pair)),
            found: format!("{pair:?}", pair = brief(pair)),
            expected: "TRAIT=VALUE, such as centre=closed".to_string(),
        })?;
        let index = traits.find(name.trim()).ok_or_else(|| AnswerError {
            about: told(&brief(name.trim())),
            found: format!("{:?}", brief(name.trim())),
            expected: format!("a trait ({})", traits.ids()),
        })?;
        Ok((index, Answer::read(value, traits.get(index))?))
    }

    /// Prints the answers that stand as `TRAIT=VALUE` words that read back the same.
    pub fn print(&self, traits: &Traits) -> String {
        let pair = |(index, answer): (usize, &Answer)| {
            let one = traits.get(index);
            format!("{}={}", one.id, answer.print(one))
        };
        let pairs: Vec<String> = self.iter().map(pair).collect();
        pairs.join(" ")
    }
}

impl Answer {
    /// Reads the answer to `one`: a state or a choice `a|b`, a number, a range `4..7` or `10+`, a
    /// part by eye such as `1/4` or `a third`, several lengths `98mm,104mm`, or `?` for `I can't
    /// tell`.
    pub fn read(text: &str, one: &Trait) -> Result<Answer, AnswerError> {
        let text = text.trim();
        if text == "?" {
            return Ok(Answer::CannotTell);
        }
        let read = match one.domain() {
            None => read_states(text, one),
            Some(domain) => read_numbers(text, one, domain),
        };
        read.ok_or_else(|| AnswerError {
            about: one.id.clone(),
            found: format!("{text:?}", text = brief(text)),
            expected: one.expected_answer(),
        })
    }

    /// Prints the answer so that [`Answer::read`] reads it back.
    pub fn print(&self, one: &Trait) -> String {
        match self {
            Answer::CannotTell => "?".to_string(),
            Answer::States(mask) => {
                let ids: Vec<&str> = bits(*mask).map(|at| one.states()[at].id.as_str()).collect();
                ids.join("|")
            }
            Answer::Values(values) => {
                let values: Vec<String> = values.iter().map(|value| one.print(*value)).collect();
                values.join(",")
            }
            Answer::Range(span) => print_range(*span, one),
        }
    }

    /// The atoms that the answer leaves: all of them where it cannot tell.
    pub fn mask(&self, scale: &Scale) -> u64 {
        match self {
            Answer::CannotTell => scale.full(),
            Answer::States(mask) => scale.states(*mask),
            _ => self.span().map_or(0, |span| scale.touched(span)),
        }
    }

    /// The numbers that an ordered answer leaves; of several values their mean.
    pub fn span(&self) -> Option<Span> {
        match self {
            Answer::Values(values) => Exact::mean(values).map(Span::point),
            Answer::Range(span) => Some(*span),
            Answer::CannotTell | Answer::States(_) => None,
        }
    }
}

fn read_states(text: &str, one: &Trait) -> Option<Answer> {
    let mut mask = 0;
    for word in text.split('|') {
        let found = one
            .states()
            .iter()
            .position(|state| same_id(word, &state.id))?;
        mask |= 1 << found;
    }
    Some(Answer::States(mask))
}

fn print_range(span: Span, one: &Trait) -> String {
    let part = part::named(span).filter(|_| one.kind == Kind::Share);
    let to_end = one.domain().is_some_and(|domain| domain.high == span.high);
    match part {
        Some((part, _)) => part.to_string(),
        None if to_end && matches!(one.kind, Kind::Count(..)) => {
            format!("{}+", one.print(span.low))
        }
        None => format!("{}..{}", one.print(span.low), one.print(span.high)),
    }
}

fn read_numbers(text: &str, one: &Trait, domain: Span) -> Option<Answer> {
    let part = |text: &str| part::read(text).filter(|_| one.kind == Kind::Share);
    let number = |text: &str| {
        let number = part(text).or_else(|| one.number(text.trim()));
        let number = number.filter(|n| domain.holds(*n))?;
        (number.is_whole() || !matches!(one.kind, Kind::Count(..))).then_some(number)
    };
    if let Some(part) = part(text).filter(|part| domain.low < *part && *part < domain.high) {
        return Some(Answer::Range(part::by_eye(part)));
    }
    if let (Some(low), Kind::Count(..) | Kind::Share) = (text.strip_suffix('+'), &one.kind) {
        return Some(Answer::Range(Span::closed(number(low)?, domain.high)));
    }
    if let Some((low, high)) = text.split_once("..") {
        let (low, high) = (number(low)?, number(high)?);
        return (low <= high).then_some(Answer::Range(Span::closed(low, high)));
    }
    let values: Vec<Exact> = text.split(',').map(number).collect::<Option<_>>()?;
    // Only blooms are measured one by one; a second count or share is a slip.
    let several = matches!(one.kind, Kind::Length(_));
    (several || values.len() == 1).then_some(Answer::Values(values))
}

impl fmt::Display for AnswerError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}: found {}, expected {}",
            self.about, self.found, self.expected
        )
    }
}

impl std::error::Error for AnswerError {}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(pairs: &[&str]) -> Result<Answers, String> {
        Answers::read(pairs, &Traits::embedded()).map_err(|error| error.to_string())
    }

    #[test]
    fn what_is_printed_reads_back() {
        let pairs = [
            "tip=rounded|pointed",
            "rows=4..7",
            "rolled=62.5",
            "diameter=98mm,104mm,3.9in",
            "line=?",
        ];
        let answers = read(&pairs).expect("five answers");
        let printed = answers.print(&Traits::embedded());
        assert_eq!(
            printed,
            "tip=rounded|pointed rows=4..7 rolled=62.5 diameter=98mm,104mm,99.06mm line=?"
        );
        let words: Vec<&str> = printed.split(' ').collect();
        assert_eq!(read(&words), Ok(answers));
    }

    #[test]
    fn bad_answers_say_what_was_found_and_expected() {
        for (pair, told) in [
            (
                "centre",
                "centre: found \"centre\", expected TRAIT=VALUE, such as centre=closed",
            ),
            (
                "petals=5",
                "petals: found \"petals\", expected a trait (centre, rows, collar, roll, rolled, line, tip, set, outline, gradient, width, heart, diameter)",
            ),
            (
                "centre=shut",
                "centre: found \"shut\", expected closed, open or pincushion",
            ),
            (
                "centre=",
                "centre: found \"\", expected closed, open or pincushion",
            ),
            (
                "rows=2.5",
                "rows: found \"2.5\", expected a whole number from 1 to 40, 4..7, or 10+ for ten or more",
            ),
            (
                "rows=7..4",
                "rows: found \"7..4\", expected a whole number from 1 to 40, 4..7, or 10+ for ten or more",
            ),
            (
                "rows=3,4",
                "rows: found \"3,4\", expected a whole number from 1 to 40, 4..7, or 10+ for ten or more",
            ),
            (
                "rolled=101",
                "rolled: found \"101\", expected a share from 0 to 100 %, or by eye a quarter, a third, half, two thirds or three quarters",
            ),
            (
                "diameter=0mm",
                "diameter: found \"0mm\", expected a length over 0 and up to 500mm, such as 98mm, 9.8cm or 3 1/2 in",
            ),
            (
                "diameter=98",
                "diameter: found \"98\", expected a length over 0 and up to 500mm, such as 98mm, 9.8cm or 3 1/2 in",
            ),
        ] {
            assert_eq!(read(&[pair]), Err(told.to_string()));
        }
        let twice = read(&["rows=1", "rows=2"]).expect_err("rows twice");
        assert_eq!(
            twice,
            "rows: found \"rows=2\" as a second answer, expected each trait once"
        );
    }

    #[test]
    fn an_answer_is_changed_looked_at_again_and_taken_back() {
        let mut answers = read(&["tip=split", "rows=5"]).expect("two answers");
        answers.look_again(6, Answer::States(0b10));
        assert_eq!(answers.looks(6).count(), 2);
        assert_eq!(answers.get(6), Some(&Answer::States(0b10)));
        answers.set(6, Answer::States(0b1));
        assert_eq!(
            answers.looks(6).count(),
            1,
            "a changed answer was a slip: it does not count"
        );
        assert!(answers.take_back(6) && !answers.take_back(6));
        assert_eq!(answers.print(&Traits::embedded()), "rows=5");
    }

    proptest! {
        #[test]
        fn any_words_are_read_or_refused_without_panic(pairs in proptest::collection::vec("[a-z]{0,8}=?.{0,12}", 0..5)) {
            let _ = Answers::read(&pairs, &Traits::embedded());
        }
    }
}
