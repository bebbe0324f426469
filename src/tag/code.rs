//! QR codes (ISO/IEC 18004) that hold a text and work without a network.

use qrcode::bits::Bits;
use qrcode::{Color, EcLevel, QrCode, Version};

use crate::paper::{Ink, Place, Squares};

/// The light border that a reader needs, in squares: ISO/IEC 18004, 9.1 (number from memory).
const QUIET: f64 = 4.0;
/// The number of UTF-8 among extended channel interpretations (AIM ECI assignments).
const UTF8: u32 = 26;
/// Tried in turn: the most damage that a code survives, first.
const LEVELS: [EcLevel; 3] = [EcLevel::Q, EcLevel::M, EcLevel::L];

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
            .iter()
            .find_map(|level| smallest(text, *level, most(side, comfort)));
        let weakest = || smallest(text, EcLevel::L, most(side, module));
        strong.or_else(weakest).map(|code| Code {
            rows: code
                .to_colors()
                .chunks(code.width())
                .map(|row| row.iter().map(|one| *one == Color::Dark).collect())
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
/// version v has 4 v + 17 squares a side.
fn most(side: f64, module: f64) -> i16 {
    let squares = (side / module - 2.0 * QUIET).floor();
    ((squares - 17.0) / 4.0).floor().clamp(0.0, 40.0) as i16
}

/// The smallest code of at most this version that holds the text.
fn smallest(text: &str, level: EcLevel, most: i16) -> Option<QrCode> {
    // Within these a text takes as many bits in one version as in another (ISO/IEC 18004, table 3;
    // number from memory), so that it need not be written to each to see whether it fits.
    let alike = [1..=9, 10..=26, 27..=40];
    alike.into_iter().find_map(|mut versions| {
        let version = |number: i16| Version::Normal(number);
        let long = written(text, version(*versions.start()))?.len();
        let holds = |number: &i16| Bits::new(version(*number)).max_len(level).ok() >= Some(long);
        let number = versions.find(|number| *number <= most && holds(number))?;
        let mut bits = written(text, version(number))?;
        bits.push_terminator(level).ok()?;
        QrCode::with_bits(bits, level).ok()
    })
}

/// The text as the bits of a code of this version, whether or not it has room for them.
fn written(text: &str, version: Version) -> Option<Bits> {
    let mut bits = Bits::new(version);
    match text.is_ascii() {
        true => bits.push_optimal_data(text.as_bytes()).ok()?,
        false => {
            // Without it readers guess at the letters, and some guess wrongly.
            bits.push_eci_designator(UTF8).ok()?;
            bits.push_byte_data(text.as_bytes()).ok()?;
        }
    }
    Some(bits)
}
