//! What counts of the row say of the next season.
//!
//! A count stays in the order's file from season to season. From then on it stands for its variety
//! in place of every default: counts of several seasons are added up, plants and stems alike.
//!
//! A count is of its own season. Of a plan with an earlier frost nothing from that frost on stands. A
//! plan that is planted later than the count's season has the count later by as many weeks, and where
//! the count falls with the weeks no more than it gave in the same week of the year either: of both
//! the lesser. A plan that is planted earlier or has a later frost has no more than was counted, for
//! nothing more was seen. So planting earlier or a later frost never takes a stem away.

use jiff::civil::Date;

use super::{Season, days_between, monday};
use crate::order::RowCount;
use crate::problem::{Path, Wrong};

impl Season {
    fn counts<'a>(&'a self, variety: &'a str) -> impl Iterator<Item = &'a RowCount> {
        let of = move |one: &&RowCount| one.variety.as_str() == variety;
        self.counted.iter().filter(of)
    }

    /// Usable stems by week of `weeks`, from one plant set out, by the grower's own counts if there
    /// are any: plants lost are taken off, stems lost were not counted. Counts of several seasons are
    /// added up, each plant weighing as much. Planting is `late` by some days on the plan, so that the
    /// plan's own first cut is on `first`, and the first frost comes on `frost`.
    pub(in crate::order) fn counted_stems(
        &self,
        variety: &str,
        weeks: &[u8],
        first: Date,
        late: i32,
        frost: Date,
    ) -> Option<Vec<f64>> {
        let plants: f64 = { self.counts(variety) }
            .map(|count| f64::from(count.plants.get()))
            .sum();
        if plants == 0.0 {
            return None;
        }
        let each = |week: &u8| {
            let Some(begins) = monday(self.planted, *week) else {
                return 0.0;
            };
            let open = days_between(begins, frost).clamp(0, 7);
            let counted = |count| {
                let delay = self.delay(count, first, late).min(u32::from(*week));
                let earlier = (0..=delay).map(|by| count.in_week(u32::from(*week) - by));
                earlier.min().unwrap_or(0)
            };
            let stems: u64 = self.counts(variety).map(counted).sum();
            stems as f64 * f64::from(open) / 7.0 / plants * self.plants_kept()
        };
        Some(weeks.iter().map(each).collect())
    }

    /// Weeks by which the plan comes into flower later than the season of a count: as it is planted
    /// later, or, where that season's day is not known, as its first cut is later than the count's.
    fn delay(&self, count: &RowCount, first: Date, late: i32) -> u32 {
        let days = match count.planted {
            Some(planted) => day_of_year(self.planted) + late - day_of_year(planted),
            None => {
                let counted = count.stems.iter().filter(|one| one.1 > 0);
                let week = counted.map(|one| one.0).min();
                let begins = week.and_then(|week| monday(self.planted, week));
                // A first cut within the count's first week is no later than that.
                begins.map_or(0, |begins| days_between(begins, first) - 6)
            }
        };
        u32::try_from(days).map_or(0, |days| days.div_ceil(7))
    }

    /// What is wrong with the counts.
    pub(in crate::order) fn wrong_count(&self) -> Option<Wrong> {
        let message =
            "found stems counted in a week that is not 1 to 53, expected a week of the year";
        self.counted.iter().enumerate().find_map(|(at, count)| {
            let mut weeks = count.stems.iter();
            let week = weeks.position(|one| !(1..=53).contains(&one.0))?;
            let place = Path::field("counted").nth(at).then("stems").nth(week);
            Some(Wrong::new(
                place.nth(0),
                format!("{}: {message}", count.variety),
            ))
        })
    }
}

/// The day in the year's weeks (ISO 8601): the Monday of the first is 8.
fn day_of_year(day: Date) -> i32 {
    let week = day.iso_week_date();
    i32::from(week.week()) * 7 + i32::from(week.weekday().to_monday_one_offset())
}

#[cfg(test)]
mod tests {
    use super::super::tests::season;
    use super::*;
    use crate::variety::Text;
    use std::num::NonZeroU32;

    use jiff::ToSpan;

    use crate::variety::Variety;
    use jiff::civil::date;

    const WEEKS: [u8; 7] = [32, 33, 34, 35, 36, 37, 38];

    fn named(name: &str) -> Variety {
        Variety::named(Text::new(name).expect("a name"))
    }

    fn count(plants: u32, planted: Option<Date>, stems: &[(u8, u32)]) -> RowCount {
        RowCount {
            year: None,
            planted,
            variety: named("Haaf Test").name,
            plants: NonZeroU32::new(plants).expect("some"),
            stems: stems.to_vec(),
        }
    }

    fn first(season: &Season) -> u32 {
        season.weeks_for("", None)
    }

    fn gives(season: &Season) -> Vec<u64> {
        season.gives(&named("Haaf Test"), first(season), &WEEKS)
    }

    /// 4 plants gave 6 and 10 stems, 6 plants a year later 9 in the first of the two weeks: of ten
    /// plants 1.5 and 1 stems each.
    #[test]
    fn counts_in_the_row_stand_for_the_variety() {
        let mut season = season();
        season.counted = vec![count(4, None, &[(33, 6), (34, 10)])];
        assert_eq!(gives(&season), [0, 1500, 2500, 0, 0, 0, 0]);
        season.counted.push(count(6, None, &[(33, 9)]));
        assert_eq!(gives(&season), [0, 1500, 1000, 0, 0, 0, 0]);
        let other = season.gives(&named("Haaf Other"), first(&season), &WEEKS);
        assert!(other[6] > 0, "{other:?}");
        season.plants_lost = Some(50.0);
        assert_eq!(gives(&season), [0, 750, 500, 0, 0, 0, 0]);
    }

    /// Worked by hand: a plant gave 1, 2, 4, 3 and 2 from week 33 on. Planted two weeks later it gives
    /// the least of a week and the two before: 0, 0, 1, 2, 2, then 2 and 0. A frost on Thursday of
    /// week 37 leaves three days of seven of it.
    #[test]
    fn a_count_of_another_season_is_taken_no_higher_than_it_can_be() {
        let stems = [(33, 1), (34, 2), (35, 4), (36, 3), (37, 2)];
        let mut season = season();
        let then = |days: i32| season.planted.checked_add(i64::from(days).days()).ok();
        let (same, before) = (then(0), then(-14));
        season.counted = vec![count(1, same, &stems)];
        let as_counted = [0, 1000, 2000, 4000, 3000, 2000, 0];
        assert_eq!(gives(&season), as_counted);
        season.first_frost = crate::order::Frost::on(date(2027, 9, 16));
        assert_eq!(gives(&season)[4..], [3000, 857, 0]);
        season.first_frost = crate::order::Frost::on(date(2027, 11, 1));
        assert_eq!(gives(&season), as_counted);
        season.counted = vec![count(1, before, &stems)];
        assert_eq!(gives(&season), [0, 0, 0, 1000, 2000, 2000, 0]);
        // Where the day is not known the plan's first cut tells: in week 32, then in week 35.
        season.counted = vec![count(1, None, &stems)];
        assert_eq!(gives(&season), as_counted);
        season.weeks_to_first_cut = Some(16);
        assert_eq!(gives(&season), [0, 0, 0, 1000, 2000, 2000, 0]);
    }
}
