//! Whether a length is odd beside the others of its plant: a slip of the hand, such as 9 in among
//! blooms of 3.4 in, or inches for centimetres.
//!
//! The logarithms of a plant's lengths are taken as normal, so that what is asked is how many times
//! longer one is than its like. Before any is measured their variance is taken to be the one assumed,
//! as if [`WORTH`] lengths had shown it: with few blooms the assumed spread speaks, with many their
//! own. What comes next is then foretold by Student's t with `WORTH + n - 1` degrees of freedom about
//! the mean (the normal law with a conjugate prior of its variance: Gelman et al., Bayesian Data
//! Analysis, 3rd ed., ch. 3; from memory). A new day may be another than all before it, so what is
//! foretold is widened by the number of days, never by the larger number of blooms. A length outside
//! [`ASKED`] of what is foretold is odd; of a note with several, each of them is held to its part of
//! that, so that it is the note that is asked about so seldom.
//!
//! Honest notes are asked about less than once in two hundred as long as a plant's lengths spread no
//! wider than half as much again as assumed, days among them: the test below draws them. A length
//! twice the others is asked after from the first on.

use std::collections::BTreeSet;
use std::ops::RangeInclusive;

use jiff::civil::Date;
use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::measure::sample::{Interval, Sample};

/// Honest notes that are asked about, at most. Assumed.
const ASKED: f64 = 0.005;
/// How many lengths the assumed spread is worth. Assumed.
const WORTH: f64 = 10.0;

/// Lengths of one kind.
pub(super) struct Kind {
    /// The word of an entry.
    pub(super) name: &'static str,
    /// What one of them is of.
    pub(super) of: &'static str,
    /// The standard deviation of the logarithm, about the share that a plant's lengths vary by from
    /// flower to flower and day to day.
    pub(super) spread: f64,
    /// Those outside are rare enough to ask after whatever the others are, mm.
    pub(super) usual: RangeInclusive<f64>,
}

/// Across blooms. Assumed.
pub(super) const DIAMETER: Kind = Kind {
    name: "diameter",
    of: "bloom",
    spread: 0.11,
    usual: 20.0..=350.0,
};
/// Cut stems, which the cutter makes long or short. Assumed.
pub(super) const STEM: Kind = Kind {
    name: "stem",
    of: "stem",
    spread: 0.2,
    usual: 0.0..=f64::MAX,
};

/// What the others foretell of one of the `noted` lengths of a note, in mm; `None` where there are no
/// others.
pub(super) fn foretold(kind: &Kind, others: &[(Date, f64)], noted: usize) -> Option<Interval> {
    let logs: Vec<f64> = others.iter().map(|(_, mm)| mm.ln()).collect();
    let sample = Sample::of(&logs)?;
    let days: BTreeSet<Date> = others.iter().map(|(date, _)| *date).collect();
    let own = (sample.count - 1) as f64;
    let freedom = WORTH + own;
    let squares = own * sample.deviation.unwrap_or(0.0).powi(2);
    let variance = (WORTH * kind.spread.powi(2) + squares) / freedom;
    let error = (variance * (1.0 + 1.0 / days.len() as f64)).sqrt();
    let t = StudentsT::new(0.0, 1.0, freedom).ok()?;
    let margin = error * t.inverse_cdf(1.0 - ASKED / (2.0 * noted.max(1) as f64));
    Some(Interval {
        low: (sample.mean - margin).exp(),
        high: (sample.mean + margin).exp(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(at: usize) -> Date {
        Date::constant(2026, 8, at as i8 + 1)
    }

    fn is_odd(others: &[(Date, f64)], mm: f64) -> bool {
        let limits = foretold(&DIAMETER, others, 1).expect("others");
        mm < limits.low || mm > limits.high
    }

    #[test]
    fn nine_inches_among_blooms_of_three_and_a_half_are_odd() {
        let blooms = [86.0, 84.0, 89.0, 87.0].map(|mm| (day(0), mm));
        for count in 1..=4 {
            assert!(is_odd(&blooms[..count], 228.6), "{count}");
            // The same in inches for centimetres, and a digit left out.
            assert!(is_odd(&blooms[..count], 34.0) && is_odd(&blooms[..count], 8.6));
            assert!(!is_odd(&blooms[..count], 105.0) && !is_odd(&blooms[..count], 70.0));
        }
        assert!(foretold(&DIAMETER, &[], 1).is_none());
        // A plant that was seen to vary is asked after less.
        let wide = [60.0, 140.0, 75.0, 120.0, 90.0].map(|mm| (day(0), mm));
        assert!(is_odd(&blooms, 150.0) && !is_odd(&wide, 150.0));
    }

    /// Of 3,000 invented plants a row, each with six notes of one to six blooms on six days: the share
    /// of notes that are asked about.
    fn asked(within: f64, between: f64) -> f64 {
        let mut random = fastrand::Rng::with_seed(5);
        let mut picks = random.fork();
        let mut normal = move || {
            let (one, other) = (1.0 - random.f64(), random.f64());
            (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
        };
        let (mut notes, mut odd) = (0, 0);
        for _ in 0..3000 {
            let mut known: Vec<(Date, f64)> = Vec::new();
            for at in 0..6 {
                let date = 4.6 + between * normal();
                let count = picks.usize(1..=6);
                let blooms = (0..count).map(|_| (day(at), (date + within * normal()).exp()));
                let blooms: Vec<(Date, f64)> = blooms.collect();
                let is_asked = (0..count).any(|own| {
                    let beside = blooms.iter().enumerate().filter(|(other, _)| *other != own);
                    let beside = beside.map(|(_, one)| *one);
                    let others: Vec<(Date, f64)> = known.iter().copied().chain(beside).collect();
                    let limits = foretold(&DIAMETER, &others, count);
                    let mm = blooms[own].1;
                    limits.is_some_and(|limits| mm < limits.low || mm > limits.high)
                });
                odd += u32::from(is_asked);
                notes += 1;
                known.extend(blooms);
            }
        }
        f64::from(odd) / f64::from(notes)
    }

    #[test]
    fn honest_notes_are_asked_about_less_than_once_in_two_hundred() {
        for (within, between) in [
            (0.03, 0.03),
            (0.05, 0.08),
            (0.08, 0.06),
            (0.1, 0.0),
            (0.1, 0.08),
            (0.12, 0.09),
        ] {
            let share = asked(within, between);
            assert!(share <= ASKED, "{within} {between}: {share}");
        }
    }
}
