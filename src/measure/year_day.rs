//! A day that comes in every year, such as that of the first frost: `14 May`.

use std::fmt;
use std::str::FromStr;

use jiff::civil::Date;

use super::{brief, day};

/// A day of any year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct YearDay {
    month: i8,
    day: i8,
}

/// A year that has every day: the 29 February too.
const LEAP: i16 = 2028;

impl YearDay {
    /// The day in a year; the 29 February is the day before the 1 March where there is none.
    pub fn in_year(self, year: i16) -> Date {
        let before = Date::new(year, self.month, self.day.min(28));
        let date = Date::new(year, self.month, self.day);
        // OK because every month of a year that is believed has 28 days.
        date.or(before).unwrap_or(day::FIRST)
    }

    fn of(month: i8, day: i8) -> Option<YearDay> {
        Date::new(LEAP, month, day).ok()?;
        Some(YearDay { month, day })
    }
}

/// Reads `14 May`, `May 14`, `05-14` and a day of a year, which is left out.
impl FromStr for YearDay {
    type Err = String;

    fn from_str(text: &str) -> Result<YearDay, String> {
        let number = |text: &str| text.trim_end_matches('.').parse::<i8>().ok();
        let read = || match &text.split_whitespace().collect::<Vec<_>>()[..] {
            [one, other] => match (number(one), number(other)) {
                (Some(day), None) => YearDay::of(month(other)?, day),
                (None, Some(day)) => YearDay::of(month(one)?, day),
                _ => None,
            },
            [one] => match one.split_once('-') {
                Some((month, day)) if month.len() <= 2 => YearDay::of(number(month)?, number(day)?),
                _ => day::read(one)
                    .ok()
                    .and_then(|day| YearDay::of(day.month(), day.day())),
            },
            _ => None,
        };
        read().ok_or_else(|| {
            format!(
                "found {text:?}, expected a day of the year such as 14 May or 05-14",
                text = brief(text)
            )
        })
    }
}

/// The month of its name, or of its beginning, perhaps with a point behind.
fn month(text: &str) -> Option<i8> {
    day::month(text.trim_end_matches('.'))
}

impl fmt::Display for YearDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.day, day::month_name(self.month))
    }
}

impl serde::Serialize for YearDay {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> serde::Deserialize<'de> for YearDay {
    fn deserialize<D: serde::Deserializer<'de>>(reader: D) -> Result<YearDay, D::Error> {
        super::read_text::parsed(reader)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_day_of_the_year_is_read_as_people_write_it() {
        for text in ["14 May", "May 14", "14. may", "05-14", "5-14", "2027-05-14"] {
            let day: YearDay = text.parse().expect(text);
            assert_eq!(day.in_year(2028), date(2028, 5, 14));
            assert_eq!(day.to_string(), "14 May");
        }
        let leap: YearDay = "29 Feb".parse().expect("a day");
        assert_eq!(leap.in_year(2027), date(2027, 2, 28));
        for text in ["", "31 June", "May", "14 Ma", "14 5", "13-14", "soon"] {
            let error = text.parse::<YearDay>().expect_err(text);
            assert!(error.contains("such as 14 May"), "{error}");
        }
    }

    #[test]
    fn every_day_is_read_as_it_is_shown() {
        let mut day = date(LEAP, 1, 1);
        while day.year() == LEAP {
            let own = YearDay::of(day.month(), day.day()).expect("a day");
            assert_eq!(own.to_string().parse(), Ok(own));
            assert_eq!(own.in_year(LEAP), day);
            day = crate::measure::day::later(day, 1);
        }
    }
}
