//! Days in the vase: the share of stems still fresh, from stems of which some outlast the test.
//!
//! Kaplan & Meier, Journal of the American Statistical Association 53:457-481, 1958; the textbook
//! form is Kleinbaum & Klein, Survival Analysis, ch. 2. Errors by Greenwood's formula, limits by its
//! log-log transform, and the median's interval by Brookmeyer & Crowley, Biometrics 38:29-41, 1982,
//! on the same scale (all three: Klein & Moeschberger, Survival Analysis, 4.2 to 4.5; chapter and
//! verse from memory).

use std::fmt;

use statrs::distribution::{ContinuousCDF, Normal};

use super::LEVEL;
use crate::measure::sample::Interval;

/// One stem of a vase test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stem {
    /// Days from the cut to the stem's end, or to the end of the test.
    pub days: f64,
    /// Whether the stem ended; `false`: still fresh when the test did.
    pub ended: bool,
}

/// The share of stems still fresh, day by day.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// The days on which a stem ended, in order; the share is 1 before the first.
    pub steps: Vec<Step>,
    /// How many stems were tested.
    pub stems: usize,
    /// How many of them were still fresh when their test ended.
    pub censored: usize,
    /// The last day on which any stem was watched.
    pub watched: f64,
    /// The first day on which half or fewer are fresh; `None`: not reached.
    pub median: Option<f64>,
    /// The median's limits at 95 %.
    pub median_limits: MedianLimits,
}

/// A day on which stems ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Days from the cut.
    pub day: f64,
    /// Stems watched up to this day: one found still fresh on it, when its test ended, counts.
    pub at_risk: usize,
    /// How many of them ended on it.
    pub ended: usize,
    /// The share still fresh after it, 0 to 1.
    pub share: f64,
    /// Greenwood's standard error of the share; `None` at a share of 0, where it is undefined.
    pub error: Option<f64>,
    /// The share's limits at 95 %; `None` at a share of 0.
    pub limits: Option<Interval>,
}

/// The limits of a median; each may be out of reach of the test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MedianLimits {
    /// Lower limit in days; `None`: not reached.
    pub low: Option<f64>,
    /// Upper limit in days; `None`: not reached. That the last stem ended is no limit: there the
    /// share is 0 and has no limits of its own (as in R's survival package, from memory; others take that day).
    pub high: Option<f64>,
}

/// The mean days fresh when nobody looks past a given day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RestrictedMean {
    /// The area under the curve to that day.
    pub days: f64,
    /// Its standard error, by Greenwood's sum.
    pub error: f64,
}

/// Why a curve should be read with care. The gravest reason is the one given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    /// So few stems ended that no median could be bounded on both sides.
    FewEnded(usize),
    /// Over half of the stems outlasted the test.
    MostlyFresh {
        /// How many were still fresh.
        censored: usize,
        /// Of how many.
        stems: usize,
    },
    /// So few stems that the limits are rough.
    FewStems(usize),
}

impl Curve {
    /// The curve of `stems`, in any order. `None` of no stems, or where a stem's days are negative
    /// or not a number.
    pub fn of(stems: &[Stem]) -> Option<Curve> {
        let sound = |stem: &Stem| stem.days.is_finite() && stem.days >= 0.0;
        if !stems.iter().all(sound) {
            return None;
        }
        let mut sorted = stems.to_vec();
        sorted.sort_by(|one, other| one.days.total_cmp(&other.days));
        let watched = sorted.last()?.days;
        let steps = steps(&sorted);
        let first = |falls: &dyn Fn(&Step) -> bool| {
            let step = steps.iter().find(|step| falls(step));
            step.map(|step| step.day)
        };
        // No limits are defined at a share of 0; the lower one is then surely no more than that.
        let median_limits = MedianLimits {
            low: first(&|step| is_half_or_less(step.limits.map_or(0.0, |limits| limits.low))),
            high: first(&|step| is_half_or_less(step.limits.map_or(1.0, |limits| limits.high))),
        };
        Some(Curve {
            median: first(&|step| is_half_or_less(step.share)),
            median_limits,
            stems: stems.len(),
            censored: stems.iter().filter(|stem| !stem.ended).count(),
            watched,
            steps,
        })
    }

    /// The share still fresh after `day`. `None` before day 0, and past the last day watched
    /// unless every stem had ended by then.
    pub fn share_at(&self, day: f64) -> Option<f64> {
        let step = self.steps.iter().rev().find(|step| step.day <= day);
        let share = step.map_or(1.0, |step| step.share);
        (day >= 0.0 && (day <= self.watched || share == 0.0)).then_some(share)
    }

    /// The mean days fresh up to `day`, which two entries may be compared by even where a median
    /// is not reached. `None` where [`Curve::share_at`] is.
    pub fn mean_to(&self, day: f64) -> Option<RestrictedMean> {
        self.share_at(day).filter(|_| day.is_finite())?;
        let (mut area, mut variance, mut until) = (0.0, 0.0, day);
        for step in self.steps.iter().rev().filter(|step| step.day < day) {
            area += step.share * (until - step.day);
            until = step.day;
            // Where none is left the area after the step is 0, and so is what it adds.
            variance += greenwood_term(step.at_risk, step.ended).map_or(0.0, |v| v * area * area);
        }
        Some(RestrictedMean {
            days: area + until,
            error: variance.sqrt(),
        })
    }

    /// What to be careful about, or `None`.
    ///
    /// - Under 6 stems ended: even the exact sign test on uncensored stems cannot bound a median
    ///   on both sides at 95 % with five, since 2 x 0.5^5 is 6.25 %.
    /// - Over half censored, or under 25 stems: the log-log limits hold their level down to 25
    ///   stems of which up to half are censored (Borgan & Liestol, Scandinavian Journal of
    ///   Statistics 17:35-41, 1990, as Klein & Moeschberger 4.3 tells it; from memory).
    pub fn caution(&self) -> Option<Caution> {
        let (stems, censored) = (self.stems, self.censored);
        if stems - censored < LEAST_ENDED {
            Some(Caution::FewEnded(stems - censored))
        } else if 2 * censored > stems {
            Some(Caution::MostlyFresh { censored, stems })
        } else {
            (stems < LEAST_STEMS).then_some(Caution::FewStems(stems))
        }
    }
}

/// The least stems ended by which a median can be bounded at 95 %.
const LEAST_ENDED: usize = 6;

/// The least stems for which the limits were found to hold their level.
const LEAST_STEMS: usize = 25;

/// A product of fractions that comes to a half may miss it by the last digits.
fn is_half_or_less(share: f64) -> bool {
    share <= 0.5 + 1e-9
}

/// What `ended` of `at_risk` adds to Greenwood's sum; `None` where none is left.
fn greenwood_term(at_risk: usize, ended: usize) -> Option<f64> {
    let left = at_risk - ended;
    (left > 0).then(|| ended as f64 / (at_risk as f64 * left as f64))
}

/// The steps of stems sorted by their days.
fn steps(sorted: &[Stem]) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut at_risk = sorted.len();
    let (mut share, mut sum) = (1.0, Some(0.0));
    for same_day in sorted.chunk_by(|one, other| one.days == other.days) {
        let ended = same_day.iter().filter(|stem| stem.ended).count();
        if ended > 0 {
            share *= (at_risk - ended) as f64 / at_risk as f64;
            sum = sum.and_then(|sum| Some(sum + greenwood_term(at_risk, ended)?));
            let error = sum.map(f64::sqrt);
            steps.push(Step {
                day: same_day[0].days,
                at_risk,
                ended,
                share,
                error: error.map(|error| share * error),
                limits: error.map(|error| log_log_limits(share, error)),
            });
        }
        at_risk -= same_day.len();
    }
    steps
}

/// The limits of a share strictly between 0 and 1; `error` is that of its logarithm.
fn log_log_limits(share: f64, error: f64) -> Interval {
    let width = Normal::standard().inverse_cdf(0.5 + LEVEL / 2.0) * error / share.ln().abs();
    Interval {
        low: share.powf(width.exp()),
        high: share.powf((-width).exp()),
    }
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Caution::FewEnded(0) => {
                write!(
                    f,
                    "small numbers: no stem ended, so nothing bounds the vase life above"
                )
            }
            Caution::FewEnded(ended) => write!(
                f,
                "small numbers: {ended} of the stems ended; under {LEAST_ENDED} cannot bound a median"
            ),
            Caution::MostlyFresh { censored, stems } => write!(
                f,
                "{censored} of {stems} stems were still fresh at the end, so the limits are rough"
            ),
            Caution::FewStems(stems) => write!(
                f,
                "small numbers: {stems} stems; under {LEAST_STEMS} the limits are rough"
            ),
        }
    }
}

#[cfg(test)]
#[path = "survival_tests.rs"]
pub(super) mod tests;
