//! A frost in words: a day, or two published risk levels.

use super::frost::{Frost, Risk};
use crate::measure::brief;
use crate::measure::day::{self, Calendar};

impl Frost {
    /// As it is typed: `2027-05-14`, or `90%: 2027-05-01, 10%: 2027-05-27`.
    pub fn words(&self) -> String {
        match self.risks() {
            [] => self.middle().to_string(),
            risks => {
                let risks = risks
                    .iter()
                    .map(|risk| format!("{}%: {}", risk.chance, risk.on));
                risks.collect::<Vec<_>>().join(", ")
            }
        }
    }

    /// Reads what [`Frost::words`] writes, days as people type them.
    ///
    /// # Errors
    /// A clause: what was found and what was expected.
    pub fn with_words(text: &str, days: &Calendar) -> Result<Frost, String> {
        if !text.contains('%') {
            return day::typed(text, days).map(|typed| Frost::on(typed.day));
        }
        let levels = text.split(',').map(|level| {
            let (chance, on) = read_risk(level).ok_or_else(|| {
                format!(
                    "found {:?}, expected a chance and a day such as 90%: 2027-05-01",
                    brief(level.trim())
                )
            })?;
            let on = day::typed(on, days)?.day;
            Ok(Risk { chance, on })
        });
        Frost::between(levels.collect::<Result<_, String>>()?)
    }
}

/// The chance, and the day as it is written.
fn read_risk(level: &str) -> Option<(u8, &str)> {
    let (chance, on) = level.split_once('%')?;
    let chance = chance.trim().parse().ok()?;
    Some((chance, on.trim_start_matches([':', ' ']).trim()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_frost_is_read_as_it_is_shown() {
        for text in ["2027-05-14", "90%: 2027-05-01, 10%: 2027-05-27"] {
            let frost = Frost::with_words(text, &Calendar::FILES).expect(text);
            assert_eq!(frost.words(), text);
        }
        for (text, told) in [
            ("May", "expected a day"),
            ("90%: 2027-05-01", "two risk levels"),
            ("many% 2027-05-01, 10% 2027-05-27", "90%: 2027-05-01"),
            ("90%: 2027-05-01, 90%: 2027-05-27", "two chances"),
        ] {
            let error = Frost::with_words(text, &Calendar::FILES).expect_err(text);
            assert!(error.contains(told), "{text}: {error}");
        }
    }
}
