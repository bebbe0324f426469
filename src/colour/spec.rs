//! A colour as a person writes it.

use std::fmt;
use std::str::FromStr;

use super::lab::Lab;
use super::srgb::Srgb;
use crate::measure::brief;

/// A colour as written: a word, hex, or CIELAB. A [`Vocabulary`](super::Vocabulary) gives a word
/// its meaning, so a file can be read before the words are known.
#[derive(Debug, Clone, PartialEq)]
pub enum Spec {
    /// A colour word, as written: `Dark red`.
    Word(String),
    /// `#rgb` or `#rrggbb`.
    Hex(Srgb),
    /// `lab(L a b)`, in the form of CSS Color Module Level 4 but under D65.
    Lab(Lab),
}

/// Why a text cannot be a colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParseSpecError {
    found: String,
    expected: &'static str,
}

const EXPECTED: &str = "a colour word such as peach, #rrggbb or lab(L a b)";
const EXPECTED_HEX: &str = "a hex colour such as #f4c2c2 or #fcc";
const EXPECTED_LAB: &str =
    "lab(L a b) with L from 0 to 100, a and b from -200 to 200, such as lab(83 14 24)";
/// No colour of a real surface is further out (the limits lie near 170).
const FURTHEST: f64 = 200.0;
/// In CSS, 100 % of a or b.
const FULL_AXIS: f64 = 125.0;

/// Reads a word, `#rgb`, `#rrggbb`, `lab(L a b)` and `lab(L% a% b%)`; commas may stand between.
///
/// CSS takes `lab()` under D50. Here it is the crate's own CIELAB, D65: what is given is what is
/// answered. A value for a style sheet wants adapting first; hex needs nothing.
impl FromStr for Spec {
    type Err = ParseSpecError;

    fn from_str(text: &str) -> Result<Self, ParseSpecError> {
        let trimmed = text.trim();
        let fail = |expected| ParseSpecError {
            found: brief(text),
            expected,
        };
        if trimmed.starts_with('#') {
            let hex = trimmed.parse().map_err(|_| fail(EXPECTED_HEX))?;
            return Ok(Spec::Hex(hex));
        }
        let lower = trimmed.to_lowercase();
        if let Some(rest) = lower.strip_prefix("lab")
            && rest.trim_start().starts_with('(')
        {
            return lab(rest).map(Spec::Lab).ok_or_else(|| fail(EXPECTED_LAB));
        }
        // A word is letters with what may join them: anything else is a slip in another form.
        let joins = |c: char| c.is_alphabetic() || " -_'/".contains(c);
        if trimmed.chars().any(char::is_alphabetic) && trimmed.chars().all(joins) {
            return Ok(Spec::Word(trimmed.to_string()));
        }
        Err(fail(EXPECTED))
    }
}

fn lab(text: &str) -> Option<Lab> {
    let inside = text.trim().strip_prefix('(')?.strip_suffix(')')?;
    let parts: Vec<&str> = inside
        .split(|c: char| c.is_whitespace() || c == ',')
        .filter(|part| !part.is_empty())
        .collect();
    let [l, a, b] = parts[..] else { return None };
    let (l, a, b) = (
        number(l, 100.0)?,
        number(a, FULL_AXIS)?,
        number(b, FULL_AXIS)?,
    );
    let fits = (0.0..=100.0).contains(&l) && a.abs() <= FURTHEST && b.abs() <= FURTHEST;
    fits.then_some(Lab { l, a, b })
}

/// A number, or a percentage of `full`. Words that `f64` reads (`inf`, `nan`) are none.
fn number(text: &str, full: f64) -> Option<f64> {
    let (digits, scale) = match text.strip_suffix('%') {
        Some(digits) => (digits, full / 100.0),
        None => (text, 1.0),
    };
    let plain = digits
        .bytes()
        .all(|b| b.is_ascii_digit() || b"+-.e".contains(&b));
    plain
        .then(|| digits.parse::<f64>().ok())?
        .map(|n| n * scale)
}

/// As it reads back.
impl fmt::Display for Spec {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Spec::Word(word) => f.write_str(word),
            Spec::Hex(hex) => hex.fmt(f),
            Spec::Lab(lab) => lab.fmt(f),
        }
    }
}

impl fmt::Display for ParseSpecError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "found {:?}, expected {}", self.found, self.expected)
    }
}

impl std::error::Error for ParseSpecError {}

impl serde::Serialize for Spec {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> serde::Deserialize<'de> for Spec {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = std::borrow::Cow::<'de, str>::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn spec(text: &str) -> Spec {
        text.parse().expect(text)
    }

    #[test]
    fn reads_the_three_ways_to_write_a_colour() {
        assert_eq!(spec(" Dark-red "), Spec::Word("Dark-red".into()));
        assert_eq!(spec("lavender"), Spec::Word("lavender".into()));
        assert_eq!(spec("#fcc"), spec("#FFCCCC"));
        for text in [
            "lab(50 10 -20)",
            "LAB(50% 8% -16%)",
            "lab( 50, 10, -20 )",
            "lab (5e1 10. -20.0)",
        ] {
            assert_eq!(spec(text), Spec::Lab(Lab::new(50.0, 10.0, -20.0)), "{text}");
        }
    }

    #[test]
    fn refuses_what_is_none_of_them_with_what_was_expected() {
        for (text, expected) in [
            ("", "a colour word"),
            ("12", "a colour word"),
            ("rgb(1 2 3)", "a colour word"),
            ("#12", "a hex colour"),
            ("lab(50 10)", "lab(L a b)"),
            ("lab(101 0 0)", "0 to 100"),
            ("lab(50 nan 0)", "lab(L a b)"),
            ("lab(50 1e999 0)", "-200 to 200"),
            ("lab(50 0 0", "lab(L a b)"),
        ] {
            let error = text.parse::<Spec>().expect_err(text).to_string();
            assert!(
                error.starts_with(&format!("found {text:?}, expected ")),
                "{error}"
            );
            assert!(error.contains(expected), "{error}");
        }
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back(l in 0.0..=100.0, a in -200.0..=200.0, b in -200.0..=200.0) {
            let written = Spec::Lab(Lab { l, a, b });
            prop_assert_eq!(written.to_string().parse(), Ok(written));
        }

        #[test]
        fn any_text_is_read_or_refused_without_panic(text in "(lab\\()?.{0,20}") {
            if let Ok(spec) = text.parse::<Spec>() {
                prop_assert_eq!(spec.to_string().parse(), Ok(spec));
            }
        }
    }
}
