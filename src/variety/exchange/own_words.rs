//! The grower's own words for forms, sizes, colours, leaves, patterns and headings, mapped to terms once.

use std::collections::BTreeMap;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::kind::Kind;
use super::looked_up::looked_up;
use crate::measure::brief;
use crate::variety::text::Text;

/// The grower's words, each with the term that it stands for. `unknown` stands for no term: the
/// field is left as it is.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct OwnWords {
    /// Words for forms, to form ids.
    pub forms: BTreeMap<Text, Text>,
    /// Words for sizes, to size words.
    pub sizes: BTreeMap<Text, Text>,
    /// Words for colours, to colours as an export writes them: `red (main, tipped); white (second)`.
    pub colours: BTreeMap<Text, Text>,
    /// Words for the colour of leaves, to those of the list.
    pub foliage: BTreeMap<Text, Text>,
    /// Words for how colours lie, to those of the list.
    pub patterns: BTreeMap<Text, Text>,
    /// Headings, to the headings of an export, or `unknown` for a column that is not to be read.
    pub headings: BTreeMap<Text, Text>,
}

/// One word mapped, written `form:FD large=formal-decorative`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mapping {
    /// What the word is for.
    pub kind: Kind,
    /// The grower's word.
    pub word: Text,
    /// The term.
    pub term: Text,
}

/// The term that leaves a field as it is.
pub const UNKNOWN: &str = "unknown";

impl OwnWords {
    /// The term for a word, case, accents and spacing apart.
    pub fn find(&self, kind: Kind, word: &str) -> Option<&str> {
        let wanted = looked_up(word);
        let mut words = self.of(kind).iter();
        let found = words.find(|(own, _)| looked_up(own) == wanted);
        found.map(|(_, term)| term.as_str())
    }

    /// Adds a mapping in place of an older one of the same word; `false` where it was there.
    pub fn add(&mut self, mapping: &Mapping) -> bool {
        if self.find(mapping.kind, &mapping.word) == Some(mapping.term.as_str()) {
            return false;
        }
        let wanted = looked_up(&mapping.word);
        let words = self.of_mut(mapping.kind);
        words.retain(|own, _| looked_up(own) != wanted);
        words.insert(mapping.word.clone(), mapping.term.clone());
        true
    }

    fn of(&self, kind: Kind) -> &BTreeMap<Text, Text> {
        match kind {
            Kind::Form => &self.forms,
            Kind::Size => &self.sizes,
            Kind::Colour => &self.colours,
            Kind::Foliage => &self.foliage,
            Kind::Pattern => &self.patterns,
            Kind::Heading => &self.headings,
        }
    }

    fn of_mut(&mut self, kind: Kind) -> &mut BTreeMap<Text, Text> {
        match kind {
            Kind::Form => &mut self.forms,
            Kind::Size => &mut self.sizes,
            Kind::Colour => &mut self.colours,
            Kind::Foliage => &mut self.foliage,
            Kind::Pattern => &mut self.patterns,
            Kind::Heading => &mut self.headings,
        }
    }
}

/// Reads `form:my word=formal-decorative`.
impl FromStr for Mapping {
    type Err = String;
    fn from_str(text: &str) -> Result<Mapping, String> {
        let read = || {
            let (kind, rest) = text.split_once(':')?;
            let (word, term) = rest.rsplit_once('=')?;
            let kind = Kind::ALL
                .into_iter()
                .find(|one| one.word() == kind.trim())?;
            Some(Mapping {
                kind,
                word: Text::new(word.trim()).ok()?,
                term: Text::new(term.trim()).ok()?,
            })
        };
        read().ok_or_else(|| {
            format!(
                "found {text:?}, expected form, size, colour, foliage, pattern or heading with a word and a term, such as form:\"my word\"=formal-decorative", text = brief(text))
        })
    }
}
