use proptest::prelude::*;

use super::*;

fn share(hit: u32, of: u32) -> Share {
    Share::new(hit, of).expect("no more than there are")
}

fn subject(at: usize) -> Subject {
    format!("24-{:03}", at + 1).parse().expect("a number")
}

fn losses(counts: &[(u32, u32)]) -> Losses {
    let each = counts.iter().enumerate();
    Losses::of(
        each.map(|(at, (lost, of))| (subject(at), share(*lost, *of)))
            .collect(),
    )
}

/// The exact limits of Newcombe's examples, Statistics in Medicine 17:857-872, 1998, table I (from memory).
#[test]
fn what_was_counted_has_the_exact_limits() {
    for (lost, of, low, high) in [
        (81, 263, 0.2527, 0.3676),
        (15, 148, 0.0578, 0.1617),
        (0, 20, 0.0000, 0.1684),
        (1, 29, 0.0009, 0.1776),
    ] {
        let found = losses(&[(lost, of)]).of_plant(&subject(0)).own.limits();
        assert!((found.low - low).abs() < 6e-5, "{lost} of {of}: {found:?}");
        assert!(
            (found.high - high).abs() < 6e-5,
            "{lost} of {of}: {found:?}"
        );
    }
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

/// Their estimates miss the rest of the season by .022 in squares, the early averages by .077.
#[test]
fn efron_and_morris_batters_are_drawn_together() {
    let found = losses(&AT_BAT.map(|(hits, _)| (hits, 45)));
    let (mut early, mut ours, mut held) = (0.0, 0.0, 0);
    for (at, (hits, rest)) in AT_BAT.into_iter().enumerate() {
        let loss = found.of_plant(&subject(at));
        early += (f64::from(hits) / 45.0 - rest).powi(2);
        ours += (loss.share - rest).powi(2);
        held += u32::from(loss.limits.low <= rest && rest <= loss.limits.high);
    }
    assert!((early - 0.077).abs() < 2e-3, "{early}");
    assert!(ours < early / 3.0, "{ours}");
    assert!(held >= 17, "{held} of 18 within their limits");
    // Their estimate of the first is .294.
    let first = found.share(&subject(0));
    assert!((first - 0.294).abs() < 0.012, "{first}");
}

/// The same by plain sums over a grid of equal steps, far finer than ours.
#[test]
fn the_grid_is_fine_enough() {
    for counts in [
        &[(3, 43), (0, 12), (9, 30), (2, 2)][..],
        &[(0, 5)],
        &[(60, 600), (61, 600), (59, 600)],
        &[(1, 400), (300, 400), (20, 400), (8, 10)],
    ] {
        let found = losses(counts);
        let (means, spreads) = (2_000, 300);
        let mut sums = vec![0.0; counts.len()];
        let (mut whole, mut best) = (0.0, f64::NEG_INFINITY);
        let at = |nth: u32, of: u32| (f64::from(nth) + 0.5) / f64::from(of);
        for pass in 0..2 {
            for mean in (0..means).map(|nth| at(nth, means)) {
                for spread in (0..spreads).map(|nth| at(nth, spreads)) {
                    let size = 1.0 / (spread * spread) - 1.0;
                    let weight: f64 = counts
                        .iter()
                        .map(|(lost, of)| {
                            let (lost, kept) = (f64::from(*lost), f64::from(of - lost));
                            let (a, b) = (mean * size, (1.0 - mean) * size);
                            ln_beta(a + lost, b + kept) - ln_beta(a, b)
                        })
                        .sum();
                    if pass == 0 {
                        best = f64::max(best, weight);
                        continue;
                    }
                    let weight = (weight - best).exp();
                    whole += weight;
                    for (sum, (lost, of)) in sums.iter_mut().zip(counts) {
                        let one = (mean * size + f64::from(*lost)) / (size + f64::from(*of));
                        *sum += weight * one;
                    }
                }
            }
        }
        for (at, sum) in sums.iter().enumerate() {
            let (ours, theirs) = (found.share(&subject(at)), sum / whole);
            assert!(
                (ours - theirs).abs() < 2e-3,
                "{counts:?}, {at}: {ours}, by force {theirs}"
            );
        }
    }
}

#[test]
fn of_nothing_nothing_is_known() {
    let none = Losses::of(Vec::new());
    assert!(!none.is_telling());
    let new = none.of_new();
    assert!((new.share - 0.5).abs() < 1e-9, "{new:?}");
    assert!(new.limits.low < 0.05 && new.limits.high > 0.95, "{new:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn one_more_lost_raises_its_plants_share_and_few_are_drawn_to_the_others(
        counts in prop::collection::vec((0..30_u32, 1..30_u32), 2..6)
    ) {
        let counts: Vec<(u32, u32)> = counts.into_iter().map(|(lost, kept)| (lost, lost + kept)).collect();
        let before = losses(&counts);
        let mut more = counts.clone();
        more[0].0 += 1;
        let after = losses(&more);
        prop_assert!(after.share(&subject(0)) > before.share(&subject(0)));
        let loss = before.of_plant(&subject(0));
        prop_assert!(loss.limits.low < loss.share && loss.share < loss.limits.high);
        prop_assert!(loss.limits.low >= 0.0 && loss.limits.high <= 1.0);
    }

    #[test]
    fn chances_of_counts_add_up(lost in 0..20_u32, kept in 1..40_u32, of in 1..60_u64) {
        let found = losses(&[(lost, lost + kept), (5, 40)]);
        let own = subject(0);
        let each: Vec<f64> = (0..=of).map(|count| found.chance_of_at_most(&own, count, of)).collect();
        prop_assert!(each.is_sorted() && (each[of as usize] - 1.0).abs() < 1e-9, "{:?}", each);
        // The mean of the count is the share's.
        let mean: f64 = each.iter().map(|chance| 1.0 - chance).sum();
        prop_assert!((mean / of as f64 - found.share(&own)).abs() < 1e-9);
    }
}
