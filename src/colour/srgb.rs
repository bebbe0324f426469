//! sRGB as text: `#rgb` and `#rrggbb`.

use crate::measure::brief;
use std::fmt;
use std::str::FromStr;

/// An sRGB colour (IEC 61966-2-1), eight bits a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Srgb {
    /// Red, 0 to 255.
    pub r: u8,
    /// Green, 0 to 255.
    pub g: u8,
    /// Blue, 0 to 255.
    pub b: u8,
}

impl Srgb {
    /// Black.
    pub const BLACK: Srgb = Srgb::grey(0);
    /// White.
    pub const WHITE: Srgb = Srgb::grey(255);

    /// From its channels.
    pub const fn new(r: u8, g: u8, b: u8) -> Srgb {
        Srgb { r, g, b }
    }

    /// A grey, 0 black and 255 white. On paper: over 110 a photocopy loses it in thin lines.
    pub const fn grey(level: u8) -> Srgb {
        Srgb::new(level, level, level)
    }

    /// So much of the way to another, channel by channel as screens lay one over the other: 0 this, 1
    /// the other.
    pub fn toward(self, other: Srgb, share: f64) -> Srgb {
        let part = |own: u8, other: u8| {
            (f64::from(own) * (1.0 - share) + f64::from(other) * share).round() as u8
        };
        Srgb::new(
            part(self.r, other.r),
            part(self.g, other.g),
            part(self.b, other.b),
        )
    }
}

/// Why a text is not a hex colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParseHexError {
    found: String,
}

/// Reads `#rgb` and `#rrggbb`, in either case.
impl FromStr for Srgb {
    type Err = ParseHexError;

    fn from_str(text: &str) -> Result<Self, ParseHexError> {
        let parse = || {
            let digits: Vec<u8> = text
                .trim()
                .strip_prefix('#')?
                .chars()
                .map(|c| Some(c.to_digit(16)? as u8))
                .collect::<Option<_>>()?;
            match digits[..] {
                [r, g, b] => Some([r * 17, g * 17, b * 17]),
                [r, r2, g, g2, b, b2] => Some([r * 16 + r2, g * 16 + g2, b * 16 + b2]),
                _ => None,
            }
        };
        let [r, g, b] = parse().ok_or_else(|| ParseHexError { found: brief(text) })?;
        Ok(Srgb { r, g, b })
    }
}

/// `#rrggbb`, lower case.
impl fmt::Display for Srgb {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }
}

impl fmt::Display for ParseHexError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found {:?}, expected a hex colour such as #f4c2c2 or #fcc",
            self.found
        )
    }
}

impl std::error::Error for ParseHexError {}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn three_digits_stand_for_six() {
        assert_eq!("#FcA".parse::<Srgb>(), "#ffccaa".parse());
    }

    #[test]
    fn refuses_what_is_not_hex() {
        for text in [
            "", "#", "#12", "#1234", "#12345g", "ffccaa", "#é1é2", "#1234567",
        ] {
            let error = text.parse::<Srgb>().expect_err(text).to_string();
            assert!(error.contains(&format!("{text:?}")), "{error}");
        }
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back(r: u8, g: u8, b: u8) {
            let colour = Srgb { r, g, b };
            prop_assert_eq!(colour.to_string().parse(), Ok(colour));
        }
    }
}
