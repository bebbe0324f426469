//! Whether what a word is mapped to is a term of the list.

use super::Terms;
use super::colours;
use super::field::Field;
use super::kind::Kind;
use super::own_words::{Mapping, UNKNOWN};
use super::term::{expected, term_of};

impl Mapping {
    /// Whether the term is one that the list knows.
    ///
    /// # Errors
    /// One sentence with what was found, what was expected, and terms near it.
    pub fn check(&self, terms: &Terms) -> Result<(), String> {
        let term = self.term.as_str();
        let (known, found) = match self.kind {
            _ if term == UNKNOWN => (true, term.to_string()),
            Kind::Colour => match colours::listed(term, terms) {
                Ok(_) => (true, term.to_string()),
                Err(words) => (false, words.join(", ")),
            },
            Kind::Heading => (Field::of_heading(term).is_some(), term.to_string()),
            kind => (term_of(kind, term, terms).is_some(), term.to_string()),
        };
        if known {
            return Ok(());
        }
        let kind = self.kind.word();
        Err(format!(
            "found the {kind} {found:?} for {:?}, expected {}, or unknown",
            self.word.as_str(),
            expected(self.kind, &found, terms)
        ))
    }
}
