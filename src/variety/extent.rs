//! Lengths of a flower or plant: one, or any between two.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::measure::read_text;
use crate::measure::{Exact, Length, SizeUnits};

/// A length of a flower or plant: over 0, at most 5 m.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(into = "Length")]
pub struct Extent(Length);

/// A length as somebody states it: one, or a span such as `90-120cm`. A span is kept as it is, for
/// its middle would be known no better than its ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    low: Extent,
    high: Extent,
}

impl Extent {
    /// The length.
    pub fn length(self) -> Length {
        self.0
    }

    /// The length in millimetres.
    pub fn mm(self) -> f64 {
        self.0.mm().to_f64()
    }
}

impl Reach {
    /// From `low` to `high`; `None` where `high` is the lower.
    pub fn between(low: Extent, high: Extent) -> Option<Reach> {
        (low <= high).then_some(Reach { low, high })
    }

    /// The lower end.
    pub fn low(self) -> Extent {
        self.low
    }

    /// The upper end; the lower one again where one length is stated.
    pub fn high(self) -> Extent {
        self.high
    }

    /// The middle in millimetres, to reckon with where one number is needed.
    pub fn middle_mm(self) -> f64 {
        f64::midpoint(self.low.mm(), self.high.mm())
    }

    /// In the grower's units, no finer than a plant is measured: `90 cm`, `35.4 to 47.2 in`.
    pub fn shown(self, units: SizeUnits) -> String {
        let (number, unit): (fn(Length) -> String, &str) = match units {
            SizeUnits::Mm => (
                |length| (length.mm() / Exact::whole(10)).to_decimal(1),
                "cm",
            ),
            SizeUnits::In => (|length| length.inches().to_decimal(1), "in"),
        };
        let [low, high] = [self.low.0, self.high.0].map(number);
        match low == high {
            true => format!("{high} {unit}"),
            false => format!("{low} to {high} {unit}"),
        }
    }
}

/// Both ends of a span as it is written, `90-120cm`, `3 to 4 ft`, `36"-48"`, the lower first;
/// `None` where the text is no such span. A bare number has the unit of the other end.
pub(super) fn ends(text: &str, read: impl Fn(&str) -> Option<Length>) -> Option<(Length, Length)> {
    const BETWEEN: [&str; 4] = [" to ", "..", "\u{2013}", "-"];
    let places = BETWEEN.iter().flat_map(|sign| text.match_indices(sign));
    let mut spans = places.filter_map(|(at, sign)| {
        let (low, high) = (text[..at].trim(), text[at + sign.len()..].trim());
        let unit = high
            .rfind(|c: char| c.is_ascii_digit())
            .map(|at| &high[at + 1..]);
        let low = match low.ends_with(|c: char| c.is_ascii_digit()) {
            true => read(&format!("{low}{}", unit?)),
            false => read(low),
        };
        Some((low?, read(high)?))
    });
    spans.find(|(low, high)| low <= high)
}

impl From<Extent> for Reach {
    fn from(one: Extent) -> Reach {
        Reach {
            low: one,
            high: one,
        }
    }
}

impl From<Extent> for Length {
    fn from(extent: Extent) -> Length {
        extent.0
    }
}

impl TryFrom<Length> for Extent {
    type Error = String;
    fn try_from(length: Length) -> Result<Extent, String> {
        let mm = length.mm().to_f64();
        if mm > 0.0 && mm <= 5000.0 {
            Ok(Extent(length))
        } else {
            Err(format!(
                "found {length}, expected a length over 0 and up to 5m"
            ))
        }
    }
}

/// Reads `98mm` as [`Length`] does.
impl FromStr for Extent {
    type Err = String;
    fn from_str(text: &str) -> Result<Extent, String> {
        // Most lengths are written so, and a long list has hundreds of thousands of them.
        let whole = text
            .strip_suffix("mm")
            .filter(|number| number.bytes().all(|byte| byte.is_ascii_digit()))
            .and_then(|number| number.parse::<u32>().ok());
        let length = match whole {
            Some(millimetres) => Length::from_mm(Exact::whole(millimetres.into())),
            None => text.parse::<Length>().map_err(|error| error.to_string())?,
        };
        Extent::try_from(length)
    }
}

/// Reads one length, or a span such as `90-120cm`.
impl FromStr for Reach {
    type Err = String;
    fn from_str(text: &str) -> Result<Reach, String> {
        let one = match text.parse::<Extent>() {
            Ok(one) => return Ok(one.into()),
            Err(error) => error,
        };
        let Some((low, high)) = ends(text, |end| end.parse().ok()) else {
            return Err(format!("{one}, or a span such as 90-120cm"));
        };
        Ok(Reach {
            low: low.try_into()?,
            high: high.try_into()?,
        })
    }
}

/// As it reads back: `900mm`, `900mm to 1200mm`.
impl fmt::Display for Reach {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.low.0)?;
        match self.low == self.high {
            true => Ok(()),
            false => write!(f, " to {}", self.high.0),
        }
    }
}

impl Serialize for Reach {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Extent {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Extent, D::Error> {
        read_text::parsed(deserializer)
    }
}

impl<'de> Deserialize<'de> for Reach {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Reach, D::Error> {
        read_text::parsed(deserializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn millimetres(text: &str) -> (f64, f64) {
        let reach: Reach = text.parse().expect(text);
        (reach.low().mm(), reach.high().mm())
    }

    #[test]
    fn spans_are_read_as_growers_write_them() {
        for (text, low, high) in [
            ("90cm", 900.0, 900.0),
            ("90-120cm", 900.0, 1200.0),
            ("90 – 120 cm", 900.0, 1200.0),
            ("90..120cm", 900.0, 1200.0),
            ("0.9-1.2m", 900.0, 1200.0),
            ("90cm to 1.2m", 900.0, 1200.0),
            ("3-4ft", 914.4, 1219.2),
            ("3 to 4 feet", 914.4, 1219.2),
            ("36\"-48\"", 914.4, 1219.2),
            ("3 1/2-4in", 88.9, 101.6),
            ("3-1/2-4in", 88.9, 101.6),
            // A whole number and a fraction with a hyphen are one number.
            ("3-1/2in", 88.9, 88.9),
        ] {
            let read = millimetres(text);
            let off = (read.0 - low).abs() + (read.1 - high).abs();
            assert!(off < 1e-9, "{text}: {read:?}");
        }
    }

    #[test]
    fn what_is_no_span_is_refused_with_what_was_expected() {
        for text in [
            "120-90cm", "90-120", "90-cm", "-90cm", "90cm-120", "tall", "1-9m",
        ] {
            let told = text.parse::<Reach>().expect_err(text);
            assert!(told.contains("expected a length"), "{told}");
        }
    }

    #[test]
    fn a_span_is_shown_as_one() {
        let reach: Reach = "3-4ft".parse().expect("a span");
        assert_eq!(reach.shown(SizeUnits::In), "36 to 48 in");
        assert_eq!(reach.shown(SizeUnits::Mm), "91.4 to 121.9 cm");
        assert_eq!(Reach::from(reach.low()).shown(SizeUnits::In), "36 in");
        assert!((reach.middle_mm() - 1066.8).abs() < 1e-9);
        assert_eq!(Reach::between(reach.high(), reach.low()), None);
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back(low in 1_i64..10_000, more in 0_i64..2_000, sixty_fourths in prop::bool::ANY) {
            let extent = |number: i64| {
                let parts = if sixty_fourths { Exact::ratio(number * 254, 640) } else { Exact::ratio(number, 20) };
                Extent::try_from(Length::from_mm(parts)).expect("under 5 m")
            };
            let reach = Reach::between(extent(low), extent(low + more)).expect("low first");
            prop_assert_eq!(reach.to_string().parse(), Ok(reach));
        }
    }
}
