use super::*;

/// Plants by their stems' days, `+` where still fresh; each tested on two days.
fn lasting(plants: &[&str]) -> Lasting {
    let tested = |(at, days): (usize, &&str)| {
        let stem = |word: &str| Stem {
            days: word.trim_end_matches('+').parse().expect("days"),
            ended: !word.ends_with('+'),
        };
        let stems: Vec<Stem> = days.split_whitespace().map(stem).collect();
        let number = format!("26-{:03}", at + 1);
        Tested {
            subject: number.parse().expect("a number"),
            curve: Curve::of(&stems),
            days: if stems.is_empty() { 0 } else { 2 },
            stems,
        }
    };
    Lasting::between(plants.iter().enumerate().map(tested).collect())
}

#[test]
fn a_claim_is_made_only_where_chance_would_rarely_do_as_much() {
    for (plants, verdict, told) in [
        // Apart: 2 of 12,870 arrangements.
        (
            ["7 7 8 8 9 9 10 10", "3 3 4 4 4 5 5 6"],
            Verdict::Longer(0),
            "26-001 lasts longer than 26-002: p < 0.001 by all 12870 arrangements of the stems",
        ),
        (
            ["3 3 4 4 4 5 5 6", "7 7 8 8 9 9 10 10+"],
            Verdict::Longer(1),
            "26-002 lasts longer than 26-001",
        ),
        // As far apart as three and three can be.
        (
            ["3 3 4", "7 8 9"],
            Verdict::TooFew(4),
            "Too few stems to tell 26-001 from 26-002, however they last: p = 0.10 by all 20 \
             arrangements of the stems",
        ),
        (
            ["5 6 7 8", "5 6 7 8"],
            Verdict::NotTold(None),
            "More stems would not settle it soon: it would take over 60 more of each.",
        ),
        (
            ["6+ 6+ 6+", "6+ 6+"],
            Verdict::Nothing,
            "26-001 and 26-002 cannot be compared",
        ),
    ] {
        let found = lasting(&plants);
        assert_eq!(found.pairs[0].verdict, verdict, "{plants:?}");
        let sentence = &found.sentences()[0];
        assert!(sentence.contains(told), "{plants:?}: {sentence}");
    }
    let near = lasting(&["4 5 5 6 6 7 8", "5 6 6 7 7 8 9"]);
    let Verdict::NotTold(Some(more)) = near.pairs[0].verdict else {
        panic!("{:?}", near.pairs[0]);
    };
    assert!((5..60).contains(&more), "{more}");
    let told = near.sentences().join(" ");
    assert!(
        told.contains("No difference can be told between 26-001 and 26-002: p = 0."),
        "{told}"
    );
    assert!(
        told.contains(&format!("{more} more of each would tell")),
        "{told}"
    );
}

/// The example of Holm's rule by hand: 0.01 x 4, 0.02 x 3, 0.03 x 2 which may not be under the one
/// before, 0.04 x 1 the same.
#[test]
fn holms_rule() {
    let found = holm(&[Some(0.04), None, Some(0.01), Some(0.03), Some(0.02)]);
    let expected = [Some(0.06), None, Some(0.04), Some(0.06), Some(0.06)];
    for (found, expected) in found.into_iter().zip(expected) {
        match (found, expected) {
            (Some(found), Some(expected)) => assert!((found - expected).abs() < 1e-12),
            other => assert_eq!(other, (None, None)),
        }
    }
    assert_eq!(holm(&[Some(0.7), Some(0.6)]), [Some(1.0), Some(1.0)]);
}

#[test]
fn several_pairs_are_corrected_for_and_a_plant_without_a_test_is_named() {
    let found = lasting(&["7 7 8 8 9", "3 3 4 4 5", "", "4 5 6 6 7"]);
    assert_eq!(found.pairs.len(), 3);
    assert!(found.all.is_some());
    for pair in &found.pairs {
        let p = pair.tests.as_ref().expect("stems that end").permutation.p;
        assert!(pair.adjusted.expect("tests") >= p);
    }
    let told = found.sentences();
    assert!(
        told[0].starts_with("26-001 lasts longer than 26-002"),
        "{told:?}"
    );
    assert!(told[0].contains("by Holm's rule for 3 pairs"), "{told:?}");
    assert!(
        told.iter()
            .any(|line| line == "26-003 has no vase test yet."),
        "{told:?}"
    );
    // By hand: four of each are 2 of 70, five 2 of 252, six 2 of 924.
    assert_eq!([0.05, 0.05 / 3.0, 0.05 / 6.0].map(least_of_each), [4, 5, 5]);
}

/// Where no plant differs a claim may be made in one comparison of twenty, not more: 400 rows of three
/// plants of six stems, by the days of one law.
#[test]
fn plants_that_last_alike_are_seldom_told_apart() {
    let mut random = fastrand::Rng::with_seed(3);
    let rows = 400;
    let claims = (0..rows)
        .filter(|_| {
            let mut plant = || {
                let days = (0..6).map(|_| (3 + random.u32(0..3) + random.u32(0..3)).to_string());
                days.collect::<Vec<_>>().join(" ")
            };
            let plants = [plant(), plant(), plant()];
            let found = lasting(&[&plants[0], &plants[1], &plants[2]]);
            let claim = |pair: &Pair| matches!(pair.verdict, Verdict::Longer(_));
            found.pairs.iter().any(claim)
        })
        .count();
    let share = claims as f64 / f64::from(rows);
    assert!((0.005..0.07).contains(&share), "{share}");
}
