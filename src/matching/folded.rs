//! Text as it is compared.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// The text as it is compared: compatibility forms apart, marks dropped, lower case.
pub fn folded(text: &str) -> String {
    if text.is_ascii() {
        return text.to_ascii_lowercase();
    }
    let bare = text.nfkd().filter(|c| !is_combining_mark(*c));
    bare.flat_map(char::to_lowercase).collect()
}

/// The letters of a folded text as a set of bits: a to z, digits, all else by its low bits. What is not
/// in the set of a text is not in the text.
pub fn letters(text: &str) -> u64 {
    text.chars().fold(0, |set, c| set | bit(c))
}

/// The bit of one character; a space has none.
pub(super) fn bit(c: char) -> u64 {
    match c {
        ' ' => 0,
        'a'..='z' => 1 << (c as u64 - 'a' as u64),
        '0'..='9' => 1 << (26 + c as u64 - '0' as u64),
        _ => 1 << (36 + c as u64 % 28),
    }
}

/// A name, folded, with what is asked of it first.
#[derive(Debug, Clone, Copy)]
pub struct Name<'a> {
    /// The folded text.
    pub text: &'a str,
    /// Its [letters](letters()).
    pub letters: u64,
    /// The first letters of its words, as a set in the same way.
    pub firsts: u64,
}

impl Name<'_> {
    /// A folded text as a name.
    pub fn of(text: &str) -> Name<'_> {
        let (mut letters, mut firsts, mut inside) = (0, 0, false);
        for c in text.chars() {
            letters |= bit(c);
            let was_inside = std::mem::replace(&mut inside, c.is_alphanumeric());
            if inside && !was_inside {
                firsts |= bit(c);
            }
        }
        Name {
            text,
            letters,
            firsts,
        }
    }
}

/// A name that is folded here, to be looked through more than once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folded {
    text: String,
    letters: u64,
    firsts: u64,
}

impl Folded {
    /// Folds a name.
    pub fn of(text: &str) -> Folded {
        let text = folded(text);
        let Name {
            letters, firsts, ..
        } = Name::of(&text);
        Folded {
            text,
            letters,
            firsts,
        }
    }

    /// To be looked through.
    pub fn name(&self) -> Name<'_> {
        Name {
            text: &self.text,
            letters: self.letters,
            firsts: self.firsts,
        }
    }
}

/// Where the words of a folded text begin, in bytes. A word ends at a space, a hyphen or any other mark.
pub(super) fn starts(text: &str) -> impl Iterator<Item = usize> {
    let mut inside = false;
    text.char_indices().filter_map(move |(at, c)| {
        let begins = c.is_alphanumeric() && !inside;
        inside = c.is_alphanumeric();
        begins.then_some(at)
    })
}

/// The first letters of the words of a folded text.
pub(super) fn firsts(text: &str) -> impl Iterator<Item = char> {
    starts(text).filter_map(|at| text[at..].chars().next())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folding_drops_marks_and_case() {
        assert_eq!(folded("Skerry ÉCLAT ﬁn"), "skerry eclat fin");
        assert_eq!(folded("Foam Dawn"), "foam dawn");
    }

    #[test]
    fn words_begin_behind_spaces_and_marks() {
        let first = |text| String::from_iter(firsts(text));
        assert_eq!(first("noust lochan"), "nl");
        assert_eq!(first("o'hara's semi-cactus 2"), "ohssc2");
        assert_eq!(first(""), "");
    }
}
