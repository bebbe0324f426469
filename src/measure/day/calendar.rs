//! What a day that is typed is read by: today, where the year is taken from, and which of day and
//! month comes first.

use std::fmt;
use std::str::FromStr;

use jiff::civil::{Date, ISOWeekDate, Weekday};
use serde::{Deserialize, Serialize};

use super::later;
use super::shape::{Shape, What, Year, month_name, short_month};

/// Years back to the last 29 February, at the most.
const YEARS_TO_LEAP_DAY: i16 = 8;
/// A year of two digits is the nearest to today.
const NEAREST: i16 = 50;

/// Which of day and month comes first where both are numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub enum DayOrder {
    /// `3/4` is the third of April.
    DayFirst,
    /// `3/4` is the fourth of March.
    MonthFirst,
}

/// What a day that is typed is read by. It is made where the clock may be asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Calendar {
    today: Date,
    order: Option<DayOrder>,
    way: Way,
}

/// Where a day of no year is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    /// Nowhere: days are as files have them.
    Files,
    /// Nowhere, but a whole day may be written in any way that is read in one way alone.
    Cells,
    /// The last one up to today.
    Past,
    /// In this year; of the days of a week, the next one from today.
    Planned(i16),
}

impl Calendar {
    /// Days as files have them, `2027-04-29`, and no others.
    pub const FILES: Calendar = Calendar {
        today: super::FIRST,
        order: None,
        way: Way::Files,
    };

    /// Whole days that are read in one way alone, `29 Apr 2027` and `29/04/2027`: for the cells of a
    /// table that comes from elsewhere.
    pub const CELLS: Calendar = Calendar {
        today: super::FIRST,
        order: None,
        way: Way::Cells,
    };

    /// Days that are over, as one notes them: a day of no year is the last one up to today.
    pub fn noting(today: Date, order: Option<DayOrder>) -> Calendar {
        Calendar {
            today,
            order,
            way: Way::Past,
        }
    }

    /// Days that are planned: a day of no year is of this one, a day of the week the next from today.
    pub fn planning(self, year: i16) -> Calendar {
        let way = match self.way {
            Way::Files | Way::Cells => self.way,
            Way::Past | Way::Planned(_) => Way::Planned(year),
        };
        Calendar { way, ..self }
    }

    /// The year of which days are planned.
    pub(super) fn planned_year(&self) -> Option<i16> {
        match self.way {
            Way::Planned(year) => Some(year),
            Way::Files | Way::Cells | Way::Past => None,
        }
    }

    /// What may be typed, for messages.
    pub fn expected(&self) -> &'static str {
        match self.way {
            Way::Files => "a day such as 2027-04-29",
            Way::Cells => "a whole day such as 2027-04-29 or 29 Apr 2027",
            Way::Past => "a day such as 20 Aug, 20 August 2026, 2026-08-20, yesterday or friday",
            Way::Planned(_) => "a day such as 29 Apr, 29 April 2027, 2027-04-29 or week 17",
        }
    }

    /// Whether days are read as files have them alone.
    pub(super) fn is_of_files(&self) -> bool {
        self.way == Way::Files
    }

    /// The day that is meant by what was said.
    ///
    /// # Errors
    /// The end of a sentence that begins with what was found.
    pub(super) fn day(&self, shape: Shape) -> Result<Date, String> {
        let day = match shape.what {
            What::FromToday(days) => later(self.known_today()?, days),
            What::Weekday(day) => self.weekday(day)?,
            What::Week(year, week, day) => {
                let at = |year| Some(ISOWeekDate::new(year, week, day).ok()?.date());
                let told = || "a week that its year does not have, expected another".to_string();
                self.in_a_year(year, at, told)?
            }
            What::Day(year, month, day) => self.of_month(year, month, day)?,
            What::Either(year, one, other) => match self.order {
                Some(DayOrder::DayFirst) => self.of_month(year, other, one)?,
                Some(DayOrder::MonthFirst) => self.of_month(year, one, other)?,
                None => return Err(self.either(year, one, other)),
            },
        };
        match shape.on {
            Some(on) if on != day.weekday() => Err(format!(
                "but {day} is a {}: expected a day that fits",
                name_of(day.weekday())
            )),
            _ => Ok(day),
        }
    }

    fn of_month(&self, year: Year, month: i8, day: i8) -> Result<Date, String> {
        let told = || match (1..=12).contains(&month) {
            true => {
                let name = month_name(month);
                format!("a day that {name} does not have, expected another")
            }
            false => format!("expected {}", self.expected()),
        };
        self.in_a_year(year, |year| Date::new(year, month, day).ok(), told)
    }

    /// The day in the year that is said, or in the one in which it is looked for.
    fn in_a_year(
        &self,
        year: Year,
        at: impl Fn(i16) -> Option<Date>,
        told: impl Fn() -> String,
    ) -> Result<Date, String> {
        let found = match (year, self.way) {
            (Year::Whole(year), _) => at(year),
            (Year::Short(year), _) => at(self.nearest(year)?),
            (Year::Left, Way::Planned(year)) => at(year),
            (Year::Left, _) => {
                let today = self.known_today()?;
                // The week of a day near the new year may be one of the next.
                let years = (0..=YEARS_TO_LEAP_DAY).map(|back| today.year() + 1 - back);
                years.filter_map(at).find(|day| *day <= today)
            }
        };
        found.ok_or_else(told)
    }

    fn nearest(&self, short: i16) -> Result<i16, String> {
        let today = self.known_today()?.year();
        let year = today - today.rem_euclid(100) + short;
        Ok(match year - today {
            more if more > NEAREST => year - 100,
            less if less <= -NEAREST => year + 100,
            _ => year,
        })
    }

    fn weekday(&self, day: Weekday) -> Result<Date, String> {
        let today = self.known_today()?;
        let ahead = i64::from(today.weekday().until(day));
        match self.way {
            Way::Planned(_) => Ok(later(today, ahead)),
            _ => Ok(later(today, -i64::from(today.weekday().since(day)))),
        }
    }

    fn known_today(&self) -> Result<Date, String> {
        match self.way {
            Way::Files | Way::Cells => Err(format!("expected {}", self.expected())),
            Way::Past | Way::Planned(_) => Ok(self.today),
        }
    }

    /// Why two numbers say no day: both readings, and how to settle which is meant.
    fn either(&self, year: Year, one: i8, other: i8) -> String {
        let shown = |day: i8, month: i8| format!("{day} {}", short_month(month));
        let (day_first, month_first) = (shown(one, other), shown(other, one));
        let read = |month, day| self.of_month(year, month, day);
        match (read(other, one), read(one, other)) {
            (Ok(first), Ok(second)) => format!(
                "which may be {day_first} ({first}) or {month_first} ({second}): expected the month as a word, or in settings.ron days: \"{}\" or days: \"{}\", which then holds for all days",
                DayOrder::DayFirst,
                DayOrder::MonthFirst
            ),
            _ => format!(
                "which may be {day_first} or {month_first}: expected {}",
                self.expected()
            ),
        }
    }
}

fn name_of(day: Weekday) -> &'static str {
    match day {
        Weekday::Monday => "Monday",
        Weekday::Tuesday => "Tuesday",
        Weekday::Wednesday => "Wednesday",
        Weekday::Thursday => "Thursday",
        Weekday::Friday => "Friday",
        Weekday::Saturday => "Saturday",
        Weekday::Sunday => "Sunday",
    }
}

impl fmt::Display for DayOrder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            DayOrder::DayFirst => "day-first",
            DayOrder::MonthFirst => "month-first",
        })
    }
}

impl FromStr for DayOrder {
    type Err = String;
    fn from_str(text: &str) -> Result<DayOrder, String> {
        match text.trim() {
            "day-first" => Ok(DayOrder::DayFirst),
            "month-first" => Ok(DayOrder::MonthFirst),
            other => Err(format!(
                "found {:?}, expected \"day-first\" or \"month-first\"",
                crate::measure::brief(other)
            )),
        }
    }
}

impl TryFrom<String> for DayOrder {
    type Error = String;
    fn try_from(text: String) -> Result<DayOrder, String> {
        text.parse()
    }
}

impl From<DayOrder> for String {
    fn from(order: DayOrder) -> String {
        order.to_string()
    }
}
