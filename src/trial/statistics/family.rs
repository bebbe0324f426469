//! Shares kept by family, shrunk to the row's: small families borrow from the whole row.
//!
//! The beta-binomial form of empirical Bayes. Each family has a true share, and the families' true
//! shares scatter about the row's as a beta law does. How widely is found from the data by the
//! method of moments for families of unequal size (Kleinman, Journal of the American Statistical
//! Association 68:46-54, 1973), and each family's share is then its own seedlings and so many of
//! the row's, weighed together (Efron & Morris, ibid. 70:311-319, 1975; Casella, The American
//! Statistician 39:83-87, 1985; citations from memory). The interval is that of the family's
//! posterior beta law. It takes the scatter as known, so on few families it is somewhat short.

use std::fmt;

use statrs::distribution::{Beta, ContinuousCDF};

use super::LEVEL;
use super::share::Share;
use crate::measure::sample::Interval;

/// Families beside each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Families {
    /// All families together.
    pub row: Share,
    /// The row's share, 0 to 1.
    pub rate: f64,
    /// How many seedlings of the row each family's own are weighed against: 1 to the row's number.
    pub weight: f64,
    /// What the weight is taken from.
    pub basis: Basis,
    /// Each family, in the order given.
    pub families: Vec<Family>,
}

/// A family's share, its own and shrunk.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Family {
    /// What was counted.
    pub own: Share,
    /// The share between its own and the row's; the row's where the family has no seedling.
    pub shrunk: f64,
    /// The limits of the shrunk share at 95 %.
    pub limits: Interval,
}

/// What the weight of the row is taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// The families' shares differ by more than chance: the weight is found from how much.
    Scatter,
    /// They differ no more than chance would have it: the row's weight is all of the row, and no
    /// more, since the row's own share is known no better than that.
    Chance,
    /// Under three families have two seedlings or more, so that no scatter can be found: the row
    /// weighs as much as a family of mean size. Our choice, no source.
    FewFamilies,
    /// None or all of the row were kept: every share is the row's, with the exact limits of the
    /// family's own count.
    Alike,
}

/// The least families by which a scatter is found.
const LEAST_FAMILIES: usize = 3;

impl Families {
    /// Weighs families against their row; `None` of no seedlings.
    pub fn of(families: &[Share]) -> Option<Families> {
        let row: Share = families.iter().copied().sum();
        let rate = row.value()?;
        let (basis, weight) = weight(families, f64::from(row.of()), rate);
        let shrunk = |own: &Share| Family {
            own: *own,
            shrunk: (f64::from(own.hit()) + weight * rate) / (f64::from(own.of()) + weight),
            limits: posterior_limits(*own, weight, rate).unwrap_or_else(|| own.limits()),
        };
        Some(Families {
            row,
            rate,
            weight,
            basis,
            families: families.iter().map(shrunk).collect(),
        })
    }
}

/// The row's weight in seedlings: a beta law's two parameters are the weight times the rate and
/// times the rest.
fn weight(families: &[Share], seedlings: f64, rate: f64) -> (Basis, f64) {
    let sizes = || families.iter().filter(|family| family.of() > 0);
    if rate == 0.0 || rate == 1.0 {
        return (Basis::Alike, seedlings);
    }
    if families.iter().filter(|family| family.of() > 1).count() < LEAST_FAMILIES {
        return (
            Basis::FewFamilies,
            (seedlings / sizes().count() as f64).max(1.0),
        );
    }
    let scatter = scatter(families, rate);
    // The likeness of two seedlings of a family beyond that of any two: 1 over the weight and 1.
    let freedom = sizes().count() as f64 - 1.0;
    let pairs = sizes().map(|family| {
        let size = f64::from(family.of());
        (1.0 - size / seedlings) * (size - 1.0)
    });
    let likeness = (scatter - freedom) / pairs.sum::<f64>();
    let weight = 1.0 / likeness - 1.0;
    if likeness > 0.0 && weight < seedlings {
        (Basis::Scatter, weight.max(1.0))
    } else {
        (Basis::Chance, seedlings)
    }
}

/// The families' squared distances from the row's share, in units of chance: on average one less
/// than the number of families where they differ by chance alone.
fn scatter(families: &[Share], rate: f64) -> f64 {
    let squares = families.iter().filter_map(|family| {
        let distance = family.value()? - rate;
        Some(f64::from(family.of()) * distance * distance)
    });
    squares.sum::<f64>() / (rate * (1.0 - rate))
}

/// The limits of the posterior beta law; `None` where the row's share is 0 or 1.
fn posterior_limits(own: Share, weight: f64, rate: f64) -> Option<Interval> {
    let missed = f64::from(own.of() - own.hit());
    let law = Beta::new(
        f64::from(own.hit()) + weight * rate,
        missed + weight * (1.0 - rate),
    );
    let law = law.ok().filter(|_| rate > 0.0 && rate < 1.0)?;
    let tail = (1.0 - LEVEL) / 2.0;
    Some(Interval {
        low: law.inverse_cdf(tail),
        high: law.inverse_cdf(1.0 - tail),
    })
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Basis::Scatter => "families differ by more than chance",
            Basis::Chance => "families differ no more than chance would have it",
            Basis::FewFamilies => "too few families to tell how much families differ",
            Basis::Alike => "every family has the row's share",
        })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Kept, of how many.
    type Counts = (u32, u32);

    fn shares(counts: &[Counts]) -> Vec<Share> {
        let share = |(hit, of): &Counts| Share::new(*hit, *of).expect("no more than there are");
        counts.iter().map(share).collect()
    }

    fn families(counts: &[Counts]) -> Families {
        Families::of(&shares(counts)).expect("some seedlings")
    }

    /// Hits in the first 45 at bats of the 18 players of Efron & Morris, Stein's paradox in
    /// statistics, Scientific American 236(5):119-127, 1977 (from memory): the mean is .265, and
    /// their factor 1 - (k - 3) / scatter is .212, which takes 18, 45 and .400 to .294.
    const AT_BAT: [u32; 18] = [
        18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7,
    ];

    #[test]
    fn efron_and_morris_shrinking_factor() {
        let counts = AT_BAT.map(|hits| (hits, 45));
        let found = families(&counts);
        assert!((found.rate - 0.265).abs() < 5e-4);
        let scatter = scatter(&shares(&counts), found.rate);
        let factor = 1.0 - 15.0 / scatter;
        assert!((factor - 0.212).abs() < 1e-3, "{factor}");
        // By moments k - 1 stands for k - 3, and 45 / 44 before the factor: shrunk a little more.
        let ours = 45.0 / 44.0 * (1.0 - 17.0 / scatter);
        let expected = found.rate + ours * (0.4 - found.rate);
        assert!((found.families[0].shrunk - expected).abs() < 1e-12);
        assert_eq!(found.basis, Basis::Scatter);
    }

    /// 3,000 families of 2 to 9 seedlings, drawn from a beta law of weight 8 and rate a quarter:
    /// the weight is found again, and the limits hold their level.
    #[test]
    fn the_scatter_that_was_put_in_is_found() {
        let mut random = fastrand::Rng::with_seed(12);
        let law = Beta::new(2.0, 6.0).expect("a law");
        let truth: Vec<f64> = (0..3000).map(|_| law.inverse_cdf(random.f64())).collect();
        let counts: Vec<Counts> = truth
            .iter()
            .map(|share| {
                let of = random.u32(2..10);
                let kept = (0..of).filter(|_| random.f64() < *share).count();
                (kept as u32, of)
            })
            .collect();
        let found = families(&counts);
        assert!((7.0..9.0).contains(&found.weight), "{}", found.weight);
        let covered = found.families.iter().zip(&truth).filter(|(family, share)| {
            family.limits.low <= **share && **share <= family.limits.high
        });
        let covered = covered.count() as f64 / 3000.0;
        assert!((0.94..0.96).contains(&covered), "{covered}");
    }

    /// Rows of the size that a grower has: what the head calls somewhat short. 12 families of 5.
    #[test]
    fn on_few_families_the_limits_are_somewhat_short() {
        let mut random = fastrand::Rng::with_seed(5);
        let law = Beta::new(2.0, 6.0).expect("a law");
        let (mut covered, rows) = (0, 400);
        for _ in 0..rows {
            let truth: [f64; 12] = std::array::from_fn(|_| law.inverse_cdf(random.f64()));
            let counts = truth.map(|share| {
                let kept = (0..5).filter(|_| random.f64() < share).count();
                (kept as u32, 5)
            });
            if let Some(found) = Families::of(&shares(&counts)) {
                let pairs = found.families.iter().zip(truth);
                covered += pairs
                    .filter(|(family, share)| {
                        family.limits.low <= *share && *share <= family.limits.high
                    })
                    .count();
            }
        }
        let share = covered as f64 / f64::from(rows * 12);
        assert!((0.80..0.95).contains(&share), "{share}");
    }

    #[test]
    fn each_row_is_told_what_its_weight_is_from() {
        let cases: [(&[Counts], Basis, f64); 5] = [
            (&[(1, 4), (3, 8)], Basis::FewFamilies, 6.0),
            (&[(0, 1), (1, 1), (1, 1), (2, 5)], Basis::FewFamilies, 2.0),
            (&[(1, 4), (2, 8), (1, 4)], Basis::Chance, 16.0),
            (&[(0, 4), (0, 8), (0, 4)], Basis::Alike, 16.0),
            (&[(0, 20), (20, 20), (10, 20)], Basis::Scatter, 1.0),
        ];
        for (counts, basis, weight) in cases {
            let found = families(counts);
            assert_eq!(found.basis, basis, "{counts:?}");
            assert!(
                (found.weight - weight).abs() < 1e-9,
                "{counts:?}: {}",
                found.weight
            );
        }
        assert_eq!(Families::of(&[]), None);
        assert_eq!(Families::of(&shares(&[(0, 0)])), None);
    }

    #[test]
    fn a_family_not_sown_has_the_rows_share() {
        let found = families(&[(0, 0), (1, 4), (3, 8), (9, 10)]);
        assert_eq!(found.families[0].shrunk, found.rate);
        let none_kept = families(&[(0, 3), (0, 0)]);
        assert_eq!(none_kept.families[0].shrunk, 0.0);
        assert_eq!(
            none_kept.families[0].limits,
            none_kept.families[0].own.limits()
        );
    }

    proptest! {
        #[test]
        fn a_shrunk_share_lies_between_its_own_and_the_rows(
            counts in prop::collection::vec((0u32..12, 0u32..12), 1..12)
        ) {
            let counts: Vec<Counts> =
                counts.iter().map(|(kept, culled)| (*kept, kept + culled)).collect();
            let Some(found) = Families::of(&shares(&counts)) else {
                prop_assert!(counts.iter().all(|(_, of)| *of == 0));
                return Ok(());
            };
            prop_assert!(found.weight >= 1.0 && found.weight <= f64::from(found.row.of()));
            for family in &found.families {
                let own = family.own.value().unwrap_or(found.rate);
                let (low, high) = (own.min(found.rate), own.max(found.rate));
                prop_assert!((low - 1e-12..=high + 1e-12).contains(&family.shrunk));
                let limits = family.limits;
                prop_assert!(limits.low <= family.shrunk && family.shrunk <= limits.high);
            }
        }

        #[test]
        fn the_order_of_families_does_not_matter(
            counts in prop::collection::vec((0u32..12, 0u32..12), 1..12), turn in 0usize..12
        ) {
            let counts: Vec<Counts> =
                counts.iter().map(|(kept, culled)| (*kept, kept + culled)).collect();
            let mut turned = counts.clone();
            turned.rotate_left(turn % counts.len());
            let found = [counts, turned].map(|counts| Families::of(&shares(&counts)));
            if let [Some(one), Some(other)] = found {
                prop_assert_eq!(one.basis, other.basis);
                prop_assert!((one.weight - other.weight).abs() < 1e-6 * one.weight);
            }
        }
    }
}
