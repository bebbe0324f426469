//! The trade's colour words: read from RON, looked up, and given back for a colour.

use std::collections::HashMap;
use std::fmt;

use serde::{Deserialize, Deserializer, de};

use super::css;
use super::difference::{ciede2000, lightness_bound, lower_bound};
use super::family::{Family, Group};
use super::lab::Lab;
use super::spec::{ParseSpecError, Spec};
use super::spelling::{key, near};
use super::target::Target;
use crate::measure::brief;
use crate::problem::{Problem, read_ron};

const EMBEDDED: &str = include_str!("../../assets/colours.ron");

/// Colour words with their regions. At least one word; every word and spelling is unique.
#[derive(Debug, Clone)]
pub struct Vocabulary {
    words: Vec<Word>,
    by_key: HashMap<String, usize>,
}

/// A colour word of the trade.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(try_from = "WrittenWord")]
pub struct Word {
    /// As it is printed.
    pub word: String,
    /// Other spellings and plain synonyms.
    pub also: Vec<String>,
    /// The middle of its region.
    pub centre: Lab,
    /// How far the region reaches, CIEDE2000.
    pub radius: f64,
    /// The facet that it is counted under.
    pub family: Family,
    /// What else it can be asked by.
    pub groups: Vec<Group>,
}

/// Why a text is not a colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UnknownColour {
    /// It has the form of no colour.
    Malformed(ParseSpecError),
    /// It is a word, and no vocabulary has it.
    Word {
        /// As written.
        found: String,
        /// Words spelt nearly so, nearest first; some common ones where none is.
        such_as: Vec<String>,
    },
}

impl Vocabulary {
    /// The one that ships in the binary, from `assets/colours.ron`.
    pub fn embedded() -> Self {
        // OK because a test reads the same text.
        Self::from_ron(EMBEDDED).unwrap_or_else(|problem| panic!("{problem}"))
    }

    /// Reads RON as `assets/colours.ron` has it.
    ///
    /// # Errors
    /// A [`Problem`] with its place; in a word's values that is where the word ends.
    pub fn from_ron(text: &str) -> Result<Self, Problem> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct File {
            #[serde(deserialize_with = "unique_words")]
            words: Vocabulary,
        }
        read_ron::<File>("colours.ron", text).map(|file| file.words)
    }

    /// The words, as listed.
    pub fn words(&self) -> &[Word] {
        &self.words
    }

    /// The word with this spelling; case, spaces and hyphens do not matter.
    pub fn find(&self, text: &str) -> Option<&Word> {
        self.place_of(text).map(|at| &self.words[at])
    }

    /// The place among [`words`](Vocabulary::words) of the word with this spelling.
    pub fn place_of(&self, text: &str) -> Option<usize> {
        self.by_key.get(&key(text)).copied()
    }

    /// What a text asks for: a word of the trade, a CSS name where the trade has no such word,
    /// `#rgb`, `#rrggbb` or `lab(L a b)`.
    pub fn target(&self, text: &str) -> Result<Target, UnknownColour> {
        self.resolve(&text.parse().map_err(UnknownColour::Malformed)?)
    }

    /// What a [`Spec`] asks for. Only a word of the trade has a region; the rest are points.
    pub fn resolve(&self, spec: &Spec) -> Result<Target, UnknownColour> {
        match spec {
            Spec::Hex(hex) => Ok(Target::point(Lab::from(*hex))),
            Spec::Lab(lab) => Ok(Target::point(*lab)),
            Spec::Word(text) => self
                .find(text)
                .map(Word::target)
                .or_else(|| {
                    let named = css::named(&key(text))?;
                    Some(Target {
                        name: Some(text.to_lowercase()),
                        ..Target::point(Lab::from(named))
                    })
                })
                .ok_or_else(|| self.unknown(text)),
        }
    }

    /// All the words of a family or a group, by its own word: `warm`, `pinks`. `None` of another text.
    pub fn members(&self, text: &str) -> Option<Vec<Target>> {
        let wanted = key(text);
        let family = Family::ALL.into_iter().find(|f| f.word() == wanted);
        let group = Group::ALL.into_iter().find(|g| g.word() == wanted);
        if family.is_none() && group.is_none() {
            return None;
        }
        let belongs = |word: &&Word| {
            Some(word.family) == family || group.is_some_and(|g| word.groups.contains(&g))
        };
        Some(
            self.words
                .iter()
                .filter(belongs)
                .map(Word::target)
                .collect(),
        )
    }

    /// The word whose centre is nearest; of two as near, the one listed first.
    pub fn word_for(&self, colour: Lab) -> &Word {
        &self.words[self.nearest(colour)]
    }

    /// The place of that word among [`words`](Vocabulary::words).
    pub fn nearest(&self, colour: Lab) -> usize {
        // A good guess first, by the plain distance in CIELAB, spares most words the measuring.
        let plain = |word: &Word| {
            let Lab { l, a, b } = word.centre;
            (l - colour.l).powi(2) + (a - colour.a).powi(2) + (b - colour.b).powi(2)
        };
        let guess = (0..self.words.len())
            .min_by(|a, b| plain(&self.words[*a]).total_cmp(&plain(&self.words[*b])));
        // OK because a vocabulary has at least one word.
        let mut best = guess.unwrap_or(0);
        let mut least = ciede2000(colour, self.words[best].centre);
        for (i, word) in self.words.iter().enumerate() {
            let far = |bound: fn(Lab, Lab) -> f64| bound(colour, word.centre) > least;
            if i == best || far(lightness_bound) || far(lower_bound) {
                continue;
            }
            let distance = ciede2000(colour, word.centre);
            if distance < least || (distance == least && i < best) {
                (best, least) = (i, distance);
            }
        }
        best
    }

    /// The family of the nearest word.
    pub fn family_of(&self, colour: Lab) -> Family {
        self.word_for(colour).family
    }

    fn unknown(&self, found: &str) -> UnknownColour {
        // Words near a text of many kilobytes take seconds to find, and it is near none.
        let found = &*brief(found);
        let ours = self.words.iter().flat_map(Word::spellings);
        let mut such_as = near(found, ours, 3);
        if such_as.is_empty() {
            such_as = near(found, css::names(), 3);
        }
        if such_as.is_empty() {
            such_as = self
                .words
                .iter()
                .step_by(12)
                .map(|w| &*w.word)
                .take(3)
                .collect();
        }
        UnknownColour::Word {
            found: found.to_string(),
            such_as: such_as.into_iter().map(str::to_string).collect(),
        }
    }
}

impl Word {
    /// The word as what is wanted: its region.
    pub fn target(&self) -> Target {
        Target {
            name: Some(self.word.clone()),
            centre: self.centre,
            radius: self.radius,
        }
    }

    /// The word, then its other spellings.
    pub fn spellings(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.word)
            .chain(&self.also)
            .map(String::as_str)
    }
}

/// A word as the file has it, before it is checked.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenWord {
    word: String,
    #[serde(default)]
    also: Vec<String>,
    centre: (f64, f64, f64),
    radius: f64,
    family: Family,
    #[serde(default)]
    groups: Vec<Group>,
}

impl TryFrom<WrittenWord> for Word {
    type Error = String;

    fn try_from(written: WrittenWord) -> Result<Word, String> {
        let WrittenWord {
            word,
            also,
            centre: (l, a, b),
            radius,
            family,
            groups,
        } = written;
        let taken = Family::ALL
            .map(Family::word)
            .into_iter()
            .chain(Group::ALL.map(Group::word));
        for spelling in std::iter::once(&word).chain(&also) {
            if !matches!(spelling.parse(), Ok(Spec::Word(_))) {
                return Err(format!(
                    "found {spelling:?}, expected a colour word of letters, spaces and hyphens"
                ));
            }
            if taken.clone().any(|name| name == key(spelling)) {
                return Err(format!(
                    "found the word {spelling:?}, expected one that is no family or group"
                ));
            }
        }
        if !(0.0..=100.0).contains(&l) {
            return Err(format!(
                "found L {l} of {word:?}, expected 0 to 100",
                word = brief(word)
            ));
        }
        if !(a.abs() <= 200.0 && b.abs() <= 200.0) {
            return Err(format!(
                "found a {a}, b {b} of {word:?}, expected -200 to 200",
                word = brief(word)
            ));
        }
        if !(0.0..=100.0).contains(&radius) {
            return Err(format!(
                "found radius {radius} of {word:?}, expected 0 to 100",
                word = brief(word)
            ));
        }
        Ok(Word {
            word,
            also,
            centre: Lab { l, a, b },
            radius,
            family,
            groups,
        })
    }
}

/// Reads word after word, so that the position of a repeated one is where it stands.
fn unique_words<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vocabulary, D::Error> {
    struct Words;

    impl<'de> de::Visitor<'de> for Words {
        type Value = Vocabulary;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a list of colour words")
        }

        fn visit_seq<A: de::SeqAccess<'de>>(self, mut list: A) -> Result<Vocabulary, A::Error> {
            let (mut words, mut by_key) = (Vec::<Word>::new(), HashMap::new());
            while let Some(word) = list.next_element::<Word>()? {
                for spelling in word.spellings() {
                    if let Some(other) = by_key.insert(key(spelling), words.len()) {
                        let other = words.get(other).unwrap_or(&word);
                        return Err(de::Error::custom(format!(
                            "found {spelling:?} under {:?} and under {:?}, expected it once",
                            other.word, word.word
                        )));
                    }
                }
                words.push(word);
            }
            if words.is_empty() {
                return Err(de::Error::custom("found no word, expected at least one"));
            }
            Ok(Vocabulary { words, by_key })
        }
    }

    deserializer.deserialize_seq(Words)
}

impl fmt::Display for UnknownColour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            UnknownColour::Malformed(error) => error.fmt(f),
            UnknownColour::Word { found, such_as } => write!(
                f,
                "found {found:?}, expected a colour word such as {}, or #rrggbb, or lab(L a b)",
                such_as.join(", ")
            ),
        }
    }
}

impl std::error::Error for UnknownColour {}

#[cfg(test)]
#[path = "vocabulary_tests.rs"]
mod tests;
