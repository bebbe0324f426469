//! What the counts of a season say of its yields.
//!
//! What a variety gives is its plan times `exp(s + o)`: `s` is the season's, the same for all varieties,
//! `o` its own, both normal beforehand ([`Prior`]). Of a variety of which the plan has `P` stems by the
//! day of its last count the stems cut are counts about `P exp(s + o)`, [`DISPERSION`] times as far apart
//! as if each stem came by itself (quasi-Poisson: McCullagh & Nelder, Generalized Linear Models, 1989,
//! chapter 6). The posterior is taken as normal about its mode, with the curvature there (Laplace's
//! approximation: Tierney & Kadane, Journal of the American Statistical Association 81:82-86, 1986).
//! Given `s` the varieties are apart: so the mode is one root in `s` with one in each `o` within, and a
//! variety's own yield is told as what follows from the season's and what is left about that.
//!
//! More stems pull every yield up, more that were planned for pull every one down, and none the other
//! way: in `s` and each `s + o` the posterior is supermodular, so its mode moves one way (Topkis, Operations
//! Research 26:305-321, 1978). The spread about it shrinks as more is known, by less than the mode
//! moves up to `2 / sd` deviations from it: so one that is drawn by the same deviations moves one way too.

use super::going::Counted;
use super::prior::{Log, Prior};

/// How many times as far about its mean a count varies as one of stems that come each by itself: they
/// come in flushes, and not every day is a day for cutting. Assumed.
const DISPERSION: f64 = 3.0;
/// The farthest that the logarithm of a yield is looked for from what was planned.
const FAR: f64 = 12.0;
/// Halvings of that: more do not change a number.
const HALVINGS: usize = 60;

/// A variety's own yield about the season's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Own {
    /// Its logarithm where the season's is at its mean, and the deviation about it.
    pub log: Log,
    /// By how much it follows the season's: -1 where all of the variety's yield is known, so that a
    /// better season leaves less of it to the variety; 0 where nothing was counted.
    pub follows: f64,
}

/// What is known of a season's yields.
#[derive(Debug, Clone, PartialEq)]
pub struct SoFar {
    /// The season's yield, the same for all varieties.
    pub season: Log,
    /// By variety, in the order of the candidates.
    pub own: Vec<Own>,
}

impl SoFar {
    /// What the counts of a season make of what was known before it.
    pub fn of(prior: &Prior, counted: &[Counted]) -> SoFar {
        let season = root(|season| {
            let pull: f64 = { counted.iter() }
                .map(|one| {
                    let own = own_at(season, prior.own[one.candidate], one);
                    off(one, season + own)
                })
                .sum();
            pull - drawn_back(season, prior.season)
        });
        let season = if prior.season.sd > 0.0 {
            season
        } else {
            prior.season.mean
        };
        let mut own: Vec<Own> = prior
            .own
            .iter()
            .map(|log| Own {
                log: *log,
                follows: 0.0,
            })
            .collect();
        let mut sharpness = prior.season.sd.powi(-2);
        for one in counted {
            let before = prior.own[one.candidate];
            let at = own_at(season, before, one);
            let told = one.planned * (season + at).exp() / DISPERSION;
            let share = told * before.sd.powi(2) / (1.0 + told * before.sd.powi(2));
            own[one.candidate] = Own {
                log: Log {
                    mean: at,
                    sd: before.sd * (1.0 - share).sqrt(),
                },
                follows: -share,
            };
            sharpness += told * (1.0 - share);
        }
        SoFar {
            season: Log {
                mean: season,
                sd: sharpness.powf(-0.5),
            },
            own,
        }
    }

    /// What a variety gives, as a share of its plan, in a season so many deviations better than is
    /// likely, with its own yield so many better.
    pub fn share(&self, candidate: usize, season: f64, own: f64) -> f64 {
        let one = &self.own[candidate];
        let season = self.season.sd * season;
        let own = one.log.mean + one.follows * season + one.log.sd * own;
        (self.season.mean + season + own).exp()
    }

    /// The same on average.
    pub fn expected(&self, candidate: usize) -> f64 {
        let log = self.of_variety(candidate);
        (log.mean + log.sd * log.sd / 2.0).exp()
    }

    /// A variety's yield, the season's in it.
    pub fn of_variety(&self, candidate: usize) -> Log {
        let one = &self.own[candidate];
        let with_season = (1.0 + one.follows) * self.season.sd;
        Log {
            mean: self.season.mean + one.log.mean,
            sd: with_season.hypot(one.log.sd),
        }
    }
}

/// How far the stems of a count lie over what such a yield gives.
fn off(one: &Counted, log: f64) -> f64 {
    (f64::from(one.cut) - one.planned * log.exp()) / DISPERSION
}

/// How much a yield is drawn back to what was known before.
fn drawn_back(log: f64, before: Log) -> f64 {
    (log - before.mean) / before.sd.powi(2).max(f64::MIN_POSITIVE)
}

/// A variety's own yield that is likeliest in such a season.
fn own_at(season: f64, before: Log, one: &Counted) -> f64 {
    match before.sd > 0.0 {
        true => root(|own| off(one, season + own) - drawn_back(own, before)),
        false => before.mean,
    }
}

/// Where a falling function is 0.
fn root(falling: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (-FAR, FAR);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        match falling(middle) > 0.0 {
            true => low = middle,
            false => high = middle,
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests;
