//! A first order for a season, to be changed: as the text of a file, and as a plan that is filled in on
//! the screen.

use jiff::civil::{Date, date};

use super::plan::Plan;
use super::season::week_of;
use crate::measure::{YearDay, day};
use crate::problem::sentences;

/// The text of a first order, with its dates to be put in.
const BLANK: &str = include_str!("blank-order.ron");

/// The days between the last frost and planting, the weeks of the need that it has before the first
/// frost, and the days between the orders and planting at least. Our own choice, to be changed.
const AFTER_FROST: i64 = 6;
const WEEKS: u8 = 4;
const BEFORE_PLANTING: i64 = 30;

/// The days of the frosts where the grower grows, as far as she said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct UsualFrosts {
    /// The last of spring.
    pub last: Option<YearDay>,
    /// The first of autumn.
    pub first: Option<YearDay>,
}

/// The year whose season is planned: before the tubers are planted this one, then the next.
pub fn season_ahead(today: Date) -> i16 {
    let year = today.year() + i16::from(today.month() > 5);
    year.clamp(*day::years().start(), *day::years().end())
}

/// The text of a first order for the season of a year.
pub fn blank_text(year: i16, frosts: UsualFrosts) -> String {
    let usual = |month, day_of_it| date(year, month, day_of_it);
    let last = frosts.last.map_or(usual(5, 14), |last| last.in_year(year));
    let first = frosts
        .first
        .map_or(usual(10, 10), |first| first.in_year(year));
    let planted = day::later(last, AFTER_FROST);
    let ordered = usual(1, 20).min(day::later(planted, -BEFORE_PLANTING));
    let to = week_of(first).saturating_sub(1).max(week_of(planted));
    let from = to.saturating_sub(WEEKS - 1).max(week_of(planted));
    let dates = [
        ("LAST", last),
        ("FIRST", first),
        ("PLANTED", planted),
        ("ORDERED", ordered),
    ];
    let text = BLANK.replace("WEEKS", &format!("{from}, {to}"));
    let text = dates.iter().fold(text, |text, (word, day)| {
        text.replace(word, &day.to_string())
    });
    text.replace("YEAR", &year.to_string())
}

impl Plan {
    /// The plan of [`blank_text`].
    ///
    /// # Errors
    /// A sentence where no season lies between such frosts.
    pub fn blank(year: i16, frosts: UsualFrosts) -> Result<Plan, String> {
        let plan = Plan::read("", &blank_text(year, frosts));
        plan.map_err(|problems| {
            let told: Vec<&str> = problems.iter().map(|one| one.message.as_str()).collect();
            sentences(&told)
        })
    }

    /// The season alone of a first order: beds and needs are yet to be said.
    pub fn season_alone(year: i16, frosts: UsualFrosts) -> Option<Plan> {
        let blank = Plan::blank(year, frosts);
        let blank = blank.or_else(|_| Plan::blank(year, UsualFrosts::default()));
        blank.ok().map(|plan| Plan {
            beds: Vec::new(),
            needs: Vec::new(),
            ..plan
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frosts(last: &str, first: &str) -> UsualFrosts {
        UsualFrosts {
            last: last.parse().ok(),
            first: first.parse().ok(),
        }
    }

    #[test]
    fn a_first_order_goes_by_the_frosts_that_were_said() {
        for (last, first, planted, weeks) in [
            ("", "", date(2027, 5, 20), (36, 39)),
            ("1 June", "15 September", date(2027, 6, 7), (33, 36)),
            ("10 January", "30 November", date(2027, 1, 16), (44, 47)),
            ("1 June", "20 June", date(2027, 6, 7), (23, 23)),
        ] {
            let plan = Plan::blank(2027, frosts(last, first)).expect(first);
            assert_eq!(plan.season.planted, planted);
            assert_eq!(plan.needs[0].weeks, weeks, "{last} to {first}");
        }
        for year in [1900, 2026, 2028, 2199] {
            assert!(
                Plan::season_alone(year, UsualFrosts::default()).is_some(),
                "{year}"
            );
        }
    }

    #[test]
    fn no_season_between_frosts_is_told() {
        let error = Plan::blank(2027, frosts("1 October", "1 May")).expect_err("a plan");
        assert!(error.contains("before the first frost"), "{error}");
        let alone = Plan::season_alone(2027, frosts("1 October", "1 May"));
        assert_eq!(
            alone.map(|plan| plan.season.planted),
            Some(date(2027, 5, 20))
        );
    }

    #[test]
    fn from_june_on_the_next_season_is_planned() {
        assert_eq!(season_ahead(date(2026, 5, 31)), 2026);
        assert_eq!(season_ahead(date(2026, 6, 1)), 2027);
        assert_eq!(season_ahead(Date::MAX), 2200);
    }
}
