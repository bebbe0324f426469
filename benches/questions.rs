//! How well the questions serve, over simulated blooms and simulated mistakes; and how long one
//! question takes to choose. `cargo bench --bench questions [BLOOMS]`.
//!
//! Blooms are drawn by the keyer's own weights with every form equally likely. Every look is
//! mistaken with the same chance, and looks err independently, second looks too: both are
//! assumptions. Run with the mistake rates of the data, and with the true rate known to the keyer.
#![allow(clippy::print_stdout)]

#[path = "../tests/all/common/policy.rs"]
mod policy;

use std::hint::black_box;
use std::time::{Duration, Instant};

use trug::form::question::entropy;
use trug::form::{Answers, Keyer, RuleSet, Traits};

use policy::Policy;

const TRAITS: &str = include_str!("../assets/traits.ron");
const POLICIES: [(&str, Policy); 7] = [
    ("strict: ask until settled", Policy::Strict),
    ("careful to 90 %", careful(0.90)),
    ("careful to 95 %", careful(0.95)),
    ("careful to 98 %", Policy::CAREFUL),
    ("ceiling: every trait once", Policy::Everything),
    ("peer: fixed order", Policy::FixedOrder),
    ("peer: count of matches", Policy::Count),
];

/// Careful to a share, in at most 24 looks.
const fn careful(share: f64) -> Policy {
    Policy::Careful { share, most: 24 }
}

fn main() {
    let blooms = std::env::args()
        .find_map(|text| text.parse().ok())
        .unwrap_or(10_000);
    for set in RuleSet::embedded() {
        let forms = set.forms.len();
        let keyer = Keyer::even(set);
        let bound = entropy(&vec![1.0; forms]);
        println!(
            "{}: {forms} forms, entropy {bound:.3} bits, {blooms} blooms a line",
            keyer.set.id
        );
        if let Some(key) = keyer.shortest_key(true) {
            println!(
                "  shortest key {:.4} questions (proved: {})",
                key.mean, key.proved
            );
        }
        println!("  mistakes  keyer expects  policy                       asked   first  top 3");
        // One thread a rate of mistakes: the figures are counts, not times.
        std::thread::scope(|scope| {
            let lines = |mistake| {
                let keyer = &keyer;
                scope.spawn(move || {
                    let known = expecting(&keyer.set.id, mistake);
                    let both = [(keyer, "its data's"), (&known, "the true rate")];
                    both.map(|(keyer, expects)| lines(keyer, mistake, expects, blooms))
                        .concat()
                })
            };
            for running in [0.0, 0.05, 0.10, 0.20].map(lines) {
                print!("{}", running.join().expect("no line panics"));
            }
        });
    }
    time_to_ask();
}

/// The keyer of an embedded set that expects this chance of a mistake in every trait.
fn expecting(id: &str, mistake: f64) -> Keyer {
    let rated: Vec<String> = TRAITS
        .split("mistake: 0.")
        .enumerate()
        .map(|(at, part)| match at {
            0 => part.to_string(),
            // No chance at all is not a rate that the table may give.
            _ => format!(
                "mistake: {}{}",
                mistake.max(0.001),
                part.trim_start_matches(|c: char| c.is_ascii_digit())
            ),
        })
        .collect();
    let traits = Traits::read("traits.ron", &rated.concat()).expect("the table with other rates");
    let mut files = RuleSet::embedded_files().into_iter();
    let (file, text) = files
        .find(|(file, _)| file.starts_with(id))
        .expect("an embedded set");
    Keyer::even(RuleSet::read(file, text, &traits).expect("an embedded set"))
}

fn lines(keyer: &Keyer, mistake: f64, expects: &str, blooms: usize) -> String {
    let line = |(name, policy): &(&str, Policy)| {
        let mut random = fastrand::Rng::with_seed(17);
        let told = policy.tally(keyer, mistake, blooms, &mut || random.f64());
        format!(
            "  {:>5.0} %   {expects:<13}  {name:<27} {:>6.3}  {:>5.1} %  {:>5.1} %\n",
            mistake * 100.0,
            told.looks,
            told.first * 100.0,
            told.third * 100.0
        )
    };
    POLICIES.iter().map(line).collect()
}

/// The mean and worst time to choose the next question, over the states of 2,000 blooms.
fn time_to_ask() {
    for set in RuleSet::embedded() {
        let keyer = Keyer::even(set);
        let mut random = fastrand::Rng::with_seed(23);
        let (mut total, mut worst, mut count) = (Duration::ZERO, Duration::ZERO, 0_u32);
        for at in 0..2000 {
            let bloom = keyer.draw(at % keyer.set.forms.len(), &mut || random.f64());
            let mut answers = Answers::default();
            loop {
                let question = keyer.ask(&answers).or_else(|| keyer.check(&answers));
                // The best of three: what else the machine does is no part of the choice.
                let taken = (0..3)
                    .map(|_| time(&keyer, &answers))
                    .min()
                    .unwrap_or_default();
                (total, worst, count) = (total + taken, worst.max(taken), count + 1);
                let Some(question) = question.filter(|_| answers.iter().count() < 13) else {
                    break;
                };
                let look = keyer.report(&bloom, question.index, 0.1, &mut || random.f64());
                if answers.get(question.index).is_some() {
                    break;
                }
                answers.set(question.index, look);
            }
        }
        println!(
            "{}: the next question in {:?} on average, {worst:?} at worst ({count} states)",
            keyer.set.id,
            total / count
        );
    }
}

fn time(keyer: &Keyer, answers: &Answers) -> Duration {
    let begun = Instant::now();
    black_box(keyer.ask(answers).or_else(|| keyer.check(answers)));
    begun.elapsed()
}
