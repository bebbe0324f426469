//! Every figure of the season with its source.

use super::{Method, PLANTS_LOST, STEMS, STEMS_LOST, Season, WEEKS_TO_FIRST_CUT};

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
impl Season {
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
}
