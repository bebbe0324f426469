//! What the grower counted in the row.

use std::num::NonZeroU32;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::variety::Text;

/// Stems counted in one season's row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RowCount {
    /// The variety.
    pub variety: Text,
    /// The year, so that a count that is taken again stands once.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub year: Option<i16>,
    /// The day on which that season's plants were planted out.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    pub planted: Option<Date>,
    /// Plants that stood.
    pub plants: NonZeroU32,
    /// Saleable stems by week of the year.
    pub stems: Vec<(u8, u32)>,
}

impl RowCount {
    /// Stems of one week of the year.
    pub(super) fn in_week(&self, week: u32) -> u64 {
        let own = self.stems.iter().filter(|one| u32::from(one.0) == week);
        own.map(|one| u64::from(one.1)).sum()
    }
}
