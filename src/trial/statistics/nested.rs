//! Blooms measured on several dates, lengths over 0: blooms of one day are alike, and the interval must not be
//! fooled by that.
//!
//! One-way random effects: a value is the mean, plus what its date adds, plus what the bloom adds.
//! The variances of both by the analysis of variance, for dates of unequal size, and a negative one
//! set to 0: Searle, Casella & McCulloch, Variance Components, 1992, ch. 3; Snedecor & Cochran,
//! Statistical Methods, ch. 13 (chapters from memory).
//!
//! **The interval.** From two dates on it is Student's t on the means of the dates, each date
//! counting once; for lengths, on the logarithm of their mean, so that no limit is at or under 0
//! ([`crate::measure::sample`] says how, and what it was weighed against). On dates of equal size it is the interval of the mixed model. On others it covers
//! at least what it says: t on normal means of unequal variance is too wide and never too short at
//! 95 % (Ibragimov & Muller, Journal of Business & Economic Statistics 28:453-468, 2010; from
//! memory). Two dates make a wide interval, t with one degree of freedom: that is what two dates
//! know. What was weighed against it, where dates vary as much as blooms do (the coverage test
//! below):
//!
//! - All blooms as if independent: the interval covers the true mean in 71 of 100 rows, not 95.
//! - Degrees of freedom from the estimated variances (Satterthwaite): the same, on dates of equal
//!   size, until the variance between dates comes out as 0. There two dates that happen to agree
//!   count as proof that dates never differ, and of two dates it covers 89 of 100.

use std::fmt;

use super::LEVEL;
use crate::measure::sample::{Interval, Sample};

/// Values of several dates, summed up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nested {
    /// How many dates have a value.
    pub dates: usize,
    /// How many values there are.
    pub count: usize,
    /// The mean that the interval is about: of the means of the dates, or of one date's values.
    pub mean: f64,
    /// The mean of all values, each counting once.
    pub grand_mean: f64,
    /// The variance of values within a date; `None` where no date has two.
    pub within: Option<f64>,
    /// The variance between dates, beyond what the values within them explain; at least 0. `None`
    /// from one date, or where no date has two values.
    pub between: Option<f64>,
    /// What the interval is taken from.
    pub basis: Basis,
    /// The means of the dates, or one date's values.
    units: Sample,
}

/// What an interval is taken from, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// One value: there is no interval.
    OneValue,
    /// The values of one date, so it cannot know how dates differ.
    OneDate,
    /// The means of so many dates, since values of one date are not independent.
    Dates(usize),
}

/// What is still to be measured for a narrower interval.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Needed {
    /// The interval is narrow enough.
    Nothing,
    /// So many more blooms on the one date; other dates remain unknown.
    Blooms(usize),
    /// So many more dates, with about as many blooms on each as now.
    Dates(usize),
}

impl Nested {
    /// Sums up the values of each date, dates and values in any order. Dates without a value do
    /// not count. `None` of no values, or where one is not a finite number.
    pub fn of<Values: AsRef<[f64]>>(dates: &[Values]) -> Option<Nested> {
        let values = || dates.iter().flat_map(|date| date.as_ref()).copied();
        if !values().all(f64::is_finite) {
            return None;
        }
        let all = Sample::of(&values().collect::<Vec<_>>())?;
        let samples: Vec<Sample> = dates
            .iter()
            .filter_map(|date| Sample::of(date.as_ref()))
            .collect();
        let means: Vec<f64> = samples.iter().map(|date| date.mean).collect();
        let (units, basis) = match samples[..] {
            [one] if one.count == 1 => (one, Basis::OneValue),
            [one] => (one, Basis::OneDate),
            _ => (Sample::of(&means)?, Basis::Dates(samples.len())),
        };
        let within = within(&samples);
        Some(Nested {
            dates: samples.len(),
            count: all.count,
            mean: units.mean,
            grand_mean: all.mean,
            within,
            between: within.and_then(|within| between(&samples, all.mean, within)),
            basis,
            units,
        })
    }

    /// The interval of the mean at 95 %; `None` from one value.
    pub fn limits(&self) -> Option<Interval> {
        self.interval(LEVEL)
    }

    /// The interval of the mean at `level`, over 0 and under 1; `None` from one value.
    pub fn interval(&self, level: f64) -> Option<Interval> {
        self.units.interval_of_length(level)
    }

    /// The standard deviation of one bloom on any date, both variances together; within the date
    /// where there is one date, of the values where each date has one. `None` from one value.
    pub fn spread(&self) -> Option<f64> {
        match self.within {
            Some(within) => Some((within + self.between.unwrap_or(0.0)).sqrt()),
            None => self.units.deviation,
        }
    }

    /// The chance (0 to 1) that the true mean is at or above `limit`, on the interval's own basis;
    /// `None` from one value.
    pub fn chance_at_least(&self, limit: f64) -> Option<f64> {
        self.units.chance_of_length(limit)
    }

    /// What is still to be measured so that the interval at `level` reaches no further than
    /// `distance` either way, if the spread stays as it is ([`Sample::plan_for_length`]). `None` from one
    /// value, or where `distance` is not over 0 or out of reach.
    pub fn needed(&self, distance: f64, level: f64) -> Option<Needed> {
        let more = self.units.plan_for_length(distance, level)? - self.units.count;
        Some(match self.basis {
            _ if more == 0 => Needed::Nothing,
            Basis::Dates(_) => Needed::Dates(more),
            Basis::OneDate | Basis::OneValue => Needed::Blooms(more),
        })
    }
}

/// The mean square within dates.
fn within(dates: &[Sample]) -> Option<f64> {
    let freedom: usize = dates.iter().map(|date| date.count - 1).sum();
    let squares = dates.iter().filter_map(|date| {
        let deviation = date.deviation?;
        Some(deviation * deviation * (date.count - 1) as f64)
    });
    (freedom > 0).then(|| squares.sum::<f64>() / freedom as f64)
}

/// The mean square between dates, less the one within, over the effective size of a date.
fn between(dates: &[Sample], grand_mean: f64, within: f64) -> Option<f64> {
    let freedom = dates.len().checked_sub(1).filter(|freedom| *freedom > 0)? as f64;
    let sizes = || dates.iter().map(|date| date.count as f64);
    let count: f64 = sizes().sum();
    let size = (count - sizes().map(|size| size * size).sum::<f64>() / count) / freedom;
    let squares = dates
        .iter()
        .map(|date| date.count as f64 * (date.mean - grand_mean).powi(2));
    let mean_square = squares.sum::<f64>() / freedom;
    Some(((mean_square - within) / size).max(0.0))
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Basis::OneValue => write!(f, "one bloom, so no interval"),
            Basis::OneDate => write!(f, "blooms of one date, so how dates differ is not known"),
            Basis::Dates(dates) => {
                write!(
                    f,
                    "means of {dates} dates, since blooms of one day are alike"
                )
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn close(found: f64, expected: f64, within: f64) {
        assert!(
            (found - expected).abs() <= within,
            "{found} is not {expected}"
        );
    }

    /// Snedecor & Cochran, Statistical Methods, 13.3: calcium (%) in four determinations of each
    /// of four turnip leaves. Mean squares .2961 and .0066 and the variance .0724 are printed there
    /// (data and figures from memory; that they agree bears the memory out).
    #[test]
    fn snedecor_and_cochran_turnip_leaves() {
        let leaves = Nested::of(&[
            [3.28, 3.09, 3.03, 3.03],
            [3.52, 3.48, 3.38, 3.38],
            [2.88, 2.80, 2.81, 2.76],
            [3.34, 3.38, 3.23, 3.26],
        ])
        .expect("four leaves");
        let (within, between) = (leaves.within.expect("4"), leaves.between.expect("4"));
        close(within, 0.0066, 5e-5);
        close(between, 0.0724, 5e-5);
        close(within + 4.0 * between, 0.2961, 5e-5);
        // The interval by the between mean square, t with 3 degrees of freedom, on the logarithm of
        // the mean: our arithmetic.
        let limits = leaves.limits().expect("4");
        let half = 3.182446 * (0.2961_f64 / 16.0).sqrt();
        let mean = 50.65 / 16.0;
        close(limits.low, mean / (half / mean).exp(), 1e-4);
        close(limits.high, mean * (half / mean).exp(), 1e-4);
    }

    /// Yield of dyestuff from five preparations of each of six batches: Davies & Goldsmith,
    /// Statistical Methods in Research and Production, 1972; by restricted maximum likelihood the
    /// lme4 manual prints variances 1764 and 2451, mean 1527.5 and its error 19.38, and on balanced
    /// data that is the analysis of variance (data and figures from memory).
    #[test]
    fn davies_dyestuff() {
        let batches = Nested::of(&[
            [1545., 1440., 1440., 1520., 1580.],
            [1540., 1555., 1490., 1560., 1495.],
            [1595., 1550., 1605., 1510., 1560.],
            [1445., 1440., 1595., 1465., 1545.],
            [1595., 1630., 1515., 1635., 1625.],
            [1520., 1455., 1450., 1480., 1445.],
        ])
        .expect("six batches");
        close(batches.between.expect("6"), 1764.0, 0.1);
        close(batches.within.expect("6"), 2451.25, 1e-9);
        assert_eq!((batches.mean, batches.grand_mean), (1527.5, 1527.5));
        let limits = batches.limits().expect("6");
        let half = (limits.high / limits.low).ln() / 2.0 * batches.mean;
        close(half / 2.570582, 19.38, 0.005);
        assert_eq!(batches.basis, Basis::Dates(6));
    }

    /// Unequal groups, invented: reference values by statsmodels 0.15.0, mean squares of
    /// `anova_lm(ols("v ~ C(d)", data).fit())`, and the method of moments on them by hand; the
    /// limits by scipy 1.17.1, `stats.t.interval` on the date means (87.479 and 109.298), on the
    /// logarithm of their mean.
    #[test]
    fn dates_of_unequal_size() {
        let dates: [&[f64]; 3] = [
            &[98., 104., 101., 107., 100.],
            &[92., 95.],
            &[99., 103., 97.],
        ];
        let found = Nested::of(&dates).expect("three dates");
        close(found.within.expect("3"), 10.452_380_952_38, 1e-9);
        close(found.between.expect("3"), 13.278_801_843_32, 1e-9);
        let limits = found.limits().expect("3");
        close(limits.low, 88.062_390_243_757, 1e-9);
        close(limits.high, 109.926_308_268_422, 1e-9);
        close(found.grand_mean, 99.6, 1e-12);
    }

    #[test]
    fn what_is_not_known_is_not_said() {
        let none: [&[f64]; 2] = [&[], &[]];
        assert_eq!(Nested::of(&none), None);
        assert_eq!(Nested::of(&[[90.0, f64::NAN]]), None);
        let one = Nested::of(&[[90.0]]).expect("one bloom");
        assert_eq!(
            (one.basis, one.limits(), one.spread()),
            (Basis::OneValue, None, None)
        );
        assert_eq!(
            (one.within, one.between, one.needed(2.0, LEVEL)),
            (None, None, None)
        );
        let date = Nested::of(&[[88.0, 92.0]]).expect("one date");
        assert_eq!((date.basis, date.between), (Basis::OneDate, None));
        close(date.within.expect("two blooms"), 8.0, 1e-12);
        let apart = Nested::of(&[[88.0], [92.0]]).expect("two dates");
        assert_eq!((apart.within, apart.between), (None, None));
        assert_eq!(apart.spread(), Some(8_f64.sqrt()));
        assert_eq!(apart.basis, Basis::Dates(2));
    }

    #[test]
    fn dates_that_agree_more_than_their_blooms_have_no_variance_of_their_own() {
        let found = Nested::of(&[[90., 100.], [91., 99.], [89., 101.]]).expect("three dates");
        assert_eq!(found.between, Some(0.0));
        assert!(found.within.is_some_and(|within| within > 0.0));
    }

    #[test]
    fn one_date_asks_for_blooms_and_several_for_dates() {
        let date = [98., 104., 101., 107., 100.];
        let one = Nested::of(&[date]).expect("one date");
        // t with 6, 8 and 14 degrees of freedom (tables: 2.447, 2.306, 2.145) times 3.5355 over
        // the root of 7, 9 and 15: 3.27, 2.72 and 1.96.
        let needed = [5.0, 4.0, 3.0, 2.0].map(|distance| one.needed(distance, LEVEL));
        let expected = [
            Needed::Nothing,
            Needed::Blooms(1),
            Needed::Blooms(3),
            Needed::Blooms(10),
        ];
        assert_eq!(needed, expected.map(Some));
        let two = Nested::of(&[date, [99., 102., 103., 105., 106.]]).expect("two dates");
        assert!(matches!(two.needed(2.0, LEVEL), Some(Needed::Dates(_))));
        assert_eq!(two.needed(0.0, LEVEL), None);
    }

    /// Of 4,000 invented rows, where dates vary as much as blooms do: the share whose true mean is
    /// covered by the date means, by Satterthwaite (all blooms where the variance between dates is
    /// 0) and by all blooms as if independent.
    fn coverage(sizes: &[usize]) -> [f64; 3] {
        let mut random = fastrand::Rng::with_seed(4);
        let mut normal = move || {
            let (one, other) = (1.0 - random.f64(), random.f64());
            (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
        };
        let rows = 4000;
        let mut covered = [0; 3];
        for _ in 0..rows {
            let mut blooms = |size: &usize| {
                let date = normal();
                (0..*size)
                    .map(|_| 100.0 + 3.0 * (date + normal()))
                    .collect()
            };
            let dates: Vec<Vec<f64>> = sizes.iter().map(&mut blooms).collect();
            let found = Nested::of(&dates).expect("some blooms");
            let by_dates = found.limits().expect("some dates");
            let blooms = Sample::of(&dates.concat()).and_then(|all| all.interval(LEVEL));
            let by_blooms = blooms.expect("some blooms");
            let alike = found.between == Some(0.0);
            let satterthwaite = if alike { by_blooms } else { by_dates };
            for (at, limits) in [by_dates, satterthwaite, by_blooms].iter().enumerate() {
                covered[at] += usize::from(limits.low <= 100.0 && 100.0 <= limits.high);
            }
        }
        covered.map(|covered| covered as f64 / f64::from(rows))
    }

    #[test]
    fn the_interval_covers_what_it_says() {
        let [by_dates, _, by_blooms] = coverage(&[5, 5, 5]);
        assert!((0.935..0.965).contains(&by_dates), "{by_dates}");
        assert!((0.68..0.74).contains(&by_blooms), "{by_blooms}");
        let [by_dates, satterthwaite, _] = coverage(&[5, 5]);
        assert!((0.935..0.965).contains(&by_dates), "{by_dates}");
        assert!((0.87..0.91).contains(&satterthwaite), "{satterthwaite}");
        let [by_dates, ..] = coverage(&[1, 9, 2, 12]);
        assert!((0.94..0.99).contains(&by_dates), "{by_dates}");
    }

    proptest! {
        #[test]
        fn order_does_not_matter(
            mut dates in prop::collection::vec(prop::collection::vec(60.0f64..140.0, 0..6), 1..6)
        ) {
            let before = Nested::of(&dates);
            dates.reverse();
            dates.iter_mut().for_each(|date| date.reverse());
            let after = Nested::of(&dates);
            prop_assert_eq!(before.is_some(), after.is_some());
            if let (Some(before), Some(after)) = (before, after) {
                prop_assert!((before.mean - after.mean).abs() < 1e-9);
                let pairs = [(before.within, after.within), (before.between, after.between)];
                for (one, other) in pairs {
                    prop_assert_eq!(one.is_some(), other.is_some());
                    prop_assert!((one.unwrap_or(0.0) - other.unwrap_or(0.0)).abs() < 1e-7);
                }
            }
        }
    }
}
