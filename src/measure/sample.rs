//! What a handful of measured blooms says: mean, spread, interval, and how many more to measure.
//!
//! Student's t throughout: the blooms are taken as independent draws from a normal distribution.
//! Sources: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.2; Stein's two-stage rule as in
//! Mukhopadhyay, Probability and Statistical Inference, 13.2.
//!
//! **Lengths are above 0**, and two blooms far apart made t's limits reach below it. The methods for
//! lengths put Student's t on the logarithm of the mean, whose error is the mean's own over the mean
//! (the delta method: as the limits of a rate or a ratio are usually made; from memory). The limits lie
//! alike many times below and above the mean and never at 0. A margin of a twentieth of the mean moves
//! by a fortieth of itself; the mean stays the arithmetic one. What was weighed against it: t on the
//! logarithms of the values, which is about another mean; Cox's limits of a lognormal mean (Olsson,
//! Journal of Statistics Education 13(1), 2005; from memory), which hold up to 96.5 in a hundred where
//! blooms are normal. These hold 95 under both laws, as the test below draws them.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

/// The moments of a sample.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// How many were measured; at least 1.
    pub count: usize,
    /// Arithmetic mean, in the unit of the values.
    pub mean: f64,
    /// Standard deviation with `count - 1` below the line; `None` from one value.
    pub deviation: Option<f64>,
}

/// A mean with its limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
}

impl Sample {
    /// The moments of `values`, or `None` of no values.
    pub fn of(values: &[f64]) -> Option<Sample> {
        let count = values.len();
        if count == 0 {
            return None;
        }
        let mean = values.iter().sum::<f64>() / count as f64;
        let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
        let deviation = (count > 1).then(|| (squares / (count - 1) as f64).sqrt());
        Some(Sample {
            count,
            mean,
            deviation,
        })
    }

    /// The two-sided interval for the true mean at `level` (0.95), or `None` from one value.
    pub fn interval(&self, level: f64) -> Option<Interval> {
        let margin = self.quantile(level)? * self.deviation? / (self.count as f64).sqrt();
        Some(Interval {
            low: self.mean - margin,
            high: self.mean + margin,
        })
    }

    /// The chance (0 to 1) that the true mean is at or above `limit`, given the sample and no
    /// other knowledge: Student's t about the sample's mean. `None` from one value.
    pub fn chance_at_least(&self, limit: f64) -> Option<f64> {
        let error = self.deviation? / (self.count as f64).sqrt();
        if error == 0.0 {
            return Some(if self.mean >= limit { 1.0 } else { 0.0 });
        }
        Some(self.student()?.sf((limit - self.mean) / error))
    }

    /// The same interval of values that are all over 0, such as lengths: its limits are over 0 too.
    pub fn interval_of_length(&self, level: f64) -> Option<Interval> {
        let margin = self.quantile(level)? * self.deviation? / (self.count as f64).sqrt();
        let times = (margin / self.mean).exp();
        (self.mean > 0.0).then(|| Interval {
            low: self.mean / times,
            high: self.mean * times,
        })
    }

    /// [`Sample::chance_at_least`] by the same law as [`Sample::interval_of_length`].
    pub fn chance_of_length(&self, limit: f64) -> Option<f64> {
        if limit <= 0.0 {
            return self.deviation.map(|_| 1.0);
        }
        // The limit as far from the mean as its logarithm is.
        let apart = self.mean * (limit / self.mean).ln();
        self.chance_at_least(self.mean + apart)
    }

    /// [`Sample::plan_for`] by the same law as [`Sample::interval_of_length`]: the upper limit is the
    /// further one.
    pub fn plan_for_length(&self, distance: f64, level: f64) -> Option<usize> {
        self.plan_for(self.mean * (distance / self.mean).ln_1p(), level)
    }

    /// Stein's rule: the total number to measure so that the interval at `level` reaches no
    /// further than `distance` either way. `None` from one value or for no distance.
    pub fn needed_for(&self, distance: f64, level: f64) -> Option<usize> {
        let (t, s) = (self.quantile(level)?, self.deviation?);
        let needed = (t * s / distance).powi(2);
        (distance > 0.0 && needed < 1e9).then(|| self.count.max(needed.floor() as usize + 1))
    }

    /// The least total number whose own interval at `level` would reach no further than `distance`
    /// either way if the deviation stayed as it is. A plan and not a promise: Stein's rule keeps
    /// this sample's t and so holds its word, but from two values that t is 12.7 and asks for
    /// hundreds. `None` from one value, for no distance, or where it takes over 1e9.
    pub fn plan_for(&self, distance: f64, level: f64) -> Option<usize> {
        let deviation = self.deviation?;
        // The normal law asks for the fewest, and t for a few more.
        let normal = Normal::standard().inverse_cdf(0.5 + level / 2.0);
        let least = (normal * deviation / distance).powi(2);
        let from = (distance > 0.0 && least < 1e9).then(|| self.count.max(least.floor() as usize));
        (from?..).find(|count| {
            let planned = Sample {
                count: *count,
                ..*self
            };
            let margin = planned.quantile(level).map(|t| t * deviation);
            margin.is_some_and(|margin| margin <= distance * (*count as f64).sqrt())
        })
    }

    fn quantile(&self, level: f64) -> Option<f64> {
        Some(self.student()?.inverse_cdf(0.5 + level / 2.0))
    }

    fn student(&self) -> Option<StudentsT> {
        let freedom = self.count.checked_sub(1).filter(|freedom| *freedom > 0)?;
        StudentsT::new(0.0, 1.0, freedom as f64).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64, within: f64) {
        assert!(
            (found - expected).abs() <= within,
            "{found} is not {expected}"
        );
    }

    /// NIST/SEMATECH e-Handbook 7.2.2: the particle-count data, n = 10. Mean, deviation and t are
    /// printed there; the limits are our own arithmetic from them.
    #[test]
    fn nist_mean_and_interval() {
        let counts = [50., 48., 44., 56., 61., 52., 53., 55., 67., 51.];
        let sample = Sample::of(&counts).expect("ten values");
        let s = sample.deviation.expect("ten values");
        close(sample.mean, 53.7, 1e-12);
        close(s, 6.567, 5e-4);
        close((sample.mean - 50.0) / (s / 10_f64.sqrt()), 1.782, 5e-4);
        let limits = sample.interval(0.95).expect("ten values");
        close(limits.low, 49.0024, 5e-5);
        close(limits.high, 58.3976, 5e-5);
    }

    /// Days in the vase of three generations of seedlings: Onozaki, NARO Technical Report 7:12,
    /// c. 2020, gives count, mean and deviation; the limits are `scipy.stats.t.interval(0.95,
    /// n - 1, loc=mean, scale=s / n**0.5)` of scipy 1.17.1. No two generations overlap.
    #[test]
    fn seedling_generations_from_their_moments() {
        let generations = [
            (314, 4.4, 1.15, 4.272_308_010_30, 4.527_691_989_70),
            (308, 5.2, 1.45, 5.037_424_077_08, 5.362_575_922_92),
            (155, 6.1, 1.78, 5.817_558_465_75, 6.382_441_534_25),
        ];
        for (count, mean, deviation, low, high) in generations {
            let deviation = Some(deviation);
            let sample = Sample {
                count,
                mean,
                deviation,
            };
            let limits = sample.interval(0.95).expect("many");
            close(limits.low, low, 1e-9);
            close(limits.high, high, 1e-9);
        }
    }

    /// Stein's two-stage rule on invented blooms; our own arithmetic from the formula.
    #[test]
    fn stein_says_how_many_to_measure() {
        let sample = Sample::of(&[98., 104., 101., 107., 100.]).expect("five blooms");
        close(sample.deviation.expect("five"), 3.5355, 5e-5);
        let limits = sample.interval(0.95).expect("five");
        close(limits.low, 97.610, 5e-4);
        close(limits.high, 106.390, 5e-4);
        let needed = [4.0, 3.0, 2.0].map(|d| sample.needed_for(d, 0.95));
        assert_eq!(needed, [Some(7), Some(11), Some(25)]);
    }

    /// On the same blooms, by hand: t with 6, 8 and 14 degrees of freedom (tables: 2.447, 2.306,
    /// 2.145) times 3.5355 over the root of 7, 9 and 15 is 3.27, 2.72 and 1.96.
    #[test]
    fn a_plan_asks_for_fewer_than_stein() {
        let sample = Sample::of(&[98., 104., 101., 107., 100.]).expect("five blooms");
        let planned = [5.0, 4.0, 3.0, 2.0].map(|d| sample.plan_for(d, 0.95));
        assert_eq!(planned, [5, 6, 8, 15].map(Some));
        for distance in [0.0, -1.0, f64::NAN, 1e-9] {
            assert_eq!(sample.plan_for(distance, 0.95), None);
        }
        let two = Sample::of(&[98., 104.]).expect("two blooms");
        assert_eq!(
            (two.plan_for(2.0, 0.95), two.needed_for(2.0, 0.95)),
            (Some(20), Some(727))
        );
    }

    /// NIST/SEMATECH e-Handbook 7.2.2.2, the same rule's one-sided kin: alpha 0.05, beta 0.10,
    /// a shift of one sigma needs 9 by the normal and 11 when repeated with Student's t.
    #[test]
    fn nist_sample_size_by_t_quantiles() {
        let size = |alpha: f64, beta: f64| (alpha + beta).powi(2).ceil() as usize;
        let t = |p: f64, n: usize| {
            StudentsT::new(0.0, 1.0, (n - 1) as f64)
                .expect("n over 1")
                .inverse_cdf(p)
        };
        let by_normal = size(t(0.95, 1_000_000), t(0.90, 1_000_000));
        let by_t = size(t(0.95, by_normal), t(0.90, by_normal));
        assert_eq!((by_normal, by_t), (9, 11));
    }

    /// The same five blooms: t's margin of 4.390 over the mean of 102 is 0.04304, and e to that is
    /// 1.04398; our own arithmetic.
    #[test]
    fn limits_of_a_length_are_over_0_and_near_t_s_where_blooms_agree() {
        let sample = Sample::of(&[98., 104., 101., 107., 100.]).expect("five blooms");
        let limits = sample.interval_of_length(0.95).expect("five");
        close(limits.low, 97.703, 5e-4);
        close(limits.high, 106.486, 5e-4);
        for (limit, chance) in [
            (limits.low, 0.975),
            (limits.high, 0.025),
            (102.0, 0.5),
            (0.0, 1.0),
        ] {
            close(sample.chance_of_length(limit).expect("five"), chance, 1e-9);
        }
        assert_eq!(
            [4.0, 3.0, 2.0].map(|d| sample.plan_for_length(d, 0.95)),
            [6, 8, 15].map(Some)
        );
        // Days of 3.4 in and 9 in: t reaches from -745 to 1060 mm.
        let apart = Sample::of(&[86.4, 228.6]).expect("two");
        assert!(apart.interval(0.95).expect("two").low < 0.0);
        let limits = apart.interval_of_length(0.95).expect("two");
        assert!(limits.low > 0.0 && limits.high > 228.6, "{limits:?}");
        close(limits.low * limits.high, apart.mean * apart.mean, 1e-6);
    }

    /// How often limits at 95 % hold the true mean, of 20,000 samples a row: normal and lognormal
    /// blooms, 2 to 12 of them, spread by 3 to 25 in a hundred.
    #[test]
    fn limits_of_a_length_hold_the_mean_95_times_in_a_hundred() {
        const ROWS: usize = 20_000;
        let mut random = fastrand::Rng::with_seed(11);
        let mut normal = move || {
            let (one, other) = (1.0 - random.f64(), random.f64());
            (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
        };
        for count in [2, 3, 5, 12] {
            let freedom = StudentsT::new(0.0, 1.0, f64::from(count - 1)).expect("over 1");
            let t = freedom.inverse_cdf(0.975);
            for (spread, is_log) in [
                (0.03, false),
                (0.1, false),
                (0.25, false),
                (0.1, true),
                (0.25, true),
            ] {
                let sigma = (1.0_f64 + spread * spread).ln().sqrt();
                let mut held = 0;
                for _ in 0..ROWS {
                    let mut bloom = || match is_log {
                        true => 100.0 * (sigma * normal() - sigma * sigma / 2.0).exp(),
                        false => (100.0 * (1.0 + spread * normal())).max(1.0),
                    };
                    let blooms: Vec<f64> = (0..count).map(|_| bloom()).collect();
                    let sample = Sample::of(&blooms).expect("some");
                    // As the interval has it, without working t out for each row.
                    let error = sample.deviation.expect("2") / f64::from(count).sqrt();
                    held +=
                        usize::from((100.0 / sample.mean).ln().abs() * sample.mean <= t * error);
                }
                let share = held as f64 / ROWS as f64;
                assert!(
                    (0.937..0.957).contains(&share),
                    "{count} {spread} {is_log}: {share}"
                );
            }
        }
    }

    #[test]
    fn one_bloom_has_a_mean_and_no_interval() {
        let sample = Sample::of(&[90.0]).expect("one bloom");
        assert_eq!(sample.mean, 90.0);
        assert_eq!(sample.interval(0.95), None);
        assert_eq!(sample.chance_at_least(88.9), None);
        assert_eq!(sample.needed_for(1.0, 0.95), None);
        assert_eq!(Sample::of(&[]), None);
    }

    #[test]
    fn the_chance_is_even_at_the_mean_and_falls_past_it() {
        let sample = Sample::of(&[98., 104., 101., 107., 100.]).expect("five blooms");
        close(sample.chance_at_least(102.0).expect("five"), 0.5, 1e-12);
        // The interval's own limits leave 2.5 % on each side.
        let limits = sample.interval(0.95).expect("five");
        close(
            sample.chance_at_least(limits.high).expect("five"),
            0.025,
            1e-9,
        );
        close(
            sample.chance_at_least(limits.low).expect("five"),
            0.975,
            1e-9,
        );
    }
}
