//! The days between which the garden blooms, as the order's season has them: a bloom noted on another
//! day is asked after where nobody told the day.

use jiff::ToSpan;

use crate::order::{Season, Side};
use crate::trial::BloomDays;

/// Years in a hundred that have had frost by the day that is taken for the first frost. Assumed: later
/// than that a bloom in the open is rare enough to ask after.
const FROST: f64 = 90.0;
/// Weeks before the first cut that is planned for in which something may bloom ahead. Assumed.
const AHEAD: i64 = 3;

/// Of a season, whatever its year.
pub(super) fn bloom_days(season: &Season) -> BloomDays {
    let usual = season.weeks_for("", None);
    let weeks = season.first_cuts.iter().map(|cut| cut.weeks).min();
    let cut = season.first_cut(weeks.map_or(usual, |weeks| weeks.min(usual)));
    BloomDays {
        first: cut.checked_sub(AHEAD.weeks()).unwrap_or(cut),
        frost: season.first_frost.at_risk(FROST, Side::First),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::folder::order::plan;

    #[test]
    fn the_demo_blooms_from_july_to_the_frost_of_november() {
        let plan = plan(None).expect("the demo").expect("an order");
        let days = bloom_days(&plan.season);
        // Planted on 20 May, the earliest cut after 9 weeks on 22 July, three weeks before that.
        assert_eq!(days.first.to_string(), "2027-07-01");
        // One year in ten before 8 October, half before the 24th: as far behind, nine in ten.
        assert_eq!(days.frost.to_string(), "2027-11-09");
    }
}
