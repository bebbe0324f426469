//! What the grower counted in the row, and what it says of the next season.
//!
//! A count stays in the order's file from season to season. From then on it stands for its variety
//! in place of every default: counts of several seasons are added up, plants and stems alike.

use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};

use super::model::STEM;
use super::season::Season;
use crate::variety::Text;

/// Stems counted in one season's row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RowCount {
    /// The variety.
    pub variety: Text,
    /// The year, so that a count that is taken again stands once.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub year: Option<i16>,
    /// Plants that stood.
    pub plants: NonZeroU32,
    /// Saleable stems by week of the year.
    pub stems: Vec<(u8, u32)>,
}

impl Season {
    fn counts<'a>(&'a self, variety: &'a str) -> impl Iterator<Item = &'a RowCount> {
        let of = move |one: &&RowCount| one.variety.as_str() == variety;
        self.counted.iter().filter(of)
    }

    /// Usable thousandths of a stem by week of `weeks`, from one plant set out, by the grower's own
    /// counts if there are any: plants lost are taken off, stems lost were not counted. Counts of
    /// several seasons are added up, each plant weighing as much.
    pub fn counted_yields(&self, variety: &str, weeks: &[u8]) -> Option<Vec<u64>> {
        let plants: u64 = { self.counts(variety) }
            .map(|count| u64::from(count.plants.get()))
            .sum();
        if plants == 0 {
            return None;
        }
        let each = |week: &u8| {
            let stems = self.counts(variety).flat_map(|count| &count.stems);
            let stems: u64 = { stems }
                .filter(|one| one.0 == *week)
                .map(|one| u64::from(one.1))
                .sum();
            let each = stems as f64 / plants as f64 * self.plants_kept();
            (each * STEM as f64).floor() as u64
        };
        Some(weeks.iter().map(each).collect())
    }

    /// What is wrong with the counts.
    pub(super) fn wrong_count(&self) -> Option<(Text, String)> {
        let wrong = |count: &&RowCount| count.stems.iter().any(|one| !(1..=53).contains(&one.0));
        self.counted.iter().find(wrong).map(|count| {
            let message =
                "found stems counted in a week that is not 1 to 53, expected a week of the year";
            (
                count.variety.clone(),
                format!("{}: {message}", count.variety),
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::season::tests::season;
    use super::*;

    /// 4 plants gave 6 and 10 stems, 6 plants a year later 9 in the first of the two weeks: of ten
    /// plants 1.5 and 1 stems each.
    #[test]
    fn counts_in_the_row_stand_for_the_variety() {
        let count = |plants: u32, stems: &[(u8, u32)]| RowCount {
            year: None,
            variety: Text::new("Haaf Test").expect("a name"),
            plants: NonZeroU32::new(plants).expect("some"),
            stems: stems.to_vec(),
        };
        let mut season = season();
        season.counted = vec![count(4, &[(33, 6), (34, 10)])];
        let yields = |season: &Season| season.counted_yields("Haaf Test", &[32, 33, 34]);
        assert_eq!(yields(&season), Some(vec![0, 1500, 2500]));
        season.counted.push(count(6, &[(33, 9)]));
        assert_eq!(yields(&season), Some(vec![0, 1500, 1000]));
        assert_eq!(season.counted_yields("Haaf Other", &[32]), None);
        season.plants_lost = Some(50.0);
        assert_eq!(yields(&season), Some(vec![0, 750, 500]));
    }
}
