//! How many more stems would tell two plants apart in the vase.
//!
//! Schoenfeld, Biometrika 68:316-319, 1981: the log-rank test of two samples has its power from the
//! number of ends alone, (z of the level + z of the power) squared, over the product of the samples'
//! shares and the squared logarithm of the ratio of their hazards. The ratio is estimated from the test
//! itself by Peto's one step, ends beyond those expected over their variance (Yusuf et al., Progress
//! in Cardiovascular Diseases 27:335-371, 1985), which for large differences is nearer to none, so
//! that the number is rather too large than too small. Both citations are from memory.

use statrs::distribution::{ContinuousCDF, Normal};

use super::log_rank::LogRank;

/// The chance with which the number of stems that is told would tell. A convention.
pub const POWER: f64 = 0.8;

/// More stems of each than these are not told: no grower cuts so many for a test, and the difference
/// is small. Our choice, no source.
pub const MOST: u32 = 60;

/// The ends that tell a ratio of hazards at a two-sided `level` with a chance of `power`, where
/// `share` of the stems are of one of the two samples.
pub fn ends_needed(ratio: f64, share: f64, level: f64, power: f64) -> f64 {
    let normal = Normal::standard();
    let sum = normal.inverse_cdf(1.0 - level / 2.0) + normal.inverse_cdf(power);
    let logarithm = ratio.ln();
    sum * sum / (share * (1.0 - share) * logarithm * logarithm)
}

/// The logarithm of the hazard of the first sample over the second's, by one step; `None` where the
/// test is not of two samples.
pub fn log_hazard_ratio(test: &LogRank) -> Option<f64> {
    let [first, _] = &test.samples[..] else {
        return None;
    };
    let excess = first.excess();
    // The variance is the squared excess over the chi-square.
    Some(if excess == 0.0 {
        0.0
    } else {
        test.chi_square / excess
    })
}

/// How many more stems of each of two samples would tell them apart at `level` with a chance of
/// [`POWER`], if they differ as they did so far and as many of the stems end. `None` of more than
/// [`MOST`].
pub fn more_of_each(test: &LogRank, stems: [usize; 2], level: f64) -> Option<u32> {
    let logarithm = log_hazard_ratio(test)?;
    let ended: usize = test.samples.iter().map(|ends| ends.observed).sum();
    let [first, second] = stems.map(|stems| stems as f64);
    let share_ended = ended as f64 / (first + second);
    (1..=MOST).find(|more| {
        let more = f64::from(*more);
        let all = first + second + 2.0 * more;
        let share = (first + more) / all;
        all * share_ended >= ends_needed(logarithm.exp(), share, level, POWER)
    })
}

#[cfg(test)]
mod tests {
    use super::super::permutation::Permutation;
    use super::super::survival::Stem;
    use super::super::survival::tests::sample;
    use super::*;

    /// Collett, Modelling Survival Data in Medical Research, ch. 10 (from memory): a ratio of hazards
    /// of 0.57, told at 5 % with a chance of 90 %, wants 133 ends in two equal groups.
    #[test]
    fn schoenfeld_worked_example() {
        assert_eq!(ends_needed(0.57, 0.5, 0.05, 0.9).round(), 133.0);
        // By hand: (1.95996 + 0.84162)^2 = 7.8489; over a quarter and ln 2 squared, 65.3.
        assert!((ends_needed(2.0, 0.5, 0.05, 0.8) - 65.346).abs() < 5e-3);
        assert_eq!(ends_needed(1.0, 0.5, 0.05, 0.8), f64::INFINITY);
    }

    #[test]
    fn a_clear_difference_wants_few_more_and_none_is_not_settled() {
        let more = |first: &[f64], second: &[f64]| {
            let (first, second) = (sample(first, &[]), sample(second, &[]));
            let test = LogRank::of(&[&first, &second]).expect("two samples");
            more_of_each(&test, [first.len(), second.len()], 0.05)
        };
        let few = more(&[4., 5., 5., 6.], &[5., 6., 7., 8.]).expect("few");
        let some = more(&[4., 5., 6., 7.], &[5., 5., 6., 8.]);
        assert!((1..20).contains(&few), "{few}");
        assert!(some.is_none_or(|some| some > few), "{some:?}");
        assert_eq!(more(&[4., 5., 6.], &[4., 5., 6.]), None);
    }

    /// Does the number do what it says? Stems last by Weibull laws of one shape, so that their hazards
    /// have a ratio, in whole days; a test of so many of each is judged by its arrangements.
    #[test]
    fn so_many_stems_tell_as_often_as_they_should() {
        let mut random = fastrand::Rng::with_seed(8);
        for ratio in [2.0_f64, 3.0] {
            let each = (ends_needed(ratio, 0.5, 0.05, POWER) / 2.0).ceil() as usize;
            let shape = 3.0;
            let mut plant = |ratio: f64| -> Vec<Stem> {
                let stem = |_| {
                    let days = 9.0 * (-(1.0 - random.f64()).ln() / ratio).powf(1.0 / shape);
                    Stem {
                        days: days.ceil(),
                        ended: true,
                    }
                };
                (0..each).map(stem).collect()
            };
            let tests = 300;
            let told = (0..tests)
                .filter(|_| {
                    let (one, other) = (plant(1.0), plant(ratio));
                    Permutation::of(&[&one, &other]).is_some_and(|found| found.p < 0.05)
                })
                .count();
            let share = told as f64 / f64::from(tests);
            assert!(
                (0.72..0.88).contains(&share),
                "{ratio}: {each} each, {share}"
            );
        }
    }
}
