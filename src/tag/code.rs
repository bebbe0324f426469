//! QR codes (ISO/IEC 18004) that hold a text and work without a network.

use std::sync::Arc;

use kurbo::Affine;
use qrcodegen::{Mask, QrCode, QrCodeEcc, QrSegment, Version};

use crate::colour::Srgb;
use crate::paper::Squares;

/// The light border that a reader needs, in squares: ISO/IEC 18004, 9.1 (number from memory).
const QUIET: f64 = 4.0;
/// The number of UTF-8 among extended channel interpretations (AIM ECI assignments).
const UTF8: u32 = 26;
/// Tried in turn: the most damage that a code survives, first.
const LEVELS: [QrCodeEcc; 3] = [QrCodeEcc::Quartile, QrCodeEcc::Medium, QrCodeEcc::Low];

/// What is lost in dividing lengths, in dots: less is no dot.
const SLACK: f64 = 1e-6;

/// The code of a text.
pub(super) struct Code {
    rows: Arc<[Vec<bool>]>,
    /// The width of a square in mm.
    module: f64,
}

/// How wide the squares of a code are to be, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Fineness {
    /// The least.
    pub(super) module: f64,
    /// From this on they need not be larger.
    pub(super) comfort: f64,
    /// The width of the printer's dot, where they must be whole dots.
    pub(super) dot: Option<f64>,
}

impl Fineness {
    /// The least width of `least` or more that prints evenly: on a printer of few dots a square of
    /// two dots and a half is two dots in one place and three in another.
    fn least(self, least: f64) -> f64 {
        self.dot
            .map_or(least, |dot| (least / dot - SLACK).ceil() * dot)
    }

    /// The largest width of `most` or less that prints evenly.
    fn most(self, most: f64) -> f64 {
        self.dot
            .map_or(most, |dot| (most / dot + SLACK).floor() * dot)
    }
}

impl Code {
    /// The code that survives the most damage of those whose squares are at least `comfort` wide
    /// where the whole, light border counted, is `side` mm; where there is none, the one with the
    /// largest squares of `module` or more: a copy loses small squares before it loses anything
    /// that a stronger code would mend. `None` where the text is too long.
    pub(super) fn of(text: &str, side: f64, fineness: Fineness) -> Option<Code> {
        let within = |width: f64| largest(side, fineness.least(width));
        let strong = LEVELS
            .into_iter()
            .find_map(|level| smallest(text, level, within(fineness.comfort)?));
        let weakest = || smallest(text, QrCodeEcc::Low, within(fineness.module)?);
        let (code, most) = strong.or_else(weakest)?;
        let code = made(text, code.error_correction_level(), most, None)?;
        let size = code.size();
        let row = |y| (0..size).map(|x| code.get_module(x, y)).collect();
        Some(Code {
            rows: (0..size).map(row).collect(),
            module: fineness.most(side / (f64::from(size) + 2.0 * QUIET)),
        })
    }

    /// The code in the middle of a square of `side` mm whose upper left corner is at (x, y); its
    /// light border lies within the square.
    pub(super) fn drawing(&self, side: f64, x: f64, y: f64) -> Squares {
        let border = (side - self.rows.len() as f64 * self.module) / 2.0;
        Squares {
            rows: self.rows.clone(),
            place: Affine::translate((x + border, y + border)) * Affine::scale(self.module),
            ink: Srgb::BLACK,
        }
    }
}

/// The largest version whose squares are at least `module` mm wide in a side of `side` mm: one of
/// version v has 4 v + 17 squares a side. `None` where not even the smallest has.
fn largest(side: f64, module: f64) -> Option<Version> {
    let squares = (side / module - 2.0 * QUIET).floor();
    let version = ((squares - 17.0) / 4.0).floor().min(40.0);
    (version >= 1.0).then(|| Version::new(version as u8))
}

/// The smallest code of at most this version that holds the text, as strong as its size allows; under
/// the first mask: which reads best is weighed once, of the code that is taken, for that takes most of the time.
fn smallest(text: &str, level: QrCodeEcc, most: Version) -> Option<(QrCode, Version)> {
    Some((made(text, level, most, Some(Mask::new(0)))?, most))
}

/// The same under this mask, or under the one that reads best.
fn made(text: &str, level: QrCodeEcc, most: Version, mask: Option<Mask>) -> Option<QrCode> {
    let segments = match text.is_ascii() {
        true => QrSegment::make_segments(text),
        // Without it readers guess at the letters, and some guess wrongly.
        false => vec![
            QrSegment::make_eci(UTF8),
            QrSegment::make_bytes(text.as_bytes()),
        ],
    };
    QrCode::encode_segments_advanced(&segments, level, Version::MIN, most, mask, true).ok()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Dots to the inch that label printers are sold with: from memory.
    const PRINTERS: [f64; 4] = [200.0, 203.0, 300.0, 600.0];

    proptest! {
        /// A square of a whole number of dots is as many dots wide wherever it falls, so that every
        /// square of a code prints alike; and none is narrower than the least.
        #[test]
        fn squares_are_whole_dots_and_no_less_than_the_least(
            words in "[a-z ]{1,500}", side in 20.0..60.0_f64, printer in 0..PRINTERS.len(),
        ) {
            let dot = 25.4 / PRINTERS[printer];
            let fineness = Fineness { module: 0.375, comfort: 0.5, dot: Some(dot) };
            let plain = Fineness { dot: None, ..fineness };
            if let Some(code) = Code::of(&words, side, fineness) {
                let dots = code.module / dot;
                prop_assert!((dots - dots.round()).abs() < 1e-6, "{dots} dots");
                prop_assert!(code.module >= 0.375 - 1e-6, "{} mm", code.module);
                let drawn = code.drawing(side, 0.0, 0.0);
                let whole = drawn.side() * (drawn.rows.len() as f64 + 2.0 * QUIET);
                prop_assert!(whole <= side + 1e-6, "{whole} of {side} mm");
                prop_assert!(Code::of(&words, side, plain).is_some());
            }
        }
    }
}
