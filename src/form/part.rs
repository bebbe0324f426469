//! Parts of a length as an eye judges them: a quarter, a third, half.
//!
//! A part is held exactly: a third is 100/3 per cent, and no decimal. But an eye that says "a
//! quarter" does not say 25 per cent to the point, and limits lie just there. So such an answer is
//! the small range around it, and where a limit lies within, both sides stay possible and that is
//! said. A rule is no eye: its `2/3` is the number.

use super::space::Span;
use crate::measure::Exact;

/// How many hundredths of the whole a part that was judged by eye may be off. Assumed.
pub const BY_EYE: i64 = 5;

/// The parts that have a name: as it is typed shortest, as it is said, and its other words.
const NAMED: [(&str, &str, &[&str]); 5] = [
    ("1/4", "a quarter", &["quarter", "one quarter"]),
    ("1/3", "a third", &["third", "one third"]),
    ("1/2", "half", &["a half", "one half"]),
    ("2/3", "two thirds", &[]),
    ("3/4", "three quarters", &[]),
];

/// The part in per cent, exact: of `1/4`, `\u{bc}`, `a third`, `two-thirds`. `None` of what is not a
/// part, and of `33 1/3`, which is per cent already.
pub fn read(text: &str) -> Option<Exact> {
    let said = text.trim().to_lowercase().replace('-', " ");
    let is_said = |(_, name, others): &&(&str, &str, &[&str])| {
        *name == said || others.contains(&said.as_str())
    };
    let named = NAMED.iter().find(is_said).map(|(short, ..)| *short);
    fraction(named.unwrap_or(text))
}

/// A bare fraction of the whole, in per cent: `2/3` is 66 2/3.
pub fn fraction(text: &str) -> Option<Exact> {
    let text = text.trim();
    let bare = match text.is_ascii() {
        true => text.contains('/') && !text.contains(char::is_whitespace),
        // One of the fractions that are one character.
        false => text.chars().count() == 1,
    };
    let part: Exact = bare.then(|| text.parse().ok())??;
    Some(part * Exact::whole(100))
}

/// What an eye means by a part: [`BY_EYE`] to either side, but never so far that none or all of it
/// would be meant.
pub fn by_eye(percent: Exact) -> Span {
    let half = |number: Exact| number / Exact::whole(2);
    let ends = half(percent).min(half(Exact::whole(100) - percent));
    let off = ends.min(Exact::whole(BY_EYE));
    Span::closed(percent - off, percent + off)
}

/// The name of a range that an eye means by a part, as it is typed and as it is said.
pub fn named(span: Span) -> Option<(&'static str, &'static str)> {
    let is_it = |short: &str| fraction(short).map(by_eye) == Some(span);
    let found = NAMED.iter().find(|(short, ..)| is_it(short));
    found.map(|(short, name, _)| (*short, *name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::words::range_words;
    use crate::form::{Answer, Traits};
    use crate::measure::SizeUnits;
    use proptest::prelude::*;

    fn answer(id: &str, text: &str) -> Result<String, String> {
        let traits = Traits::embedded();
        let one = traits.get(traits.find(id).expect(id));
        let read = Answer::read(text, one).map_err(|error| error.to_string())?;
        let printed = read.print(one);
        assert_eq!(Answer::read(&printed, one).as_ref(), Ok(&read), "{printed}");
        Ok(match read {
            Answer::Range(span) => range_words(one, span, SizeUnits::Mm),
            _ => printed,
        })
    }

    #[test]
    fn a_part_by_eye_is_a_small_range_and_a_number_is_itself() {
        for (text, meant) in [
            ("1/4", "about a quarter (20 % to 30 %)"),
            ("\u{bc}", "about a quarter (20 % to 30 %)"),
            ("a quarter", "about a quarter (20 % to 30 %)"),
            ("Quarter", "about a quarter (20 % to 30 %)"),
            ("a third", "about a third (28.3 % to 38.3 %)"),
            ("half", "about half (45 % to 55 %)"),
            ("two thirds", "about two thirds (61.7 % to 71.7 %)"),
            ("two-thirds", "about two thirds (61.7 % to 71.7 %)"),
            ("2/3", "about two thirds (61.7 % to 71.7 %)"),
            ("3/4", "about three quarters (70 % to 80 %)"),
            ("three-quarters", "about three quarters (70 % to 80 %)"),
            ("2/5", "35 % to 45 %"),
            // Near an end it never means none or all.
            ("1/20", "2.5 % to 7.5 %"),
            // A range says itself how sure it is.
            ("1/4..1/2", "25 % to 50 %"),
            ("a third..two thirds", "33.3 % to 66.7 %"),
            ("25", "25"),
            ("25 %", "25"),
            ("1/2 %", "0.5"),
            ("33 1/3", "100/3%"),
            ("4/4", "100"),
            ("0/4", "0"),
            ("60+", "at least 60 %"),
        ] {
            assert_eq!(answer("rolled", text).as_deref(), Ok(meant), "{text}");
        }
        for text in ["5/4", "1/7", "a fifth", "half half", "quarters"] {
            let told = answer("rolled", text).expect_err(text);
            assert!(told.contains("found") && told.contains("a third"), "{told}");
        }
        // A part is of a whole: rows and lengths have none.
        assert!(answer("rows", "half").is_err() && answer("diameter", "half").is_err());
    }

    /// By hand: a third is 100/3 per cent, five hundredths to either side 85/3 and 115/3.
    #[test]
    fn a_third_is_held_exactly() {
        let third = read("a third").expect("a part");
        assert_eq!(third, Exact::ratio(100, 3));
        let span = by_eye(third);
        assert_eq!(
            (span.low, span.high),
            (Exact::ratio(85, 3), Exact::ratio(115, 3))
        );
    }

    #[test]
    fn ten_or_more_is_an_answer_to_a_count() {
        for (text, meant) in [
            ("10+", "at least 10"),
            ("10 +", "at least 10"),
            ("10..40", "at least 10"),
            ("40+", "40"),
            ("1+", "any"),
        ] {
            assert_eq!(answer("rows", text).as_deref(), Ok(meant), "{text}");
        }
        for text in ["41+", "+", "2.5+", "10++"] {
            let told = answer("rows", text).expect_err(text);
            assert!(told.contains("10+ for ten or more"), "{told}");
        }
        assert!(answer("diameter", "98mm+").is_err());
    }

    proptest! {
        /// Whatever fraction is typed: it is read exactly, its range holds it, and it is never none
        /// or all where some of it is.
        #[test]
        fn any_part_is_within_its_range(part in 0_i64..=960) {
            let typed = format!("{part}/960");
            let percent = read(&typed).expect("a part");
            prop_assert_eq!(percent, Exact::ratio(part * 100, 960));
            let span = by_eye(percent);
            prop_assert!(span.holds(percent));
            let some = part > 0 && part < 960;
            prop_assert_eq!(some, span.low > Exact::zero() && span.high < Exact::whole(100));
            let printed = answer("rolled", &typed);
            prop_assert!(printed.is_ok(), "{:?}", printed);
        }
    }
}
