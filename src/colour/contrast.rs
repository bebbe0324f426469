//! How well one colour is read on another, by the Web Content Accessibility Guidelines 2.

use super::Srgb;
use super::lab::decode;

/// The least contrast of words with what they stand on that WCAG 2 asks at level AA (1.4.3).
pub const LEGIBLE: f64 = 4.5;

/// The relative luminance of WCAG 2: 0 for black, 1 for white.
pub fn luminance(colour: Srgb) -> f64 {
    let light = [colour.r, colour.g, colour.b].map(|channel| decode(f64::from(channel) / 255.0));
    let weights = [0.2126, 0.7152, 0.0722];
    light.iter().zip(weights).map(|(a, b)| a * b).sum()
}

/// The contrast ratio of WCAG 2, whichever of the two is the lighter: 1 for equal colours, 21 for
/// black and white.
pub fn contrast(one: Srgb, other: Srgb) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Which of black and white is read better on a colour; one of them always has over [`LEGIBLE`].
pub fn legible_on(colour: Srgb) -> Srgb {
    match contrast(Srgb::BLACK, colour) >= contrast(Srgb::WHITE, colour) {
        true => Srgb::BLACK,
        false => Srgb::WHITE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The figures that accessibility guides print for these pairs, to two places.
    #[test]
    fn contrast_is_as_published() {
        for (one, other, ratio) in [
            ("#000000", "#ffffff", 21.0),
            ("#767676", "#ffffff", 4.54),
            ("#777777", "#ffffff", 4.48),
            ("#949494", "#ffffff", 3.03),
            ("#ff0000", "#ffffff", 4.0),
            ("#0000ff", "#ffffff", 8.59),
        ] {
            let [one, other] = [one, other].map(|hex| hex.parse::<Srgb>().expect("a colour"));
            let found = contrast(one, other);
            assert!((found - ratio).abs() < 0.005, "{one} on {other}: {found}");
            assert_eq!(found, contrast(other, one));
        }
    }

    proptest! {
        #[test]
        fn black_or_white_is_read_on_every_colour(r: u8, g: u8, b: u8) {
            let colour = Srgb::new(r, g, b);
            prop_assert!(contrast(legible_on(colour), colour) >= LEGIBLE);
        }
    }
}
