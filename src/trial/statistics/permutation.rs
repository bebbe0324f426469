//! The log-rank test without its large-sample law: by every arrangement of the stems.
//!
//! Where no plant lasts longer than another, any of the stems tested might as well have been any
//! plant's. A sample's ends beyond those expected are the sum of its stems' scores, *ended or not*
//! less the hazard summed to the stem's last day, both of all stems together (the log-rank scores of
//! Peto & Peto, Journal of the Royal Statistical Society A 135:185-206, 1972; from memory). So the
//! arrangements share one set of scores. Arrangements are weighed by the sum over samples of excess
//! squared by the sample's size, which for two samples orders them as the log-rank excess does, and p
//! is the share of them that differ as much as what was seen or more.
//!
//! Exact where stems of all samples were watched alike: tests that end on different days for
//! different plants make it approximate (Heinze, Gnant & Schemper, Biometrics 59:1151-1157, 2003;
//! from memory).

use super::survival::Stem;

/// What the arrangements of the stems say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Permutation {
    /// The share of arrangements that differ so much or more.
    pub p: f64,
    /// How it was found.
    pub basis: Basis,
}

/// How the share of arrangements was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Basis {
    /// All of them were gone through.
    Exact {
        /// How many there are, stems taken as distinct.
        arrangements: f64,
        /// The smallest share that any arrangement of these stems could have come to.
        least: f64,
    },
    /// There are too many: [`DRAWN`] of them were drawn, always the same ones.
    Drawn {
        /// The standard error of the share.
        error: f64,
    },
}

/// Different arrangements up to which all are gone through; stems of one day that fared alike are
/// interchangeable and make no new one. Our choice, for speed: two samples of 20 stems over a week
/// have fewer.
pub const MOST_ARRANGEMENTS: usize = 200_000;

/// Arrangements drawn where there are more.
pub const DRAWN: u32 = 20_000;

const SEED: u64 = 20_260_820;

/// Sums of the same stems in another order differ by the last digits.
const ROUNDING: f64 = 1e-9;

impl Permutation {
    /// Compares samples of sound stems, in any order. `None` where [`super::log_rank::LogRank::of`]
    /// is.
    pub fn of(samples: &[&[Stem]]) -> Option<Permutation> {
        super::log_rank::LogRank::of(samples)?;
        let sizes: Vec<usize> = samples.iter().map(|sample| sample.len()).collect();
        let scores = scores(samples);
        let seen = samples.iter().scan(0, |from, sample| {
            let own = &scores[*from..*from + sample.len()];
            *from += sample.len();
            Some(own.iter().sum::<f64>())
        });
        let seen = least_as_far(&seen.collect::<Vec<_>>(), &sizes, &scores);
        let exact = Enumeration::of(&scores, &sizes, seen);
        Some(exact.unwrap_or_else(|| drawn(scores, &sizes, seen)))
    }
}

/// How far an arrangement is from no difference.
fn distance(excess: &[f64], sizes: &[usize]) -> f64 {
    let squares = excess.iter().zip(sizes);
    squares.map(|(sum, size)| sum * sum / *size as f64).sum()
}

/// What an arrangement's distance must be at least to be as far as the one seen. Samples that differ in
/// nothing are 0 apart but for the last digits of the scores, so that these count too.
fn least_as_far(excess: &[f64], sizes: &[usize], scores: &[f64]) -> f64 {
    let squares: f64 = scores.iter().map(|score| score * score).sum();
    distance(excess, sizes) * (1.0 - ROUNDING) - squares * ROUNDING
}

/// Each stem's score, sample by sample.
fn scores(samples: &[&[Stem]]) -> Vec<f64> {
    let all: Vec<Stem> = samples.iter().copied().flatten().copied().collect();
    let mut days: Vec<f64> = all.iter().map(|stem| stem.days).collect();
    days.sort_by(f64::total_cmp);
    days.dedup();
    let mut hazard = 0.0;
    let hazards: Vec<f64> = days
        .iter()
        .map(|day| {
            let at_risk = all.iter().filter(|stem| stem.days >= *day).count();
            let ended = all.iter().filter(|stem| stem.ended && stem.days == *day);
            hazard += ended.count() as f64 / at_risk as f64;
            hazard
        })
        .collect();
    let score = |stem: &Stem| {
        let at = days.partition_point(|day| *day < stem.days);
        f64::from(u8::from(stem.ended)) - hazards[at]
    };
    all.iter().map(score).collect()
}

/// Going through all arrangements: how many stems of each score go to each sample.
struct Enumeration<'a> {
    sizes: &'a [usize],
    seen: f64,
    /// Scores that differ, each with the number of its stems.
    scores: Vec<(f64, usize)>,
    /// Places left in each sample, and the sum of what is in it.
    left: Vec<usize>,
    sums: Vec<f64>,
    gone_through: usize,
    all: f64,
    as_far: f64,
    farthest: (f64, f64),
}

impl Enumeration<'_> {
    /// `None` where there are too many.
    fn of(scores: &[f64], sizes: &[usize], seen: f64) -> Option<Permutation> {
        let mut sorted = scores.to_vec();
        sorted.sort_by(f64::total_cmp);
        let scores = sorted
            .chunk_by(|one, other| other - one < ROUNDING)
            .map(|alike| (alike[0], alike.len()))
            .collect();
        let mut all = Enumeration {
            sizes,
            seen,
            scores,
            left: sizes.to_vec(),
            sums: vec![0.0; sizes.len()],
            gone_through: 0,
            all: 0.0,
            as_far: 0.0,
            farthest: (0.0, 0.0),
        };
        all.place(0, 0, None, 1.0).then(|| Permutation {
            p: (all.as_far / all.all).min(1.0),
            basis: Basis::Exact {
                arrangements: all.all,
                least: (all.farthest.1 / all.all).min(1.0),
            },
        })
    }

    /// Puts the stems of one score from one sample on, `unplaced` of them (`None`: all), in every
    /// way, and then those of the next. `ways` is how many arrangements of distinct stems this is so far.
    /// `false` where there are too many.
    fn place(&mut self, score: usize, sample: usize, unplaced: Option<usize>, ways: f64) -> bool {
        let Some((value, number)) = self.scores.get(score).copied() else {
            return self.count(ways);
        };
        let unplaced = unplaced.unwrap_or(number);
        let last = sample + 1 == self.left.len();
        let least = if last { unplaced } else { 0 };
        let most = unplaced.min(self.left[sample]);
        let (mut ways, before) = (ways, self.sums[sample]);
        for here in 0..=most {
            if here > 0 {
                ways *= (unplaced - here + 1) as f64 / here as f64;
            }
            if here < least {
                continue;
            }
            self.left[sample] -= here;
            self.sums[sample] = before + here as f64 * value;
            let done = match last {
                true => self.place(score + 1, 0, None, ways),
                false => self.place(score, sample + 1, Some(unplaced - here), ways),
            };
            self.left[sample] += here;
            if !done {
                return false;
            }
        }
        self.sums[sample] = before;
        true
    }

    fn count(&mut self, ways: f64) -> bool {
        self.gone_through += 1;
        self.all += ways;
        let far = distance(&self.sums, self.sizes);
        if far >= self.seen {
            self.as_far += ways;
        }
        let (farthest, so_far) = &mut self.farthest;
        if far > *farthest * (1.0 + ROUNDING) {
            (*farthest, *so_far) = (far, ways);
        } else if far >= *farthest * (1.0 - ROUNDING) {
            *so_far += ways;
        }
        self.gone_through <= MOST_ARRANGEMENTS
    }
}

/// By arrangements drawn; what was seen counts as one of them, so that p is never 0 (Phipson & Smyth,
/// Statistical Applications in Genetics and Molecular Biology 9:39, 2010; from memory).
fn drawn(mut scores: Vec<f64>, sizes: &[usize], seen: f64) -> Permutation {
    let mut random = fastrand::Rng::with_seed(SEED);
    let mut as_far = 1;
    let mut sums = vec![0.0; sizes.len()];
    for _ in 0..DRAWN {
        random.shuffle(&mut scores);
        let mut from = 0;
        for (sum, size) in sums.iter_mut().zip(sizes) {
            *sum = scores[from..from + size].iter().sum();
            from += size;
        }
        as_far += u32::from(distance(&sums, sizes) >= seen);
    }
    let p = f64::from(as_far) / f64::from(DRAWN + 1);
    Permutation {
        p,
        basis: Basis::Drawn {
            error: (p * (1.0 - p) / f64::from(DRAWN)).sqrt(),
        },
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::survival::tests::{PLACEBO, TREATED_CENSORED, TREATED_ENDED, sample, stems};
    use super::*;

    fn exact(samples: &[&[Stem]]) -> (f64, f64, f64) {
        let found = Permutation::of(samples).expect("samples that can be compared");
        match found.basis {
            Basis::Exact {
                arrangements,
                least,
            } => (found.p, arrangements, least),
            Basis::Drawn { .. } => panic!("{found:?}"),
        }
    }

    #[test]
    fn three_against_three_cannot_come_under_a_tenth() {
        let (early, late) = (sample(&[2., 3., 4.], &[]), sample(&[6., 7., 8.], &[]));
        // By hand: 6 over 3 is 20, and only this arrangement and its mirror image are so far apart.
        let (p, arrangements, least) = exact(&[&early, &late]);
        assert!((p - 0.1).abs() < 1e-12 && (least - 0.1).abs() < 1e-12);
        assert_eq!(arrangements, 20.0);
        // Four against four: 2 of 70.
        let (early, late) = (
            sample(&[1., 2., 3., 4.], &[]),
            sample(&[6., 7., 8., 9.], &[]),
        );
        assert!((exact(&[&early, &late]).0 - 2.0 / 70.0).abs() < 1e-12);
        // 9! / 3!^3 arrangements, 3! of them the same three samples by other names.
        let three = [1., 4., 7.].map(|from| sample(&[from, from + 1., from + 2.], &[]));
        let (p, arrangements, _) = exact(&[&three[0], &three[1], &three[2]]);
        assert_eq!(arrangements, 1680.0);
        assert!(
            (p * 1680.0).fract().abs() < 1e-6 && p >= 6.0 / 1680.0 - 1e-12,
            "{p}"
        );
    }

    /// Freireich et al., as in [`super::super::log_rank`]: p there is 4.2e-5 by chi-square.
    #[test]
    fn freireich_is_far_from_chance_by_arrangements_too() {
        let treated = sample(&TREATED_ENDED, &TREATED_CENSORED);
        let found = Permutation::of(&[&treated, &sample(&PLACEBO, &[])]).expect("two samples");
        assert!(matches!(found.basis, Basis::Drawn { .. }), "{found:?}");
        assert!((0.0..3e-4).contains(&found.p), "{found:?}");
    }

    /// The sums of these two samples' scores are 0 but for the last digits.
    #[test]
    fn samples_that_differ_in_nothing_are_no_nearer_than_any() {
        let stem = |(days, ended)| Stem { days, ended };
        let first = [(5.0, true), (1.0, true), (7.0, false)].map(stem);
        let second = [(1.0, false), (6.0, true), (5.0, true)].map(stem);
        assert!((exact(&[&first, &second]).0 - 1.0).abs() < 1e-9);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]

        /// What is drawn agrees with what is gone through, within four of its errors.
        #[test]
        fn drawing_agrees_with_going_through(
            first in prop::collection::vec((1_u8..9, any::<bool>()), 3..8),
            second in prop::collection::vec((1_u8..9, any::<bool>()), 3..8),
        ) {
            let stems = |of: &[(u8, bool)]| -> Vec<Stem> {
                of.iter().map(|(days, ended)| Stem { days: f64::from(*days), ended: *ended }).collect()
            };
            let (first, second) = (stems(&first), stems(&second));
            let samples: [&[Stem]; 2] = [&first, &second];
            if let Some(found) = Permutation::of(&samples) {
                let scores = scores(&samples);
                let sizes = [first.len(), second.len()];
                let sums = [&scores[..sizes[0]], &scores[sizes[0]..]].map(|own| own.iter().sum());
                let seen = least_as_far(&sums, &sizes, &scores);
                let drawn = drawn(scores, &sizes, seen);
                let Basis::Drawn { error } = drawn.basis else { panic!("{drawn:?}") };
                prop_assert!((found.p - drawn.p).abs() < 4.0 * error + 2e-4, "{:?} {:?}", found, drawn);
            }
        }

        /// The scores' sums are the log-rank test's ends beyond those expected.
        #[test]
        fn sums_of_scores_are_the_log_rank_excess(first in stems(), second in stems()) {
            let samples: [&[Stem]; 2] = [&first, &second];
            if let Some(test) = super::super::log_rank::LogRank::of(&samples) {
                let scores = scores(&samples);
                let sum: f64 = scores[..first.len()].iter().sum();
                prop_assert!((sum - test.samples[0].excess()).abs() < 1e-9);
            }
        }
    }
}
