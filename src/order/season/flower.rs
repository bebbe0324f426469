//! What a plant gives by week: in flower from its first cut, at full flower after the ramp, until the
//! first frost.

use jiff::civil::Date;

use super::{PUBLISHED, Season, days_between, monday};
use crate::measure::day;
use crate::order::model::STEM;
use crate::variety::Variety;

/// Rounding errors of a sum of stems are far less, and what a grower types is far from it.
const NOISE: f64 = 1e-9;

impl Season {
    /// Usable thousandths of a stem by week of `weeks`, from one plant set out of a variety that is
    /// first cut `first` weeks after planting: as it was counted in the row, else by its figure of a
    /// week.
    pub fn gives(&self, variety: &Variety, first: u32, weeks: &[u8]) -> Vec<u64> {
        let given = self.given(variety, first, weeks, 0, self.first_frost.middle());
        given.into_iter().map(thousandths).collect()
    }

    /// The same in stems, not rounded, where planting is `late` by some days and the first frost
    /// comes on a day.
    pub(in crate::order) fn given(
        &self,
        variety: &Variety,
        first: u32,
        weeks: &[u8],
        late: i32,
        frost: Date,
    ) -> Vec<f64> {
        let first = self.first_cut(first);
        let first = day::later(first, late.into());
        if let Some(counted) = self.counted_stems(&variety.name, weeks, first, late, frost) {
            return counted;
        }
        let a_week = variety.weekly_stems().unwrap_or(self.weekly_stems());
        self.flowering(weeks, a_week, first, frost)
    }

    /// Usable stems of the whole season from one plant set out of such a variety: the sum over its
    /// weeks.
    pub fn season_total(&self, variety: &Variety, first: u32) -> f64 {
        in_all(self.gives(variety, first, &ALL_WEEKS))
    }

    /// The same of a plant of which only the figures for all are known.
    pub fn usual_total(&self) -> f64 {
        let first = self.first_cut(self.weeks_for("", None));
        let frost = self.first_frost.middle();
        let given = self.flowering(&ALL_WEEKS, self.weekly_stems(), first, frost);
        in_all(given.into_iter().map(thousandths).collect())
    }

    /// Usable stems by week of `weeks`, from one plant set out that gives `a_week` at full flower: of
    /// the days from its first cut to the day before `frost`, a seventh each times the ramp, both
    /// losses taken off.
    pub(super) fn flowering(
        &self,
        weeks: &[u8],
        a_week: f64,
        first: Date,
        frost: Date,
    ) -> Vec<f64> {
        let full = self.full_days(weeks, first, frost).into_iter();
        full.map(|full| self.flowered(a_week, full)).collect()
    }

    /// Usable stems of so many days at full flower.
    pub(in crate::order) fn flowered(&self, a_week: f64, full: f64) -> f64 {
        a_week / 7.0 * full * (self.plants_kept() * self.stems_kept())
    }

    /// By week of `weeks`: the days from a first cut to the day before `frost`, each as the share of full
    /// flower that the ramp says.
    pub(in crate::order) fn full_days(&self, weeks: &[u8], first: Date, frost: Date) -> Vec<f64> {
        let rise = self.rise();
        let share = |day: i32| {
            let period = usize::try_from(day / 7).unwrap_or(0);
            rise.get(period).or(rise.last()).copied().unwrap_or(1.0)
        };
        let in_week = |week: &u8| {
            let Some(monday) = monday(self.planted, *week) else {
                return 0.0;
            };
            let begins = days_between(first, monday);
            let ends = begins.saturating_add(7).min(days_between(first, frost));
            (begins.max(0)..ends).map(share).sum()
        };
        weeks.iter().map(in_week).collect()
    }
}

/// Every week that a year may have.
const ALL_WEEKS: [u8; 53] = {
    let mut weeks = [0; 53];
    let mut at = 0;
    while at < 53 {
        weeks[at] = at as u8 + 1;
        at += 1;
    }
    weeks
};

/// Stems rounded down to thousandths.
pub(in crate::order) fn thousandths(stems: f64) -> u64 {
    (stems * STEM as f64 + NOISE).floor().max(0.0) as u64
}

fn in_all(thousandths: Vec<u64>) -> f64 {
    thousandths.iter().sum::<u64>() as f64 / STEM as f64
}

/// How a season's total lies beside what is published.
pub(super) fn beside_published(total: f64) -> String {
    let (least, most) = PUBLISHED;
    let published =
        format!("published: {least} to {most} (Larkin, Flower Farming for Profit, 2024)");
    if total < least {
        format!("{published}, and this is under it")
    } else if total > most {
        format!("{published}, and this is over it")
    } else {
        published
    }
}
