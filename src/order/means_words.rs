//! A bed and a supplier's terms in words: what a grower types to add one, or to change one.

use std::num::NonZeroU32;

use super::bed::Bed;
use super::terms::Terms;
use crate::measure::day::{self, Calendar};
use crate::measure::{Exact, Length, LengthUnit, brief, id_of};
use crate::variety::{Money, Text};

/// What a new bed is as wide and as far between plants as, where nothing is said of it: of use on
/// most farms, and to be changed. Common practice, no source.
const WIDTH_MM: i64 = 1200;
const SPACING_MM: i64 = 400;

impl Bed {
    /// A bed read from `sea wall length=24m width=1.2m spacing=40cm rows=3`: the name is what stands
    /// before the first word with `=`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing, or what is lacking.
    pub fn read(text: &str) -> Result<Bed, String> {
        let (name, words) = named(text);
        let expected =
            "expected a name and its length, such as sea wall length=24m width=1.2m spacing=40cm";
        if name.is_empty() || !words.contains("length=") {
            return Err(format!("found {text:?}, {expected}", text = brief(text)));
        }
        let mm = |number| Length::new(Exact::whole(number), LengthUnit::Millimetre);
        let blank = Bed {
            name: Text::new(name).map_err(|error| error.to_string())?,
            length: mm(0),
            width: mm(WIDTH_MM),
            spacing: mm(SPACING_MM),
            row_spacing: None,
            rows: None,
            staggered: false,
        };
        blank.with(words)
    }

    /// The bed changed by words: `24m` is its length, then `width=1.2m`, `spacing=40cm`, `rows=3`,
    /// `row-spacing=50cm`, `staggered=yes`; a word with nothing after it takes rows or their spacing away.
    ///
    /// # Errors
    /// A sentence with the word that means nothing.
    pub fn with(&self, words: &str) -> Result<Bed, String> {
        let mut bed = self.clone();
        let length = |text: &str| text.parse::<Length>().map_err(|error| error.to_string());
        for (word, value) in pieces(words, "length") {
            let value = value.as_str();
            match word {
                "name" => bed.name = Text::new(value).map_err(|error| error.to_string())?,
                "length" => bed.length = length(value)?,
                "width" => bed.width = length(value)?,
                "spacing" => bed.spacing = length(value)?,
                "row-spacing" if value.is_empty() => bed.row_spacing = None,
                "row-spacing" => bed.row_spacing = Some(length(value)?),
                "staggered" => bed.staggered = yes_or_no(value)?,
                "rows" if value.is_empty() => bed.rows = None,
                "rows" => bed.rows = Some(rows(value)?),
                word => {
                    return Err(format!(
                        "found {word:?}, expected name=, length=, width=, spacing=, rows=, row-spacing= or staggered=",
                        word = brief(word)
                    ));
                }
            }
        }
        Ok(bed)
    }
}

impl Terms {
    /// Terms read from `Oar Bulbs postage=6.50 free=150 least=20 closes=2027-02-28`: the name is what
    /// stands before the first word with `=`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing, or what is lacking.
    pub fn read(text: &str, days: &Calendar) -> Result<Terms, String> {
        let (name, words) = named(text);
        let expected = "expected a supplier and its terms, such as Oar Bulbs postage=6.50 free=150";
        if name.is_empty() || words.is_empty() {
            return Err(format!("found {text:?}, {expected}", text = brief(text)));
        }
        let name = Text::new(name).map_err(|error| error.to_string())?;
        Terms::of(name).with(words, days)
    }

    /// A supplier without terms.
    pub fn of(name: Text) -> Terms {
        Terms {
            name,
            postage: Money::default(),
            free_over: None,
            least: None,
            closes: None,
        }
    }

    /// The terms changed by words: `7.50` is the postage, then `free=250`, `least=20`,
    /// `closes=2027-02-28`; a word with nothing after it takes it away.
    ///
    /// # Errors
    /// A sentence with the word that means nothing.
    pub fn with(&self, words: &str, days: &Calendar) -> Result<Terms, String> {
        let mut terms = self.clone();
        for (word, value) in pieces(words, "postage") {
            let value = value.as_str();
            match word {
                "name" => terms.name = Text::new(value).map_err(|error| error.to_string())?,
                "postage" => terms.postage = amount(value)?.unwrap_or_default(),
                "free" => terms.free_over = amount(value)?,
                "least" => terms.least = amount(value)?,
                "closes" if value.is_empty() => terms.closes = None,
                "closes" => terms.closes = Some(day::typed(value, days)?.day),
                word => {
                    return Err(format!(
                        "found {word:?}, expected name=, postage=, free=, least= or closes=",
                        word = brief(word)
                    ));
                }
            }
        }
        Ok(terms)
    }

    /// The terms in the words that change them.
    pub fn words(&self) -> String {
        let mut words = vec![format!("postage={}", self.postage)];
        let mut add = |word: &str, value: Option<String>| {
            words.extend(value.map(|value| format!("{word}={value}")));
        };
        add("free", self.free_over.map(|over| over.to_string()));
        add("least", self.least.map(|least| least.to_string()));
        add("closes", self.closes.map(|closes| closes.to_string()));
        words.join(" ")
    }
}

/// What stands before the first word with an equals sign, and the words from there on.
fn named(text: &str) -> (&str, &str) {
    let text = text.trim();
    let first = text.split_whitespace().find(|word| word.contains('='));
    match first.and_then(|word| text.find(word)) {
        Some(at) => (text[..at].trim(), &text[at..]),
        None => (text, ""),
    }
}

/// Words with their values: what stands first without an equals sign is `usual`; a value goes on over
/// spaces to the next word with one.
fn pieces<'a>(words: &'a str, usual: &'a str) -> Vec<(&'a str, String)> {
    let mut pieces: Vec<(&str, String)> = Vec::new();
    for word in words.split_whitespace() {
        match (word.split_once('='), pieces.last_mut()) {
            (Some((word, value)), _) => pieces.push((word, value.to_string())),
            (None, Some((_, value))) if !value.is_empty() => *value += &format!(" {word}"),
            (None, _) => pieces.push((usual, word.to_string())),
        }
    }
    pieces
}

fn amount(text: &str) -> Result<Option<Money>, String> {
    match text {
        "" => Ok(None),
        text => {
            let money = text.parse::<Money>();
            money.map(Some).map_err(|error| error.to_string())
        }
    }
}

fn yes_or_no(text: &str) -> Result<bool, String> {
    match id_of(text).as_str() {
        "yes" | "y" => Ok(true),
        "no" | "n" | "" => Ok(false),
        _ => Err(format!(
            "staggered: found {text:?}, expected yes or no",
            text = brief(text)
        )),
    }
}

fn rows(text: &str) -> Result<NonZeroU32, String> {
    text.parse().map_err(|_| {
        format!(
            "rows: found {text:?}, expected a number over 0",
            text = brief(text)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bed_is_added_by_a_line() {
        let bed = Bed::read("sea wall  length=24m width=48in spacing=40cm rows=2").expect("a bed");
        assert_eq!(bed.name.as_str(), "sea wall");
        assert_eq!(bed.places(), Some(120));
        let usual = Bed::read("byre length=10m").expect("a bed");
        assert_eq!(usual.places(), Some(75));
        assert_eq!(usual.with("12m").map(|bed| bed.places()), Ok(Some(90)));
        assert_eq!(usual.with("12 m"), usual.with("length=12 m"));
        let renamed = usual.with("name=old byre rows=").expect("a bed");
        assert_eq!(renamed.name.as_str(), "old byre");
        for (line, told) in [
            ("sea wall", "and its length"),
            ("length=24m", "a name"),
            ("sea wall length=24", "a length such as"),
            ("sea wall length=24m depth=1m", "found \"depth\""),
            ("sea wall length=24m rows=0", "rows: found \"0\""),
        ] {
            let error = Bed::read(line).expect_err(line);
            assert!(error.contains(told), "{line}: {error}");
        }
    }

    #[test]
    fn terms_are_added_by_a_line_and_read_back() {
        let line = "Oar Bulbs postage=6.50 free=150.00 least=20.00 closes=2027-02-28";
        let terms = Terms::read(line, &Calendar::FILES).expect("terms");
        assert_eq!(format!("{} {}", terms.name, terms.words()), line);
        assert_eq!(
            terms
                .with("free= closes=", &Calendar::FILES)
                .map(|terms| terms.words()),
            Ok("postage=6.50 least=20.00".to_string())
        );
        for (line, told) in [
            ("Oar Bulbs", "and its terms"),
            ("Oar Bulbs postage=-1", "without a sign"),
            ("Oar Bulbs sooner=1", "found \"sooner\""),
        ] {
            let error = Terms::read(line, &Calendar::FILES).expect_err(line);
            assert!(error.contains(told), "{line}: {error}");
        }
    }
}
