//! Rule sets made to be hard: the prover answers, or says that it cannot, as its own bounds on the
//! work have it. Which of the two is as fixed as the sets are.

use crate::common::rules_as_written as common;

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use trug::form::{RuleSet, Traits};

/// The prover bounds its work by itself, so that only one that runs away comes to this: an answer
/// takes some seconds in an unoptimised build on a slow machine.
const PATIENCE: Duration = Duration::from_secs(200);

/// What came of a set.
#[derive(Debug, PartialEq)]
enum Answered {
    /// Every bloom has one form.
    Proved,
    /// A bloom without a form, or with two, was found.
    Refuted,
    /// It was refused before.
    TooTangled,
}
use Answered::{Proved, Refuted, TooTangled};

fn set_of(rules: &[(String, &str)]) -> String {
    let mut shapes = String::new();
    for (at, (requires, unless)) in rules.iter().enumerate() {
        let _ = writeln!(
            shapes,
            "(id: \"s{at}\", name: \"\", means: \"\", requires: {requires:?}, unless: {unless}),"
        );
    }
    format!(
        "(id: \"hard\", name: \"\", source: \"\", limits: {{}}, words: {{}}, typical_odds: 5, shapes: [\n{shapes}],
sizes: [(of: [], into: [(id: \"{{shape}}\", name: \"\", diameter: \"\")])], size_words: [])"
    )
}

/// A clause of random states and numbers, from a plain linear congruential generator.
fn clause(seed: &mut u64, tests: usize) -> String {
    let all = [
        "centre=closed",
        "centre=open",
        "roll=flat|back",
        "roll=forward",
        "line=incurved|straight",
        "tip=pointed",
        "tip=rounded|split",
        "set=wavy",
        "outline=globe|deep",
        "gradient=even",
        "width=narrow",
        "heart=round",
        "rows over 4",
        "rows at most 9",
        "rolled over 30",
        "rolled under 60",
        "diameter over 3 in",
        "diameter at most 110 mm",
        "rows=2..12",
        "collar=none",
    ];
    let mut chosen = Vec::new();
    for _ in 0..tests {
        *seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        chosen.push(all[(*seed >> 33) as usize % all.len()]);
    }
    chosen.join(", ")
}

/// What comes of the set, with a bloom that shows it where it is refuted.
fn answered(text: &str) -> Answered {
    let start = Instant::now();
    let answered = match RuleSet::read("hard.ron", text, &Traits::embedded()) {
        Ok(set) => {
            let proof = set.prove();
            let found = [proof.gap, proof.overlap.map(|overlap| overlap.0)];
            assert_eq!(
                [proof.total, proof.disjoint],
                found.map(|block| block.is_none())
            );
            for block in found.into_iter().flatten() {
                let bloom = common::bloom_in(&set, &block);
                assert!(common::can_be(&set.traits, &bloom));
                assert_ne!(common::forms_of(&set, &bloom).len(), 1);
            }
            match found {
                [None, None] => Proved,
                _ => Refuted,
            }
        }
        Err(problems) => {
            assert!(
                problems[0].message.contains("too tangled to prove"),
                "{}",
                problems[0]
            );
            TooTangled
        }
    };
    let took = start.elapsed();
    assert!(took < PATIENCE, "{took:?}");
    answered
}

#[test]
fn one_rule_of_twenty_clauses_that_overlap() {
    let mut seed = 1;
    let clauses: Vec<String> = (0..20)
        .map(|_| format!("({})", clause(&mut seed, 3)))
        .collect();
    for joiner in [" or ", " and not "] {
        let rest = (String::new(), "Above");
        let set = set_of(&[(clauses.join(joiner), "Above"), rest]);
        assert_eq!(answered(&set), Proved, "{joiner}");
    }
}

#[test]
fn three_hundred_boxes_that_overlap() {
    let mut seed = 2;
    let boxes: Vec<(String, &str)> = (0..300)
        .map(|_| (clause(&mut seed, 6), "These([])"))
        .collect();
    assert_eq!(answered(&set_of(&boxes)), Refuted);
}

#[test]
fn three_hundred_boxes_one_after_the_other() {
    let mut seed = 3;
    let boxes: Vec<(String, &str)> = (0..300).map(|_| (clause(&mut seed, 7), "Above")).collect();
    assert_eq!(answered(&set_of(&boxes)), Refuted);
}

/// Wide boxes: two tests each, so that nearly all overlap and little is left uncovered.
#[test]
fn three_hundred_wide_boxes_that_overlap() {
    for tests in [2, 3, 4] {
        let mut seed = 4;
        let boxes: Vec<(String, &str)> = (0..300)
            .map(|_| (clause(&mut seed, tests), "These([])"))
            .collect();
        assert_eq!(answered(&set_of(&boxes)), Refuted, "{tests}");
    }
}

#[test]
fn a_rule_of_a_thousand_clauses() {
    let mut seed = 5;
    for (tests, expected) in [(4, Proved), (6, TooTangled)] {
        let clauses: Vec<String> = (0..1000)
            .map(|_| format!("({})", clause(&mut seed, tests)))
            .collect();
        let rest = (String::new(), "Above");
        let set = set_of(&[(clauses.join(" or "), "Above"), rest]);
        assert_eq!(answered(&set), expected, "{tests}");
    }
}

#[test]
fn a_long_chain_of_shapes_that_each_give_way_to_all_above_is_proved() {
    let mut rules: Vec<(String, &str)> = (1..=40)
        .map(|rows| (format!("rows={rows}"), "Above"))
        .collect();
    rules.push((String::new(), "Above"));
    assert_eq!(answered(&set_of(&rules)), Proved);
}
