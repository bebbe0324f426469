//! A share of counted things, as damaged of open, with an exact interval.
//!
//! Clopper & Pearson, Biometrika 26:404-413, 1934: the limits are the shares at which so few, or so
//! many, would be seen with a chance of just half of what the level leaves. Exact, and not Wilson's
//! shorter interval, because a row counts few blooms, and none damaged of 8 is common: there the
//! exact interval never covers less than it says, while the shorter ones hold their level only on
//! average over shares. The price is an interval that is somewhat too wide.

use statrs::distribution::{Beta, ContinuousCDF};

use super::LEVEL;
use crate::measure::sample::Interval;

/// So many of so many; none of none to begin with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Share {
    hit: u32,
    of: u32,
}

impl Share {
    /// `hit` of `of`; `None` where that is more than there are.
    pub fn new(hit: u32, of: u32) -> Option<Share> {
        (hit <= of).then_some(Share { hit, of })
    }

    /// How many were hit.
    pub fn hit(self) -> u32 {
        self.hit
    }

    /// Of how many.
    pub fn of(self) -> u32 {
        self.of
    }

    /// The share, 0 to 1; `None` of none.
    pub fn value(self) -> Option<f64> {
        (self.of > 0).then(|| f64::from(self.hit) / f64::from(self.of))
    }

    /// The exact interval at 95 %.
    pub fn limits(self) -> Interval {
        self.interval(LEVEL)
    }

    /// The exact interval at `level`, 0 to 1. Of none it is 0 to 1: nothing is known. A level out
    /// of range gives the widest too.
    pub fn interval(self, level: f64) -> Interval {
        let (hit, of) = (f64::from(self.hit), f64::from(self.of));
        let missed = of - hit;
        let known = (0.0..=1.0).contains(&level);
        let tail = if known { (1.0 - level) / 2.0 } else { 0.0 };
        let quantile = |low: f64, high: f64, at: f64| {
            // With none hit, or none missed, there is no such law: the limit is 0, or 1.
            let law = Beta::new(low, high).ok();
            law.map(|law| law.inverse_cdf(at).clamp(0.0, 1.0))
        };
        Interval {
            low: quantile(hit, missed + 1.0, tail).unwrap_or(0.0),
            high: quantile(hit + 1.0, missed, 1.0 - tail).unwrap_or(1.0),
        }
    }
}

impl std::iter::Sum for Share {
    /// All counts together; beyond what a `u32` holds it stays at the most.
    fn sum<I: Iterator<Item = Share>>(shares: I) -> Share {
        shares.fold(Share::default(), |sum, one| Share {
            hit: sum.hit.saturating_add(one.hit),
            of: sum.of.saturating_add(one.of),
        })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn share(hit: u32, of: u32) -> Share {
        Share::new(hit, of).expect("no more than there are")
    }

    /// scipy's exact binomial interval; version and call are in the head of the data file.
    #[test]
    fn the_interval_is_scipys() {
        let mut checked = 0;
        let text = include_str!("../../../tests/data/exact_binomial.csv");
        for row in text.lines().filter(|line| !line.starts_with('#')).skip(1) {
            let cells: Vec<f64> = row.split(',').map(|c| c.parse().expect(row)).collect();
            let [hit, of, level, low, high] = cells[..] else {
                panic!("{row}");
            };
            let found = share(hit as u32, of as u32).interval(level);
            assert!((found.low - low).abs() < 1e-10, "{row}: {found:?}");
            assert!((found.high - high).abs() < 1e-10, "{row}: {found:?}");
            checked += 1;
        }
        assert!(checked > 50, "{checked} rows");
    }

    #[test]
    fn none_of_none_says_nothing() {
        assert_eq!(share(0, 0).value(), None);
        let limits = share(0, 0).limits();
        assert_eq!((limits.low, limits.high), (0.0, 1.0));
        assert_eq!(Share::new(4, 3), None);
    }

    #[test]
    fn a_level_out_of_range_does_no_harm() {
        for level in [f64::NAN, -1.0, 1.0, 7.0] {
            let found = share(3, 12).interval(level);
            assert_eq!((found.low, found.high), (0.0, 1.0));
        }
        for level in [0.0, 1e-300, 1.0 - 1e-16] {
            let found = share(3, 12).interval(level);
            assert!(
                found.low <= 0.25 && 0.25 <= found.high,
                "{level}: {found:?}"
            );
        }
    }

    #[test]
    fn shares_add_up() {
        let sum: Share = [share(1, 4), share(3, 12)].into_iter().sum();
        assert_eq!(sum, share(4, 16));
    }

    proptest! {
        #[test]
        fn the_interval_holds_the_share_and_shrinks_as_counts_grow(
            hit in 0u32..60, missed in 0u32..60, times in 2u32..8
        ) {
            prop_assume!(hit + missed > 0);
            let few = share(hit, hit + missed);
            let many = share(hit * times, (hit + missed) * times);
            let value = few.value().expect("some");
            for level in [0.5, 0.8, 0.95, 0.99] {
                let (few, many) = (few.interval(level), many.interval(level));
                prop_assert!(few.low <= value && value <= few.high);
                prop_assert!(many.low >= few.low - 1e-12 && many.high <= few.high + 1e-12);
                prop_assert!(many.high - many.low < few.high - few.low);
            }
        }

        #[test]
        fn one_more_hit_raises_both_limits(hit in 0u32..60, missed in 1u32..60) {
            let before = share(hit, hit + missed).limits();
            let after = share(hit + 1, hit + missed).limits();
            prop_assert!(after.low > before.low && after.high >= before.high);
        }
    }
}
