//! The bar beneath a drawing that tells its size.

use super::drawing::Drawing;
use crate::measure::{Exact, Length, LengthUnit, SizeUnits};

/// Lengths that a bar may stand for, in each unit, the shortest first: hundredths of an inch, and
/// millimetres.
const INCHES: [i64; 6] = [25, 50, 100, 200, 300, 500];
const MILLIMETRES: [i64; 6] = [5, 10, 20, 50, 100, 200];
/// A bar is at most so much of the circle's diameter.
const MOST: f64 = 0.5;

/// A bar of a round length.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleBar {
    /// Its length where the circle's radius is 1.
    pub units: f64,
    /// What it stands for.
    pub stands_for: Length,
    /// The same in the grower's units: `2 in`, `50 mm`.
    pub label: String,
}

impl Drawing {
    /// The longest bar of a round length that is at most half as wide as the circle; `None` where
    /// the diameter is not known, or is too small for any.
    pub fn scale_bar(&self, units: SizeUnits) -> Option<ScaleBar> {
        let unit = self.millimetres?;
        let lengths = match units {
            SizeUnits::In => INCHES.map(|hundredths| Exact::ratio(hundredths, 100)),
            SizeUnits::Mm => MILLIMETRES.map(Exact::whole),
        };
        let named = lengths.map(|number| match units {
            SizeUnits::In => Length::new(number, LengthUnit::Inch),
            SizeUnits::Mm => Length::from_mm(number),
        });
        let mut bars = named.into_iter().map(|stands_for| ScaleBar {
            units: stands_for.mm().to_f64() / unit,
            stands_for,
            label: stands_for.shown(units),
        });
        bars.rfind(|bar| bar.units <= 2.0 * MOST)
    }
}

#[cfg(test)]
mod tests {
    use crate::draw::{Bloom, Drawing, Paint, View};
    use crate::measure::SizeUnits;

    #[test]
    fn the_bar_is_round_in_the_growers_units_and_true_to_scale() {
        for (across, units, label, share) in [
            (100.0, SizeUnits::Mm, "50 mm", 0.5),
            (98.0, SizeUnits::Mm, "20 mm", 20.0 / 98.0),
            (101.6, SizeUnits::In, "2 in", 0.5),
            (48.0, SizeUnits::In, "0.5 in", 12.7 / 48.0),
            (250.0, SizeUnits::In, "3 in", 76.2 / 250.0),
        ] {
            let bloom = Bloom {
                diameter: Some(across),
                ..Bloom::default()
            };
            let drawing = Drawing::of(&bloom, &Paint::plain(), View::Face);
            let bar = drawing.scale_bar(units).expect("a bar");
            assert_eq!(bar.label, label);
            // The rays end within a line's width of the circle.
            assert!(
                (bar.units / 2.0 - share).abs() < 0.02,
                "{across}: {}",
                bar.units
            );
        }
        let unknown = Drawing::of(&Bloom::default(), &Paint::plain(), View::Face);
        assert_eq!(unknown.scale_bar(SizeUnits::Mm), None);
    }
}
