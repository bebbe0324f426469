//! Frost: a date, or two published risk levels and the normal curve through them.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, Normal};

use crate::measure::day;

/// When the last frost of spring or the first of autumn comes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "FrostNote", into = "FrostNote")]
pub struct Frost {
    note: FrostNote,
    /// The middle of the curve, in days from its first date.
    mean: f64,
    /// Its standard deviation, in days.
    spread: f64,
}

/// How the grower writes it: `(date: "2027-05-14")`, or
/// `(risks: [(chance: 90, on: "2027-05-01"), (chance: 10, on: "2027-05-27")])`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FrostNote {
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    date: Option<Date>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    risks: Vec<Risk>,
}

/// A published risk level.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Risk {
    /// Chance in a hundred that the last frost comes after the date, or the first before it.
    pub(super) chance: u8,
    /// The date.
    #[serde(deserialize_with = "crate::measure::day::in_file")]
    pub(super) on: Date,
}

/// The widest curve that is believed, as its standard deviation in days: nowhere that dahlias grow do
/// frosts spread so far over a year.
const WIDEST: f64 = 100.0;

/// Which frost, and so which way the chance runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The last of spring: the later the date, the less the chance of frost after it.
    Last,
    /// The first of autumn: the later the date, the greater the chance of frost before it.
    First,
}

impl Frost {
    /// A date without a spread.
    pub fn on(date: Date) -> Frost {
        let note = FrostNote {
            date: Some(date),
            risks: Vec::new(),
        };
        Frost {
            note,
            mean: 0.0,
            spread: 0.0,
        }
    }

    /// The curve through two risk levels.
    ///
    /// # Errors
    /// A clause: what is wrong with them.
    pub(super) fn between(risks: Vec<Risk>) -> Result<Frost, String> {
        Frost::try_from(FrostNote { date: None, risks })
    }

    /// The risk levels that it was made of; none where it is a date.
    pub(super) fn risks(&self) -> &[Risk] {
        &self.note.risks
    }

    /// The date in the middle: as many years have it later as earlier.
    pub fn middle(&self) -> Date {
        self.after(0.0)
    }

    /// The standard deviation in days; 0 where only a date is known.
    pub fn spread(&self) -> f64 {
        self.spread
    }

    /// The date so many standard deviations later than the middle.
    pub fn after(&self, deviations: f64) -> Date {
        let days = (self.mean + deviations * self.spread).round();
        day::later(self.first(), days as i64)
    }

    /// The date at which the risk is `chance` in a hundred.
    pub fn at_risk(&self, chance: f64, side: Side) -> Date {
        let share = match side {
            Side::Last => 1.0 - chance / 100.0,
            Side::First => chance / 100.0,
        };
        self.after(deviations(share))
    }

    /// The chance, 0 to 1, that it comes after a day; by a date without a spread, 0 or 1.
    pub fn chance_after(&self, day: Date) -> f64 {
        let days = f64::from(self.first().until(day).map_or(0, |span| span.get_days())) - self.mean;
        if self.spread == 0.0 {
            return if days < 0.0 { 1.0 } else { 0.0 };
        }
        // OK because the spread is over 0.
        Normal::new(0.0, self.spread).map_or(0.0, |normal| normal.sf(days))
    }

    /// Where the figures come from.
    pub fn source(&self) -> &'static str {
        match self.note.date {
            Some(_) => "the grower's, a date without a spread",
            None => "the normal curve through the two risk levels given",
        }
    }

    /// Whether the risks run the way that this frost's must.
    pub(super) fn runs_as(&self, side: Side) -> bool {
        let [one, other] = self.note.risks[..] else {
            return true;
        };
        let falls = (one.on < other.on) == (one.chance > other.chance);
        falls == (side == Side::Last)
    }

    fn first(&self) -> Date {
        let risk = self.note.risks.first().map(|risk| risk.on);
        self.note.date.or(risk).unwrap_or(Date::ZERO)
    }
}

/// How many standard deviations above the mean a share of a normal curve ends.
fn deviations(share: f64) -> f64 {
    // OK because 0 and 1 are a standard normal curve's mean and deviation.
    Normal::new(0.0, 1.0).map_or(0.0, |normal| normal.inverse_cdf(share.clamp(0.001, 0.999)))
}

impl TryFrom<FrostNote> for Frost {
    type Error = String;
    fn try_from(note: FrostNote) -> Result<Frost, String> {
        match (note.date, &note.risks[..]) {
            (Some(_), []) => Ok(Frost { note, mean: 0.0, spread: 0.0 }),
            (None, [one, other]) => {
                let possible = |risk: &Risk| (1..100).contains(&risk.chance);
                if !possible(one) || !possible(other) {
                    return Err("found a chance of frost that is not from 1 to 99 in a hundred, expected it so".into());
                }
                let days = f64::from(one.on.until(other.on).map_or(0, |span| span.get_days()));
                // As shares that rise with the date, whichever frost it is.
                let rises = (days > 0.0) == (other.chance > one.chance);
                let share = |risk: &Risk| {
                    let share = f64::from(risk.chance) / 100.0;
                    deviations(if rises { share } else { 1.0 - share })
                };
                let apart = share(other) - share(one);
                if days == 0.0 || apart.abs() < 1e-9 {
                    return Err("found two risk levels on one day or of one chance, expected two days and two chances".into());
                }
                let spread = days / apart;
                if spread > WIDEST {
                    return Err(format!("found two risk levels of a curve {spread:.0} days wide (one standard deviation), expected at most {WIDEST}: dates nearer together or chances further apart"));
                }
                Ok(Frost { mean: -share(one) * spread, spread, note })
            }
            _ => Err("found neither one date nor two risk levels, expected date: \"2027-05-14\" or risks: [(chance: 90, on: \"2027-05-01\"), (chance: 10, on: \"2027-05-27\")]".into()),
        }
    }
}

impl From<Frost> for FrostNote {
    fn from(frost: Frost) -> FrostNote {
        frost.note
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn read(text: &str) -> Result<Frost, String> {
        let frost = crate::problem::read_ron::<Frost>("order.ron", text);
        frost.map_err(|problem| problem.to_string())
    }

    /// Worked by hand: the 90 % and 10 % points of a normal curve are 1.2816 deviations from its
    /// mean, so 26 days between them are a deviation of 10.14 days.
    #[test]
    fn two_risk_levels_give_the_middle_and_the_spread() {
        let frost =
            read(r#"(risks: [(chance: 90, on: "2027-05-01"), (chance: 10, on: "2027-05-27")])"#)
                .expect("a frost");
        assert_eq!(frost.middle(), date(2027, 5, 14));
        assert!((frost.spread() - 10.14).abs() < 0.01, "{}", frost.spread());
        assert_eq!(frost.at_risk(90.0, Side::Last), date(2027, 5, 1));
        assert_eq!(frost.at_risk(10.0, Side::Last), date(2027, 5, 27));
        assert!((frost.chance_after(date(2027, 5, 27)) - 0.1).abs() < 0.001);
        assert!(frost.runs_as(Side::Last) && !frost.runs_as(Side::First));
        let first =
            read(r#"(risks: [(chance: 10, on: "2027-09-20"), (chance: 50, on: "2027-10-05")])"#)
                .expect("a frost");
        assert_eq!(first.middle(), date(2027, 10, 5));
        assert_eq!(first.at_risk(10.0, Side::First), date(2027, 9, 20));
        assert!(first.runs_as(Side::First));
    }

    #[test]
    fn what_is_no_frost_is_told() {
        for (text, told) in [
            ("()", "neither one date nor two"),
            (
                r#"(date: "2027-05-14", risks: [(chance: 90, on: "2027-05-01")])"#,
                "neither",
            ),
            (
                r#"(risks: [(chance: 0, on: "2027-05-01"), (chance: 10, on: "2027-05-27")])"#,
                "1 to 99",
            ),
            (
                r#"(risks: [(chance: 50, on: "2027-05-01"), (chance: 10, on: "2027-05-01")])"#,
                "one day",
            ),
            (r#"(date: "2027-05-41")"#, "day"),
        ] {
            let error = read(text).expect_err(text);
            assert!(error.contains(told), "{error}");
        }
    }
}
