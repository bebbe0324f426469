use super::*;
use jiff::civil::date;

pub(in crate::order) fn season() -> Season {
    Season {
        last_frost: Frost::on(date(2027, 5, 14)),
        first_frost: Frost::on(date(2027, 9, 26)),
        planted: date(2027, 5, 14),
        method: Method::Tubers,
        weeks_to_first_cut: None,
        first_cuts: Vec::new(),
        stems_a_plant: None,
        curve: Vec::new(),
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
    assert_eq!(season.weeks(13), 32..=38);
}

/// Worked by hand from the published range of 5 to 12 stems a plant (Larkin 2024): 133 plants
/// give 665 to 1,596 stems in a season without losses.
#[test]
fn stems_of_a_season_are_its_plants_times_stems_a_plant() {
    let season = season();
    let weeks: Vec<u8> = (20..=45).collect();
    for (stems, all) in [(STEMS_RANGE.0, 665.0), (STEMS_RANGE.1, 1596.0)] {
        let yields = season.yields(&weeks, 13, stems, season.first_frost.middle(), 0);
        let total = 133.0 * yields.iter().sum::<u64>() as f64 / STEM as f64;
        // Each week is rounded down to a thousandth of a stem.
        assert!((total - all).abs() < 1.5, "{total}");
    }
}

#[test]
fn losses_and_the_curve_shape_the_weeks() {
    let weeks: Vec<u8> = (32..=38).collect();
    let all = |season: &Season| season.yields(&weeks, 13, 8.0, season.first_frost.middle(), 0);
    let level = all(&season());
    let lossy = all(&Season {
        plants_lost: Some(50.0),
        stems_lost: Some(20.0),
        ..season()
    });
    for (level, lossy) in level.iter().zip(&lossy) {
        assert!((*level as f64 * 0.4 - *lossy as f64).abs() <= 1.0);
    }
    let rising = all(&Season {
        curve: vec![0.0, 1.0, 3.0],
        ..season()
    });
    assert_eq!(rising[0], 0);
    assert!(rising[1] < level[1] && rising[4] > level[4]);
    let earlier = season().yields(&weeks, 13, 8.0, season().first_frost.middle(), 2);
    assert!(earlier.iter().sum::<u64>() > level.iter().sum());
    assert_eq!(earlier[3], level[3]);
}
