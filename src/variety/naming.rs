//! Whether a new variety may bear a name: against the nomenclature code and the grower's list.
//!
//! Source: International Code of Nomenclature for Cultivated Plants, 9th edition, 2016 (Scripta
//! Horticulturae 18). The words that it goes by are data, `assets/naming.ron`.

use rphonetic::{DoubleMetaphone, Encoder};
use serde::Deserialize;
use unicode_segmentation::UnicodeSegmentation;

use super::text::{Text, folded};
use crate::account::text::capitalised;
use crate::problem::{Problem, read_ron};

/// The words as they ship.
const EMBEDDED: &str = include_str!("../../assets/naming.ron");

/// Letters of a sound that are compared; the whole of a name within the Code's length.
const SOUND: usize = 30;

/// What names are checked for.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NamingRules {
    most_characters: usize,
    genus: String,
    banned: Vec<String>,
    banned_plurals: Vec<String>,
    praise: Vec<String>,
    latin_endings: Vec<String>,
    latin_words: Vec<String>,
    joining: Vec<String>,
}

/// What stands against a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NameCheck {
    /// Why the Code or the list does not allow it, as sentences.
    pub errors: Vec<String>,
    /// What the registrar may object to, as sentences.
    pub warnings: Vec<String>,
    /// As it is to be printed, in single quotation marks.
    pub written: String,
}

impl NamingRules {
    /// The words of the program.
    pub fn embedded() -> NamingRules {
        // OK because a test reads them.
        NamingRules::read("naming.ron", EMBEDDED)
            .unwrap_or_else(|problem| unreachable!("{problem}"))
    }

    /// Reads them from the text of a file.
    ///
    /// # Errors
    /// A [`Problem`] with the place in `file`.
    pub fn read(file: &str, text: &str) -> Result<NamingRules, Problem> {
        read_ron(file, text)
    }

    /// Checks `name`, with or without the quotation marks round it, against the Code and against
    /// the names `taken`.
    pub fn check<'a>(&self, name: &str, taken: impl IntoIterator<Item = &'a str>) -> NameCheck {
        let name = bare(name);
        let mut check = NameCheck {
            errors: Vec::new(),
            warnings: Vec::new(),
            written: format!("\u{2018}{name}\u{2019}"),
        };
        if let Err(error) = Text::new(name.clone()) {
            check.errors.push(error.to_string());
            check.written = String::new();
            return check;
        }
        check.errors = self.against_the_code(&name);
        check.warnings = self.doubts(&name);
        Near::to(&name).look(taken, &mut check);
        check
    }

    /// The genus, as it stands before a name: `Dahlia`.
    pub fn genus(&self) -> String {
        capitalised(&self.genus)
    }

    /// A name as it is printed: in single quotation marks, without them where the Code would take it
    /// for no variety's name. That it stands in a register is the registrar's word alone.
    pub fn written(&self, name: &str) -> String {
        let name = bare(name);
        match self.against_the_code(&name).is_empty() {
            true => format!("\u{2018}{name}\u{2019}"),
            false => name,
        }
    }

    fn against_the_code(&self, name: &str) -> Vec<String> {
        let mut errors = Vec::new();
        let letters: String = name.split_whitespace().collect();
        let length = letters.graphemes(true).count();
        if length > self.most_characters {
            errors.push(format!(
                "It has {length} characters; the Code allows {} at most, spaces not counted.",
                self.most_characters
            ));
        }
        if !letters.chars().any(char::is_alphabetic) {
            errors.push("It has no letter; the Code asks for a word.".to_string());
        } else if length == 1 {
            errors.push("It is one letter only; the Code asks for a word.".to_string());
        }
        let banned = words(name).filter(|word| self.is_banned(word));
        errors.extend(banned.map(|word| {
            format!("It holds the word {word:?}, which the Code does not allow in a name.")
        }));
        errors
    }

    fn is_banned(&self, word: &str) -> bool {
        let singular = word.strip_suffix('s').unwrap_or(word);
        let is = |word: &str| self.banned.iter().any(|banned| banned == word);
        is(word) || is(singular) || self.banned_plurals.iter().any(|plural| plural == word)
    }

    fn doubts(&self, name: &str) -> Vec<String> {
        let mut doubts = Vec::new();
        if words(name).next().is_some() && words(name).all(|word| self.is_latin(&word)) {
            doubts.push(
                "It reads as Latin; the Code wants a new name not to be Latin in form.".to_string(),
            );
        }
        for word in words(name) {
            if self.praise.contains(&word) {
                doubts.push(format!(
                    "It praises with {word:?}; the Code objects to exaggerated merit."
                ));
            }
            if word == self.genus || word.strip_suffix('s') == Some(&self.genus) {
                doubts.push(format!("It holds the name of the genus, {word:?}."));
            }
        }
        for (at, word) in name.split_whitespace().enumerate() {
            let small = at > 0 && self.joining.contains(&folded(word));
            if word.chars().next().is_some_and(char::is_lowercase) && !small {
                doubts.push(format!(
                    "The word {word:?} has no capital; the Code writes each word with one, small joining words apart."
                ));
            }
        }
        let strange = |c: &char| !(c.is_alphanumeric() || " '\u{2019}-,.!".contains(*c));
        let marks: String = name.chars().filter(strange).collect();
        if !marks.is_empty() {
            doubts.push(format!(
                "It holds {marks:?}; few marks but apostrophe, hyphen, comma and full stop are usual in a name."
            ));
        }
        doubts
    }

    fn is_latin(&self, word: &str) -> bool {
        let ends = |ending: &String| word.len() > ending.len() + 1 && word.ends_with(ending);
        self.latin_words.iter().any(|latin| latin == word) || self.latin_endings.iter().any(ends)
    }
}

/// A name as it is compared with others.
struct Near {
    folded: String,
    letters: String,
    sound: Option<String>,
    sounds: DoubleMetaphone,
}

impl Near {
    fn to(name: &str) -> Near {
        let sounds = DoubleMetaphone::new(Some(SOUND));
        let letters = letters(name);
        Near {
            folded: folded(name),
            sound: sound(&sounds, &letters),
            letters,
            sounds,
        }
    }

    /// Compares with every name, in the order of `taken`.
    fn look<'a>(&self, taken: impl IntoIterator<Item = &'a str>, check: &mut NameCheck) {
        for other in taken {
            let letters = letters(other);
            if folded(other) == self.folded {
                check
                    .errors
                    .push(format!("\u{2018}{other}\u{2019} is in your list already."));
            } else if letters == self.letters {
                check.warnings.push(format!(
                    "\u{2018}{other}\u{2019} in your list differs only by spaces or marks."
                ));
            } else if strsim::damerau_levenshtein(&letters, &self.letters) <= self.slips() {
                check.warnings.push(format!(
                    "\u{2018}{other}\u{2019} in your list is spelt nearly the same."
                ));
            } else if self.sound.is_some() && sound(&self.sounds, &letters) == self.sound {
                check.warnings.push(format!(
                    "\u{2018}{other}\u{2019} in your list sounds alike."
                ));
            }
        }
    }

    /// How many letters may differ for a name to be taken for another by the eye.
    fn slips(&self) -> usize {
        match self.letters.chars().count() {
            0..=3 => 0,
            4..=7 => 1,
            _ => 2,
        }
    }
}

/// How letters sound; `None` where they are not those of the Latin alphabet.
fn sound(sounds: &DoubleMetaphone, letters: &str) -> Option<String> {
    let latin = letters.is_ascii() && letters.chars().any(|c| c.is_ascii_alphabetic());
    latin
        .then(|| sounds.encode(letters))
        .filter(|sound| sound.len() > 1)
}

/// Letters and digits of a name, case and accents apart.
fn letters(name: &str) -> String {
    folded(name)
        .chars()
        .filter(|c| c.is_alphanumeric())
        .collect()
}

/// The words of a name, case and accents apart.
fn words(name: &str) -> impl Iterator<Item = String> {
    let folded = folded(name);
    let word = |word: &str| {
        word.trim_matches(|c: char| !c.is_alphanumeric())
            .to_string()
    };
    let words: Vec<String> = folded.split([' ', '-']).map(word).collect();
    words.into_iter().filter(|word| !word.is_empty())
}

/// A name without the quotation marks round it, and with single spaces.
fn bare(name: &str) -> String {
    let marks = |c: char| {
        matches!(
            c,
            '\'' | '"' | '\u{2018}' | '\u{2019}' | '\u{201c}' | '\u{201d}'
        )
    };
    let name = name.trim();
    // An apostrophe at the end alone is part of a name: 'Sailors’'.
    let inside = match (name.chars().next(), name.chars().last()) {
        (Some(first), Some(last)) if marks(first) && marks(last) && name.chars().count() > 1 => {
            &name[first.len_utf8()..name.len() - last.len_utf8()]
        }
        _ => name,
    };
    inside.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    const LIST: [&str; 4] = ["Haaf Lantern", "Skerry Kit", "Ebb Ångström", "Noust Flare"];

    fn check(name: &str) -> NameCheck {
        NamingRules::embedded().check(name, LIST)
    }

    /// ICNCP, 9th edition: what is an error, and the word boundary that keeps these names right.
    #[test]
    fn the_code_refuses_and_allows() {
        for (name, told) in [
            ("Abcdefghij Klmnopqrst Uvwxyzabcde", "31 characters"),
            ("X", "one letter"),
            ("1914", "no letter"),
            ("Tidal Sport", "\"sport\""),
            ("Tidal Sports", "\"sports\""),
            ("Rosy Varieties", "\"varieties\""),
            ("New Improved Kelp", "\"improved\""),
            ("HAAF LANTERN", "in your list already"),
            ("Ebb Angstrom", "in your list already"),
        ] {
            let found = check(name).errors.join(" ");
            assert!(found.contains(told), "{name}: {found:?}");
        }
        for name in [
            "Transport",
            "Grouper",
            "Formal Step",
            "Abcdefghij Klmnopqrst Uvwxyzabcd",
            "Lantern of the Sound",
            "Kelp-bound",
            "O\u{2019}Hara",
        ] {
            let found = check(name);
            assert!(
                found.errors.is_empty() && found.warnings.is_empty(),
                "{name}: {found:?}"
            );
        }
    }

    #[test]
    fn the_registrar_may_object() {
        for (name, told) in [
            ("Grandiflora", "Latin"),
            ("Alba Rosea", "Latin"),
            ("Finest Harbour", "praises"),
            ("Dahlia Dawn", "genus"),
            ("Tidal lantern", "no capital"),
            ("Tidal + Wave", "\"+\""),
            ("HaafLantern", "only by spaces"),
            ("Haaf Lantren", "spelt nearly"),
            ("Skerry Kitt", "spelt nearly"),
            ("Nowst Phlair", "sounds alike"),
        ] {
            let found = check(name);
            assert!(found.errors.is_empty(), "{name}: {found:?}");
            let warned = found.warnings.join(" ");
            assert!(warned.contains(told), "{name}: {warned:?}");
        }
    }

    #[test]
    fn it_is_written_in_single_quotation_marks() {
        for typed in ["Kelp Bell", "'Kelp Bell'", "\u{201c}Kelp  Bell\u{201d} "] {
            assert_eq!(check(typed).written, "\u{2018}Kelp Bell\u{2019}");
        }
        assert_eq!(
            check("Sailors\u{2019}").written,
            "\u{2018}Sailors\u{2019}\u{2019}"
        );
        for bad in ["", "''", "Kelp\u{1b}[2J"] {
            let found = check(bad);
            assert_eq!(
                (found.errors.len(), found.written.as_str()),
                (1, ""),
                "{bad:?}"
            );
        }
    }
}
