//! A supplier's terms.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::model::Supplier;
use crate::variety::{Money, Text};

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
