//! The season as far as it says when something is in bloom, for who knows no plan.

use super::{Season, week_of};
use crate::measure::day;
use crate::variety::{BloomSeason, BloomWeeks};

impl Season {
    /// From each first cut to the day before the first frost, half of the years; and the weeks in which
    /// the row was counted.
    pub fn in_bloom(&self) -> BloomSeason {
        let frost = self.first_frost.middle();
        let from = |weeks: u32| {
            let first = self.first_cut(weeks);
            match first < frost {
                true => BloomWeeks::span(week_of(first), week_of(day::later(frost, -1))),
                false => BloomWeeks::default(),
            }
        };
        let others = self.first_cuts.iter();
        let counted = self.counted.iter().map(|one| {
            let cut = one.stems.iter().filter(|(_, stems)| *stems > 0);
            (one.variety.clone(), cut.map(|(week, _)| *week).collect())
        });
        BloomSeason {
            year: self.weeks_of(),
            usual: from(self.weeks_for("", None)),
            others: others
                .map(|one| (one.of.clone(), from(one.weeks)))
                .collect(),
            counted: counted.collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::folder::order::plan;
    use crate::order::week_of;
    use crate::variety::{InBloom, Text, Variety};

    /// In bloom is what gives stems: told by the same season in two ways.
    #[test]
    fn what_is_expected_in_bloom_is_what_gives_stems_in_the_order() {
        let plan = plan(None).expect("the demo").expect("an order");
        let season = plan.season.in_bloom();
        let variety = Variety::named(Text::new("Haaf Test").expect("a name"));
        for form in [
            None,
            Some("single"),
            Some("informal-decorative"),
            Some("ball"),
        ] {
            let expected = InBloom::of(&variety, form, Some(&season)).expected;
            let first = plan.season.weeks_for("Haaf Test", form);
            let weeks: Vec<u8> = (1..=52).collect();
            let stems = plan.season.gives(&variety, first, &weeks);
            for (week, stems) in weeks.iter().zip(stems) {
                assert_eq!(expected.has(*week), stems > 0, "{form:?}, week {week}");
            }
        }
        assert_eq!(season.year, 2027);
        assert!(
            season
                .usual
                .has(week_of(plan.season.first_frost.middle()) - 1)
        );
    }
}
