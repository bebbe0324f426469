//! What was observed of a variety beyond its looks: days in the vase, blooms after weather.

use std::fmt;
use std::num::NonZeroU32;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize};

use crate::measure::bounds::MOST_COUNTED;
use crate::measure::brief;
use crate::measure::read_text;

/// How long a cut stem lasts, and on what ground that is said.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct VaseLife {
    /// Mean days until half of the petals have wilted.
    pub days: Days,
    /// How many stems were tested; `None` where somebody states the figure.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::counted"
    )]
    pub stems: Option<NonZeroU32>,
}

/// A number of days: over 0, at most 60.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Deserialize, Serialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Days(f64);

/// Open blooms counted after weather, written `wind:3/12`: 3 of 12 damaged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(into = "String")]
pub struct Weather {
    /// What the weather was.
    pub kind: WeatherKind,
    /// Damaged blooms; at most `open`.
    pub damaged: u32,
    /// Open blooms; over 0.
    pub open: u32,
}

/// Weather that damages blooms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeatherKind {
    /// A blow.
    Wind,
    /// A soaking.
    Rain,
    /// Scorching sun.
    Sun,
}

/// Why a text is not a count after weather.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParseWeatherError {
    found: String,
}

impl WeatherKind {
    /// Every kind.
    pub const ALL: [WeatherKind; 3] = [WeatherKind::Wind, WeatherKind::Rain, WeatherKind::Sun];

    /// The word in files, commands and on screen.
    pub fn word(self) -> &'static str {
        match self {
            WeatherKind::Wind => "wind",
            WeatherKind::Rain => "rain",
            WeatherKind::Sun => "sun",
        }
    }
}

impl Days {
    /// The number.
    pub fn get(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for Days {
    type Error = String;
    fn try_from(days: f64) -> Result<Days, String> {
        if days > 0.0 && days <= 60.0 {
            Ok(Days(days))
        } else {
            Err(format!("found {days} days, expected over 0 and at most 60"))
        }
    }
}

impl From<Days> for f64 {
    fn from(days: Days) -> f64 {
        days.0
    }
}

impl FromStr for Weather {
    type Err = ParseWeatherError;
    fn from_str(text: &str) -> Result<Weather, ParseWeatherError> {
        let read = || {
            let (kind, counts) = text.split_once(':')?;
            let kind = *WeatherKind::ALL
                .iter()
                .find(|one| one.word() == kind.trim())?;
            let (damaged, open) = counts.split_once('/')?;
            let count = |text: &str| {
                text.trim()
                    .parse::<u32>()
                    .ok()
                    .filter(|count| *count <= MOST_COUNTED)
            };
            let (damaged, open) = (count(damaged)?, count(open)?);
            (open > 0 && damaged <= open).then_some(Weather {
                kind,
                damaged,
                open,
            })
        };
        read().ok_or_else(|| ParseWeatherError { found: brief(text) })
    }
}

impl<'de> Deserialize<'de> for Weather {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Weather, D::Error> {
        read_text::parsed(deserializer)
    }
}

impl From<Weather> for String {
    fn from(weather: Weather) -> String {
        weather.to_string()
    }
}

impl fmt::Display for Weather {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}/{}", self.kind.word(), self.damaged, self.open)
    }
}

impl fmt::Display for ParseWeatherError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found {:?}, expected wind, rain or sun with damaged and open blooms, such as wind:3/12",
            self.found
        )
    }
}

impl std::error::Error for ParseWeatherError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_count_after_weather_reads_back() {
        let weather: Weather = "wind: 3/12".parse().expect("a count");
        assert_eq!((weather.damaged, weather.open), (3, 12));
        assert_eq!(weather.to_string(), "wind:3/12");
        for text in [
            "", "wind", "hail:1/2", "wind:3", "wind:4/3", "rain:0/0", "sun:-1/2",
        ] {
            assert!(text.parse::<Weather>().is_err(), "{text:?}");
        }
    }
}
