//! Colours that are asked for: to narrow by, to rank by, of a need. The nearest of them counts.

use super::Vocabulary;
use super::several::{Piece, several};
use super::target::Target;
use crate::measure::brief;

impl Vocabulary {
    /// The colours of a text that asks for some: words, families and groups, `#rrggbb`, `lab(L a b)`, with
    /// any of the separators of [`several`] between. A word of the trade that is also a family is the word.
    ///
    /// # Errors
    /// One clause: what was found, what was expected; a colour of a part of the bloom too, for what is asked
    /// for is asked of the whole bloom.
    pub fn asked(&self, text: &str) -> Result<Vec<Target>, String> {
        let mut targets = Vec::new();
        for piece in self.alone(text)? {
            match (self.find(&piece.colour), self.members(&piece.colour)) {
                (None, Some(members)) => targets.extend(members),
                _ => targets.push(self.told(&piece.colour)?),
            }
        }
        Ok(targets)
    }

    /// The colour of a text that has room for one alone.
    ///
    /// # Errors
    /// As [`asked`](Vocabulary::asked), and where there are several.
    pub fn one(&self, text: &str) -> Result<Target, String> {
        match &self.alone(text)?[..] {
            [piece] => self.told(&piece.colour),
            several => Err(format!(
                "found {} colours in {:?}, expected one alone",
                several.len(),
                brief(text)
            )),
        }
    }

    fn alone(&self, text: &str) -> Result<Vec<Piece>, String> {
        let is_colour = |text: &str| self.members(text).is_some() || self.target(text).is_ok();
        let pieces = several(text, &is_colour).map_err(|none| self.no_colour(&none.found))?;
        match pieces.iter().find(|one| !one.is_plain) {
            Some(_) => Err(format!(
                "found {:?}, expected colours of the whole bloom, such as peach",
                brief(text)
            )),
            None => Ok(pieces),
        }
    }

    fn told(&self, text: &str) -> Result<Target, String> {
        self.target(text).map_err(|error| error.to_string())
    }

    fn no_colour(&self, found: &str) -> String {
        format!(
            "found {:?} before a colon, expected colours of the whole bloom, such as peach",
            brief(found)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_asked_for_is_one_colour_or_several_of_the_whole_bloom() {
        let words = Vocabulary::embedded();
        let names = |text: &str| -> Vec<String> {
            let targets = words.asked(text).expect(text);
            targets.into_iter().filter_map(|one| one.name).collect()
        };
        for text in ["plum or wine", "plum, wine", "plum/wine", "plum and wine"] {
            assert_eq!(names(text), ["plum", "wine"], "{text}");
        }
        assert!(names("pinks").len() > 5);
        // A word that is also a group is the word.
        assert_eq!(words.asked("pink").map(|all| all.len()), Ok(1));
        assert_eq!(words.one("lab(60, 20, 30)").map(|one| one.radius), Ok(0.0));
        for (text, told) in [
            (
                "plum with a white tip",
                "expected colours of the whole bloom",
            ),
            ("second:white", "expected colours of the whole bloom"),
            ("leaf:white", "\"leaf\" before a colon"),
            ("plumm", "such as plum"),
        ] {
            let found = words.asked(text).expect_err(text);
            assert!(found.contains(told), "{text}: {found}");
        }
        let two = words.one("plum, wine").expect_err("two");
        assert_eq!(two, "found 2 colours in \"plum, wine\", expected one alone");
    }
}
