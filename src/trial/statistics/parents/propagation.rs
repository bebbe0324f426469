//! The row's level and its parents at one spread, by expectation propagation.
//!
//! What was decided of each cross is replaced by a normal *site* in the cross's own predictor, found
//! so that it agrees in mean and variance with the true chance beside all other sites (Rasmussen &
//! Williams, Gaussian Processes for Machine Learning, 2006, 3.6; from memory). Mean and variance of
//! one seedling are exact; those of several of one cross are summed over points. All sites are
//! renewed at a time, which wants one inverse a sweep of a matrix as wide as there are parents.

use std::collections::BTreeMap;
use std::f64::consts::PI;

use statrs::distribution::{Continuous, ContinuousCDF, Normal};

use super::decided::Decided;

/// What was decided, cross by cross.
pub(super) struct Model {
    crosses: Vec<Cross>,
}

/// Seedlings of the same parents: how many stay, and how many were culled.
struct Cross {
    parents: [Option<usize>; 2],
    stay: f64,
    culled: f64,
}

/// The normal stand-in of what was decided of a cross, in its predictor: its precision, and that
/// times its mean.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Site {
    precision: f64,
    shift: f64,
}

/// What is known at one spread.
pub(super) struct Posterior {
    /// The spread.
    pub(super) spread: f64,
    /// The logarithm of the chance of all that was decided.
    pub(super) log_evidence: f64,
    /// The probit of the share of each named parent's seedlings with mates as in the row.
    pub(super) parents: Vec<Probit>,
    /// The same of a parent that has no seedling in the row.
    pub(super) new: Probit,
}

/// A probit that is known as normal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Probit {
    pub(super) mean: f64,
    pub(super) deviation: f64,
}

/// How far a site goes towards its new value in one sweep at first; half as far from then on
/// whenever a sweep moves more than the one before, which would swing for ever.
const PACE: f64 = 0.9;
const LEAST_PACE: f64 = 0.1;
/// Sites that move no farther than this, in their own size where that is over 1, are at rest.
const REST: f64 = 1e-4;
/// Sweeps after which it is given up; some five are usual.
const MOST_SWEEPS: usize = 200;

impl Model {
    pub(super) fn of(decided: impl Iterator<Item = Decided>) -> Model {
        let mut counts: BTreeMap<[Option<usize>; 2], (f64, f64)> = BTreeMap::new();
        for mut one in decided {
            // Seed or pollen parent makes no difference.
            one.parents.sort_unstable();
            let (stay, culled) = counts.entry(one.parents).or_default();
            *(if one.stays { stay } else { culled }) += 1.0;
        }
        let cross = |(parents, (stay, culled))| Cross {
            parents,
            stay,
            culled,
        };
        Model {
            crosses: counts.into_iter().map(cross).collect(),
        }
    }

    /// The posterior of `named` parents at a spread. The sites are begun from those of a spread
    /// nearby, and left as they are found.
    pub(super) fn posterior(&self, named: usize, spread: f64, sites: &mut Vec<Site>) -> Posterior {
        if sites.is_empty() {
            *sites = self.crosses.iter().map(Cross::first_site).collect();
        }
        let predictors: Vec<Vec<(usize, f64)>> = self
            .crosses
            .iter()
            .map(|cross| predictor(cross.parents, spread))
            .collect();
        let mut field = Field::new(named, spread);
        let (mut pace, mut before) = (PACE, f64::INFINITY);
        let mut log_factors = 0.0;
        for _ in 0..MOST_SWEEPS {
            field.take(&predictors, sites);
            let (mut farthest, mut unrest) = (0.0_f64, 0.0_f64);
            let mut moved = Vec::with_capacity(sites.len());
            log_factors = 0.0;
            for ((cross, predictor), site) in self.crosses.iter().zip(&predictors).zip(&*sites) {
                let law = field.of(predictor);
                let cavity = Cavity::without(*site, law);
                let true_law = cavity.with(cross, law);
                let fresh = cavity.site(true_law);
                let precision = fresh.precision - site.precision;
                let shift = fresh.shift - site.shift;
                for (moves, from) in [(precision, site.precision), (shift, site.shift)] {
                    farthest = farthest.max(moves.abs());
                    unrest = unrest.max(moves.abs() / (1.0 + from.abs()));
                }
                log_factors += true_law.log_mass - cavity.log_mass_with(*site);
                moved.push(Site {
                    precision: site.precision + pace * precision,
                    shift: site.shift + pace * shift,
                });
            }
            if unrest < REST {
                break;
            }
            if farthest > before {
                pace = (pace / 2.0).max(LEAST_PACE);
            }
            before = farthest;
            *sites = moved;
        }
        let mate = 1.0 / (1.0 + spread * spread).sqrt();
        let parent = |at: usize| {
            let law = field.of(&[(0, mate), (at + 1, spread * mate)]);
            Probit {
                mean: law.mean,
                deviation: law.variance.sqrt(),
            }
        };
        let level = field.of(&[(0, mate)]);
        Posterior {
            spread,
            log_evidence: field.log_mass() + log_factors,
            parents: (0..named).map(parent).collect(),
            new: Probit {
                mean: level.mean,
                deviation: (level.variance + spread * spread * mate * mate).sqrt(),
            },
        }
    }
}

/// The places and factors that a seedling's probit is the sum over: 0 is the row's level, the others
/// the parents in units of the spread. A parent without a name is averaged over, which for a
/// normal one leaves a probit.
fn predictor(parents: [Option<usize>; 2], spread: f64) -> Vec<(usize, f64)> {
    let unnamed = parents.iter().filter(|parent| parent.is_none()).count();
    let scale = 1.0 / (1.0 + unnamed as f64 * spread * spread).sqrt();
    let mut places = vec![(0, scale)];
    match parents {
        [Some(one), Some(other)] if one == other => places.push((one + 1, 2.0 * spread * scale)),
        _ => {
            let named = parents.iter().flatten();
            places.extend(named.map(|parent| (parent + 1, spread * scale)));
        }
    }
    places
}

/// Level and parents as a normal law of many: the prior and all sites.
struct Field {
    size: usize,
    /// The prior precision of the level; that of each parent, in units of the spread, is 1.
    level: f64,
    shift: Vec<f64>,
    mean: Vec<f64>,
    /// Row by row.
    covariance: Vec<f64>,
    log_determinant: f64,
}

impl Field {
    /// The prior by which the row's share, over parents and seedlings, may be anything from 0 to 1.
    fn new(named: usize, spread: f64) -> Field {
        let size = named + 1;
        Field {
            size,
            level: 1.0 / (1.0 + 2.0 * spread * spread),
            shift: vec![0.0; size],
            mean: vec![0.0; size],
            covariance: vec![0.0; size * size],
            log_determinant: 0.0,
        }
    }

    /// The law with these sites in it.
    fn take(&mut self, predictors: &[Vec<(usize, f64)>], sites: &[Site]) {
        let size = self.size;
        self.shift.fill(0.0);
        self.covariance.fill(0.0);
        for at in 0..size {
            self.covariance[at * size + at] = if at == 0 { self.level } else { 1.0 };
        }
        for (predictor, site) in predictors.iter().zip(sites) {
            for (at, factor) in predictor {
                self.shift[*at] += site.shift * factor;
                for (beside, other) in predictor {
                    self.covariance[at * size + beside] += site.precision * factor * other;
                }
            }
        }
        self.log_determinant = invert(&mut self.covariance, size);
        for (mean, row) in self.mean.iter_mut().zip(self.covariance.chunks_exact(size)) {
            *mean = row.iter().zip(&self.shift).map(|(a, b)| a * b).sum();
        }
    }

    /// Mean and variance of a sum over places.
    fn of(&self, predictor: &[(usize, f64)]) -> Law {
        let (mut mean, mut variance) = (0.0, 0.0);
        for (at, factor) in predictor {
            mean += factor * self.mean[*at];
            for (beside, other) in predictor {
                variance += factor * other * self.covariance[at * self.size + beside];
            }
        }
        Law { mean, variance }
    }

    /// The logarithm of what is left when the prior times all sites is summed over.
    fn log_mass(&self) -> f64 {
        let fit: f64 = self.mean.iter().zip(&self.shift).map(|(a, b)| a * b).sum();
        (self.level.ln() - self.log_determinant + fit) / 2.0
    }
}

/// Mean and variance of a predictor.
#[derive(Debug, Clone, Copy)]
struct Law {
    mean: f64,
    variance: f64,
}

/// A cavity times the true chance of what was decided: its law, and the logarithm of its mass.
#[derive(Debug, Clone, Copy)]
struct TrueLaw {
    law: Law,
    log_mass: f64,
}

/// A predictor's law without the cross's own site.
struct Cavity {
    precision: f64,
    shift: f64,
}

/// How far on either side, and at most how far apart, are the points over which several seedlings of
/// a cross are summed, in deviations: over bell curves such sums are exact to many digits.
const REACH: f64 = 7.0;
const APART: f64 = 1.0;
/// Nor are they farther apart than this: where all of many fared alike their chance falls from one to
/// none within less than one unit of the predictor, however little else is known.
const FINEST: f64 = 0.4;

impl Cross {
    /// Where the sites begin: near what the cross alone would say.
    fn first_site(&self) -> Site {
        let all = self.stay + self.culled;
        let probit = Normal::standard().inverse_cdf((self.stay + 0.5) / (all + 1.0));
        let precision = all / 2.0;
        Site {
            precision,
            shift: precision * probit,
        }
    }

    /// The logarithm of the chance of what was decided, given the predictor.
    fn log_chance(&self, predictor: f64) -> f64 {
        let normal = Normal::standard();
        let times = |count: f64, along: f64| match count {
            0.0 => 0.0,
            _ => count * normal.cdf(along).max(f64::MIN_POSITIVE).ln(),
        };
        times(self.stay, predictor) + times(self.culled, -predictor)
    }
}

impl Cavity {
    fn without(site: Site, law: Law) -> Cavity {
        Cavity {
            precision: 1.0 / law.variance - site.precision,
            shift: law.mean / law.variance - site.shift,
        }
    }

    /// With the true chance of the cross in place of its site; `near` is about where that is.
    fn with(&self, cross: &Cross, near: Law) -> TrueLaw {
        match (cross.stay, cross.culled) {
            (1.0, 0.0) => self.with_one(1.0),
            (0.0, 1.0) => self.with_one(-1.0),
            _ => self.with_several(cross, near),
        }
    }

    /// With one seedling that stays (1) or was culled (-1): in closed form.
    fn with_one(&self, sign: f64) -> TrueLaw {
        let normal = Normal::standard();
        let variance = 1.0 / self.precision;
        let whole = (1.0 + variance).sqrt();
        let along = sign * self.shift * variance / whole;
        let chance = normal.cdf(along).max(f64::MIN_POSITIVE);
        let ratio = normal.pdf(along) / chance;
        TrueLaw {
            law: Law {
                mean: self.shift * variance + sign * variance * ratio / whole,
                variance: variance * (1.0 - variance * ratio * (along + ratio) / (1.0 + variance)),
            },
            log_mass: chance.ln(),
        }
    }

    fn with_several(&self, cross: &Cross, near: Law) -> TrueLaw {
        let deviation = near.variance.sqrt();
        let beside = (REACH * deviation / FINEST.min(APART * deviation)).ceil() as i32;
        let step = REACH * deviation / f64::from(beside);
        let middle = self.shift / self.precision;
        let points = (-beside..=beside).map(|at| {
            let predictor = near.mean + f64::from(at) * step;
            let away = predictor - middle;
            let log = cross.log_chance(predictor) - self.precision * away * away / 2.0;
            (predictor, log)
        });
        let points: Vec<(f64, f64)> = points.collect();
        let best = points.iter().map(|(_, log)| *log);
        let best = best.fold(f64::NEG_INFINITY, f64::max);
        let (mut mass, mut first, mut second) = (0.0, 0.0, 0.0);
        for (predictor, log) in points {
            let weight = (log - best).exp();
            let away = predictor - near.mean;
            mass += weight;
            first += weight * away;
            second += weight * away * away;
        }
        let away = first / mass;
        let wide = (2.0 * PI / self.precision).sqrt();
        TrueLaw {
            law: Law {
                mean: near.mean + away,
                // All on one point is a law far narrower than the points are apart.
                variance: (second / mass - away * away).max(step * step / 25.0),
            },
            log_mass: best + (mass * step / wide).ln(),
        }
    }

    /// The site by which the cavity becomes such a law.
    fn site(&self, TrueLaw { law, .. }: TrueLaw) -> Site {
        Site {
            // A chance of counts never widens what is known.
            precision: (1.0 / law.variance - self.precision).max(0.0),
            shift: law.mean / law.variance - self.shift,
        }
    }

    /// The logarithm of the mass of the cavity times a site.
    fn log_mass_with(&self, site: Site) -> f64 {
        let precision = self.precision + site.precision;
        let shift = self.shift + site.shift;
        (self.precision / precision).ln() / 2.0
            + (shift * shift / precision - self.shift * self.shift / self.precision) / 2.0
    }
}

/// Inverts a symmetric, positive matrix in its place by Gauss and Jordan's steps, which need no
/// pivoting for such a one; the logarithm of its determinant.
fn invert(matrix: &mut [f64], size: usize) -> f64 {
    let mut log_determinant = 0.0;
    let mut pivot_row = vec![0.0; size];
    for at in 0..size {
        let row = &mut matrix[at * size..(at + 1) * size];
        let pivot = std::mem::replace(&mut row[at], 1.0);
        log_determinant += pivot.ln();
        row.iter_mut().for_each(|value| *value /= pivot);
        pivot_row.copy_from_slice(row);
        for (other, row) in matrix.chunks_exact_mut(size).enumerate() {
            let factor = row[at];
            // Parents with no seedling in common leave many places empty.
            if other == at || factor == 0.0 {
                continue;
            }
            row[at] = 0.0;
            let places = row.iter_mut().zip(&pivot_row);
            places.for_each(|(value, pivot)| *value -= factor * pivot);
        }
    }
    log_determinant
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_matrix_is_inverted() {
        let matrix = [4.0, 2.0, 0.0, 2.0, 3.0, 1.0, 0.0, 1.0, 2.0];
        let mut inverse = matrix;
        // By hand: the determinant is 4 (6 - 1) - 2 x 4 = 12.
        assert!((invert(&mut inverse, 3) - 12.0_f64.ln()).abs() < 1e-12);
        for row in 0..3 {
            for column in 0..3 {
                let product: f64 = (0..3)
                    .map(|at| matrix[row * 3 + at] * inverse[at * 3 + column])
                    .sum();
                let expected = if row == column { 1.0 } else { 0.0 };
                assert!((product - expected).abs() < 1e-12);
            }
        }
    }
}
