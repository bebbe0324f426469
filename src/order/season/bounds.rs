//! What the numbers of a season may be.

use super::{RAMP_FIELD, Season};
use crate::measure::bounds::{Bounds, MOST_COUNTED};
use crate::measure::day;
use crate::problem::{Path, Wrong};

/// A plant that takes more than a year is of no season.
const FIRST_CUT: Bounds<u32> = Bounds::new("weeks to the first cut", 1, 52);
/// A thousand times what is published.
const OF_A_PLANT: Bounds<u32> = Bounds::new("stems of a plant in a season", 1, 9999);
const PLANTS: Bounds<u32> = Bounds::new("plants counted", 1, MOST_COUNTED);
const STEMS: Bounds<u32> = Bounds::new("stems counted", 0, MOST_COUNTED);
/// A year has no more weeks.
const MOST_SHARES: usize = 53;

impl Season {
    /// The first number that cannot be, with its place.
    pub(super) fn out_of_bounds(&self) -> Option<Wrong> {
        let first = self.weeks_to_first_cut.map(|weeks| {
            let place = Path::field("weeks_to_first_cut");
            (place, FIRST_CUT.wrong(weeks))
        });
        let firsts = self.first_cuts.iter().enumerate().map(|(at, one)| {
            let place = Path::field("first_cuts").nth(at).then("weeks");
            (place, FIRST_CUT.wrong(one.weeks))
        });
        let total = self.stems_a_plant.map(|stems| {
            let place = Path::field("stems_a_plant");
            (place, OF_A_PLANT.wrong(stems.get()))
        });
        let ramp = self.ramp_is_too_long().then(|| {
            let found = self.ramp.len();
            let message =
                format!("found {found} shares, expected at most {MOST_SHARES}: one a week");
            (Path::default().on(RAMP_FIELD), Some(message))
        });
        let mut all = first
            .into_iter()
            .chain(firsts)
            .chain(total)
            .chain(ramp)
            .chain(self.counts_out_of_bounds());
        all.find_map(|(place, message)| Some(Wrong::new(place, message?)))
    }

    pub(super) fn ramp_is_too_long(&self) -> bool {
        self.ramp.len() > MOST_SHARES
    }

    fn counts_out_of_bounds(&self) -> impl Iterator<Item = (Path, Option<String>)> {
        self.counted.iter().enumerate().flat_map(|(at, count)| {
            let place = Path::field("counted").nth(at);
            let years = day::years();
            let year = count.year.filter(|year| !years.contains(year)).map(|year| {
                let (from, to) = (years.start(), years.end());
                format!("found the year {year}, expected one from {from} to {to}")
            });
            let plants = PLANTS.wrong(count.plants.get());
            let weeks = place.clone().then("stems");
            let stems = count.stems.iter().enumerate();
            let stems =
                stems.map(move |(week, one)| (weeks.clone().nth(week).nth(1), STEMS.wrong(one.1)));
            [
                (place.clone().then("year"), year),
                (place.then("plants"), plants),
            ]
            .into_iter()
            .chain(stems)
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::measure::SizeUnits;
    use crate::order::{Item, Plan};

    const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-14"), first_frost: (date: "2027-10-05"), planted: "2027-05-10"),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  needs: [(name: "quay stall", stems: 60, weeks: (33, 39), colours: ["warm"], within: 6)],
)
"#;

    /// Each number as a grower may write it in the file, and far out: told at its own line, with what
    /// it may be.
    #[test]
    fn a_number_far_out_in_the_order_is_told_with_its_place() {
        let with = |field: &str| PLAN.replace("season: (", &format!("season: (\n{field},\n"));
        for (field, told) in [
            (
                "weeks_to_first_cut: 2000000",
                "found 2000000 weeks to the first cut, expected from 1 to 52",
            ),
            ("weeks_to_first_cut: 0", "expected from 1 to 52"),
            (
                "weeks_to_first_cut: 5000000000",
                "found 5000000000, expected",
            ),
            (
                "first_cuts: [(of: [\"ball\"], weeks: 4000000000)]",
                "from 1 to 52",
            ),
            ("stems_a_plant: 4000000000", "from 1 to 9999"),
            ("stems_a_week: inf", "found inf stems a week"),
            ("plants_lost: NaN", "from 0 to under 100"),
            (
                "counted: [(variety: \"Haaf\", plants: 4000000000, stems: [])]",
                "from 1 to 1000000",
            ),
            (
                "counted: [(variety: \"Haaf\", plants: 1, stems: [(33, 4000000000)])]",
                "from 0 to 1000000",
            ),
            (
                "counted: [(variety: \"Haaf\", year: 30000, plants: 1, stems: [])]",
                "found the year 30000",
            ),
            (
                "counted: [(variety: \"Haaf\", planted: \"9999-12-31\", plants: 1, stems: [])]",
                "from 1900-01-01 to 2200-12-31",
            ),
        ] {
            let bad = with(field);
            let problems = Plan::read("order.ron", &bad).expect_err(field);
            let first = problems[0].to_string();
            assert!(first.contains(told), "{field}: {first}");
            assert_eq!(problems[0].line, 4, "{field}: {first}");
        }
    }

    #[test]
    fn a_number_far_out_that_is_typed_is_refused_and_nothing_is_reckoned_with_it() {
        let plan = Plan::read("order.ron", PLAN).expect("a plan");
        let first = plan.needs[0].name.to_string();
        let bed = plan.beds[0].name.to_string();
        for (name, text) in [
            ("first cut, weeks", "2000000"),
            ("first cut, weeks", "0"),
            ("first cut, weeks", "4294967295"),
            ("stems a week", "1e300"),
            ("plants lost, %", "NaN"),
            ("stems lost, %", "-1e300"),
            ("tubers kept, %", "inf"),
            ("rise to flower", "1e300,1"),
            ("planted", "9999-12-31"),
            ("planted", "-009999-01-01"),
            ("last frost", "0001-01-01"),
            ("first frost", "9999-12-31"),
            ("orders go out", "0001-01-01"),
            (first.as_str(), "4294967295"),
            (first.as_str(), "each=4294967295 varieties=255"),
            (first.as_str(), "0-255"),
            (first.as_str(), "within=1e300"),
            (bed.as_str(), "999999999m"),
            (bed.as_str(), "rows=4294967295"),
            (bed.as_str(), "spacing=0.000001mm"),
        ] {
            let item = Item::named(&plan, name).unwrap_or_else(|| panic!("{name}"));
            let problems = match item.set(&plan, text, &crate::measure::day::Calendar::FILES) {
                Err(told) => vec![told],
                Ok(changed) => {
                    // What a page shows of a plan that makes no sense must not end it either.
                    for item in Item::all(&changed) {
                        let _ = item.value(&changed, SizeUnits::Mm);
                        let _ = item.step(&changed, 1, SizeUnits::In);
                    }
                    changed.problems()
                }
            };
            assert!(!problems.is_empty(), "{name}={text} was taken");
            assert!(
                problems[0].contains("expected"),
                "{name}={text}: {problems:?}"
            );
        }
    }
}
