//! Text that a person wrote: checked at the door, so that nothing in it can move a terminal.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Serialize};

pub use crate::matching::folded;
use crate::measure::brief;

/// One line of text: not empty, no control character, no character that turns the reading
/// direction, no space at either end.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Text(String);

/// Why a text was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TextError {
    found: String,
}

/// The longest line kept; a longer one is a paste that went wrong.
const MOST_CHARACTERS: usize = 500;

impl Text {
    /// Takes `text` as it is, or says why not.
    pub fn new(text: impl Into<String>) -> Result<Text, TextError> {
        let text = text.into();
        if is_plain(text.as_bytes()) {
            return Ok(Text(text));
        }
        let refuse = |found: String| Err(TextError { found });
        if let Some(bad) = text.chars().find(|c| is_hazard(*c)) {
            return refuse(format!("the control character U+{:04X}", u32::from(bad)));
        }
        if text.trim().is_empty() {
            return refuse("nothing".to_string());
        }
        if text.trim() != text {
            return refuse(format!("{:?} with a space at its end", brief(&text)));
        }
        let length = text.chars().count();
        if length > MOST_CHARACTERS {
            return refuse(format!("{length} characters"));
        }
        Ok(Text(text))
    }

    /// What can be kept of a text from elsewhere: hazards become spaces, runs of spaces one.
    /// `None` where nothing is left.
    pub fn cleaned(text: &str) -> Option<Text> {
        let joined = plain(text);
        let joined = joined.split_whitespace().collect::<Vec<_>>().join(" ");
        let short: String = joined.chars().take(MOST_CHARACTERS).collect();
        Text::new(short.trim_end()).ok()
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// Whether the text needs no closer look: printable ASCII, a length that is kept, no space at an end.
fn is_plain(text: &[u8]) -> bool {
    let ends = [text.first(), text.last()];
    text.len() <= MOST_CHARACTERS
        && text.iter().all(|byte| (b' '..=b'~').contains(byte))
        && ends.iter().all(|end| end.is_some_and(|end| *end != b' '))
}

/// A text from elsewhere as it may be shown: hazards become spaces.
pub fn plain(text: &str) -> String {
    as_shown(text).into_owned()
}

/// The same without a copy where the text has no hazard.
pub(super) fn as_shown(text: &str) -> Cow<'_, str> {
    let printable = text.bytes().all(|byte| (b' '..=b'~').contains(&byte));
    if printable || !text.contains(is_hazard) {
        return Cow::Borrowed(text);
    }
    let shown = |c| if is_hazard(c) { ' ' } else { c };
    Cow::Owned(text.chars().map(shown).collect())
}

/// Control characters, line separators, and the marks that turn or hide the reading direction.
fn is_hazard(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl std::ops::Deref for Text {
    type Target = str;
    fn deref(&self) -> &str {
        &self.0
    }
}

impl TryFrom<String> for Text {
    type Error = TextError;
    fn try_from(text: String) -> Result<Text, TextError> {
        Text::new(text)
    }
}

impl From<Text> for String {
    fn from(text: Text) -> String {
        text.0
    }
}

impl fmt::Display for TextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found {}, expected one line of 1 to {MOST_CHARACTERS} characters, no control characters, no space at either end",
            self.found
        )
    }
}

impl std::error::Error for TextError {}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_could_move_a_terminal_is_refused_or_cleaned() {
        for text in [
            "",
            " ",
            "a\u{1b}[2J",
            "a\nb",
            "a ",
            "\u{9b}2J",
            "a\u{202e}b",
        ] {
            assert!(Text::new(text).is_err(), "{text:?}");
        }
        let cleaned = Text::cleaned(" Haaf\u{1b}\tLight\r\n").expect("something is left");
        assert_eq!(cleaned.as_str(), "Haaf Light");
        assert_eq!(Text::cleaned("\u{7}\n "), None);
    }

    proptest! {
        #[test]
        fn what_is_cleaned_is_accepted(text in any::<String>()) {
            if let Some(cleaned) = Text::cleaned(&text) {
                prop_assert_eq!(Text::new(cleaned.as_str()), Ok(cleaned.clone()));
                prop_assert!(!cleaned.chars().any(char::is_control));
            }
        }
    }
}
