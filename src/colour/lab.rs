//! CIELAB, and the way there from sRGB and back.

use std::fmt;

use super::srgb::Srgb;

/// A colour in CIELAB (CIE 1976 L*a*b*), 2 degree observer, under D65.
///
/// The white point is that of sRGB (IEC 61966-2-1): x = 0.3127, y = 0.3290, so X = 0.95046,
/// Y = 1, Z = 1.08906. CSS `lab()` is under D50 and is *not* this space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lab {
    /// Lightness, 0 (black) to 100 (white).
    pub l: f64,
    /// Green (negative) to red (positive).
    pub a: f64,
    /// Blue (negative) to yellow (positive).
    pub b: f64,
}

/// Linear sRGB to XYZ: the primaries and white of IEC 61966-2-1 as exact fractions, so that a grey
/// is exactly neutral. The standard prints the same matrix rounded to four decimals.
const TO_XYZ: [[f64; 3]; 3] = [
    [
        506_752.0 / 1_228_815.0,
        87_881.0 / 245_763.0,
        12_673.0 / 70_218.0,
    ],
    [
        87_098.0 / 409_605.0,
        175_762.0 / 245_763.0,
        12_673.0 / 175_545.0,
    ],
    [
        7_918.0 / 409_605.0,
        87_881.0 / 737_289.0,
        1_001_167.0 / 1_053_270.0,
    ],
];

/// The inverse of [`TO_XYZ`].
const FROM_XYZ: [[f64; 3]; 3] = [
    [12_831.0 / 3_959.0, -329.0 / 214.0, -1_974.0 / 3_959.0],
    [
        -851_781.0 / 878_810.0,
        1_648_619.0 / 878_810.0,
        36_519.0 / 878_810.0,
    ],
    [705.0 / 12_673.0, -2_585.0 / 12_673.0, 705.0 / 667.0],
];

/// The white point: x/y, 1, (1 - x - y)/y.
const WHITE: [f64; 3] = [0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290];

/// Where the cube root gives way to a line (CIE 15), as the exact fractions.
const EPSILON: f64 = 216.0 / 24_389.0;
const KAPPA: f64 = 24_389.0 / 27.0;

impl Lab {
    /// From lightness and the two opponent axes, as they are.
    pub const fn new(l: f64, a: f64, b: f64) -> Self {
        Lab { l, a, b }
    }

    /// The nearest displayable colour, each channel clipped to 0 to 255. Where the colour is
    /// [outside the gamut](Lab::in_gamut), hue and lightness shift: for show only, never for distance.
    pub fn to_srgb(self) -> Srgb {
        let [r, g, b] = self
            .channels()
            .map(|channel| (channel.clamp(0.0, 1.0) * 255.0).round() as u8);
        Srgb { r, g, b }
    }

    /// True where sRGB can show the colour, to half a step of a channel.
    pub fn in_gamut(self) -> bool {
        const HALF_STEP: f64 = 0.5 / 255.0;
        self.channels()
            .iter()
            .all(|channel| (-HALF_STEP..=1.0 + HALF_STEP).contains(channel))
    }

    /// Gamma-encoded sRGB channels, 0 to 1 where the colour can be shown.
    fn channels(self) -> [f64; 3] {
        let fy = (self.l + 16.0) / 116.0;
        let f = [fy + self.a / 500.0, fy, fy - self.b / 200.0];
        let xyz = [0, 1, 2].map(|i| WHITE[i] * from_root(f[i]));
        times(&FROM_XYZ, xyz).map(encode)
    }
}

impl From<Srgb> for Lab {
    fn from(colour: Srgb) -> Lab {
        let linear = [colour.r, colour.g, colour.b].map(|c| decode(f64::from(c) / 255.0));
        let xyz = times(&TO_XYZ, linear);
        let [x, y, z] = [0, 1, 2].map(|i| to_root(xyz[i] / WHITE[i]));
        Lab {
            l: 116.0 * y - 16.0,
            a: 500.0 * (x - y),
            b: 200.0 * (y - z),
        }
    }
}

/// `lab(50 10.5 -3)`, in full: what is printed reads back as the same colour.
impl fmt::Display for Lab {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "lab({} {} {})", self.l, self.a, self.b)
    }
}

fn times(matrix: &[[f64; 3]; 3], v: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

fn to_root(t: f64) -> f64 {
    if t > EPSILON {
        t.cbrt()
    } else {
        (KAPPA * t + 16.0) / 116.0
    }
}

fn from_root(f: f64) -> f64 {
    let cube = f.powi(3);
    if cube > EPSILON {
        cube
    } else {
        (116.0 * f - 16.0) / KAPPA
    }
}

/// The transfer function of IEC 61966-2-1, channel to light.
pub(super) fn decode(channel: f64) -> f64 {
    if channel <= 0.04045 {
        channel / 12.92
    } else {
        ((channel + 0.055) / 1.055).powf(2.4)
    }
}

/// Light to channel.
fn encode(light: f64) -> f64 {
    if light <= 0.003_130_8 {
        light * 12.92
    } else {
        1.055 * light.powf(1.0 / 2.4) - 0.055
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::data_rows;
    use proptest::prelude::*;

    /// The file names the two libraries, their versions and the calls.
    #[test]
    fn agrees_with_two_colour_libraries() {
        let rows = data_rows(include_str!("../../tests/data/srgb_to_lab.csv"));
        let mut checked = 0;
        for row in rows {
            let (hex, numbers) = row.split_once(',').expect(row);
            let expected: Vec<f64> = numbers.split(',').map(|n| n.parse().expect(row)).collect();
            let found = Lab::from(hex.parse::<Srgb>().expect(row));
            for (i, found) in [found.l, found.a, found.b].into_iter().enumerate() {
                // scikit-image rounds its matrix and white point, so it agrees to two decimals.
                assert!((found - expected[i]).abs() < 0.03, "{row}: {found}");
                assert!((found - expected[i + 3]).abs() < 1e-6, "{row}: {found}");
            }
            checked += 1;
        }
        assert!(checked >= 20, "only {checked} rows");
    }

    #[test]
    fn a_grey_is_neutral_and_white_is_white() {
        for grey in 0..=255 {
            let lab = Lab::from(Srgb {
                r: grey,
                g: grey,
                b: grey,
            });
            assert!(lab.a.abs() < 1e-10 && lab.b.abs() < 1e-10, "{lab}");
        }
        assert!(
            (Lab::from(Srgb {
                r: 255,
                g: 255,
                b: 255
            })
            .l - 100.0)
                .abs()
                < 1e-10
        );
    }

    #[test]
    fn a_colour_no_screen_shows_is_clipped_and_says_so() {
        let vivid = Lab::new(60.0, 120.0, -90.0);
        assert!(!vivid.in_gamut());
        assert!(Lab::from(vivid.to_srgb()).in_gamut());
    }

    proptest! {
        #[test]
        fn srgb_goes_to_lab_and_back(r: u8, g: u8, b: u8) {
            let colour = Srgb { r, g, b };
            let lab = Lab::from(colour);
            prop_assert_eq!(lab.to_srgb(), colour);
            prop_assert!(lab.in_gamut());
        }
    }
}
