//! The bar beside drawings that tells their size.

use crate::measure::{Exact, Length, LengthUnit, SizeUnits};

/// Lengths that a bar may stand for, in each unit, the shortest first: hundredths of an inch, and
/// millimetres.
const INCHES: [i64; 6] = [25, 50, 100, 200, 300, 500];
const MILLIMETRES: [i64; 6] = [5, 10, 20, 50, 100, 200];

/// The longest round length of at most `most` mm, in the grower's units; `None` where that is too
/// small for any.
pub(super) fn round_length(most: f64, units: SizeUnits) -> Option<Length> {
    let lengths = match units {
        SizeUnits::In => INCHES.map(|hundredths| {
            let inches = Exact::ratio(hundredths, 100);
            Length::new(inches, LengthUnit::Inch)
        }),
        SizeUnits::Mm => MILLIMETRES.map(|mm| Length::from_mm(Exact::whole(mm))),
    };
    lengths.into_iter().rfind(|one| one.mm().to_f64() <= most)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_is_round_in_the_growers_units_and_true_to_scale() {
        for (across, units, label, share) in [
            (100.0, SizeUnits::Mm, "50 mm", 0.5),
            (98.0, SizeUnits::Mm, "20 mm", 20.0 / 98.0),
            (101.6, SizeUnits::In, "2 in", 0.5),
            (48.0, SizeUnits::In, "0.5 in", 12.7 / 48.0),
            (250.0, SizeUnits::In, "3 in", 76.2 / 250.0),
        ] {
            let bar = round_length(across / 2.0, units).expect("a bar");
            assert_eq!(bar.shown(units), label);
            let found = bar.mm().to_f64() / across;
            assert!((found - share).abs() < 1e-9, "{across}: {found}");
        }
        assert_eq!(round_length(4.0, SizeUnits::Mm), None);
        assert_eq!(round_length(f64::NAN, SizeUnits::In), None);
    }
}
