//! What is counted: blooms after weather, stems cut, tubers through the winter, pollinators.

use jiff::civil::Date;
use statrs::distribution::{ChiSquared, ContinuousCDF};

use crate::measure::sample::Interval;
use crate::trial::entry::Observation;
use crate::trial::statistics::LEVEL;
use crate::trial::statistics::share::Share;
use crate::variety::{Weather, WeatherKind};

/// Blooms damaged by one kind of weather.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Damage {
    /// The weather.
    pub kind: WeatherKind,
    /// Damaged of open blooms, all events together. The exact interval takes blooms as
    /// independent; those of one storm are not, so from one event it is too narrow.
    pub share: Share,
    /// How many events were counted after.
    pub events: usize,
}

/// Stems cut in one season.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Season {
    /// The year.
    pub year: i16,
    /// Stems cut.
    pub stems: u32,
    /// Weeks (Monday to Sunday) from the first cut to the last, both counted.
    pub weeks: u32,
    /// Stems a plant; `None` where the number of plants is unknown.
    pub a_plant: Option<f64>,
}

/// Tubers through the winters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tubers {
    /// Sound in spring, of those lifted in the autumns that were followed up.
    pub kept: Share,
    /// Lifted last and not yet looked at in spring.
    pub stored: Option<u32>,
    /// Tubers at the last lifting.
    pub lifted: Option<u32>,
    /// The day of the last lifting.
    pub lifted_on: Option<Date>,
}

/// Pollinators counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VisitRate {
    /// Visits.
    pub count: u32,
    /// Minutes watched.
    pub minutes: u32,
}

impl Damage {
    pub(super) fn by_kind<'a>(seen: impl Iterator<Item = &'a Observation>) -> Vec<Damage> {
        let counts: Vec<Weather> = seen.flat_map(|one| one.weather.iter().copied()).collect();
        let of = |kind: WeatherKind| {
            let counts: Vec<_> = counts.iter().filter(|one| one.kind == kind).collect();
            let shares = counts
                .iter()
                .filter_map(|one| Share::new(one.damaged, one.open));
            let damage = Damage {
                kind,
                share: shares.sum(),
                events: counts.len(),
            };
            (damage.events > 0).then_some(damage)
        };
        WeatherKind::ALL.into_iter().filter_map(of).collect()
    }
}

impl Season {
    /// Season by season; `plants` is the number where no entry has told another by that day.
    pub(super) fn of(seen: &[(Date, &Observation)], mut plants: Option<u32>) -> Vec<Season> {
        let mut seasons: Vec<(Season, Date)> = Vec::new();
        for (date, observation) in seen {
            plants = observation.plants.or(plants);
            let Some(cut) = observation.cut else { continue };
            let each = plants
                .filter(|plants| *plants > 0)
                .map(|plants| f64::from(cut) / f64::from(plants));
            match seasons.last_mut() {
                Some((season, first)) if season.year == date.year() => {
                    season.stems = season.stems.saturating_add(cut);
                    season.weeks = week(*date).abs_diff(week(*first)) as u32 + 1;
                    season.a_plant = season.a_plant.zip(each).map(|(all, one)| all + one);
                }
                _ => seasons.push((
                    Season {
                        year: date.year(),
                        stems: cut,
                        weeks: 1,
                        a_plant: each,
                    },
                    *date,
                )),
            }
        }
        seasons.into_iter().map(|(season, _)| season).collect()
    }

    /// Stems a plant a week, over the weeks in which any were cut.
    pub fn a_week(&self) -> Option<f64> {
        Some(self.a_plant? / f64::from(self.weeks))
    }
}

/// The number of the week that a day is in, from Monday to Sunday.
fn week(date: Date) -> i64 {
    const MONDAY: Date = Date::constant(1970, 1, 5);
    (date.duration_since(MONDAY).as_hours() / 24).div_euclid(7)
}

impl Tubers {
    pub(super) fn of(seen: &[(Date, &Observation)], doubts: &mut Vec<String>) -> Tubers {
        let mut lifted_on = None;
        let mut winters: Vec<(u32, Option<u32>)> = Vec::new();
        for (date, observation) in seen {
            if let Some(lifted) = observation.tubers {
                winters.push((lifted, None));
                lifted_on = Some(*date);
            }
            match (observation.sound, winters.last_mut()) {
                // Looked at more than once in a winter, the last look counts.
                (Some(sound), Some((lifted, kept))) if sound <= *lifted => *kept = Some(sound),
                (Some(sound), _) => doubts.push(format!(
                    "{date}: found {sound} tubers sound, expected at most those lifted before"
                )),
                (None, _) => {}
            }
        }
        let shares = winters
            .iter()
            .filter_map(|(lifted, kept)| Share::new((*kept)?, *lifted));
        let last = winters.last();
        Tubers {
            kept: shares.sum(),
            stored: last
                .filter(|(_, kept)| kept.is_none())
                .map(|(lifted, _)| *lifted),
            lifted: last.map(|(lifted, _)| *lifted),
            lifted_on,
        }
    }
}

impl VisitRate {
    pub(super) fn of<'a>(seen: impl Iterator<Item = &'a Observation>) -> Option<VisitRate> {
        let visits = seen.filter_map(|one| one.visits);
        visits.fold(None, |sum: Option<VisitRate>, one| {
            let (count, minutes) = sum.map_or((0, 0), |sum| (sum.count, sum.minutes));
            Some(VisitRate {
                count: count.saturating_add(one.count),
                minutes: minutes.saturating_add(one.minutes.get()),
            })
        })
    }

    /// Visits a minute.
    pub fn a_minute(&self) -> f64 {
        f64::from(self.count) / f64::from(self.minutes)
    }

    /// The exact interval of visits a minute at 95 %, visits taken as coming by chance alone:
    /// Garwood, Biometrika 28:437-442, 1936, by quantiles of chi-square.
    pub fn limits(&self) -> Interval {
        let tail = (1.0 - LEVEL) / 2.0;
        let (count, minutes) = (f64::from(self.count), f64::from(self.minutes));
        let quantile = |freedom: f64, at: f64| {
            // With no visit the lower limit is 0, and there is no such law.
            ChiSquared::new(freedom).map_or(0.0, |law| law.inverse_cdf(at)) / 2.0 / minutes
        };
        Interval {
            low: quantile(2.0 * count, tail),
            high: quantile(2.0 * count + 2.0, 1.0 - tail),
        }
    }
}
