//! The grower's settings: `settings.ron`.

use serde::{Deserialize, Serialize};

use crate::measure::SizeUnits;

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
    /// Saleable stems that a plant gives in a season, where a variety's own figure is unknown.
    pub stems_a_plant: f64,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            rules: None,
            units: None,
            stems_a_plant: STEMS_A_PLANT,
        }
    }
}
