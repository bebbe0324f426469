//! A share of counted things, as damaged of open, with an exact interval.
//!
//! Clopper & Pearson, Biometrika 26:404-413, 1934: the limits are the shares at which so few, or so
//! many, would be seen with a chance of just half of what the level leaves. Exact, and not Wilson's
//! shorter interval, because a row counts few blooms, and none damaged of 8 is common: there the
//! exact interval never covers less than it says, while the shorter ones hold their level only on
//! average over shares. The price is an interval that is somewhat too wide.

use statrs::distribution::{Beta, ContinuousCDF};
use statrs::function::beta::beta_reg;

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

    /// Whether the whole interval at 95 % lies over `limit`, 0 to 1.
    pub fn surely_over(self, limit: f64) -> bool {
        // The quantile that is the lower limit lies over it where less than its tail lies below:
        // one look at the law in place of a search for the quantile.
        let (hit, missed) = (f64::from(self.hit), f64::from(self.of - self.hit));
        let limit = limit.clamp(0.0, 1.0);
        self.hit > 0 && beta_reg(hit, missed + 1.0, limit) < (1.0 - LEVEL) / 2.0
    }

    /// Whether the whole interval at 95 % lies under `limit`, 0 to 1.
    pub fn surely_under(self, limit: f64) -> bool {
        let others = Share {
            hit: self.of - self.hit,
            ..self
        };
        others.surely_over(1.0 - limit)
    }

    /// How many more would bring the whole interval to one side of `limit` if the share stayed as
    /// it is, rounded towards the limit; `None` where none are counted yet or it takes over `most`.
    pub fn more_to_tell(self, limit: f64, most: u32) -> Option<u32> {
        let over = self.value()? > limit;
        let sure = |more: &u32| {
            let of = self.of.saturating_add(*more);
            let hit = u64::from(self.hit) * u64::from(of);
            let own = u64::from(self.of);
            // No more than `of`, which fits.
            let hit = if over { hit / own } else { hit.div_ceil(own) } as u32;
            let like = Share { hit, of };
            if over {
                like.surely_over(limit)
            } else {
                like.surely_under(limit)
            }
        };
        (1..=most).find(sure)
    }

    /// With fewer more than this nothing could bring the whole interval to one side of `limit`,
    /// however they turn out; `None` where it takes over `most`.
    pub fn least_to_tell(self, limit: f64, most: u32) -> Option<u32> {
        let sure = |more: &u32| {
            let of = self.of.saturating_add(*more);
            let all = Share {
                hit: self.hit.saturating_add(*more),
                of,
            };
            all.surely_over(limit) || Share { of, ..self }.surely_under(limit)
        };
        (1..=most).find(sure)
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
        fn a_share_is_surely_beyond_a_limit_where_its_interval_is(
            hit in 0u32..60, missed in 0u32..60, limit in 0.0..1.0_f64
        ) {
            let one = share(hit, hit + missed);
            let found = one.limits();
            // The search for a quantile ends somewhere near it.
            prop_assume!((found.low - limit).abs() > 1e-9 && (found.high - limit).abs() > 1e-9);
            prop_assert_eq!(one.surely_over(limit), found.low > limit);
            prop_assert_eq!(one.surely_under(limit), found.high < limit);
        }

        #[test]
        fn as_many_more_as_are_said_do_tell_and_fewer_than_the_least_cannot(
            hit in 0u32..30, missed in 0u32..30, limit in 0.1..0.9_f64, turn in 0.0..1.0_f64
        ) {
            let one = share(hit, hit + missed);
            prop_assume!(hit + missed > 0 && !one.surely_over(limit) && !one.surely_under(limit));
            if let Some(more) = one.more_to_tell(limit, 60) {
                let of = hit + missed + more;
                let alike = f64::from(hit) / f64::from(hit + missed) * f64::from(of);
                let alike = if one.value() > Some(limit) { (alike + 1e-9).floor() } else { (alike - 1e-9).ceil() };
                let then = share(alike as u32, of).limits();
                prop_assert!(then.low > limit - 1e-9 || then.high < limit + 1e-9, "{more}: {then:?}");
            }
            if let Some(least) = one.least_to_tell(limit, 60) {
                let more = least - 1;
                let bad = (f64::from(more) * turn) as u32;
                let then = share(hit + bad, hit + missed + more);
                prop_assert!(!then.surely_over(limit) && !then.surely_under(limit));
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
