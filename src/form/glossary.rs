//! The words of the trade in plain words: for whoever has a bloom in the hand and never heard them.

use serde::Deserialize;

use crate::problem::{Problem, read_ron};

/// The glossary as it ships.
const EMBEDDED: &str = include_str!("../../assets/glossary.ron");

/// Every word that is explained, in the order of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Glossary {
    list: Vec<Term>,
}

/// A word of the trade.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Term {
    /// The word, in the singular.
    pub word: String,
    /// What it is, as a sentence without a subject.
    pub means: String,
}

impl Glossary {
    /// The glossary that ships in the binary.
    ///
    /// # Panics
    /// Never: a test reads the embedded glossary.
    pub fn embedded() -> Glossary {
        Glossary::read("glossary.ron", EMBEDDED).expect("the embedded glossary is read by a test")
    }

    fn read(file: &str, text: &str) -> Result<Glossary, Problem> {
        read_ron(file, text).map(|list| Glossary { list })
    }

    /// All words.
    pub fn list(&self) -> &[Term] {
        &self.list
    }

    /// The words that stand in a text, by where they first stand. Of words within one another, as
    /// `disc` is within `disc floret`, the longest counts.
    pub fn in_text(&self, text: &str) -> Vec<&Term> {
        let text = text.to_lowercase();
        let mut found: Vec<&Term> = Vec::new();
        let mut rest = text.as_str();
        while !rest.is_empty() {
            let here = self.list.iter().filter(|term| begins(rest, &term.word));
            let length = match here.max_by_key(|term| term.word.len()) {
                Some(term) => {
                    if !found.contains(&term) {
                        found.push(term);
                    }
                    term.word.len()
                }
                None => 0,
            };
            rest = after_word(&rest[length..]);
        }
        found
    }
}

/// Whether the text begins with this word, singular or plural.
fn begins(text: &str, word: &str) -> bool {
    text.strip_prefix(word).is_some_and(|rest| {
        let rest = rest.strip_prefix('s').unwrap_or(rest);
        !rest.starts_with(char::is_alphanumeric)
    })
}

/// The text from its next word on.
fn after_word(text: &str) -> &str {
    let rest = text.trim_start_matches(char::is_alphanumeric);
    rest.trim_start_matches(|c: char| !c.is_alphanumeric())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::{RuleSet, Traits};

    fn words(text: &str) -> Vec<String> {
        let glossary = Glossary::embedded();
        let found = glossary.in_text(text).into_iter();
        found.map(|term| term.word.clone()).collect()
    }

    #[test]
    fn words_are_found_where_they_first_stand() {
        assert_eq!(
            words("A dome of disc florets, and ray florets (involute) around the disc."),
            ["disc floret", "ray floret", "involute", "disc"]
        );
        assert_eq!(words("Discuss the surface of collared doves"), [""; 0]);
        assert_eq!(words("line=straight|reflexed"), ["reflexed"]);
    }

    /// Every text that a grower reads at a question or of a form.
    fn texts() -> Vec<String> {
        let mut texts = Vec::new();
        for one in Traits::embedded().list() {
            texts.extend([one.ask.clone(), one.look.clone()]);
            texts.extend(
                one.states()
                    .iter()
                    .map(|state| format!("{}: {}", state.id, state.means)),
            );
        }
        for set in RuleSet::embedded() {
            for shape in &set.shapes {
                texts.extend([&shape.means, &shape.text, &shape.typical_text].map(String::clone));
                texts.extend(shape.names.iter().flat_map(|named| named.note.clone()));
            }
        }
        texts
    }

    #[test]
    fn every_word_of_the_trade_that_is_used_is_explained_and_none_is_in_vain() {
        let texts = texts().join("\n").to_lowercase();
        // Words that a grower who never read a list of forms need not know.
        for word in [
            "ray floret",
            "disc floret",
            "disc",
            "petaloid",
            "collar",
            "involute",
            "revolute",
            "incurved",
            "reflexed",
            "tubed",
        ] {
            assert!(texts.contains(word), "{word} stands nowhere");
            assert_eq!(words(word), [word], "{word} is not explained");
        }
        for term in Glossary::embedded().list() {
            assert!(texts.contains(&term.word), "{} stands nowhere", term.word);
            assert!(!words(&term.means).contains(&term.word), "{}", term.word);
        }
        // And none that is not explained.
        for word in [
            "tubular",
            "acute",
            "lanceolate",
            "quilled",
            "bract",
            "ligule",
            "calyx",
        ] {
            assert!(!texts.contains(word), "{word} is not explained");
        }
    }
}
