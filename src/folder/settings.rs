//! The grower's settings: `settings.ron`.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use crate::measure::SizeUnits;
use crate::measure::bounds::Bounds;
use crate::measure::day::DayOrder;

pub use super::names::SETTINGS;

/// Stems a plant where nothing is set: within the published range of 5 to 12 saleable stems a
/// plant and season (Larkin, Flower Farming for Profit, 2024). Assumed.
const STEMS_A_PLANT: f64 = 8.0;

/// What the grower has settled once; everything may be left out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    /// The rule set to key by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rules: Option<String>,
    /// The units to show lengths in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub units: Option<SizeUnits>,
    /// Which of day and month comes first where both are typed as numbers: `"day-first"` or
    /// `"month-first"`. Without it a day that may be two is asked after.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub days: Option<DayOrder>,
    /// Saleable stems that a plant gives in a season, where a variety's own figure is unknown.
    #[serde(deserialize_with = "stems")]
    pub stems_a_plant: f64,
}

/// As many as no plant gives.
const STEMS: Bounds<f64> = Bounds::new("stems a plant", 0.1, 9999.0);

fn stems<'de, D: Deserializer<'de>>(reader: D) -> Result<f64, D::Error> {
    let stems = f64::deserialize(reader)?;
    match STEMS.wrong(stems) {
        Some(message) => Err(D::Error::custom(message)),
        None => Ok(stems),
    }
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            rules: None,
            units: None,
            days: None,
            stems_a_plant: STEMS_A_PLANT,
        }
    }
}
