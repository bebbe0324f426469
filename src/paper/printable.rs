//! Text that can be set: refused where the font or the way it is set would print it wrongly.

use std::fmt;

use unicode_normalization::UnicodeNormalization;
use unicode_segmentation::UnicodeSegmentation;

use super::breaking::Breaking;
use super::font::{Face, POINT, Style, Weight};

/// One line of text of which the fonts have every letter, and which runs from left to right.
///
/// Letters are set one after the other, without kerning; an accent is part of its letter (Unicode
/// Normalization Form C). So no letter is ever cut from its accents, and a text is as wide as its
/// letters together.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Printable(String);

/// Why a text cannot be printed, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum Unprintable {
    /// It has a letter that runs from right to left.
    RightToLeft {
        /// The whole text.
        text: String,
        /// The letter.
        letter: char,
    },
    /// It has a letter, or a letter with its accents, that the fonts lack.
    Missing {
        /// The whole text.
        text: String,
        /// What is missing, as a reader sees it.
        letter: String,
    },
    /// It has a line break or another control character.
    Control {
        /// The whole text.
        text: String,
        /// The character.
        found: char,
    },
    /// It does not fit, even at the least size.
    TooWide {
        /// The whole text.
        text: String,
        /// The room there is, in mm.
        width: f64,
        /// The lines there may be.
        lines: usize,
        /// The least size, in points.
        points: f64,
    },
}

/// Where Unicode's default is right to left (DerivedBidiClass.txt, 15.1), and the marks that turn
/// the direction. From memory of that file.
const RIGHT_TO_LEFT: [(u32, u32); 10] = [
    (0x0590, 0x08FF),
    (0x200F, 0x200F),
    (0x202A, 0x202E),
    (0x2066, 0x2069),
    (0xFB1D, 0xFDCF),
    (0xFDF0, 0xFDFF),
    (0xFE70, 0xFEFE),
    (0x10800, 0x10CFF),
    (0x10D00, 0x10FFF),
    (0x1E800, 0x1EFFF),
];
/// Sizes are tried in steps of this, in points.
const STEP: f64 = 0.25;

impl Printable {
    /// Takes a text, or says why it cannot be printed.
    ///
    /// # Errors
    /// [`Unprintable`], with the first thing that is wrong; never [`Unprintable::TooWide`].
    pub fn new(text: &str) -> Result<Printable, Unprintable> {
        // Most texts are of letters that every font has, and want no closer look.
        let common = |byte: u8| (b' '..=b'~').contains(&byte);
        if text.bytes().all(common) {
            return Ok(Printable(text.to_string()));
        }
        let composed: String = text.nfc().collect();
        let owned = || text.to_string();
        if let Some(found) = composed.chars().find(|c| c.is_control()) {
            return Err(Unprintable::Control {
                text: owned(),
                found,
            });
        }
        if let Some(letter) = composed.chars().find(|c| runs_left(*c)) {
            return Err(Unprintable::RightToLeft {
                text: owned(),
                letter,
            });
        }
        let known = |c: char| Face::of(Weight::Regular).glyph(c).is_some();
        let missing = composed
            .graphemes(true)
            .find(|letter| !letter.chars().all(known));
        match missing {
            Some(letter) => Err(Unprintable::Missing {
                text: owned(),
                letter: letter.to_string(),
            }),
            None => Ok(Printable(composed)),
        }
    }

    /// The text, in Normalization Form C.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// How wide it is, in mm.
    pub fn width(&self, style: Style) -> f64 {
        width(&self.0, style)
    }

    /// Whether it fits on one line of `width` mm.
    pub fn fits(&self, style: Style, width: f64) -> bool {
        self.width(style) <= width
    }

    /// Its lines, broken at spaces so that none is wider than `width` mm; an empty text has none.
    ///
    /// # Errors
    /// [`Unprintable::TooWide`] where one word is wider than that: a word is never cut.
    pub fn wrapped(&self, style: Style, width: f64) -> Result<Vec<Printable>, Unprintable> {
        let face = Face::of(style.weight);
        let words = self.split().map(|word| face.advances(word));
        self.broken(words, face.advances(" "), style.points, width)
    }

    /// The same of words that were measured before; `words` and `space` are shares of the size.
    pub(super) fn broken(
        &self,
        words: impl Iterator<Item = f64>,
        space: f64,
        points: f64,
        width: f64,
    ) -> Result<Vec<Printable>, Unprintable> {
        let mut breaking = Breaking::new(space, points, width);
        let mut lines: Vec<String> = Vec::new();
        for (word, own) in self.split().zip(words) {
            match (breaking.begins_a_line(own), lines.last_mut()) {
                (Some(false), Some(line)) => {
                    line.push(' ');
                    line.push_str(word);
                }
                (Some(_), _) => lines.push(word.to_string()),
                (None, _) => return Err(self.too_wide(width, usize::MAX, points)),
            }
        }
        Ok(lines.into_iter().map(Printable).collect())
    }

    /// The style in which it fits on one line of `width` mm: `style`, or a smaller size of it.
    ///
    /// # Errors
    /// [`Unprintable::TooWide`] where that would be smaller than `least` points.
    pub fn shrunk(&self, style: Style, least: f64, width: f64) -> Result<Style, Unprintable> {
        let own = self.width(style);
        if own <= width {
            return Ok(style);
        }
        // A touch smaller, so that rounding does not make it wider than the room again.
        let points = style.points * width / own * (1.0 - 1e-9);
        match points >= least {
            true => Ok(Style { points, ..style }),
            false => Err(self.too_wide(width, 1, least)),
        }
    }

    /// Its lines, at most `most` of them and none wider than `width` mm, and their style: `style`,
    /// or the largest smaller size of it in which that is so.
    ///
    /// # Errors
    /// [`Unprintable::TooWide`] where that would be smaller than `least` points.
    pub fn fitted(
        &self,
        style: Style,
        least: f64,
        width: f64,
        most: usize,
    ) -> Result<(Style, Vec<Printable>), Unprintable> {
        let mut points = style.points;
        loop {
            let smaller = Style { points, ..style };
            match self.wrapped(smaller, width) {
                Ok(lines) if lines.len() <= most => return Ok((smaller, lines)),
                // Written so that a size that is no number ends the search as well.
                _ if points > least => points = (points - STEP).max(least),
                _ => return Err(self.too_wide(width, most, least)),
            }
        }
    }

    /// Its words, between plain spaces.
    pub fn words(&self) -> impl Iterator<Item = Printable> {
        self.split().map(|word| Printable(word.to_string()))
    }

    /// A space that may not break is part of its word, so only the plain one parts words.
    pub(super) fn split(&self) -> impl Iterator<Item = &str> {
        self.0.split(' ').filter(|word| !word.is_empty())
    }

    fn too_wide(&self, width: f64, lines: usize, points: f64) -> Unprintable {
        Unprintable::TooWide {
            text: self.0.clone(),
            width,
            lines,
            points,
        }
    }
}

/// Reads as the text.
impl fmt::Display for Printable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for Unprintable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unprintable::RightToLeft { text, letter } => write!(
                f,
                "found {text:?} with U+{:04X}, which runs from right to left or turns the direction; expected \
                 letters that run from left to right, as others cannot be set yet",
                u32::from(*letter)
            ),
            Unprintable::Missing { text, letter } => {
                let codes: Vec<String> = letter
                    .chars()
                    .map(|c| format!("U+{:04X}", u32::from(c)))
                    .collect();
                write!(
                    f,
                    "found {text:?} with {letter:?} ({}), which the font lacks; expected Latin, \
                     Greek or Cyrillic letters",
                    codes.join(" ")
                )
            }
            Unprintable::Control { text, found } => write!(
                f,
                "found {text:?} with the control character U+{:04X}; expected one line of text",
                u32::from(*found)
            ),
            Unprintable::TooWide {
                text,
                width,
                lines,
                points,
            } => {
                let room = match lines {
                    1 => "on one line".to_string(),
                    &usize::MAX => "with each word whole".to_string(),
                    lines => format!("on {lines} lines"),
                };
                write!(
                    f,
                    "found {text:?}, expected a text that fits {room} of {width:.0} mm in letters \
                     of {points} points"
                )
            }
        }
    }
}

impl std::error::Error for Unprintable {}

fn width(text: &str, style: Style) -> f64 {
    Face::of(style.weight).advances(text) * style.points * POINT
}

fn runs_left(character: char) -> bool {
    let code = u32::from(character);
    RIGHT_TO_LEFT
        .iter()
        .any(|(low, high)| (*low..=*high).contains(&code))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn printable(text: &str) -> Printable {
        Printable::new(text).expect("a text that can be printed")
    }

    /// The widths in the `hmtx` table of Noto Sans 2.004, as fonttools 4.68 reads them:
    /// V 600, o 605, e 564, space 260 in 1000 to the size; V 650, o 619, e 591 bold.
    #[test]
    fn a_text_is_as_wide_as_its_letters() {
        let voe = printable("Voe o");
        let size = 100.0 * POINT;
        let close = |found: f64, units: f64| assert!((found - units * size / 1000.0).abs() < 1e-6);
        close(
            voe.width(Style::regular(100.0)),
            600.0 + 605.0 + 564.0 + 260.0 + 605.0,
        );
        close(
            printable("Voe").width(Style::bold(100.0)),
            650.0 + 619.0 + 591.0,
        );
        assert_eq!(printable("").width(Style::regular(9.0)), 0.0);
    }

    #[test]
    fn what_cannot_be_set_is_refused_with_one_sentence() {
        for (text, told) in [
            (
                "Noust \u{5e9}\u{5dc}",
                "U+05E9, which runs from right to left or turns",
            ),
            (
                "a\u{202e}b",
                "U+202E, which runs from right to left or turns",
            ),
            ("Skerry \u{5927}", "(U+5927), which the font lacks"),
            (
                "q\u{303}uay",
                "\"q\\u{303}\" (U+0071 U+0303), which the font lacks",
            ),
            ("\u{1f33c}", "(U+1F33C), which the font lacks"),
            (
                "two\nlines",
                "the control character U+000A; expected one line",
            ),
        ] {
            let refused = Printable::new(text).expect_err("refused").to_string();
            assert!(refused.contains(told), "{text:?}: {refused}");
        }
    }

    #[test]
    fn an_accent_of_its_own_joins_its_letter() {
        assert_eq!(printable("A\u{30a}se").as_str(), "\u{c5}se");
    }

    #[test]
    fn a_line_breaks_at_spaces_and_never_in_a_word() {
        let text = printable("Skerry Lantern Glow");
        let style = Style::regular(10.0);
        let lines = text.wrapped(style, 28.0).expect("every word fits");
        let lines: Vec<&str> = lines.iter().map(Printable::as_str).collect();
        assert_eq!(lines, ["Skerry Lantern", "Glow"]);
        let refused = text.wrapped(style, 8.0).expect_err("a word is wider");
        assert!(
            refused.to_string().contains("each word whole of 8 mm"),
            "{refused}"
        );
        let kept = printable("Skerry\u{a0}Lantern Glow");
        assert_eq!(kept.wrapped(style, 28.0).expect("fits").len(), 2);
        assert!(kept.wrapped(style, 20.0).is_err());
    }

    #[test]
    fn a_size_shrinks_to_the_least_and_no_further() {
        let text = printable("Skerry Lantern");
        let style = Style::bold(20.0);
        let own = text.width(style);
        assert_eq!(text.shrunk(style, 6.0, own).expect("fits"), style);
        let half = text.shrunk(style, 6.0, own / 2.0).expect("fits").points;
        assert!((half - 10.0).abs() < 1e-6, "{half}");
        let refused = text.shrunk(style, 11.0, own / 2.0).expect_err("too wide");
        assert!(refused.to_string().contains("of 11 points"), "{refused}");
    }

    proptest! {
        /// Up to 60 letters of any kind that the fonts have: no line leaves its room, no letter is
        /// lost, and the size lies between the least and what was asked for.
        #[test]
        fn fitted_lines_never_leave_their_room(
            text in "[A-Za-z\u{c0}-\u{24f}\u{410}-\u{44f} ,.'\u{2019}-]{0,60}",
            room in 10.0f64..120.0,
            most in 1usize..4,
        ) {
            let text = printable(&text);
            if let Ok((style, lines)) = text.fitted(Style::bold(24.0), 5.0, room, most) {
                prop_assert!(lines.len() <= most);
                prop_assert!((5.0..=24.0).contains(&style.points));
                prop_assert!(lines.iter().all(|line| line.width(style) <= room));
                let words = |text: &str| text.replace(' ', "");
                let set: String = lines.iter().map(Printable::as_str).collect();
                prop_assert_eq!(words(&set), words(text.as_str()));
            }
            if let Ok(style) = text.shrunk(Style::bold(24.0), 5.0, room) {
                prop_assert!(text.fits(style, room));
            }
        }
    }
}
