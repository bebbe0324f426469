//! How the trade spells forms, sizes, colours and leaves, read from a file of the program.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::kind::Kind;
use super::looked_up::tight;

const EMBEDDED: &str = include_str!("../../../assets/spellings.ron");

/// What the spellings mean, by kind and by the word as it is looked up.
#[derive(Debug, Default)]
struct Spellings {
    words: HashMap<(Kind, String), Vec<String>>,
    /// As they were written, with what each means.
    written: Vec<(Kind, String, Vec<String>)>,
}

/// The terms that a word of the trade may mean, those of other rule sets among them; none of a word that is
/// no such spelling.
pub(super) fn meanings(kind: Kind, word: &str) -> &'static [String] {
    let found = shipped().words.get(&(kind, tight(word)));
    found.map_or(&[], Vec::as_slice)
}

/// Every spelling of a kind with the terms that it may mean.
pub(super) fn of_kind(kind: Kind) -> impl Iterator<Item = (&'static str, &'static [String])> {
    let own = shipped().written.iter().filter(move |one| one.0 == kind);
    own.map(|(_, word, means)| (word.as_str(), means.as_slice()))
}

fn shipped() -> &'static Spellings {
    // OK because a test reads the same text.
    static SHIPPED: LazyLock<Spellings> = LazyLock::new(|| {
        read(EMBEDDED).unwrap_or_else(|error| panic!("assets/spellings.ron: {error}"))
    });
    &SHIPPED
}

/// Reads RON as `assets/spellings.ron` has it.
fn read(text: &str) -> Result<Spellings, String> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct File {
        forms: Vec<Spelt>,
        sizes: Vec<Spelt>,
        colours: Vec<Spelt>,
        foliage: Vec<Spelt>,
    }
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Spelt {
        means: Vec<String>,
        spelt: Vec<String>,
        source: String,
    }
    let file: File = ron::from_str(text).map_err(|error| error.to_string())?;
    let mut read = Spellings::default();
    for (kind, all) in [
        (Kind::Form, file.forms),
        (Kind::Size, file.sizes),
        (Kind::Colour, file.colours),
        (Kind::Foliage, file.foliage),
    ] {
        for one in all {
            if one.means.is_empty() || one.source.is_empty() {
                return Err(format!(
                    "found {:?}, expected a term and a source",
                    one.spelt
                ));
            }
            for word in one.spelt {
                let key = (kind, tight(&word));
                if read.words.insert(key, one.means.clone()).is_some() {
                    return Err(format!("found {word:?} twice, expected each word once"));
                }
                read.written.push((kind, word, one.means.clone()));
            }
        }
    }
    Ok(read)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;
    use crate::form::RuleSet;
    use crate::variety::record::Foliage;

    /// Every spelling leads somewhere, and hides no term of its own.
    #[test]
    fn every_spelling_means_a_term_and_is_none_that_means_another() {
        let (sets, colours) = (RuleSet::embedded(), Vocabulary::embedded());
        let sizes = |word: &str| {
            let mut all = sets.iter().flat_map(|set| &set.size_words);
            all.any(|(own, _)| own == word)
        };
        for (kind, word, means) in &shipped().written {
            for term in means {
                let known = match kind {
                    Kind::Form => sets.iter().any(|set| set.find(term).is_some()),
                    Kind::Size => sizes(term),
                    Kind::Colour => colours.find(term).is_some(),
                    Kind::Foliage => Foliage::ALL.iter().any(|one| one.word() == term),
                    Kind::Pattern | Kind::Heading => false,
                };
                assert!(known, "{word:?} means {term:?}");
            }
            let hides = match kind {
                Kind::Colour => colours.target(word).is_ok(),
                Kind::Size => sizes(word),
                _ => false,
            };
            assert!(!hides, "{word:?} is a term");
        }
    }

    #[test]
    fn no_spelling_is_a_code_of_letters() {
        for (_, word, _) in &shipped().written {
            assert!(
                word.chars().any(|c| "aeiouy".contains(c)) || word.len() > 2,
                "{word:?}"
            );
        }
        for code in ["FD", "BB", "MB", "AA", "SC"] {
            assert!(meanings(Kind::Form, code).is_empty() && meanings(Kind::Size, code).is_empty());
        }
    }
}
