//! The words that say of which part a colour is and how colours lie: `tips`, `reverse`, `bicolour`.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::spelling::key;
use super::target::{Part, Pattern};

const EMBEDDED: &str = include_str!("../../assets/patterns.ron");

/// What such a word says; at least one of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Laid {
    /// The part that the colour is of.
    pub part: Option<Part>,
    /// How the colours lie.
    pub pattern: Option<Pattern>,
}

/// What a word says of a colour beside it; case, spaces and hyphens do not matter. `None` of another word.
pub(super) fn laid(word: &str) -> Option<Laid> {
    // OK because a test reads the same text.
    static WORDS: LazyLock<HashMap<String, Laid>> = LazyLock::new(|| {
        read(EMBEDDED).unwrap_or_else(|error| panic!("assets/patterns.ron: {error}"))
    });
    WORDS.get(&key(word)).copied()
}

/// How colours lie, by a word of the trade: `bi-colour`, `picotee`.
pub fn pattern_named(word: &str) -> Option<Pattern> {
    laid(word).and_then(|laid| laid.pattern)
}

/// Reads RON as `assets/patterns.ron` has it.
fn read(text: &str) -> Result<HashMap<String, Laid>, String> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct File {
        words: Vec<Written>,
    }
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Written {
        spelt: Vec<String>,
        #[serde(default)]
        part: Option<Part>,
        #[serde(default)]
        pattern: Option<Pattern>,
        source: String,
    }
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    let file: File = options.from_str(text).map_err(|error| error.to_string())?;
    let mut words = HashMap::new();
    for written in file.words {
        let (part, pattern) = (written.part, written.pattern);
        if written.source.is_empty() || (part, pattern) == (None, None) {
            return Err(format!(
                "found {:?}, expected a part or a pattern, and a source",
                written.spelt
            ));
        }
        for word in written.spelt {
            if words.insert(key(&word), Laid { part, pattern }).is_some() {
                return Err(format!("found {word:?} twice, expected each word once"));
            }
        }
    }
    Ok(words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;

    #[test]
    fn every_part_and_pattern_is_read_by_its_own_word() {
        for part in Part::ALL {
            let told = laid(part.word()).unwrap_or_else(|| panic!("{}", part.word()));
            assert_eq!((told.part, told.pattern), (Some(part), None));
        }
        for pattern in Pattern::ALL {
            assert_eq!(pattern_named(pattern.word()), Some(pattern));
        }
        assert_eq!(pattern_named("Bi-Colour"), Some(Pattern::Bicolour));
        assert_eq!(laid("plum"), None);
    }

    #[test]
    fn no_colour_word_begins_or_ends_as_a_word_for_how_colours_lie() {
        for word in Vocabulary::embedded().words() {
            for spelling in word.spellings() {
                let parts: Vec<&str> = spelling.split([' ', '-']).collect();
                assert!(
                    parts.iter().all(|part| laid(part).is_none()),
                    "{spelling:?}"
                );
            }
        }
    }
}
