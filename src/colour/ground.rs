//! What words stand on: a light ground or a dark one.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::{Srgb, contrast};
use crate::measure::brief;

/// The ground of a terminal, as far as it matters for what is read on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Ground {
    /// Dark letters are read on it.
    Light,
    /// Light letters are read on it.
    Dark,
}

impl Ground {
    /// All of them.
    pub const ALL: [Ground; 2] = [Ground::Light, Ground::Dark];

    /// The ground of this colour: light where black is read better on it than white.
    pub fn of(colour: Srgb) -> Ground {
        match contrast(Srgb::BLACK, colour) >= contrast(Srgb::WHITE, colour) {
            true => Ground::Light,
            false => Ground::Dark,
        }
    }

    /// From the variable `COLORFGBG` that some terminals set: the numbers of the colours of letters
    /// and of their ground among the 16, with `;` between them and at times a word in the middle.
    /// `None` where it says anything else.
    pub fn of_variable(text: &str) -> Option<Ground> {
        let (_, ground) = text.rsplit_once(';')?;
        // The usual sixteen: 7 is light grey and 8 dark grey.
        match ground.trim().parse().ok()? {
            7_u8 | 9..=15 => Some(Ground::Light),
            0..=6 | 8 => Some(Ground::Dark),
            _ => None,
        }
    }

    /// Its word, as it is typed and kept.
    pub fn word(self) -> &'static str {
        match self {
            Ground::Light => "light",
            Ground::Dark => "dark",
        }
    }
}

impl fmt::Display for Ground {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl FromStr for Ground {
    type Err = String;

    fn from_str(text: &str) -> Result<Ground, String> {
        let ground = Ground::ALL.into_iter().find(|one| one.word() == text);
        ground.ok_or_else(|| format!("found {:?}, expected light or dark", brief(text)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ground_is_light_where_black_is_read_better() {
        for (colour, ground) in [
            ("#000000", Ground::Dark),
            ("#2e3440", Ground::Dark),
            ("#002b36", Ground::Dark),
            ("#747474", Ground::Dark),
            ("#767676", Ground::Light),
            ("#eeeeee", Ground::Light),
            ("#fdf6e3", Ground::Light),
        ] {
            let found = Ground::of(colour.parse().expect("a colour"));
            assert_eq!(found, ground, "{colour}");
        }
    }

    #[test]
    fn the_variable_of_some_terminals_is_understood() {
        for (text, ground) in [
            ("15;0", Some(Ground::Dark)),
            ("0;15", Some(Ground::Light)),
            ("0;default;15", Some(Ground::Light)),
            ("0;7", Some(Ground::Light)),
            ("7;8", Some(Ground::Dark)),
            ("default;default", None),
            ("15", None),
            ("0;231", None),
            ("", None),
        ] {
            assert_eq!(Ground::of_variable(text), ground, "{text:?}");
        }
    }
}
