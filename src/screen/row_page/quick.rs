//! What is noted on a walk along the row: a digit begins it, and a short line is meant as words.

use crate::measure::SizeUnits;
use crate::screen::lengths;

/// One kind of observation.
pub(super) struct Quick {
    /// The digit that begins it.
    pub(super) digit: char,
    /// What it is.
    pub(super) name: &'static str,
    /// What may be typed.
    pub(super) hint: fn(SizeUnits) -> &'static str,
    /// The words that a line means, each `WORD=VALUE`.
    pub(super) words: fn(&str, SizeUnits) -> Result<Vec<String>, String>,
}

/// Every kind, the most used first.
#[rustfmt::skip] // A table reads by rows.
pub(super) const QUICK: &[Quick] = &[
    Quick { digit: '1', name: "diameters", hint: |units| match units { SizeUnits::Mm => "One for each bloom, such as 98 104 101.", SizeUnits::In => "One for each bloom: 3.9 4 1/8 4 in inches, or 98 104 101 mm." }, words: |text, _| Ok(vec![format!("diameter={}", of_the_line(text))]) },
    Quick { digit: '2', name: "vase", hint: |_| "Days for each stem, + where it is still fresh at the end: 7 8 6 6+.", words: |text, _| Ok(vec![format!("vase={}", listed(text))]) },
    Quick { digit: '3', name: "weather", hint: |_| "wind, rain or sun, then damaged of open blooms: wind 3/12.", words: |text, _| Ok(vec![format!("weather={}", weather(text))]) },
    Quick { digit: '4', name: "colour", hint: |_| "A colour word, #rrggbb or lab(L a b), or several: plum with a yellow eye.", words: |text, _| Ok(vec![format!("colour={text}")]) },
    Quick { digit: '5', name: "stems", hint: |units| match units { SizeUnits::Mm => "Lengths of cut stems, such as 55 60 in cm.", SizeUnits::In => "Lengths of cut stems, such as 22 24 in inches, or 55 60 cm." }, words: |text, _| Ok(vec![format!("stem={}", of_the_line(text))]) },
    Quick { digit: '6', name: "open", hint: |_| "Open blooms on all plants.", words: |text, _| Ok(vec![format!("open={text}")]) },
    Quick { digit: '7', name: "cut", hint: |_| "Stems cut today.", words: |text, _| Ok(vec![format!("cut={text}")]) },
    Quick { digit: '8', name: "visits", hint: |_| "Bees and other visitors over minutes, such as 7/10.", words: |text, _| Ok(vec![format!("visits={text}")]) },
    Quick { digit: '9', name: "tubers", hint: |_| "Tubers lifted, such as 9; in spring those sound, such as 7 sound.", words: |text, _| Ok(vec![tubers(text)]) },
    Quick { digit: '0', name: "words", hint: |_| "Anything: centre=open rows=2 plants=3 note='weak neck' ...", words: |text, _| crate::trial::read::split(text).map_err(|error| error.to_string()) },
];

/// The kind that a digit begins.
pub(super) fn of_digit(digit: char) -> Option<usize> {
    QUICK.iter().position(|one| one.digit == digit)
}

/// Lengths with commas between, and a unit that was written once for all of them; bare numbers stay
/// so, for the reader to take in the grower's units.
fn of_the_line(text: &str) -> String {
    lengths::with_units_of_the_line(&lengths::split(text)).join(",")
}

/// `7, 8 6+` as `7,8,6+`.
fn listed(text: &str) -> String {
    let parts = text.split([',', ';', ' ']).filter(|part| !part.is_empty());
    parts.collect::<Vec<_>>().join(",")
}

/// `wind 3/12` as `wind:3/12`, also several of them.
fn weather(text: &str) -> String {
    listed(&text.replace(": ", ":"))
        .replace(",", " ")
        .split_whitespace()
        .fold(String::new(), |told, part| match told.chars().last() {
            None => part.to_string(),
            // A count belongs to the kind before it.
            Some(_) if part.starts_with(|c: char| c.is_ascii_digit()) => format!("{told}:{part}"),
            Some(_) => format!("{told},{part}"),
        })
}

fn tubers(text: &str) -> String {
    match text.trim().strip_suffix("sound") {
        Some(sound) => format!("sound={}", sound.trim()),
        None => format!("tubers={}", text.trim()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_line_means_words() {
        for (digit, text, meant) in [
            ('1', "98 104 101", "diameter=98,104,101"),
            ('1', "98 104 101 mm", "diameter=98mm,104mm,101 mm"),
            ('1', "98mm 104 101", "diameter=98mm,104mm,101mm"),
            ('1', "3 1/2 4 in", "diameter=3 1/2in,4 in"),
            ('2', "7 8, 6+", "vase=7,8,6+"),
            ('3', "wind 3/12", "weather=wind:3/12"),
            ('3', "wind 3/12 rain 1/9", "weather=wind:3/12,rain:1/9"),
            ('3', "wind: 3/12", "weather=wind:3/12"),
            ('4', "soft pink", "colour=soft pink"),
            ('5', "55 60", "stem=55,60"),
            ('5', "55 60cm", "stem=55cm,60cm"),
            ('9', "7 sound", "sound=7"),
            ('9', "9", "tubers=9"),
            ('0', "note='weak neck' plants=3", "note=weak neck|plants=3"),
        ] {
            let quick = &QUICK[of_digit(digit).expect("a digit of the table")];
            let words = (quick.words)(text, SizeUnits::Mm).expect(text);
            assert_eq!(words.join("|"), meant);
        }
    }

    #[test]
    fn every_digit_begins_something() {
        for digit in '0'..='9' {
            assert!(of_digit(digit).is_some(), "{digit}");
        }
    }
}
