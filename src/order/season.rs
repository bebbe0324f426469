//! The season: when each variety is cut, and how many stems a plant gives in each week.
//!
//! A plant gives so many stems a week at full flower, less while it comes into flower, and nothing
//! before its first cut or from the first frost on. So a longer season is more stems, and never the
//! same stems thinner: Stock et al., Utah State University Extension 2320, 2022.

use std::num::NonZeroU32;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::frost::{Frost, Side};
use super::row_count::RowCount;
use crate::measure::day;
pub use crate::measure::day::week_of;
use crate::problem::{Path, Step, Wrong};
use crate::variety::{FULL_WEEKS, StemsAWeek, Text, Variety};

/// The season as the grower plans it. What may be left out has a default that says what it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Season {
    /// The last frost of spring.
    pub last_frost: Frost,
    /// The first frost of autumn; the last stems are cut on the day before it.
    pub first_frost: Frost,
    /// The day on which tubers, or plants raised from them, are planted out.
    #[serde(deserialize_with = "crate::measure::day::in_file")]
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
    /// Saleable stems that a plant gives in a week at full flower, where a variety's own figure is
    /// unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stems_a_week: Option<StemsAWeek>,
    /// The total of a season in its place, as somebody states it: of [`FULL_WEEKS`] such weeks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stems_a_plant: Option<NonZeroU32>,
    /// The share of full flower in each period of 7 days from the first cut, never falling; the last
    /// is 1 and goes on. Older files call weights of any size and course the `curve`.
    #[serde(default, alias = "curve", skip_serializing_if = "Vec::is_empty")]
    pub ramp: Vec<f64>,
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
/// Stems of a plant in a week at full flower: 8 over [`FULL_WEEKS`], within the published range.
const STEMS_A_WEEK: (f64, &str) = (1.0, "assumed: no figure by the week is published");
/// Saleable stems of a plant in a season: Larkin, Flower Farming for Profit, 2024.
pub(super) const PUBLISHED: (f64, f64) = (5.0, 12.0);
/// The share of full flower in the first periods of 7 days from the first cut.
const RAMP: (&[f64], &str) = (&[0.4, 0.7, 1.0], "assumed: none is published");
/// Viruses cost ordinary stock near half its plants in two seasons, and lab-clean stock none: Oliver,
/// Stock and Nischwitz, Journal of Environmental Horticulture 42(1):14-22, 2024. For other losses of
/// plants, and for cut stems lost, we found no share published.
const PLANTS_LOST: (f64, &str) = (5.0, "assumed");
const STEMS_LOST: (f64, &str) = (10.0, "assumed");

mod bounds;
mod counted;
/// The field of the ramp.
const RAMP_FIELD: Step = Step::Renamed {
    now: "ramp",
    once: "curve",
};

mod figures;
mod flower;
mod in_bloom;

pub use figures::Figure;
pub(super) use flower::thousandths;

impl Season {
    /// The year whose weeks (ISO 8601) are planned.
    pub fn weeks_of(&self) -> i16 {
        year_of(self.planted)
    }

    /// The day of the first cut of what takes so many weeks.
    pub fn first_cut(&self, weeks: u32) -> Date {
        day::later(self.planted, i64::from(weeks) * 7)
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

    /// Whether the stems of a variety are known by its record or by a count in the row.
    pub(super) fn knows(&self, variety: &Variety) -> bool {
        let mut counted = self.counted.iter();
        variety.weekly_stems().is_some() || counted.any(|one| one.variety == variety.name)
    }

    /// Stems of a plant in a week at full flower, where a variety's own figure is unknown.
    pub fn weekly_stems(&self) -> f64 {
        let total = self.stems_a_plant.map(|stems| f64::from(stems.get()));
        let own = self.stems_a_week.map(StemsAWeek::get);
        own.or(total.map(|total| total / FULL_WEEKS))
            .unwrap_or(STEMS_A_WEEK.0)
    }

    /// The share of full flower in each period of 7 days from the first cut; the last goes on.
    pub fn rise(&self) -> &[f64] {
        if self.ramp.is_empty() {
            RAMP.0
        } else {
            &self.ramp
        }
    }

    /// The share of plants set out that stand, 0 to 1.
    pub fn plants_kept(&self) -> f64 {
        1.0 - self.plants_lost.unwrap_or(PLANTS_LOST.0) / 100.0
    }

    /// The share of stems cut that can be used, 0 to 1.
    pub fn stems_kept(&self) -> f64 {
        1.0 - self.stems_lost.unwrap_or(STEMS_LOST.0) / 100.0
    }

    /// The chance, 0 to 1, that the last frost comes after planting; by a date without a spread, 0
    /// or 1.
    pub fn frost_after_planting(&self) -> f64 {
        self.last_frost.chance_after(self.planted)
    }

    /// What is wrong with the season in itself, and with its counts.
    pub(super) fn wrong(&self) -> Vec<Wrong> {
        let share = |lost: Option<f64>| lost.is_none_or(|lost| (0.0..100.0).contains(&lost));
        let wrong = |field, message: &str| Some(Wrong::new(Path::field(field), message));
        let frost = self.first_frost.middle();
        let own = if !self.last_frost.runs_as(Side::Last) {
            wrong(
                "last_frost",
                "found a chance of frost that rises with the date of the last frost, expected it to fall",
            )
        } else if !self.first_frost.runs_as(Side::First) {
            wrong(
                "first_frost",
                "found a chance of frost that falls with the date of the first frost, expected it to rise",
            )
        } else if self.planted >= frost {
            let expected = format!("expected a day before the first frost, {frost}");
            let message = format!("found planting on {}, {expected}", self.planted);
            wrong("planted", &message)
        } else if year_of(self.planted) != year_of(frost) {
            let expected = format!(
                "expected a day in {}, the year of the first frost",
                year_of(frost)
            );
            let message = format!("found planting on {}, {expected}", self.planted);
            wrong("planted", &message)
        } else if !share(self.plants_lost) || !share(self.stems_lost) {
            let of_plants = !share(self.plants_lost);
            wrong(
                if of_plants {
                    "plants_lost"
                } else {
                    "stems_lost"
                },
                "found a loss that is not from 0 to under 100 in a hundred, expected it so",
            )
        } else {
            self.rise_meant().filter(|_| !self.ramp_is_too_long()).map(|rise| {
                let shares: Vec<String> = rise.iter().map(f64::to_string).collect();
                let message = format!(
                    "found {:?} for the ramp (once called the curve), expected shares of full flower over 0 that never fall and end at 1, for it then stays so until the frost: write ramp: [{}] instead",
                    self.ramp,
                    shares.join(", ")
                );
                Wrong::new(Path::default().on(RAMP_FIELD), message)
            })
        };
        own.into_iter()
            .chain(self.out_of_bounds())
            .chain(self.wrong_count())
            .collect()
    }

    /// The ramp that is meant by one that is none: its rise to the greatest, as shares of that, in
    /// hundredths; `None` where it is one.
    fn rise_meant(&self) -> Option<Vec<f64>> {
        let rising = self.ramp.windows(2).all(|pair| pair[0] <= pair[1]);
        let shares = self.ramp.iter().all(|share| *share > 0.0 && *share <= 1.0);
        if self.ramp.is_empty() || (rising && shares && self.ramp.last() == Some(&1.0)) {
            return None;
        }
        let sound = |share: &f64| if share.is_finite() { *share } else { 0.0 };
        let most = self.ramp.iter().map(sound).fold(0.0, f64::max);
        if most <= 0.0 {
            return Some(RAMP.0.to_vec());
        }
        let mut rise = Vec::new();
        let mut reached: f64 = 0.01;
        for share in self.ramp.iter().map(sound) {
            reached = reached.max((share / most * 100.0).round() / 100.0);
            rise.push(reached);
            if share == most {
                break;
            }
        }
        Some(rise)
    }
}

/// The year whose weeks (ISO 8601) a day lies in.
fn year_of(day: Date) -> i16 {
    day.iso_week_date().year()
}

/// The Monday of a week of the year in which `date` lies; `None` where the year has no such week.
pub fn monday(date: Date, week: u8) -> Option<Date> {
    day::monday(year_of(date), week)
}

/// Weeks of the year in which `day` lies, with the days that they are: `weeks 34 to 36, 23 Aug to
/// 12 Sep`.
pub fn weeks_with_days((first, last): (u8, u8), day: Date) -> String {
    let shown = |day: Date| day.strftime("%-d %b").to_string();
    let ends = monday(day, first).zip(monday(day, last));
    let days = ends.map(|(from, to)| (shown(from), shown(day::later(to, 6))));
    let days = days.map_or(String::new(), |(from, to)| format!(", {from} to {to}"));
    match first == last {
        true => format!("week {first}{days}"),
        false => format!("weeks {first} to {last}{days}"),
    }
}

/// Days from one date to another.
pub(super) fn days_between(from: Date, to: Date) -> i32 {
    from.until(to).map_or(0, |span| span.get_days())
}

#[cfg(test)]
pub(in crate::order) mod tests;
