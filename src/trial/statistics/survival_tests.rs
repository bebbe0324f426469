use proptest::prelude::*;

use super::*;

/// Weeks in remission, treated and placebo: Freireich et al., Blood 21:699-716, 1963.
pub(in super::super) const TREATED_ENDED: [f64; 9] = [6., 6., 6., 7., 10., 13., 16., 22., 23.];
pub(in super::super) const TREATED_CENSORED: [f64; 12] =
    [6., 9., 10., 11., 17., 19., 20., 25., 32., 32., 34., 35.];
pub(in super::super) const PLACEBO: [f64; 21] = [
    1., 1., 2., 2., 3., 4., 4., 5., 5., 8., 8., 8., 8., 11., 11., 12., 12., 15., 17., 22., 23.,
];

/// Stems that ended on these days, and stems still fresh on those.
pub(in super::super) fn sample(ended: &[f64], fresh: &[f64]) -> Vec<Stem> {
    let stem = |ended| move |days: &f64| Stem { days: *days, ended };
    let stems = ended.iter().map(stem(true));
    stems.chain(fresh.iter().map(stem(false))).collect()
}

/// Up to 40 stems on few days, so that many tie.
pub(in super::super) fn stems() -> impl Strategy<Value = Vec<Stem>> {
    let stem = (0u8..24, any::<bool>()).prop_map(|(half_days, ended)| Stem {
        days: f64::from(half_days) / 2.0,
        ended,
    });
    prop::collection::vec(stem, 1..40)
}

fn curve(ended: &[f64], fresh: &[f64]) -> Curve {
    Curve::of(&sample(ended, fresh)).expect("sound stems")
}

/// Freireich's curve and errors as in Kleinbaum & Klein, Survival Analysis, ch. 2 (there to three
/// decimals; the rest of the digits from survival libraries).
#[test]
fn freireich_curve_and_errors() {
    let treated = curve(&TREATED_ENDED, &TREATED_CENSORED);
    let expected = [
        (6., 21, 3, 0.857142857, 0.076360),
        (7., 17, 1, 0.806722689, 0.086935),
        (10., 15, 1, 0.752941176, 0.096350),
        (13., 12, 1, 0.690196078, 0.106815),
        (16., 11, 1, 0.627450980, 0.114054),
        (22., 7, 1, 0.537815126, 0.128234),
        (23., 6, 1, 0.448179272, 0.134591),
    ];
    assert_eq!(treated.steps.len(), expected.len());
    for (step, (day, at_risk, ended, share, error)) in treated.steps.iter().zip(expected) {
        assert_eq!((step.day, step.at_risk, step.ended), (day, at_risk, ended));
        assert!((step.share - share).abs() < 1e-9, "{step:?}");
        assert!(
            (step.error.expect("over 0") - error).abs() < 5e-7,
            "{step:?}"
        );
    }
    assert_eq!((treated.stems, treated.censored), (21, 12));
    assert_eq!((treated.median, treated.watched), (Some(23.0), 35.0));
    assert_eq!(curve(&PLACEBO, &[]).median, Some(8.0));
}

/// Without censoring the mean is the plain mean and its error the population deviation over the
/// root of the count: our own arithmetic on the placebo weeks, 182 / 21.
#[test]
fn the_restricted_mean_of_ended_stems_is_their_mean() {
    let mean = curve(&PLACEBO, &[]).mean_to(100.0).expect("all ended");
    let variance = PLACEBO
        .iter()
        .map(|w| (w - 182.0 / 21.0).powi(2))
        .sum::<f64>()
        / 21.0;
    assert!((mean.days - 182.0 / 21.0).abs() < 1e-12);
    assert!((mean.error - (variance / 21.0).sqrt()).abs() < 1e-12);
    // Up to day 10 the treated: 6 whole weeks, then 0.857.. for one and 0.806.. for three.
    let treated = curve(&TREATED_ENDED, &TREATED_CENSORED);
    let by_hand = 6.0 + 0.857142857 + 3.0 * 0.806722689;
    assert!((treated.mean_to(10.0).expect("watched").days - by_hand).abs() < 1e-8);
    assert_eq!(treated.mean_to(36.0), None);
}

#[test]
fn the_share_is_known_as_far_as_stems_were_watched() {
    let some_fresh = curve(&[5., 7.], &[6., 9.]);
    let at = |day| some_fresh.share_at(day);
    assert_eq!([at(-1.0), at(0.0), at(4.9)], [None, Some(1.0), Some(1.0)]);
    assert_eq!(
        [at(5.0), at(7.0), at(9.0)],
        [Some(0.75), Some(0.375), Some(0.375)]
    );
    assert_eq!([at(9.1), at(f64::NAN)], [None, None]);
    assert_eq!(curve(&[5., 7.], &[]).share_at(30.0), Some(0.0));
}

#[test]
fn no_stems_and_no_days_make_no_curve() {
    assert_eq!(Curve::of(&[]), None);
    for days in [-1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(Curve::of(&[Stem { days, ended: true }]), None);
    }
}

/// Half of the stems on the dot is half, however the product is rounded.
#[test]
fn exactly_half_fresh_is_the_median() {
    for count in (2..200).step_by(2) {
        let ended: Vec<f64> = (1..=count).map(f64::from).collect();
        assert_eq!(
            curve(&ended, &[]).median,
            Some(f64::from(count / 2)),
            "{count}"
        );
    }
}

#[test]
fn a_median_may_be_bounded_below_only() {
    let all_at_once = curve(&[5.; 8], &[]);
    assert_eq!(all_at_once.median, Some(5.0));
    let limits = all_at_once.median_limits;
    assert_eq!((limits.low, limits.high), (Some(5.0), None));
}

#[test]
fn small_numbers_are_said_to_be_small() {
    let said = |ended: usize, fresh: usize| {
        let caution = curve(&vec![5.; ended], &vec![9.; fresh]).caution();
        caution.map(|caution| caution.to_string())
    };
    let cases = [
        (
            0,
            9,
            Some("small numbers: no stem ended, so nothing bounds the vase life above"),
        ),
        (
            5,
            30,
            Some("small numbers: 5 of the stems ended; under 6 cannot bound a median"),
        ),
        (
            10,
            12,
            Some("12 of 22 stems were still fresh at the end, so the limits are rough"),
        ),
        (
            12,
            12,
            Some("small numbers: 24 stems; under 25 the limits are rough"),
        ),
        (13, 12, None),
    ];
    for (ended, fresh, expected) in cases {
        assert_eq!(said(ended, fresh).as_deref(), expected);
    }
}

/// Every day of the stems above, and between.
fn days() -> impl Iterator<Item = f64> {
    (0..48).map(|quarter_days| f64::from(quarter_days) / 4.0)
}

proptest! {
    #[test]
    fn the_curve_never_rises(stems in stems()) {
        let curve = Curve::of(&stems).expect("sound");
        let shares: Vec<f64> = days().filter_map(|day| curve.share_at(day)).collect();
        prop_assert!(shares.windows(2).all(|pair| pair[1] <= pair[0]));
        for step in &curve.steps {
            prop_assert!((0.0..1.0).contains(&step.share));
            if let Some(limits) = step.limits {
                prop_assert!(limits.low < step.share && step.share < limits.high);
            }
        }
    }

    #[test]
    fn a_stem_still_fresh_never_lowers_the_curve(stems in stems(), half_days in 0u8..24) {
        let before = Curve::of(&stems).expect("sound");
        let mut more = stems;
        more.push(Stem { days: f64::from(half_days) / 2.0, ended: false });
        let after = Curve::of(&more).expect("sound");
        for day in days() {
            if let (Some(before), Some(after)) = (before.share_at(day), after.share_at(day)) {
                prop_assert!(after >= before - 1e-12, "day {}: {} to {}", day, before, after);
            }
        }
    }

    #[test]
    fn the_order_of_stems_does_not_matter(stems in stems(), turn in 0usize..40) {
        let mut turned = stems.clone();
        turned.rotate_left(turn % stems.len());
        prop_assert_eq!(Curve::of(&stems), Curve::of(&turned));
    }

    #[test]
    fn without_an_end_the_share_stays_whole(fresh in prop::collection::vec(0.0f64..20.0, 1..20)) {
        let curve = curve(&[], &fresh);
        prop_assert_eq!(curve.share_at(curve.watched), Some(1.0));
        prop_assert_eq!(curve.mean_to(curve.watched).map(|mean| mean.days), Some(curve.watched));
        prop_assert_eq!(curve.median, None);
        prop_assert_eq!(curve.median_limits, MedianLimits { low: None, high: None });
    }

    #[test]
    fn the_median_lies_in_its_limits(stems in stems()) {
        let curve = Curve::of(&stems).expect("sound");
        let limits = curve.median_limits;
        if let Some(median) = curve.median {
            prop_assert!(limits.low.is_some_and(|low| low <= median));
            prop_assert!(limits.high.is_none_or(|high| median <= high));
        } else {
            prop_assert_eq!(limits.high, None);
        }
    }
}
