//! Saleable stems of one plant: in a week at full flower, or over a whole season as it is stated.

use serde::{Deserialize, Serialize};

use super::record::Variety;

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

impl Variety {
    /// Saleable stems of one plant in a week at full flower: its own figure, else what its season's
    /// total comes to; `None` where neither is known.
    pub fn weekly_stems(&self) -> Option<f64> {
        let of_total = || Some(f64::from(self.stems_a_plant?.get()) / FULL_WEEKS);
        self.stems_a_week.map(StemsAWeek::get).or_else(of_total)
    }

    /// Saleable stems of one plant over a season: its own total, else what its week comes to; `None`
    /// where neither is known.
    pub fn season_stems(&self) -> Option<f64> {
        let of_week = || Some(self.stems_a_week?.get() * FULL_WEEKS);
        let total = self.stems_a_plant.map(|stems| f64::from(stems.get()));
        total.or_else(of_week)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::variety::Text;
    use std::num::NonZeroU32;

    /// Worked by hand: 12 stems over 8 weeks are 1.5 a week, and the other way about.
    #[test]
    fn a_total_and_a_week_stand_for_each_other() {
        let mut variety = Variety::named(Text::new("Haaf Test").expect("a name"));
        assert_eq!(
            (variety.weekly_stems(), variety.season_stems()),
            (None, None)
        );
        variety.stems_a_plant = NonZeroU32::new(12);
        assert_eq!(variety.weekly_stems(), Some(1.5));
        variety.stems_a_week = StemsAWeek::try_from(2.5).ok();
        assert_eq!(variety.weekly_stems(), Some(2.5));
        assert_eq!(variety.season_stems(), Some(12.0));
        variety.stems_a_plant = None;
        assert_eq!(variety.season_stems(), Some(20.0));
        for stems in [0.0, -1.0, f64::NAN, 101.0] {
            assert!(StemsAWeek::try_from(stems).is_err(), "{stems}");
        }
    }
}
