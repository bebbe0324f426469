//! Every figure of the season with its source.

use super::flower::beside_published;
use super::{
    FULL_WEEKS, Method, PLANTS_LOST, STEMS_A_WEEK, STEMS_LOST, Season, WEEKS_TO_FIRST_CUT,
};
use super::{RAMP, StemsAWeek};

/// A figure of the season and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// Its value in words.
    pub value: String,
    /// `the grower's`, a published range, or `assumed`.
    pub source: String,
}

const GROWERS: &str = "the grower's";
impl Season {
    /// Every figure with its source, for printing.
    pub fn figures(&self) -> Vec<Figure> {
        let figure = |name, value: String, own: bool, source: &str| Figure {
            name,
            value,
            source: if own { GROWERS } else { source }.to_string(),
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
                "stems a week",
                self.weekly_stems_in_words(),
                self.stems_a_week.is_some() || self.stems_a_plant.is_some(),
                STEMS_A_WEEK.1,
            ),
            figure(
                "a stated season total",
                format!("as of {FULL_WEEKS} weeks at full flower"),
                false,
                "assumed",
            ),
            figure(
                "rise to full flower",
                rise_in_words(self.rise()),
                !self.ramp.is_empty(),
                RAMP.1,
            ),
            figure(
                "season total",
                format!(
                    "{:.1} stems a plant set out, the sum of its weeks",
                    self.usual_total()
                ),
                false,
                &beside_published(self.usual_total()),
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
    /// The figure of a week, and the total that it is taken from where there is none of a week.
    fn weekly_stems_in_words(&self) -> String {
        let told = format!("{} a plant at full flower", self.weekly_stems());
        match (self.stems_a_week.map(StemsAWeek::get), self.stems_a_plant) {
            (None, Some(total)) => format!("{told}, from {total} in a season"),
            _ => told,
        }
    }
}

/// `40 %, 70 % of it in the first weeks, then all of it`.
fn rise_in_words(rise: &[f64]) -> String {
    let before: Vec<String> = { rise.iter().filter(|share| **share < 1.0) }
        .map(|share| format!("{:.0} %", share * 100.0))
        .collect();
    match &before[..] {
        [] => "at once".to_string(),
        [first] => format!("{first} of it in the first week from the first cut, then all of it"),
        several => format!(
            "{} of it in the first {} weeks from the first cut, then all of it",
            several.join(", "),
            several.len()
        ),
    }
}
