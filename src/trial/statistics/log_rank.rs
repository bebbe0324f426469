//! Do two entries differ in the vase? The log-rank test.
//!
//! Mantel, Cancer Chemotherapy Reports 50:163-170, 1966, in the textbook form of Kleinbaum & Klein,
//! Survival Analysis, ch. 2: on each day that a stem ends, the ends expected of each entry are in
//! proportion to its stems still watched, and their variance is hypergeometric.

use std::fmt;

use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::survival::Stem;

/// Two samples compared over all their days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogRank {
    /// The test's chi-square, with 1 degree of freedom.
    pub chi_square: f64,
    /// The chance of a chi-square so large or larger where the two do not differ.
    pub p: f64,
    /// The first sample's ends.
    pub first: Ends,
    /// The second sample's ends.
    pub second: Ends,
}

/// How many stems of a sample ended, and how many would if the two samples were one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// How many ended.
    pub observed: usize,
    /// How many were expected to.
    pub expected: f64,
}

/// A warning that the chi-square is only roughly one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FewExpected {
    /// The smaller of the two expected numbers.
    pub least: f64,
}

impl LogRank {
    /// Compares two samples of stems, each in any order. `None` where a sample is empty or holds
    /// days that are negative or no number, and where no day tells the two apart: no stem ended
    /// while both were watched.
    pub fn of(first: &[Stem], second: &[Stem]) -> Option<LogRank> {
        let both = || first.iter().chain(second);
        if !both().all(|stem| stem.days.is_finite() && stem.days >= 0.0) {
            return None;
        }
        let mut days: Vec<f64> = both().filter(|stem| stem.ended).map(|s| s.days).collect();
        days.sort_by(f64::total_cmp);
        days.dedup();
        let (mut expected, mut variance) = (0.0, 0.0);
        for day in days {
            let (first_at_risk, first_ended) = on(first, day);
            let (second_at_risk, second_ended) = on(second, day);
            let (at_risk, ended) = (first_at_risk + second_at_risk, first_ended + second_ended);
            let share = first_at_risk / at_risk;
            expected += ended * share;
            if at_risk > 1.0 {
                variance += ended * share * (1.0 - share) * (at_risk - ended) / (at_risk - 1.0);
            }
        }
        let law = ChiSquared::new(1.0).ok().filter(|_| variance > 0.0)?;
        let observed = |stems: &[Stem]| stems.iter().filter(|stem| stem.ended).count();
        let (first, second) = (observed(first), observed(second));
        let difference = first as f64 - expected;
        let chi_square = difference * difference / variance;
        Some(LogRank {
            chi_square,
            p: law.sf(chi_square),
            first: Ends {
                observed: first,
                expected,
            },
            second: Ends {
                observed: second,
                expected: (first + second) as f64 - expected,
            },
        })
    }

    /// A caution where an expected number is under 5, Cochran's rule for any chi-square
    /// (Biometrics 10:417-451, 1954; from memory).
    pub fn caution(&self) -> Option<FewExpected> {
        let least = self.first.expected.min(self.second.expected);
        (least < LEAST_EXPECTED).then_some(FewExpected { least })
    }
}

const LEAST_EXPECTED: f64 = 5.0;

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
        let test = LogRank::of(&treated, &placebo).expect("two samples");
        assert!(
            (test.chi_square - 16.792_940_989_2).abs() < 1e-9,
            "{test:?}"
        );
        assert!((test.p - 4.168_809e-5).abs() < 1e-10, "{test:?}");
        assert_eq!((test.first.observed, test.second.observed), (9, 21));
        assert!((test.first.expected - 19.25).abs() < 0.01, "{test:?}");
        assert!((test.second.expected - 10.75).abs() < 0.01, "{test:?}");
        assert_eq!(test.caution(), None);
    }

    #[test]
    fn what_cannot_be_compared_is_not() {
        let fresh = sample(&[], &[5., 6.]);
        assert_eq!(LogRank::of(&fresh, &fresh), None);
        assert_eq!(LogRank::of(&[], &sample(&[4.], &[])), None);
        let early = sample(&[3.], &[]);
        assert_eq!(LogRank::of(&early, &sample(&[f64::NAN], &[])), None);
        // The first had all ended before the last of the second was lost: nothing to compare on.
        let lost = sample(&[], &[1.]);
        assert_eq!(LogRank::of(&early, &lost), None);
    }

    #[test]
    fn small_numbers_are_said_to_be_small() {
        // By hand: 2 of 5 stems are the first's on day 4, 1 of 4 on day 5, then none: 0.4 + 0.25.
        let test = LogRank::of(&sample(&[4., 5.], &[]), &sample(&[7., 8.], &[6.]));
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
        fn the_order_of_the_samples_does_not_matter(first in stems(), second in stems()) {
            let (one, other) = (LogRank::of(&first, &second), LogRank::of(&second, &first));
            prop_assert_eq!(one.is_some(), other.is_some());
            if let (Some(one), Some(other)) = (one, other) {
                prop_assert!((one.chi_square - other.chi_square).abs() < 1e-9);
                prop_assert!((0.0..=1.0).contains(&one.p));
                prop_assert!((one.first.expected - other.second.expected).abs() < 1e-9);
            }
        }

        #[test]
        fn a_sample_does_not_differ_from_itself(stems in stems()) {
            if let Some(test) = LogRank::of(&stems, &stems) {
                prop_assert!(test.chi_square < 1e-9 && test.p > 0.999);
            }
        }
    }
}
