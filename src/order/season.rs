//! The season: when each variety is cut, and how many stems a plant gives in each week.

use std::num::NonZeroU32;

use jiff::ToSpan;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::counted::RowCount;
use super::frost::{Frost, Side};
use super::model::STEM;
use crate::variety::Text;

/// The season as the grower plans it. What may be left out has a default that says what it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Season {
    /// The last frost of spring.
    pub last_frost: Frost,
    /// The first frost of autumn; the last stems are cut in the week that it falls in.
    pub first_frost: Frost,
    /// The day on which tubers, or plants raised from them, are planted out.
    pub planted: Date,
    /// How.
    #[serde(default)]
    pub method: Method,
    /// Weeks from planting to the first cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weeks_to_first_cut: Option<u32>,
    /// The same for forms and varieties that differ.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub first_cuts: Vec<FirstCut>,
    /// Saleable stems that a plant gives in the season, where a variety's own figure is unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stems_a_plant: Option<NonZeroU32>,
    /// How the stems lie over the weeks from the first cut, as weights; the last goes on. Flat where
    /// there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub curve: Vec<f64>,
    /// Plants lost of a hundred set out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plants_lost: Option<f64>,
    /// Stems lost of a hundred cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stems_lost: Option<f64>,
    /// What the grower counted in the row.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub counted: Vec<RowCount>,
}

/// How plants are started.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Method {
    /// Tubers straight into the bed.
    #[default]
    Tubers,
    /// Tubers potted up under cover and planted out growing.
    Potted,
}

/// Weeks to the first cut of some forms or varieties.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstCut {
    /// Ids of forms and names of varieties.
    pub of: Vec<Text>,
    /// Weeks.
    pub weeks: u32,
}

/// First cut from 13 weeks after planting in zone 6b: Scoggins, Peck and Aiken, The Cut Flower
/// Quarterly, summer 2018.
const WEEKS_TO_FIRST_CUT: (u32, &str) =
    (13, "published for one place: 13 in a zone 6b trial of 2018");
/// Potted plants are taken to be so many weeks ahead. Common practice, no source.
const POTTED_AHEAD: u32 = 3;
/// 5 to 12 saleable stems a plant and season: Larkin, Flower Farming for Profit, 2024.
const STEMS: (u32, &str) = (8, "assumed within the published range 5 to 12");
/// Saleable stems a plant and season at the ends of that range.
pub(super) const STEMS_RANGE: (f64, f64) = (5.0, 12.0);
/// Viruses cost ordinary stock near half its plants in two seasons, and lab-clean stock none: Oliver,
/// Stock and Nischwitz, Journal of Environmental Horticulture 42(1):14-22, 2024. For other losses of
/// plants, and for cut stems lost, we found no share published.
const PLANTS_LOST: (f64, &str) = (5.0, "assumed");
const STEMS_LOST: (f64, &str) = (10.0, "assumed");

mod figures;

pub use figures::Figure;

impl Season {
    /// Weeks of the year in which anything may be cut: from the first cut of the earliest variety to
    /// the first frost.
    pub fn weeks(&self, earliest: u32) -> std::ops::RangeInclusive<u8> {
        week_of(self.first_cut(earliest))..=week_of(self.first_frost.middle())
    }

    /// The day of the first cut of what takes so many weeks.
    pub fn first_cut(&self, weeks: u32) -> Date {
        let days = i64::from(weeks) * 7;
        self.planted
            .checked_add(days.days())
            .unwrap_or(self.planted)
    }

    /// Weeks from planting to the first cut of a variety of a form.
    pub fn weeks_for(&self, variety: &str, form: Option<&str>) -> u32 {
        let named = |one: &&FirstCut| one.of.iter().any(|of| of.as_str() == variety);
        let of_form =
            |one: &&FirstCut| form.is_some_and(|form| one.of.iter().any(|of| of.as_str() == form));
        let own = self
            .first_cuts
            .iter()
            .find(named)
            .or_else(|| self.first_cuts.iter().find(of_form));
        let usual = self
            .weeks_to_first_cut
            .unwrap_or_else(|| match self.method {
                Method::Tubers => WEEKS_TO_FIRST_CUT.0,
                Method::Potted => WEEKS_TO_FIRST_CUT.0 - POTTED_AHEAD,
            });
        own.map_or(usual, |own| own.weeks)
    }

    /// Stems a plant where a variety's own figure is unknown.
    pub fn stems(&self) -> f64 {
        self.stems_a_plant
            .map_or(f64::from(STEMS.0), |stems| f64::from(stems.get()))
    }

    /// The share of plants set out that stand, 0 to 1.
    pub fn plants_kept(&self) -> f64 {
        1.0 - self.plants_lost.unwrap_or(PLANTS_LOST.0) / 100.0
    }

    /// The share of stems cut that can be used, 0 to 1.
    pub fn stems_kept(&self) -> f64 {
        1.0 - self.stems_lost.unwrap_or(STEMS_LOST.0) / 100.0
    }

    /// Usable thousandths of a stem by week of `weeks`, from one plant set out: its `stems` of the
    /// season spread over the days from its first cut to `frost` by the curve, and both losses taken
    /// off. Planted `earlier` by some weeks it is cut for longer at the same rate.
    pub fn yields(
        &self,
        weeks: &[u8],
        first: u32,
        stems: f64,
        frost: Date,
        earlier: u32,
    ) -> Vec<u64> {
        let planned = self.first_cut(first);
        let begins = planned
            .checked_sub((i64::from(earlier) * 7).days())
            .unwrap_or(planned);
        let season = f64::from(days_between(planned, self.first_frost.middle()).max(1));
        let kept = self.plants_kept() * self.stems_kept();
        let mean = self.mean_weight(season);
        let in_week = |week: &u8| {
            let Some(monday) = monday(self.planted, *week) else {
                return 0;
            };
            let from = days_between(begins, monday).max(0);
            let until = days_between(begins, monday)
                .saturating_add(7)
                .min(days_between(begins, frost));
            let days = f64::from((until - from).max(0));
            let weight = self.weight((from / 7) as usize) / mean;
            (stems * weight * days / season * kept * STEM as f64)
                .floor()
                .max(0.0) as u64
        };
        weeks.iter().map(in_week).collect()
    }

    /// The chance, 0 to 1, that the last frost comes after planting so many weeks earlier; by a date
    /// without a spread, 0 or 1.
    pub fn frost_after_planting(&self, earlier: u32) -> f64 {
        let planted = self
            .planted
            .checked_sub((i64::from(earlier) * 7).days())
            .unwrap_or(self.planted);
        self.last_frost.chance_after(planted)
    }

    /// What is wrong with the season in itself.
    pub(super) fn wrong(&self) -> Option<String> {
        let share = |lost: Option<f64>| lost.is_none_or(|lost| (0.0..100.0).contains(&lost));
        if !self.last_frost.runs_as(Side::Last) {
            Some("found a chance of frost that rises with the date of the last frost, expected it to fall".into())
        } else if !self.first_frost.runs_as(Side::First) {
            Some("found a chance of frost that falls with the date of the first frost, expected it to rise".into())
        } else if self.planted >= self.first_frost.middle() {
            Some(format!(
                "found planting on {}, expected a day before the first frost, {}",
                self.planted,
                self.first_frost.middle()
            ))
        } else if year_of(self.planted) != year_of(self.first_frost.middle()) {
            Some(format!(
                "found planting on {}, expected a day in {}, the year of the first frost",
                self.planted,
                year_of(self.first_frost.middle())
            ))
        } else if !share(self.plants_lost) || !share(self.stems_lost) {
            Some("found a loss that is not from 0 to under 100 in a hundred, expected it so".into())
        } else if !self
            .curve
            .iter()
            .all(|weight| *weight >= 0.0 && weight.is_finite())
            || (!self.curve.is_empty() && self.curve.iter().sum::<f64>() <= 0.0)
        {
            Some(
                "found a curve with a weight under 0 or all of them 0, expected weights over 0"
                    .into(),
            )
        } else {
            None
        }
    }

    fn weight(&self, week: usize) -> f64 {
        self.curve
            .get(week)
            .or(self.curve.last())
            .copied()
            .unwrap_or(1.0)
    }

    /// The mean weight over a season of so many days.
    fn mean_weight(&self, days: f64) -> f64 {
        let weeks = (days / 7.0).ceil().max(1.0) as usize;
        let all: f64 = (0..weeks).map(|week| self.weight(week)).sum();
        (all / weeks as f64).max(1e-9)
    }
}

/// The week of the year (ISO 8601) that a day lies in.
pub fn week_of(day: Date) -> u8 {
    day.iso_week_date().week().unsigned_abs()
}

/// The year whose weeks (ISO 8601) a day lies in.
fn year_of(day: Date) -> i16 {
    day.iso_week_date().year()
}

/// The Monday of a week of the year in which `day` lies; `None` where the year has no such week.
pub fn monday(day: Date, week: u8) -> Option<Date> {
    let year = year_of(day);
    let first =
        jiff::civil::ISOWeekDate::new(year, i8::try_from(week).ok()?, jiff::civil::Weekday::Monday);
    first.ok().map(|week| week.date())
}

/// Days from one date to another.
pub(super) fn days_between(from: Date, to: Date) -> i32 {
    from.until(to).map_or(0, |span| span.get_days())
}

#[cfg(test)]
pub(in crate::order) mod tests;
