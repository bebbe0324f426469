use super::*;
use crate::form::space::{Block, bits};
use crate::form::{RuleSet, Traits};

fn embedded() -> Vec<Keyer> {
    RuleSet::embedded().into_iter().map(Keyer::even).collect()
}

/// Walks a bloom down the key: the goal and the number of questions.
fn walked(key: &FieldKey, bloom: &Block) -> (usize, f64) {
    let (mut step, mut asked) = (&key.first, 0.0);
    while let Step::Ask { index, branches } = step {
        let branch = branches
            .iter()
            .find(|branch| branch.atoms & bloom.0[*index] != 0);
        step = &branch.expect("a branch for every bloom").next;
        asked += 1.0;
    }
    match step {
        Step::Form(goal) => (*goal, asked),
        Step::Ask { .. } => unreachable!("the walk went on"),
    }
}

/// The first is what a plain search over whole blocks, without these bounds, found as well; the second
/// is our own search's, which is held against brute force on small sets below.
#[test]
fn the_embedded_sets_have_their_shortest_keys() {
    let means: Vec<f64> = embedded()
        .iter()
        .map(|keyer| keyer.shortest_key(false).expect("a key").mean)
        .collect();
    for (found, known) in means.iter().zip([4.386422, 4.673777]) {
        assert!((found - known).abs() < 1e-6, "{found} {known}");
    }
}

#[test]
fn every_bloom_comes_to_its_form_in_the_mean_number_of_questions() {
    let mut random = fastrand::Rng::with_seed(3);
    for keyer in embedded() {
        let key = keyer.shortest_key(false).expect("a key");
        let (count, mut asked) = (4000, 0.0);
        for at in 0..count {
            let form = at % keyer.set.forms.len();
            let (goal, questions) = walked(&key, &keyer.draw(form, &mut || random.f64()));
            assert_eq!(goal, keyer.set.forms[form].shape);
            asked += questions;
        }
        let mean = asked / count as f64;
        assert!((mean - key.mean).abs() < 0.06, "{mean} {}", key.mean);
    }
}

#[test]
fn out_of_patience_the_key_is_whole_and_says_that_it_is_not_proved() {
    for keyer in embedded() {
        let best = keyer.shortest_key(false).expect("a key");
        let quick = keyer.key_within(50, false).expect("a key");
        assert!(best.proved && !quick.proved);
        assert!(
            (best.mean..best.mean * 1.15).contains(&quick.mean),
            "{} {}",
            quick.mean,
            best.mean
        );
    }
}

/// The least mean by trying every question in every order on every complete observation.
fn brute(blooms: &[(Block, usize, f64)], traits: usize) -> f64 {
    let settled = blooms.iter().all(|(_, form, _)| *form == blooms[0].1);
    if settled {
        return 0.0;
    }
    let here: f64 = blooms.iter().map(|(.., mass)| mass).sum();
    let cost = |index: usize| {
        let mut answers: Vec<u64> = blooms.iter().map(|(bloom, ..)| bloom.0[index]).collect();
        answers.sort_unstable();
        answers.dedup();
        let after = |answer: &u64| {
            let left: Vec<_> = blooms
                .iter()
                .filter(|(bloom, ..)| bloom.0[index] == *answer)
                .copied()
                .collect();
            brute(&left, traits)
        };
        if answers.len() < 2 {
            f64::INFINITY
        } else {
            here + answers.iter().map(after).sum::<f64>()
        }
    };
    (0..traits).map(cost).fold(f64::INFINITY, f64::min)
}

/// A small table of four traits and a diameter, and a rule set at random over them.
fn small(random: &mut fastrand::Rng) -> Keyer {
    let states = [2, 3, 2, 2];
    let one = |(index, states): (usize, &usize)| {
        let states: String = (0..*states)
            .map(|state| format!("(id: \"s{state}\", means: \"\"),"))
            .collect();
        format!(
            "(id: \"t{index}\", ask: \"\", look: \"\", kind: OneOf([{states}]), effort: Look, mistake: 0.05),"
        )
    };
    let list: String = states.iter().enumerate().map(one).collect();
    let traits = format!(
        "[{list} (id: \"diameter\", ask: \"\", look: \"\", kind: Length(\"9mm\"), effort: Measure, mistake: 0.05)]"
    );
    let traits = Traits::read("traits.ron", &traits).expect("traits");
    let mut test = || {
        let index = random.usize(..states.len());
        format!("t{index}=s{}", random.usize(..states[index]))
    };
    let mut shapes = String::new();
    for shape in 0..5 {
        let requires = format!("{}, ({} or {})", test(), test(), test());
        shapes += &format!(
            "(id: \"f{shape}\", name: \"\", means: \"\", requires: \"{requires}\", unless: Above),"
        );
    }
    shapes += "(id: \"rest\", name: \"\", means: \"\", requires: \"\", unless: Above),";
    let set = format!("(id: \"small\", name: \"\", source: \"\", limits: {{}}, words: {{}}, typical_odds: 1, shapes: [{shapes}],
        sizes: [(of: [], into: [(id: \"{{shape}}\", name: \"\", diameter: \"\")])], size_words: [])");
    Keyer::even(RuleSet::read("small.ron", &set, &traits).expect("a set"))
}

#[test]
fn no_order_of_questions_is_shorter_on_small_sets() {
    let mut random = fastrand::Rng::with_seed(11);
    for _ in 0..60 {
        let keyer = small(&mut random);
        let mut blooms = Vec::new();
        for block in &keyer.blocks {
            let atoms: u128 = block.block.volume();
            let mass = block.scale * block.traits.iter().product::<f64>() / atoms as f64;
            let mut cells = vec![block.block];
            for index in 0..5 {
                let cut = |cell: Block| {
                    bits(cell.0[index])
                        .filter_map(move |at| cell.narrowed(index, 1 << at))
                        .collect::<Vec<_>>()
                };
                cells = cells.into_iter().flat_map(cut).collect();
            }
            // The diameter decides nothing here: one of its atoms stands for all.
            let blooms_of = cells.into_iter().map(|cell| (cell, block.form, mass));
            blooms.extend(blooms_of);
        }
        let total: f64 = blooms.iter().map(|(.., mass)| mass).sum();
        let known = brute(&blooms, 4) / total;
        let key = keyer.shortest_key(true).expect("a key");
        assert!((key.mean - known).abs() < 1e-9, "{} {known}", key.mean);
    }
}
