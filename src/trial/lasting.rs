//! Does this plant last longer in the vase than that one? Two to four plants by their vase tests.
//!
//! A claim is made by the permutation test alone, since vase tests are small; the log-rank test's own
//! p stands beside it. Where there are more pairs than one, each p is made larger by Holm's rule
//! (Scandinavian Journal of Statistics 6:65-70, 1979), so that the chance of any false claim at all
//! stays at 5 %. Every stem is taken as independent of the others; stems of one day are alike, so
//! plants that were tested on one day only are named.

use std::ops::RangeInclusive;

use super::evidence::Evidence;
use super::row::Trial;
use super::seedling::Subject;
use super::statistics::LEVEL;
use super::statistics::log_rank::LogRank;
use super::statistics::more_stems::more_of_each;
use super::statistics::permutation::{Basis, Permutation};
use super::statistics::survival::{Curve, Stem};

mod telling;

pub use telling::{Beside, beside};

/// How many plants may be compared.
pub const COMPARED: RangeInclusive<usize> = 2..=4;

/// Plants' vase tests beside each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Lasting {
    /// The plants, in the order that was asked.
    pub plants: Vec<Tested>,
    /// All of them at once, where more than two can be compared.
    pub all: Option<Tests>,
    /// Each pair that has a vase test on both sides.
    pub pairs: Vec<Pair>,
}

/// A plant's vase tests.
#[derive(Debug, Clone, PartialEq)]
pub struct Tested {
    /// The plant.
    pub subject: Subject,
    /// Its stems; none where it was never tested.
    pub stems: Vec<Stem>,
    /// The share still fresh, day by day; `None` where it was never tested.
    pub curve: Option<Curve>,
    /// The days on which tests of it were noted.
    pub days: usize,
}

/// Both tests of the same stems.
#[derive(Debug, Clone, PartialEq)]
pub struct Tests {
    /// By chi-square.
    pub log_rank: LogRank,
    /// By every arrangement of the stems, or many of them.
    pub permutation: Permutation,
}

/// Two plants compared.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The places of the two among the plants.
    pub plants: [usize; 2],
    /// The tests; `None` where no day tells the two apart.
    pub tests: Option<Tests>,
    /// The permutation's p by Holm's rule over all pairs; `None` without tests.
    pub adjusted: Option<f64>,
    /// What can be said.
    pub verdict: Verdict,
}

/// What can be said of two plants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// The plant at this place lasts longer.
    Longer(usize),
    /// No difference can be told. So many more stems of each would tell one such as was seen, four
    /// times in five; `None`: more than a grower would test.
    NotTold(Option<u32>),
    /// So few stems that no outcome could have told: so many of each are the least that can.
    TooFew(u32),
    /// No stem of either ended while the other was watched.
    Nothing,
}

impl Lasting {
    /// Compares plants by what their evidence holds; of any number, though [`COMPARED`] are asked for.
    pub fn of(trial: &Trial, evidence: &[&Evidence]) -> Lasting {
        let tested = |one: &&Evidence| Tested {
            subject: one.subject.clone(),
            stems: one.vase_stems.clone(),
            curve: one.vase.clone(),
            days: days_tested(trial, &one.subject),
        };
        Lasting::between(evidence.iter().map(tested).collect())
    }

    fn between(plants: Vec<Tested>) -> Lasting {
        let tested: Vec<usize> = (0..plants.len())
            .filter(|at| !plants[*at].stems.is_empty())
            .collect();
        let stems = |at: &usize| plants[*at].stems.as_slice();
        let places = tested.iter().enumerate();
        let places = places.flat_map(|(at, one)| {
            let others = tested[at + 1..].iter();
            others.map(|other| [*one, *other])
        });
        let places: Vec<[usize; 2]> = places.collect();
        let tests: Vec<Option<Tests>> = places
            .iter()
            .map(|[one, other]| Tests::of(&[stems(one), stems(other)]))
            .collect();
        let p = |tests: &Option<Tests>| tests.as_ref().map(|tests| tests.permutation.p);
        let adjusted = holm(&tests.iter().map(p).collect::<Vec<_>>());
        let pairs = places.iter().zip(tests).zip(adjusted);
        let pairs = pairs.map(|((pair, tests), adjusted)| Pair {
            plants: *pair,
            verdict: verdict(*pair, tests.as_ref(), adjusted, places.len(), &plants),
            tests,
            adjusted,
        });
        let pairs: Vec<Pair> = pairs.collect();
        let all = (tested.len() > 2).then(|| tested.iter().map(stems).collect::<Vec<_>>());
        Lasting {
            all: all.and_then(|samples| Tests::of(&samples)),
            pairs,
            plants,
        }
    }
}

impl Tests {
    fn of(samples: &[&[Stem]]) -> Option<Tests> {
        Some(Tests {
            log_rank: LogRank::of(samples)?,
            permutation: Permutation::of(samples)?,
        })
    }
}

fn verdict(
    pair: [usize; 2],
    tests: Option<&Tests>,
    adjusted: Option<f64>,
    pairs: usize,
    plants: &[Tested],
) -> Verdict {
    let (Some(tests), Some(adjusted)) = (tests, adjusted) else {
        return Verdict::Nothing;
    };
    let level = 1.0 - LEVEL;
    if adjusted < level {
        let longer = usize::from(tests.log_rank.samples[0].excess() > 0.0);
        return Verdict::Longer(pair[longer]);
    }
    // As sharp as the sharpest of so many pairs must be.
    let each = level / pairs as f64;
    match tests.permutation.basis {
        Basis::Exact { least, .. } if least >= each => Verdict::TooFew(least_of_each(each)),
        _ => {
            let stems = pair.map(|at| plants[at].stems.len());
            Verdict::NotTold(more_of_each(&tests.log_rank, stems, each))
        }
    }
}

/// The least number of stems of each of two plants of which one arrangement and its mirror image are
/// a smaller share than `level`.
fn least_of_each(level: f64) -> u32 {
    let (mut stems, mut arrangements) = (1_u32, 2.0_f64);
    while 2.0 / arrangements >= level {
        stems += 1;
        // 2n over n from 2n - 2 over n - 1.
        arrangements *= 2.0 * f64::from(2 * stems - 1) / f64::from(stems);
    }
    stems
}

/// Each p times how many are as large or larger, and none under a smaller one's.
fn holm(p: &[Option<f64>]) -> Vec<Option<f64>> {
    let mut order: Vec<usize> = (0..p.len()).filter(|at| p[*at].is_some()).collect();
    order.sort_by(|a, b| p[*a].unwrap_or(1.0).total_cmp(&p[*b].unwrap_or(1.0)));
    let mut adjusted = vec![None; p.len()];
    let mut most = 0.0_f64;
    for (rank, at) in order.iter().enumerate() {
        let times = (order.len() - rank) as f64;
        most = most.max((times * p[*at].unwrap_or(1.0)).min(1.0));
        adjusted[*at] = Some(most);
    }
    adjusted
}

fn days_tested(trial: &Trial, subject: &Subject) -> usize {
    let observations = trial.observations(subject);
    let tests = observations
        .iter()
        .filter(|(_, seen)| !seen.vase.is_empty());
    let mut days: Vec<_> = tests.map(|(entry, _)| entry.date).collect();
    days.sort_unstable();
    days.dedup();
    days.len()
}

#[cfg(test)]
mod tests;
