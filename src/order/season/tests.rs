use super::*;
use crate::variety::Variety;
use jiff::ToSpan;
use jiff::civil::date;

pub(in crate::order) fn season() -> Season {
    Season {
        last_frost: Frost::on(date(2027, 5, 14)),
        first_frost: Frost::on(date(2027, 9, 26)),
        planted: date(2027, 5, 14),
        method: Method::Tubers,
        weeks_to_first_cut: None,
        first_cuts: Vec::new(),
        stems_a_week: None,
        stems_a_plant: None,
        ramp: Vec::new(),
        plants_lost: Some(0.0),
        stems_lost: Some(0.0),
        counted: Vec::new(),
    }
}

/// Worked by hand: planted on 14 May and first cut after 13 weeks, cutting begins on 13 August;
/// to a first frost on 26 September, 135 days after planting, that is 44 days, 6.29 weeks.
#[test]
fn cutting_runs_from_the_first_cut_to_the_frost() {
    let season = season();
    let first = season.first_cut(season.weeks_for("Any", None));
    assert_eq!(first, date(2027, 8, 13));
    assert_eq!(
        days_between(season.planted, season.first_frost.middle()),
        135
    );
    assert_eq!(days_between(first, season.first_frost.middle()), 44);
}

fn variety(words: &str) -> Variety {
    let text = format!("[(name: \"Haaf Test\", {words})]");
    let list = crate::variety::Varieties::read("varieties.ron", &text).expect("a list");
    list.list()[0].clone()
}

/// Worked by hand, 7 stems a week: from Friday 13 August, in week 32, three days at 0.4 are 1.2. Week
/// 33 has four days at 0.4 and three at 0.7, week 34 four at 0.7 and three at 1. The frost on Sunday
/// 26 September leaves six days of week 38. A half of the plants and a fifth of the stems lost leave
/// 0.4 of that.
#[test]
fn a_week_is_the_sum_of_its_open_days() {
    let weeks: Vec<u8> = (31..=39).collect();
    let gives = |season: &Season| season.gives(&variety("stems_a_week: 7"), 13, &weeks);
    let mut season = season();
    let all = [0, 1200, 3700, 5800, 7000, 7000, 7000, 6000, 0];
    assert_eq!(gives(&season), all);
    assert_eq!(season.season_total(&variety("stems_a_week: 7"), 13), 37.7);
    (season.plants_lost, season.stems_lost) = (Some(50.0), Some(20.0));
    assert_eq!(gives(&season), all.map(|stems| stems * 2 / 5));
    season.ramp = vec![0.1, 1.0];
    (season.plants_lost, season.stems_lost) = (Some(0.0), Some(0.0));
    assert_eq!(gives(&season)[..4], [0, 300, 3400, 7000]);
    season.first_frost = Frost::on(date(2027, 9, 27));
    assert_eq!(gives(&season)[7..], [7000, 0]);
}

/// A total that somebody states is of 8 weeks at full flower, whatever the plan's dates.
#[test]
fn a_stated_total_does_not_hang_on_the_season() {
    let (total, week) = (variety("stems_a_plant: 12"), variety("stems_a_week: 1.5"));
    let mut season = season();
    for days in [0_i64, 20, 40] {
        season.first_frost = Frost::on(season.first_frost.middle() + days.days());
        let weeks: Vec<u8> = (30..=50).collect();
        assert_eq!(
            season.gives(&total, 13, &weeks),
            season.gives(&week, 13, &weeks)
        );
    }
    let unknown = variety("on_hand: 1");
    season.stems_a_plant = NonZeroU32::new(12);
    assert_eq!(
        season.season_total(&unknown, 13),
        season.season_total(&week, 13)
    );
    season.stems_a_week = StemsAWeek::try_from(3.0).ok();
    assert_eq!(season.weekly_stems(), 3.0);
}

/// The published range is 5 to 12 stems a plant (Larkin 2024). The worked season of 44 days has 7 at
/// 0.4, 7 at 0.7 and 30 at full flower: 5.39 weeks of it.
#[test]
fn a_season_total_is_held_against_the_published_range() {
    let mut season = season();
    let mut told = |a_week: f64| {
        season.stems_a_week = StemsAWeek::try_from(a_week).ok();
        let figures = season.figures();
        let figure = figures.iter().find(|one| one.name == "season total");
        let figure = figure.expect("a total");
        format!("{} ({})", figure.value, figure.source)
    };
    for (a_week, total, word) in [
        (
            0.5,
            "2.7 stems",
            "12 (Larkin, Flower Farming for Profit, 2024), and this is under it",
        ),
        (1.5, "8.1 stems", "Profit, 2024)"),
        (3.0, "16.2 stems", "and this is over it"),
    ] {
        let told = told(a_week);
        assert!(told.starts_with(total) && told.contains(word), "{told}");
        assert_eq!(
            told.contains("and this"),
            word.contains("and this"),
            "{told}"
        );
    }
}

/// A ramp that is none is answered by the one that has its rise; older files call it the curve.
#[test]
fn a_ramp_that_falls_says_what_to_write_instead() {
    for (ramp, told) in [
        (
            vec![0.4, 0.7, 1.0, 1.2, 1.3, 1.1, 0.6],
            "ramp: [0.31, 0.54, 0.77, 0.92, 1]",
        ),
        (vec![1.0, 2.0], "ramp: [0.5, 1]"),
        (vec![0.0, 1.0], "ramp: [0.01, 1]"),
        (vec![0.0, 0.0], "ramp: [0.4, 0.7, 1]"),
        (vec![f64::NAN], "ramp: [0.4, 0.7, 1]"),
        (vec![0.5], "ramp: [1]"),
    ] {
        let season = Season { ramp, ..season() };
        let wrong = season.wrong();
        assert!(wrong[0].message.contains(told), "{wrong:?}");
        let text = told.strip_prefix("ramp: ").expect("a ramp");
        let ramp: Vec<f64> = crate::problem::read_ron("order.ron", text).expect("shares");
        assert_eq!(Season { ramp, ..season }.wrong(), [], "{told}");
    }
    for ramp in [vec![], vec![1.0], vec![0.2, 0.2, 1.0, 1.0]] {
        assert_eq!(Season { ramp, ..season() }.wrong(), []);
    }
}
