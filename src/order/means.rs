//! The grower's means: beds, money, suppliers' terms.

use std::num::NonZeroU32;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::model::Supplier;
use crate::measure::{Exact, Length};
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
    #[serde(default, skip_serializing_if = "Option::is_none")]
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

impl Bed {
    /// Plants that it holds; `None` where its measures make no sense.
    pub fn places(&self) -> Option<u64> {
        let zero = Exact::zero();
        if [self.length, self.width, self.spacing]
            .iter()
            .any(|length| length.mm() <= zero)
        {
            return None;
        }
        let along = |length: Length| (length.mm() / self.spacing.mm()).floor().parts().0;
        let rows = i128::from(self.across());
        let places = along(self.length).checked_mul(rows)?;
        u64::try_from(places).ok().filter(|_| places <= MOST_PLACES)
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
}
