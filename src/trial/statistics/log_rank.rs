//! Do two or more plants differ in the vase? The log-rank test.
//!
//! Mantel, Cancer Chemotherapy Reports 50:163-170, 1966, in the textbook form of Kleinbaum & Klein,
//! Survival Analysis, ch. 2: on each day that a stem ends, the ends expected of each sample are in
//! proportion to its stems still watched, and their covariances are hypergeometric. The chi-square
//! has one degree of freedom less than there are samples.

use std::fmt;

use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::survival::Stem;

/// Samples compared over all their days.
#[derive(Debug, Clone, PartialEq)]
pub struct LogRank {
    /// The test's chi-square.
    pub chi_square: f64,
    /// Its degrees of freedom.
    pub freedom: usize,
    /// The chance of a chi-square so large or larger where the samples do not differ.
    pub p: f64,
    /// Each sample's ends, in order.
    pub samples: Vec<Ends>,
}

/// How many stems of a sample ended, and how many would if all samples were one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// How many ended.
    pub observed: usize,
    /// How many were expected to.
    pub expected: f64,
}

impl Ends {
    /// Ends beyond those expected; under 0 where the sample lasts longer.
    pub fn excess(&self) -> f64 {
        self.observed as f64 - self.expected
    }
}

/// A warning that the chi-square is only roughly one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FewExpected {
    /// The smallest of the expected numbers.
    pub least: f64,
}

impl LogRank {
    /// Compares two samples of stems or more, each in any order. `None` of fewer samples, where one is
    /// empty or holds days that are negative or no number, and where no day tells any two apart: no
    /// stem ended while stems of another were watched.
    pub fn of(samples: &[&[Stem]]) -> Option<LogRank> {
        let all = || samples.iter().copied().flatten();
        if samples.len() < 2
            || samples.iter().any(|sample| sample.is_empty())
            || !all().all(|stem| stem.days.is_finite() && stem.days >= 0.0)
        {
            return None;
        }
        let mut days: Vec<f64> = all().filter(|stem| stem.ended).map(|s| s.days).collect();
        days.sort_by(f64::total_cmp);
        days.dedup();
        let mut expected = vec![0.0; samples.len()];
        let mut covariance = vec![vec![0.0; samples.len()]; samples.len()];
        for day in days {
            let on: Vec<(f64, f64)> = samples.iter().map(|sample| on(sample, day)).collect();
            let at_risk: f64 = on.iter().map(|(at_risk, _)| at_risk).sum();
            let ended: f64 = on.iter().map(|(_, ended)| ended).sum();
            let share = |one: usize| on[one].0 / at_risk;
            // The last stem of all can end in one way only.
            let spread = match at_risk > 1.0 {
                true => ended * (at_risk - ended) / (at_risk - 1.0),
                false => 0.0,
            };
            for one in 0..samples.len() {
                expected[one] += ended * share(one);
                for other in 0..samples.len() {
                    let own = if one == other { 1.0 } else { 0.0 };
                    covariance[one][other] += spread * share(one) * (own - share(other));
                }
            }
        }
        let ends = samples.iter().zip(expected).map(|(sample, expected)| Ends {
            observed: sample.iter().filter(|stem| stem.ended).count(),
            expected,
        });
        let ends: Vec<Ends> = ends.collect();
        let excess = ends.iter().map(Ends::excess).collect();
        let (chi_square, freedom) = quadratic(covariance, excess);
        let law = ChiSquared::new(freedom as f64).ok()?;
        Some(LogRank {
            chi_square,
            freedom,
            p: law.sf(chi_square),
            samples: ends,
        })
    }

    /// A caution where an expected number is under 5, Cochran's rule for any chi-square
    /// (Biometrics 10:417-451, 1954; from memory).
    pub fn caution(&self) -> Option<FewExpected> {
        let expected = self.samples.iter().map(|ends| ends.expected);
        let least = expected.fold(f64::INFINITY, f64::min);
        (least < LEAST_EXPECTED).then_some(FewExpected { least })
    }
}

const LEAST_EXPECTED: f64 = 5.0;

/// The excesses' squares by their covariance, and over how many independent ones. One of them follows
/// from the others, and a sample that was never watched beside another says nothing.
fn quadratic(mut covariance: Vec<Vec<f64>>, mut excess: Vec<f64>) -> (f64, usize) {
    let size = excess.len();
    let widest = (0..size).map(|at| covariance[at][at]).fold(0.0, f64::max);
    let (mut sum, mut freedom) = (0.0, 0);
    for at in 0..size {
        let pivot = covariance[at][at];
        if pivot <= widest * 1e-9 {
            continue;
        }
        sum += excess[at] * excess[at] / pivot;
        freedom += 1;
        for other in at + 1..size {
            let factor = covariance[other][at] / pivot;
            excess[other] -= factor * excess[at];
            for beside in at + 1..size {
                covariance[other][beside] -= factor * covariance[at][beside];
            }
        }
    }
    (sum, freedom)
}

/// How many stems were watched up to `day`, and how many of them ended on it.
fn on(stems: &[Stem], day: f64) -> (f64, f64) {
    let at_risk = stems.iter().filter(|stem| stem.days >= day).count();
    let ended = |stem: &&Stem| stem.ended && stem.days == day;
    (at_risk as f64, stems.iter().filter(ended).count() as f64)
}

impl fmt::Display for FewExpected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "small numbers: {:.1} stems of one entry were expected to end; under {LEAST_EXPECTED} \
             the comparison is rough",
            self.least
        )
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::survival::tests::{PLACEBO, TREATED_CENSORED, TREATED_ENDED, sample, stems};
    use super::*;

    /// Freireich et al., Blood 21:699-716, 1963; the chi-square is in Kleinbaum & Klein, ch. 2, as
    /// 16.79, with 9 against 19.26 and 21 against 10.74 (printed with roundings; the rest of the
    /// digits from survival libraries).
    #[test]
    fn freireich_chi_square() {
        let treated = sample(&TREATED_ENDED, &TREATED_CENSORED);
        let placebo = sample(&PLACEBO, &[]);
        let test = LogRank::of(&[&treated, &placebo]).expect("two samples");
        assert!(
            (test.chi_square - 16.792_940_989_2).abs() < 1e-9,
            "{test:?}"
        );
        assert!((test.p - 4.168_809e-5).abs() < 1e-10, "{test:?}");
        let observed: Vec<usize> = test.samples.iter().map(|ends| ends.observed).collect();
        assert_eq!((observed, test.freedom), (vec![9, 21], 1));
        assert!((test.samples[0].expected - 19.25).abs() < 0.01, "{test:?}");
        assert!((test.samples[1].expected - 10.75).abs() < 0.01, "{test:?}");
        assert_eq!(test.caution(), None);
    }

    #[test]
    fn what_cannot_be_compared_is_not() {
        let fresh = sample(&[], &[5., 6.]);
        assert_eq!(LogRank::of(&[&fresh, &fresh]), None);
        assert_eq!(LogRank::of(&[&[], &sample(&[4.], &[])]), None);
        let early = sample(&[3.], &[]);
        assert_eq!(LogRank::of(&[&early]), None);
        assert_eq!(LogRank::of(&[&early, &sample(&[f64::NAN], &[])]), None);
        // The first had all ended before the last of the second was lost: nothing to compare on.
        let lost = sample(&[], &[1.]);
        assert_eq!(LogRank::of(&[&early, &lost]), None);
        // A third sample that was lost before any stem ended adds nothing to two.
        let late = sample(&[4., 5., 6.], &[]);
        let two = LogRank::of(&[&early, &late]).expect("two samples");
        let three = LogRank::of(&[&early, &late, &lost]).expect("three samples");
        assert_eq!(three.freedom, 1);
        assert!((two.chi_square - three.chi_square).abs() < 1e-12);
    }

    #[test]
    fn small_numbers_are_said_to_be_small() {
        // By hand: 2 of 5 stems are the first's on day 4, 1 of 4 on day 5, then none: 0.4 + 0.25.
        let test = LogRank::of(&[&sample(&[4., 5.], &[]), &sample(&[7., 8.], &[6.])]);
        let caution = test.expect("two samples").caution().expect("small");
        assert!((caution.least - 0.65).abs() < 1e-12);
        assert_eq!(
            FewExpected { least: 0.7 }.to_string(),
            "small numbers: 0.7 stems of one entry were expected to end; under 5 the comparison \
             is rough"
        );
    }

    proptest! {
        #[test]
        fn the_order_of_the_samples_does_not_matter(
            first in stems(), second in stems(), third in stems()
        ) {
            let one = LogRank::of(&[&first, &second, &third]);
            let other = LogRank::of(&[&third, &first, &second]);
            prop_assert_eq!(one.is_some(), other.is_some());
            if let (Some(one), Some(other)) = (one, other) {
                prop_assert!((one.chi_square - other.chi_square).abs() < 1e-6);
                prop_assert_eq!(one.freedom, other.freedom);
                prop_assert!((0.0..=1.0).contains(&one.p));
                prop_assert!((one.samples[0].expected - other.samples[1].expected).abs() < 1e-9);
                let excess: f64 = one.samples.iter().map(Ends::excess).sum();
                prop_assert!(excess.abs() < 1e-9);
            }
        }

        #[test]
        fn a_sample_does_not_differ_from_itself(stems in stems()) {
            if let Some(test) = LogRank::of(&[&stems, &stems]) {
                prop_assert!(test.chi_square < 1e-9 && test.p > 0.999);
            }
        }
    }
}
