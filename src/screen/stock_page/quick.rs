//! What is noted on a walk along the shelf: a digit begins it, and a short line is meant as words.

use crate::book::words::split;
use crate::measure::Money;

/// One kind of event.
pub(super) struct Quick {
    /// The digit that begins it.
    pub(super) digit: char,
    /// What it is.
    pub(super) name: &'static str,
    /// What may be typed.
    pub(super) hint: &'static str,
    /// The words that a line means, each `WORD=VALUE`.
    pub(super) words: fn(&str) -> Result<Vec<String>, String>,
}

/// Every kind, in the order of the year.
#[rustfmt::skip] // A table reads by rows.
pub(super) const QUICK: &[Quick] = &[
    Quick { digit: '1', name: "lifted", hint: "Clumps lifted, then tubers with an eye where they were divided too: 12 43.", words: |text| two(text, ["lifted", "divided"]) },
    Quick { digit: '2', name: "divided", hint: "Tubers with an eye: 43.", words: |text| counted(text, "divided", None) },
    Quick { digit: '3', name: "stored", hint: "Tubers put in store, then where if it is another place: 43 byre.", words: |text| counted(text, "stored", Some("place")) },
    Quick { digit: '4', name: "lost", hint: "Tubers lost, then why: 3 rotten.", words: |text| counted(text, "lost", Some("why")) },
    Quick { digit: '5', name: "sound", hint: "Tubers found sound when all were counted: 31. What is missing was lost.", words: |text| counted(text, "sound", None) },
    Quick { digit: '6', name: "sold", hint: "How many, what each brought, and to whom: 31 4.50 the market.", words: sold },
    Quick { digit: '7', name: "promised", hint: "How many, then to whom: 2 the neighbour.", words: |text| counted(text, "promised", Some("to")) },
    Quick { digit: '8', name: "planted", hint: "How many were planted: 9.", words: |text| counted(text, "planted", None) },
    Quick { digit: '9', name: "keep", hint: "How many to keep back for your own beds: 9.", words: |text| counted(text, "keep", None) },
    Quick { digit: '0', name: "words", hint: "Anything: price=4.50 given=2 potted=5 cuttings=8 note='soft' ...", words: |text| split(text).map_err(|error| error.to_string()) },
];

/// The kind that a digit begins.
pub(super) fn of_digit(digit: char) -> Option<usize> {
    QUICK.iter().position(|one| one.digit == digit)
}

/// A number, and what stands behind it.
fn number(text: &str) -> Result<(&str, &str), String> {
    let (number, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    match number.parse::<u32>() {
        Ok(_) => Ok((number, rest.trim())),
        Err(_) => Err(format!("found {number:?}, expected a number first")),
    }
}

/// `3 rotten` as `lost=3 why=rotten`.
fn counted(text: &str, word: &str, behind: Option<&str>) -> Result<Vec<String>, String> {
    let (count, rest) = number(text)?;
    let mut words = vec![format!("{word}={count}")];
    match (rest, behind) {
        ("", _) => {}
        (rest, Some(word)) => words.push(format!("{word}={rest}")),
        (rest, None) => {
            return Err(format!(
                "found {rest:?} behind the number, expected nothing"
            ));
        }
    }
    Ok(words)
}

/// `12 43` as `lifted=12 divided=43`.
fn two(text: &str, [first, second]: [&str; 2]) -> Result<Vec<String>, String> {
    let (count, rest) = number(text)?;
    let mut words = vec![format!("{first}={count}")];
    if !rest.is_empty() {
        words.extend(counted(rest, second, None)?);
    }
    Ok(words)
}

/// `31 4.50 the market` as `sold=31 price=4.50 to=the market`.
fn sold(text: &str) -> Result<Vec<String>, String> {
    let (count, rest) = number(text)?;
    let mut words = vec![format!("sold={count}")];
    let (first, behind) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
    let to = match first.parse::<Money>() {
        Ok(_) => {
            words.push(format!("price={first}"));
            behind.trim()
        }
        Err(_) => rest,
    };
    if !to.is_empty() {
        words.push(format!("to={to}"));
    }
    Ok(words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_line_means_words() {
        for (digit, text, meant) in [
            ('1', "12", Ok("lifted=12")),
            ('1', "12 43", Ok("lifted=12|divided=43")),
            ('3', "43 top byre", Ok("stored=43|place=top byre")),
            ('4', "3 rotten", Ok("lost=3|why=rotten")),
            (
                '6',
                "31 4.50 the market",
                Ok("sold=31|price=4.50|to=the market"),
            ),
            ('6', "31 the market", Ok("sold=31|to=the market")),
            ('6', "31 4.50", Ok("sold=31|price=4.50")),
            ('7', "2", Ok("promised=2")),
            (
                '0',
                "given=2 to='Jessie next door'",
                Ok("given=2|to=Jessie next door"),
            ),
            (
                '2',
                "43 44",
                Err("found \"44\" behind the number, expected nothing"),
            ),
            (
                '4',
                "rotten 3",
                Err("found \"rotten\", expected a number first"),
            ),
        ] {
            let quick = &QUICK[of_digit(digit).expect("a digit of the table")];
            let words = (quick.words)(text).map(|words| words.join("|"));
            assert_eq!(
                words,
                meant.map(str::to_string).map_err(str::to_string),
                "{text}"
            );
        }
    }

    #[test]
    fn every_digit_begins_something() {
        for digit in '0'..='9' {
            assert!(of_digit(digit).is_some(), "{digit}");
        }
    }
}
