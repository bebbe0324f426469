//! A width across as tags tell it: in centimetres and in inches, the grower's own unit first, since
//! whoever buys may think in the other.

use crate::measure::sample::Interval;
use crate::measure::{Exact, SizeUnits};

/// Tenths that differ by less were the same before they were divided.
const SLACK: f64 = 1e-6;

/// `12 cm, 4.7 in`, of a width in mm.
pub(super) fn across(mm: Exact, units: SizeUnits) -> String {
    both(units, |unit| {
        let number = match unit {
            SizeUnits::Mm => mm / Exact::whole(10),
            SizeUnits::In => mm / Exact::ratio(254, 10),
        };
        number.to_decimal(1)
    })
}

/// `9.7 to 9.9 cm, 3.8 to 3.9 in`, of the ends in mm: rounded outward.
pub(super) fn from_to(ends: Interval, units: SizeUnits) -> String {
    both(units, |unit| {
        let tenth = tenth_of(unit);
        let low = (ends.low / tenth + SLACK).floor() / 10.0;
        let high = (ends.high / tenth - SLACK).ceil() / 10.0;
        format!("{low} to {high}")
    })
}

/// A tenth of a centimetre or of an inch, in mm.
fn tenth_of(unit: SizeUnits) -> f64 {
    match unit {
        SizeUnits::Mm => 1.0,
        SizeUnits::In => unit.in_mm() / 10.0,
    }
}

fn both(units: SizeUnits, number: impl Fn(SizeUnits) -> String) -> String {
    let told = |unit: SizeUnits| format!("{} {}", number(unit), unit.of_buyers());
    let (own, other) = match units {
        SizeUnits::Mm => (SizeUnits::Mm, SizeUnits::In),
        SizeUnits::In => (SizeUnits::In, SizeUnits::Mm),
    };
    format!("{}, {}", told(own), told(other))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An inch is 2.54 cm (international yard and pound agreement, 1959); worked by hand.
    #[test]
    fn a_width_is_told_in_both_units_the_growers_first() {
        for (tenths, cm_first, in_first) in [
            (1200, "12 cm, 4.7 in", "4.7 in, 12 cm"),
            (870, "8.7 cm, 3.4 in", "3.4 in, 8.7 cm"),
            (508, "5.1 cm, 2 in", "2 in, 5.1 cm"),
        ] {
            let mm = Exact::ratio(tenths, 10);
            assert_eq!(across(mm, SizeUnits::Mm), cm_first);
            assert_eq!(across(mm, SizeUnits::In), in_first);
        }
    }

    #[test]
    fn what_was_measured_lies_within_the_ends_that_are_told() {
        let ends = |low: f64, high: f64| Interval { low, high };
        for (low, high, told) in [
            (97.0, 99.0, "9.7 to 9.9 cm, 3.8 to 3.9 in"),
            // 3.9 and 4 in: no digit is lost in dividing.
            (99.06, 101.6, "9.9 to 10.2 cm, 3.9 to 4 in"),
            (50.0, 250.1, "5 to 25.1 cm, 1.9 to 9.9 in"),
        ] {
            assert_eq!(from_to(ends(low, high), SizeUnits::Mm), told);
        }
    }
}
