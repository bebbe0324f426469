use std::cmp::Ordering;

use jiff::civil::date;
use proptest::prelude::*;
use statrs::distribution::{ContinuousCDF, DiscreteCDF, NegativeBinomial, Normal};

use super::*;

/// What is known beforehand of so many varieties.
fn prior(varieties: usize) -> Prior {
    let log = |sd: f64| Log {
        mean: -sd * sd / 2.0,
        sd,
    };
    Prior {
        season: log(0.18),
        own: (0..varieties)
            .map(|at| log(if at % 2 == 0 { 0.28 } else { 0.12 }))
            .collect(),
    }
}

fn counted(candidate: usize, cut: u32, planned: f64) -> Counted {
    Counted {
        candidate,
        variety: format!("Skerry Petrel {candidate}"),
        last: date(2027, 8, 20),
        cut,
        planned,
    }
}

fn close(found: f64, expected: f64, by: f64) {
    assert!((found - expected).abs() < by, "{found} {expected}");
}

#[test]
fn without_counts_all_is_as_it_was_before() {
    let before = prior(3);
    let so_far = SoFar::of(&before, &[]);
    close(so_far.season.mean, before.season.mean, 1e-9);
    close(so_far.season.sd, before.season.sd, 1e-9);
    for at in 0..3 {
        assert_eq!(so_far.own[at].log, before.own[at]);
        close(so_far.expected(at), 1.0, 1e-9);
    }
}

/// Worked by numbers: one variety, the product of prior and quasi-likelihood summed up over a fine grid of
/// its whole yield. Laplace's approximation lies within a fiftieth of it.
#[test]
fn one_variety_is_as_a_sum_over_all_yields_has_it() {
    let before = prior(1);
    let spread = before.season.sd.hypot(before.own[0].sd);
    let middle = before.season.mean + before.own[0].mean;
    for (cut, planned) in [
        (0, 3.0),
        (0, 30.0),
        (12, 30.0),
        (30, 30.0),
        (75, 30.0),
        (400, 300.0),
    ] {
        let weigh = |log: f64| {
            let told = (f64::from(cut) * log - planned * log.exp()) / DISPERSION;
            (told - ((log - middle) / spread).powi(2) / 2.0).exp()
        };
        let logs = || (-4000..4000).map(|at| f64::from(at) / 1000.0);
        let most = logs().map(weigh).fold(0.0, f64::max);
        let all: f64 = logs().map(|log| weigh(log) / most).sum();
        let mean: f64 = logs().map(|log| log * weigh(log) / most).sum::<f64>() / all;
        let square: f64 = logs()
            .map(|log| (log - mean).powi(2) * weigh(log) / most)
            .sum();
        let found = SoFar::of(&before, &[counted(0, cut, planned)]).of_variety(0);
        close(found.mean, mean, 0.03);
        close(found.sd, (square / all).sqrt(), 0.02);
    }
}

/// A season that gave half of what was planned of many varieties is a poor season for one that was not
/// counted, too; where one variety alone did, that is mostly its own.
#[test]
fn many_poor_varieties_are_a_poor_season() {
    let poor: Vec<Counted> = (0..8).map(|at| counted(at, 30, 60.0)).collect();
    let season = SoFar::of(&prior(9), &poor);
    assert!(season.expected(8) < 0.75, "{}", season.expected(8));
    let one = SoFar::of(&prior(9), &poor[..1]);
    assert!(one.expected(8) > 0.85, "{}", one.expected(8));
    assert!(one.expected(0) < 0.75, "{}", one.expected(0));
}

/// Seasons are drawn by the law beforehand, counts by it as negative binomial with their dispersion: of a
/// hundred, 95 lie within limits at 95 %, of the season's yield and of each variety's, counted or not.
#[test]
fn limits_at_95_in_100_hold_95_times_in_100() {
    const DRAWS: usize = 1_500;
    let varieties = 8;
    let before = prior(varieties);
    let mut dice = fastrand::Rng::with_seed(5);
    let mut evenly = move || dice.f64().clamp(1e-12, 1.0 - 1e-12);
    let normal = Normal::standard();
    let mut held = vec![0; varieties + 1];
    for _ in 0..DRAWS {
        let mut draw = |log: Log| log.mean + log.sd * normal.inverse_cdf(evenly());
        let season = draw(before.season);
        let whole: Vec<f64> = before.own.iter().map(|own| season + draw(*own)).collect();
        let seen = (0..varieties - 1).map(|at| {
            let planned = 8.0 + 14.0 * at as f64;
            let mean = planned * whole[at].exp();
            let law = NegativeBinomial::new(mean / (DISPERSION - 1.0), 1.0 / DISPERSION);
            let cut = law.expect("a law").inverse_cdf(evenly());
            counted(at, cut as u32, planned)
        });
        let seen: Vec<Counted> = seen.collect();
        let so_far = SoFar::of(&before, &seen);
        let within = |log: Log, truth: f64| usize::from((truth - log.mean).abs() < 1.96 * log.sd);
        held[varieties] += within(so_far.season, season);
        for (at, truth) in whole.iter().enumerate() {
            held[at] += within(so_far.of_variety(at), *truth);
        }
    }
    for held in held {
        let share = held as f64 / DRAWS as f64;
        // Five standard errors of so many draws are 0.028.
        assert!((share - 0.95).abs() < 0.028, "{share}");
    }
}

/// Counts of up to six varieties.
fn counts() -> impl Strategy<Value = Vec<(u32, f64)>> {
    prop::collection::vec((0_u32..300, 0.0_f64..250.0), 1..6)
}

fn of(counts: &[(u32, f64)]) -> SoFar {
    let counts = counts.iter().enumerate();
    let counted: Vec<Counted> = counts
        .map(|(at, (cut, planned))| counted(at, *cut, *planned))
        .collect();
    SoFar::of(&prior(7), &counted)
}

/// Whether every yield that may be drawn is on one side of the other, by the same deviations.
fn all_are(one: &SoFar, other: &SoFar, side: Ordering) -> bool {
    let deviations = || (-14..=14).map(|at| f64::from(at) / 4.0);
    (0..7).all(|at| {
        deviations()
            .flat_map(|season| deviations().map(move |own| (season, own)))
            .all(|(season, own)| {
                let [one, other] = [one, other].map(|so_far| so_far.share(at, season, own));
                let same = (one / other - 1.0).abs() < 1e-9;
                same || one.total_cmp(&other) == side
            })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn more_stems_than_before_never_lower_a_yield(counts in counts(), more in 1_u32..80, at in 0_usize..6) {
        let at = at % counts.len();
        let mut with = counts.clone();
        with[at].0 += more;
        prop_assert!(all_are(&of(&with), &of(&counts), Ordering::Greater));
    }

    #[test]
    fn a_count_of_nothing_where_flowers_were_expected_never_raises_a_yield(
        counts in counts(),
        expected in 0.01_f64..60.0,
        at in 0_usize..6,
    ) {
        let at = at % counts.len();
        let mut with = counts.clone();
        with[at].1 += expected;
        prop_assert!(all_are(&of(&with), &of(&counts), Ordering::Less));
    }
}
