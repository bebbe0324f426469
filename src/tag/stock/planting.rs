//! What a tag says of planting: by how tall the plant grows or how large it blooms, and less where
//! neither is known.

use serde::Deserialize;

use crate::measure::SizeUnits;
use crate::problem::{Path, Wrong};

/// Stands in the sentence for the words of the line that fits.
const SPACING: &str = "{spacing}";

/// A sentence in each unit, and how deep and how far apart what kinds of plant go.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Planting {
    mm: String,
    r#in: String,
    /// The first that fits counts.
    #[serde(default)]
    spacing: Vec<Spacing>,
}

/// How deep and how far apart.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Spacing {
    /// For blooms of these sizes, by the words of the rules.
    #[serde(default)]
    sizes: Vec<String>,
    /// For plants over this height in mm.
    #[serde(default)]
    taller: Option<f64>,
    mm: String,
    r#in: String,
}

impl Planting {
    /// The sentence for a plant of this height in mm and of blooms of this size, as far as they
    /// are known.
    pub(super) fn sentence(
        &self,
        height: Option<f64>,
        size: Option<&str>,
        units: SizeUnits,
    ) -> String {
        let fits = self.spacing.iter().find(|line| line.fits(height, size));
        let (sentence, words) = match units {
            SizeUnits::Mm => (&self.mm, fits.map(|line| &line.mm)),
            SizeUnits::In => (&self.r#in, fits.map(|line| &line.r#in)),
        };
        let words = words.map_or(String::new(), |words| format!(", {words}"));
        sentence.replace(SPACING, &words)
    }

    /// What is wrong with it.
    pub(super) fn checked(&self) -> Result<(), Wrong> {
        let sentences = [("mm", &self.mm), ("in", &self.r#in)];
        let lacks = |one: &&(&str, &String)| !one.1.contains(SPACING);
        if let Some((field, _)) =
            { sentences.iter().find(lacks) }.filter(|_| !self.spacing.is_empty())
        {
            return Err(Wrong::new(
                Path::field(field),
                format!(
                    "found lines of `spacing` and a sentence without {SPACING}, expected it in both"
                ),
            ));
        }
        let idle = |line: &Spacing| line.sizes.is_empty() && line.taller.is_none();
        match self.spacing.iter().position(idle) {
            None => Ok(()),
            Some(at) => Err(Wrong::new(
                Path::field("spacing").nth(at),
                format!(
                    "found the spacing {:?} for no plant, expected `sizes` or `taller`",
                    self.spacing[at].mm
                ),
            )),
        }
    }
}

impl Spacing {
    fn fits(&self, height: Option<f64>, size: Option<&str>) -> bool {
        let tall = self.taller.zip(height);
        let sized = size.is_some_and(|size| self.sizes.iter().any(|one| one == size));
        sized || tall.is_some_and(|(over, height)| height > over)
    }
}

#[cfg(test)]
mod tests {
    use super::super::Stock;
    use super::*;

    /// How far apart a plant goes, in cm and in inches: common practice, no source.
    #[test]
    fn the_larger_a_plant_the_more_room_it_is_told_to_have() {
        let practice = Stock::embedded().practice;
        for (height, size, cm, inches) in [
            (None, Some("giant"), 90, 36),
            (Some(1200.0), Some("giant"), 90, 36),
            (Some(1000.0), Some("large"), 75, 30),
            (Some(1350.0), Some("small"), 75, 30),
            (Some(1150.0), Some("miniature"), 60, 24),
            (Some(900.0), None, 45, 18),
            (Some(450.0), Some("miniature"), 30, 12),
            (None, Some("medium"), 60, 24),
            (None, Some("miniature"), 45, 18),
        ] {
            let told = |units| practice.planting(height, size, units);
            let (mm, inch) = (told(SizeUnits::Mm), told(SizeUnits::In));
            assert!(
                mm.contains(&format!(" {cm} cm apart")),
                "{height:?} {size:?}: {mm}"
            );
            assert!(inch.contains(&format!(" {inches} in apart")), "{inch}");
        }
    }

    #[test]
    fn of_a_plant_that_is_not_known_less_is_said() {
        let practice = Stock::embedded().practice;
        for size in [None, Some("a word of other rules")] {
            for units in [SizeUnits::Mm, SizeUnits::In] {
                assert_eq!(
                    practice.planting(None, size, units),
                    "Plant after the last frost, in sun. Stake all but low plants. Lift before hard frost."
                );
            }
        }
    }

    /// As the file was before it told plants apart.
    #[test]
    fn a_growers_own_sentence_without_spacing_is_said_as_it_stands() {
        let own = r#"(mm: "Ten deep.", in: "Four deep.")"#;
        let planting: Planting = crate::problem::read_ron("tags.ron", own).expect("read");
        assert_eq!(planting.checked(), Ok(()));
        assert_eq!(
            planting.sentence(Some(900.0), Some("giant"), SizeUnits::In),
            "Four deep."
        );
    }
}
