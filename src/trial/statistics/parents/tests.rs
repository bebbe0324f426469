use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use proptest::prelude::*;

use super::*;

/// Seed and pollen parent, `None` where unknown; seedlings that stay, and those culled.
type Cross = (Option<usize>, Option<usize>, u32, u32);

fn decided(crosses: &[Cross]) -> Vec<Decided> {
    let of = |(seed, pollen, stay, culled): &Cross| {
        let one = |stays| Decided {
            parents: [*seed, *pollen],
            stays,
        };
        let stay = (0..*stay).map(move |_| one(true));
        stay.chain((0..*culled).map(move |_| one(false)))
            .collect::<Vec<_>>()
    };
    crosses.iter().flat_map(of).collect()
}

fn estimates(crosses: &[Cross], parents: usize) -> Parents {
    Parents::of(&decided(crosses), parents).expect("some seedlings")
}

/// The posterior by brute force; versions and call are in the head of the data file. In a row of a
/// dozen seedlings what is known of a parent is far from a normal law, so that a limit may be off by
/// four points; in one of 46, by half a point.
#[test]
fn the_posterior_is_that_of_brute_force() {
    let text = include_str!("../../../../tests/data/parents.csv");
    let mut checked = 0;
    for line in text.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let parents: usize = cells[1].parse().expect(line);
        let seedlings = cells[0].split(' ').map(|one| {
            let (pair, fate) = one.split_at(one.len() - 1);
            let (seed, pollen) = pair.split_once('x').expect(line);
            Decided {
                parents: [seed, pollen].map(|at| at.parse().ok()),
                stays: fate == "+",
            }
        });
        let found = Parents::of(&seedlings.collect::<Vec<_>>(), parents).expect(line);
        let estimate = match cells[2].parse() {
            Ok(place) => found.each.get::<usize>(place).and_then(|one| one.estimate),
            Err(_) => Some(found.new),
        };
        // Of too few seedlings nothing is told.
        let Some(estimate) = estimate else { continue };
        let Estimate { share, limits } = estimate;
        let within = if parents > 2 { 0.005 } else { 0.04 };
        for ((ours, theirs), within) in [share, limits.low, limits.high]
            .into_iter()
            .zip(&cells[3..])
            .zip([0.004, within, within])
        {
            if let Ok(theirs) = theirs.parse::<f64>() {
                assert!((ours - theirs).abs() < within, "{ours}: {line}");
                checked += 1;
            }
        }
    }
    assert!(checked > 40, "{checked} figures");
}

/// Hits in the first 45 at bats of 18 players, and their averages over the rest of the season: Efron
/// & Morris, Stein's paradox in statistics, Scientific American 236(5):119-127, 1977 (from memory).
const AT_BAT: [(u32, f64); 18] = [
    (18, 0.346),
    (17, 0.298),
    (16, 0.276),
    (15, 0.222),
    (14, 0.273),
    (14, 0.270),
    (13, 0.263),
    (12, 0.210),
    (11, 0.269),
    (11, 0.230),
    (10, 0.264),
    (10, 0.256),
    (10, 0.303),
    (10, 0.264),
    (10, 0.226),
    (9, 0.285),
    (8, 0.316),
    (7, 0.200),
];

/// A batter has no mate, but neither has a parent whose mates are all unknown. Efron & Morris's
/// estimates miss the rest of the season by .022 in squares, the early averages by .077 (as printed; .0753 from
/// the counts), 3.5 times as much.
#[test]
fn efron_and_morris_batters_are_drawn_together() {
    let crosses: Vec<Cross> = AT_BAT
        .iter()
        .enumerate()
        .map(|(at, (hits, _))| (Some(at), None, *hits, 45 - hits))
        .collect();
    let found = estimates(&crosses, AT_BAT.len());
    let (mut early, mut ours, mut held) = (0.0, 0.0, 0);
    for (one, (hits, rest)) in found.each.iter().zip(AT_BAT) {
        let estimate = one.estimate.expect("45 of each");
        early += (f64::from(hits) / 45.0 - rest).powi(2);
        ours += (estimate.share - rest).powi(2);
        held += u32::from(estimate.limits.low <= rest && rest <= estimate.limits.high);
    }
    assert!((early - 0.077).abs() < 2e-3, "{early}");
    assert!(ours < early / 3.0, "{ours}");
    assert!(held >= 17, "{held} of 18 within their limits");
    // Their estimate of the first is .294, of the last .235 or so.
    let shares = found.each.iter().filter_map(|one| one.estimate);
    let shares: Vec<f64> = shares.map(|one| one.share).collect();
    assert!((shares[0] - 0.294).abs() < 0.01, "{}", shares[0]);
    assert!(shares.is_sorted_by(|a, b| *a > b - 1e-9));
}

/// Parents' crosses of a row such as a grower has: 13 parents and 46 seedlings, some of open pollen
/// and some of unknown parents. A parent stands in 2 to 15 of them.
const ROW: [(Option<usize>, Option<usize>, usize); 16] = [
    (Some(0), Some(1), 4),
    (Some(2), Some(3), 3),
    (Some(4), Some(5), 3),
    (Some(6), Some(7), 3),
    (Some(8), Some(9), 3),
    (Some(10), None, 2),
    (Some(1), Some(10), 5),
    (Some(0), Some(3), 5),
    (Some(1), Some(9), 3),
    (Some(11), Some(0), 4),
    (Some(5), None, 3),
    (None, None, 2),
    (Some(12), Some(1), 1),
    (Some(11), Some(10), 2),
    (Some(2), Some(12), 1),
    (Some(7), Some(0), 2),
];
const PARENTS: usize = 13;

/// How a simulated row comes about.
#[derive(Debug, Clone, Copy)]
enum Law {
    /// As the module's head says, with this spread.
    Probit(f64),
    /// Each parent has a share of its own from a beta law of this weight, and a seedling's chance is
    /// the mean of its parents' shares: not the law that is fitted.
    Shares(f64),
}

/// The share of parents' limits that hold the truth, and the mean width of them.
fn covered(law: Law, rate: f64, rows: usize) -> (f64, f64) {
    let (next, threads) = (AtomicUsize::new(0), 2);
    let work = || {
        let (mut held, mut told, mut width) = (0, 0, 0.0);
        loop {
            let row = next.fetch_add(1, Ordering::Relaxed);
            if row >= rows {
                return (held, told, width);
            }
            let (decided, truth) = simulated(law, rate, row as u64);
            let found = Parents::of(&decided, PARENTS).expect("46 seedlings");
            for (one, truth) in found.each.iter().zip(truth) {
                if let Some(Estimate { limits, .. }) = one.estimate {
                    told += 1;
                    held += usize::from(limits.low <= truth && truth <= limits.high);
                    width += limits.high - limits.low;
                }
            }
        }
    };
    let parts: Vec<(usize, usize, f64)> = thread::scope(|scope| {
        let parts: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        let done = parts.into_iter().map(|part| part.join().expect("no panic"));
        done.collect()
    });
    let (held, told, width) = parts.iter().fold((0, 0, 0.0), |sum, part| {
        (sum.0 + part.0, sum.1 + part.1, sum.2 + part.2)
    });
    (held as f64 / told as f64, width / told as f64)
}

/// A row, and the true share of each parent's seedlings with mates as the law has them.
fn simulated(law: Law, rate: f64, seed: u64) -> (Vec<Decided>, Vec<f64>) {
    let mut random = fastrand::Rng::with_seed(seed);
    let normal = Normal::standard();
    let mut uniform = move || random.f64().clamp(1e-12, 1.0 - 1e-12);
    let beta = |weight: f64| {
        statrs::distribution::Beta::new(weight * rate, weight * (1.0 - rate)).expect("a law")
    };
    let effect = |uniform: &mut dyn FnMut() -> f64| match law {
        Law::Probit(spread) => spread * normal.inverse_cdf(uniform()),
        Law::Shares(weight) => beta(weight).inverse_cdf(uniform()),
    };
    let level = match law {
        Law::Probit(spread) => normal.inverse_cdf(rate) * (1.0 + 2.0 * spread * spread).sqrt(),
        Law::Shares(_) => 0.0,
    };
    let own: Vec<f64> = (0..PARENTS).map(|_| effect(&mut uniform)).collect();
    let mut decided = Vec::new();
    for (seed, pollen, number) in ROW {
        for _ in 0..number {
            let passed = [seed, pollen].map(|at| match at {
                Some(at) => own[at],
                None => effect(&mut uniform),
            });
            let sum = passed[0] + passed[1];
            let chance = match law {
                Law::Probit(_) => normal.cdf(level + sum),
                Law::Shares(_) => sum / 2.0,
            };
            decided.push(Decided {
                parents: [seed, pollen],
                stays: uniform() < chance,
            });
        }
    }
    let truth = own.iter().map(|own| match law {
        Law::Probit(spread) => normal.cdf((level + own) / spread.hypot(1.0)),
        Law::Shares(_) => (own + rate) / 2.0,
    });
    (decided, truth.collect())
}

/// A row has some nine parents that are told of, alike among themselves: over 300 rows the share held
/// is known to about 0.7 points, so that the band leaves out a method that holds 90 %.
#[test]
fn limits_at_95_per_cent_hold_as_often_as_they_say() {
    for (law, rate, band) in [
        (Law::Probit(0.6), 0.33, 0.93..0.97),
        (Law::Probit(1.0), 0.33, 0.93..0.97),
        (Law::Probit(0.6), 0.6, 0.93..0.97),
        // No parent differs: the limits allow for what is not there, and hold too often.
        (Law::Probit(0.0), 0.33, 0.97..1.0),
    ] {
        let (held, _) = covered(law, rate, 300);
        assert!(band.contains(&held), "{law:?} at {rate}: {held}");
    }
}

/// The long one, 3,000 rows a line: see `DEVELOPERS.md` for its command and what it came to.
#[test]
#[ignore = "takes minutes; its command stands in DEVELOPERS.md"]
fn limits_at_95_per_cent_hold_over_spreads_rates_and_laws() {
    let spreads = [0.0, 0.3, 0.6, 1.0, 1.5].map(Law::Probit);
    let laws = spreads.into_iter().chain([3.0, 1.0].map(Law::Shares));
    let mut wrong = Vec::new();
    for law in laws {
        for rate in [0.1, 0.33, 0.6] {
            let (held, width) = covered(law, rate, 3000);
            eprintln!(
                "{law:?}, rate {rate}: {:.1} % held, {:.0} points wide",
                100.0 * held,
                100.0 * width
            );
            let most = match law {
                Law::Probit(spread) if spread < 0.5 => 1.0,
                _ => 0.98,
            };
            if !(0.925..most).contains(&held) {
                wrong.push((law, rate, held));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:?}");
}

#[test]
fn a_parent_of_few_seedlings_is_only_counted() {
    let found = estimates(
        &[
            (Some(0), Some(1), 2, 2),
            (Some(0), None, 1, 3),
            (Some(2), None, 1, 0),
        ],
        4,
    );
    let told: Vec<(u32, bool)> = found
        .each
        .iter()
        .map(|one| (one.own.of(), one.estimate.is_some()))
        .collect();
    assert_eq!(told, [(8, true), (4, false), (1, false), (0, false)]);
    // Each seedling once, for all that most have two parents.
    assert_eq!(found.row, Share::new(4, 9).expect("4 of 9"));
    assert_eq!(Parents::of(&[], 3), None);
}

/// Two parents each crossed with half of the same mates: the mates' own worth is not theirs.
#[test]
fn a_parent_is_not_blamed_for_its_mates() {
    // Parents 0 and 1 fare alike with each mate, but 1 met the poor mate 3 more often.
    let crosses = [
        (Some(0), Some(2), 8, 2),
        (Some(0), Some(3), 0, 3),
        (Some(1), Some(2), 2, 1),
        (Some(1), Some(3), 0, 10),
        (Some(2), None, 9, 1),
        (Some(3), None, 0, 10),
    ];
    let found = estimates(&crosses, 4);
    let share = |at: usize| found.each[at].estimate.expect("many").share;
    let counted = |at: usize| found.each[at].own.value().expect("many");
    assert!(counted(0) - counted(1) > 0.45);
    assert!(share(0) - share(1) < 0.15, "{} {}", share(0), share(1));
    assert!(share(2) - share(3) > 0.4);
}

#[test]
fn the_same_row_gives_the_same_figures_in_any_order() {
    let mut all = decided(&[
        (Some(0), Some(1), 3, 4),
        (Some(1), Some(2), 2, 6),
        (Some(0), None, 5, 1),
    ]);
    let found = Parents::of(&all, 3);
    all.reverse();
    all.iter_mut().for_each(|one| one.parents.reverse());
    assert_eq!(Parents::of(&all, 3), found);
}

/// Any row of up to five parents, selfed and unknown ones too.
fn row() -> impl Strategy<Value = Vec<Decided>> {
    let parent = || prop::option::of(0_usize..5);
    let seedling = (parent(), parent(), any::<bool>(), 1_usize..40);
    prop::collection::vec(seedling, 1..10).prop_map(|crosses| {
        let of = |(seed, pollen, stays, number)| {
            let one = Decided {
                parents: [seed, pollen],
                stays,
            };
            std::iter::repeat_n(one, number)
        };
        crosses.into_iter().flat_map(of).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn limits_hold_the_share_and_the_sites_come_to_rest(row in row()) {
        let found = Parents::of(&row, 5).expect("some");
        let each = found.each.iter().filter_map(|one| one.estimate);
        for Estimate { share, limits } in each.chain([found.new]) {
            prop_assert!(0.0 <= limits.low && limits.high <= 1.0);
            prop_assert!(limits.low < share && share < limits.high, "{} {:?}", share, limits);
        }
        let model = Model::of(row.iter().copied());
        for spread in [0.05, 1.0, 2.95] {
            // At rest: to go on from there changes nothing.
            let mut sites = Vec::new();
            let [one, other] = [(); 2].map(|()| model.posterior(5, spread, &mut sites));
            for (one, other) in one.parents.iter().zip(&other.parents) {
                prop_assert!((one.mean - other.mean).abs() < 1e-3, "{:?} {:?}", one, other);
            }
        }
    }

    /// One more seedling of open pollen that stays speaks for its parent, and one that is culled against
    /// it, how far parents differ being the same.
    #[test]
    fn a_seedling_speaks_for_its_parent(row in row()) {
        let with = |stays| {
            let more = Decided { parents: [Some(0), None], stays };
            let model = Model::of(row.iter().copied().chain([more]));
            model.posterior(5, 1.0, &mut Vec::new()).parents[0].mean
        };
        prop_assert!(with(true) > with(false));
    }
}
