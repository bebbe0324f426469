//! The grower's means: beds, money, suppliers' terms.

use std::num::NonZeroU32;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::model::Supplier;
use crate::measure::bounds::Bounds;
use crate::measure::{Exact, Length, LengthUnit};
use crate::variety::{Money, Text};

/// A bed: so many rows, or as many as its width holds at the spacing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bed {
    /// What it is called.
    pub name: Text,
    /// Its length.
    pub length: Length,
    /// Its width.
    pub width: Length,
    /// From plant to plant in the row, and from row to row where no number of rows is given.
    pub spacing: Length,
    /// Rows along its length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rows: Option<NonZeroU32>,
}

/// A supplier's terms.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Terms {
    /// The name as in the offers.
    pub name: Text,
    /// Postage on an order.
    pub postage: Money,
    /// The worth of an order from which postage is free.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub free_over: Option<Money>,
    /// The least worth of an order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Money>,
    /// The last day on which an order is taken.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    pub closes: Option<Date>,
}

impl Terms {
    /// The same in hundredths.
    pub(super) fn as_supplier(&self) -> Supplier {
        Supplier {
            name: self.name.to_string(),
            postage: self.postage.in_hundredths(),
            free_over: self.free_over.map(|over| over.in_hundredths()),
            least: self.least.map_or(0, |least| least.in_hundredths()),
        }
    }
}

/// The most plants that a bed is believed to hold; more is a slip of a unit.
const MOST_PLACES: i128 = 1_000_000;
const ROWS: Bounds<u32> = Bounds::new("rows", 1, 9999);
/// The longest and the widest bed that is believed, in metres.
const MOST_METRES: i64 = 10_000;
/// The closest spacing that is believed, in millimetres; a tuber is wider.
const LEAST_SPACING: i64 = 10;

impl Bed {
    /// Plants that it holds; `None` where its measures make no sense.
    pub fn places(&self) -> Option<u64> {
        if self.lacking().is_some() {
            return None;
        }
        let rows = i128::from(self.across());
        let places = self.along().checked_mul(rows)?;
        u64::try_from(places).ok().filter(|_| places <= MOST_PLACES)
    }

    /// The first measure that cannot be, with its field; what is not over 0 is told by `lacking`.
    pub(super) fn out_of_bounds(&self) -> Option<(&'static str, String)> {
        if let Some(message) = self.rows.and_then(|rows| ROWS.wrong(rows.get())) {
            return Some(("rows", message));
        }
        if self.spacing.mm() < Exact::whole(LEAST_SPACING) {
            let found = self.spacing;
            let message = format!("found {found}, expected at least {LEAST_SPACING}mm");
            return Some(("spacing", message));
        }
        let measures = self.measures().into_iter();
        let mut long = measures.filter(|one| one.1.mm() > Exact::whole(MOST_METRES * 1000));
        long.next().map(|(field, found)| {
            (
                field,
                format!("found {found}, expected at most {MOST_METRES}m"),
            )
        })
    }

    fn measures(&self) -> [(&'static str, Length); 3] {
        [
            ("length", self.length),
            ("width", self.width),
            ("spacing", self.spacing),
        ]
    }

    /// The field of a measure that is not over 0.
    pub(super) fn lacking(&self) -> Option<&'static str> {
        let measures = self.measures();
        let lacking = |one: &&(&str, Length)| one.1.mm() <= Exact::zero();
        measures.iter().find(lacking).map(|(field, _)| *field)
    }

    /// Plants one behind the other in a row; the spacing is over 0.
    fn along(&self) -> i128 {
        (self.length.mm() / self.spacing.mm()).floor().parts().0
    }

    /// Plants side by side across its width; 0 where the spacing makes no sense.
    pub fn across(&self) -> u64 {
        if self.spacing.mm() <= Exact::zero() {
            return 0;
        }
        let rows = (self.width.mm() / self.spacing.mm()).floor().parts().0;
        let own = self.rows.map(|rows| u64::from(rows.get()));
        own.unwrap_or_else(|| u64::try_from(rows).unwrap_or(0))
    }

    /// Its length, in words, with room for so many places more, in whole rows across; `None` where
    /// that is more than a bed is believed to hold.
    pub(super) fn longer(&self, places: u64) -> Option<String> {
        let across = self.across().max(1);
        let more = i64::try_from(places.div_ceil(across)).ok()?;
        let along = i64::try_from(self.along()).ok()? + more;
        let length = Length::from_mm(self.spacing.mm() * Exact::whole(along));
        let longer = Bed {
            length,
            ..self.clone()
        };
        longer.places()?;
        Some(in_words(length))
    }
}

/// An exact length in metres or feet where a decimal of them is enough.
fn in_words(length: Length) -> String {
    let unit = |unit: LengthUnit, name: &str| {
        let number = (length.mm() / unit.in_millimetres()).to_string();
        (!number.contains('/')).then(|| format!("{number}{name}"))
    };
    let centimetres = unit(LengthUnit::Centimetre, "").filter(|number| !number.contains('.'));
    let metres = centimetres.and_then(|_| unit(LengthUnit::Metre, "m"));
    let shown = metres.or_else(|| unit(LengthUnit::Foot, "ft"));
    shown.unwrap_or_else(|| length.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bed(length: &str, width: &str, spacing: &str, rows: Option<u32>) -> Bed {
        let read = |text: &str| text.parse().expect("a length");
        Bed {
            name: Text::new("a bed").expect("a name"),
            length: read(length),
            width: read(width),
            spacing: read(spacing),
            rows: rows.and_then(NonZeroU32::new),
        }
    }

    /// Worked by hand from one farm's practice (Growing for Market, 2017): four beds of 125 feet,
    /// two rows, 12 inches apart, take 1,000 tubers.
    #[test]
    fn a_bed_holds_its_rows_of_plants() {
        assert_eq!(
            bed("125ft", "4ft", "12in", Some(2))
                .places()
                .map(|one| one * 4),
            Some(1000)
        );
        assert_eq!(bed("10m", "1.2m", "400mm", None).places(), Some(75));
        assert_eq!(bed("300mm", "1m", "400mm", None).places(), Some(0));
        assert_eq!(bed("0mm", "1m", "400mm", None).places(), None);
        assert_eq!(bed("9000m", "900m", "1mm", None).places(), None);
    }

    /// Worked by hand: 3 rows of 25 plants in 10 m; 7 more places are 3 steps of 400 mm along.
    #[test]
    fn a_bed_grows_by_whole_rows_and_its_length_is_exact() {
        for (length, spacing, rows, more, told) in [
            ("10m", "400mm", 3, 7, "11.2m"),
            ("10.3m", "400mm", 3, 7, "11.2m"),
            ("10m", "400mm", 2, 1, "10.4m"),
            ("125ft", "12in", 2, 3, "127ft"),
            ("20in", "7in", 1, 1, "1.75ft"),
        ] {
            let of = |length: &str| bed(length, "1.2m", spacing, Some(rows));
            let longer = of(length).longer(more).expect("a length");
            assert_eq!(longer, told);
            let before = of(length).places().expect("places");
            let after = of(&longer).places().expect("places");
            assert!(after >= before + more && after < before + more + u64::from(rows));
        }
    }
}
