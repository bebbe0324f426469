//! Saleable stems of one plant: in a week at full flower, or over a whole season as it is stated.

use serde::{Deserialize, Serialize};

/// Saleable stems that a plant gives in a week at full flower: over 0, at most 100.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Deserialize, Serialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct StemsAWeek(f64);

/// Weeks at full flower that the total of a season, as somebody states it, is taken to come of.
/// Assumed: nine weeks from a first cut in the middle of August to a frost in the middle of October,
/// the first two of them not yet at full flower. It is the same whatever a plan's own dates, so that
/// a longer season gives more stems and not the same stems thinner.
pub const FULL_WEEKS: f64 = 8.0;

impl StemsAWeek {
    /// The number.
    pub fn get(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for StemsAWeek {
    type Error = String;
    fn try_from(stems: f64) -> Result<StemsAWeek, String> {
        if stems > 0.0 && stems <= 100.0 {
            Ok(StemsAWeek(stems))
        } else {
            Err(format!(
                "found {stems} stems a week, expected over 0 and at most 100"
            ))
        }
    }
}

impl From<StemsAWeek> for f64 {
    fn from(stems: StemsAWeek) -> f64 {
        stems.0
    }
}
