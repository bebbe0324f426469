//! QR codes (ISO/IEC 18004) that hold a text and work without a network.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

use crate::paper::{Ink, Place, Squares};

/// The light border that a reader needs, in squares: ISO/IEC 18004, 9.1 (number from memory).
const QUIET: f64 = 4.0;
/// The number of UTF-8 among extended channel interpretations (AIM ECI assignments).
const UTF8: u32 = 26;
/// Tried in turn: the most damage that a code survives, first.
const LEVELS: [QrCodeEcc; 3] = [QrCodeEcc::Quartile, QrCodeEcc::Medium, QrCodeEcc::Low];

/// The code of a text.
pub(super) struct Code {
    rows: Vec<Vec<bool>>,
}

impl Code {
    /// The code that survives the most damage of those whose squares are at least `comfort` mm wide
    /// where the whole, light border counted, is `side` mm; where there is none, the one with the
    /// largest squares of `module` mm or more: a copy loses small squares before it loses anything
    /// that a stronger code would mend. `None` where the text is too long.
    pub(super) fn of(text: &str, side: f64, module: f64, comfort: f64) -> Option<Code> {
        let strong = LEVELS
            .into_iter()
            .find_map(|level| smallest(text, level, most(side, comfort)?));
        let weakest = || smallest(text, QrCodeEcc::Low, most(side, module)?);
        strong.or_else(weakest).map(|code| Code {
            rows: (0..code.size())
                .map(|y| (0..code.size()).map(|x| code.get_module(x, y)).collect())
                .collect(),
        })
    }

    /// The code in a square of `side` mm whose upper left corner is at (x, y), its light border
    /// counted.
    pub(super) fn drawing(&self, side: f64, x: f64, y: f64) -> Squares {
        let module = side / (self.rows.len() as f64 + 2.0 * QUIET);
        let place = Place::upright(x + QUIET * module, y + QUIET * module);
        Squares {
            rows: self.rows.clone(),
            side: module,
            place,
            ink: Ink::BLACK,
        }
    }
}

/// The largest version whose squares are at least `module` mm wide in a side of `side` mm: one of
/// version v has 4 v + 17 squares a side. `None` where not even the smallest has.
fn most(side: f64, module: f64) -> Option<Version> {
    let squares = (side / module - 2.0 * QUIET).floor();
    let version = ((squares - 17.0) / 4.0).floor().min(40.0);
    (version >= 1.0).then(|| Version::new(version as u8))
}

/// The smallest code of at most this version that holds the text, as strong as its size allows.
fn smallest(text: &str, level: QrCodeEcc, most: Version) -> Option<QrCode> {
    let segments = match text.is_ascii() {
        true => QrSegment::make_segments(text),
        // Without it readers guess at the letters, and some guess wrongly.
        false => vec![
            QrSegment::make_eci(UTF8),
            QrSegment::make_bytes(text.as_bytes()),
        ],
    };
    QrCode::encode_segments_advanced(&segments, level, Version::MIN, most, None, true).ok()
}
