//! A variety's stems of a week and of a season: one stands for the other.

use super::record::Variety;
use super::stems::{FULL_WEEKS, StemsAWeek};

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
