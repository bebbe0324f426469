//! The season: when each variety is cut, and how many stems a plant gives in each week.

use std::num::NonZeroU32;

use jiff::ToSpan;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

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

/// Stems counted in one season's row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RowCount {
    /// The variety.
    pub variety: Text,
    /// Plants that stood.
    pub plants: NonZeroU32,
    /// Saleable stems by week of the year.
    pub stems: Vec<(u8, u32)>,
}

/// A figure of the season and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// Its value in words.
    pub value: String,
    /// `the grower's`, a published range, or `assumed`.
    pub source: &'static str,
}

const GROWERS: &str = "the grower's";
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
/// No share of plants lost in one season and no share of cut stems lost is published.
const PLANTS_LOST: (f64, &str) = (5.0, "assumed");
const STEMS_LOST: (f64, &str) = (10.0, "assumed");

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

    /// The same from the grower's own count, if there is one: plants lost are taken off, stems lost
    /// were not counted.
    pub fn counted_yields(&self, variety: &str, weeks: &[u8]) -> Option<Vec<u64>> {
        let count = self
            .counted
            .iter()
            .find(|one| one.variety.as_str() == variety)?;
        let each = |week: &u8| {
            let stems: u32 = count
                .stems
                .iter()
                .filter(|one| one.0 == *week)
                .map(|one| one.1)
                .sum();
            let each = f64::from(stems) / f64::from(count.plants.get()) * self.plants_kept();
            (each * STEM as f64).floor() as u64
        };
        Some(weeks.iter().map(each).collect())
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

    /// Every figure with its source, for printing.
    pub fn figures(&self) -> Vec<Figure> {
        let figure = |name, value: String, own: bool, source| Figure {
            name,
            value,
            source: if own { GROWERS } else { source },
        };
        let percent = |lost: f64| format!("{lost} of 100");
        vec![
            figure(
                "last frost",
                self.last_frost.middle().to_string(),
                false,
                self.last_frost.source(),
            ),
            figure(
                "first frost",
                self.first_frost.middle().to_string(),
                false,
                self.first_frost.source(),
            ),
            figure("planted", self.planted.to_string(), true, ""),
            figure(
                "weeks to the first cut",
                self.weeks_for("", None).to_string(),
                self.weeks_to_first_cut.is_some(),
                match self.method {
                    Method::Tubers => WEEKS_TO_FIRST_CUT.1,
                    Method::Potted => {
                        "the published 13 of a zone 6b trial less 3 for potting up, assumed"
                    }
                },
            ),
            figure(
                "stems a plant",
                self.stems().to_string(),
                self.stems_a_plant.is_some(),
                STEMS.1,
            ),
            figure(
                "stems by week",
                if self.curve.is_empty() {
                    "level".into()
                } else {
                    format!("{:?}", self.curve)
                },
                !self.curve.is_empty(),
                "assumed: none is published",
            ),
            figure(
                "plants lost",
                percent(self.plants_lost.unwrap_or(PLANTS_LOST.0)),
                self.plants_lost.is_some(),
                PLANTS_LOST.1,
            ),
            figure(
                "stems lost",
                percent(self.stems_lost.unwrap_or(STEMS_LOST.0)),
                self.stems_lost.is_some(),
                STEMS_LOST.1,
            ),
        ]
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

/// The Monday of a week of the year in which `day` lies; `None` where the year has no such week.
pub fn monday(day: Date, week: u8) -> Option<Date> {
    let year = day.iso_week_date().year();
    let first =
        jiff::civil::ISOWeekDate::new(year, i8::try_from(week).ok()?, jiff::civil::Weekday::Monday);
    first.ok().map(|week| week.date())
}

/// Days from one date to another.
pub(super) fn days_between(from: Date, to: Date) -> i32 {
    from.until(to).map_or(0, |span| span.get_days())
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    pub(crate) fn season() -> Season {
        Season {
            last_frost: Frost::on(date(2027, 5, 14)),
            first_frost: Frost::on(date(2027, 9, 26)),
            planted: date(2027, 5, 14),
            method: Method::Tubers,
            weeks_to_first_cut: None,
            first_cuts: Vec::new(),
            stems_a_plant: None,
            curve: Vec::new(),
            plants_lost: Some(0.0),
            stems_lost: Some(0.0),
            counted: Vec::new(),
        }
    }

    /// Worked by hand: planted on 14 May and first cut after 13 weeks, cutting begins on 13 August;
    /// to a first frost on 26 September, 135 days after planting, that is 44 days, 6.29 weeks.
    #[test]
    fn cutting_runs_from_the_first_cut_to_the_frost() {
        let season = season();
        let first = season.first_cut(season.weeks_for("Any", None));
        assert_eq!(first, date(2027, 8, 13));
        assert_eq!(
            days_between(season.planted, season.first_frost.middle()),
            135
        );
        assert_eq!(days_between(first, season.first_frost.middle()), 44);
        assert_eq!(season.weeks(13), 32..=38);
    }

    /// Worked by hand from the published range of 5 to 12 stems a plant (Larkin 2024): 133 plants
    /// give 665 to 1,596 stems in a season without losses.
    #[test]
    fn stems_of_a_season_are_its_plants_times_stems_a_plant() {
        let season = season();
        let weeks: Vec<u8> = (20..=45).collect();
        for (stems, all) in [(STEMS_RANGE.0, 665.0), (STEMS_RANGE.1, 1596.0)] {
            let yields = season.yields(&weeks, 13, stems, season.first_frost.middle(), 0);
            let total = 133.0 * yields.iter().sum::<u64>() as f64 / STEM as f64;
            // Each week is rounded down to a thousandth of a stem.
            assert!((total - all).abs() < 1.5, "{total}");
        }
    }

    #[test]
    fn losses_and_the_curve_shape_the_weeks() {
        let weeks: Vec<u8> = (32..=38).collect();
        let all = |season: &Season| season.yields(&weeks, 13, 8.0, season.first_frost.middle(), 0);
        let level = all(&season());
        let lossy = all(&Season {
            plants_lost: Some(50.0),
            stems_lost: Some(20.0),
            ..season()
        });
        for (level, lossy) in level.iter().zip(&lossy) {
            assert!((*level as f64 * 0.4 - *lossy as f64).abs() <= 1.0);
        }
        let rising = all(&Season {
            curve: vec![0.0, 1.0, 3.0],
            ..season()
        });
        assert_eq!(rising[0], 0);
        assert!(rising[1] < level[1] && rising[4] > level[4]);
        let earlier = season().yields(&weeks, 13, 8.0, season().first_frost.middle(), 2);
        assert!(earlier.iter().sum::<u64>() > level.iter().sum());
        assert_eq!(earlier[3], level[3]);
    }

    #[test]
    fn a_count_in_the_row_stands_for_the_variety() {
        let count = RowCount {
            variety: Text::new("Haaf Test").expect("a name"),
            plants: NonZeroU32::new(4).expect("some"),
            stems: vec![(33, 6), (34, 10)],
        };
        let season = Season {
            counted: vec![count],
            ..season()
        };
        assert_eq!(
            season.counted_yields("Haaf Test", &[32, 33, 34]),
            Some(vec![0, 1500, 2500])
        );
        assert_eq!(season.counted_yields("Haaf Other", &[32]), None);
    }
}
