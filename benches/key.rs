//! Blooms keyed a second by blocks, against the rules read one by one as they are written.
//! `cargo bench --bench key`. Ratios, since seconds are the machine's.
#![allow(clippy::print_stdout)]

use std::hint::black_box;
use std::time::Instant;

use trug::form::condition::Condition;
use trug::form::space::{Atom, Block, Span};
use trug::form::{Keyer, RuleSet, Status};
use trug::measure::Exact;

const BLOOMS: usize = 20_000;
const ROUNDS: usize = 5;

/// One trait of a complete bloom.
#[derive(Clone, Copy)]
enum Value {
    State(usize),
    Number(Exact),
    Absent,
}

fn main() {
    for set in RuleSet::embedded() {
        let keyer = Keyer::even(set);
        let set = &keyer.set;
        let mut random = fastrand::Rng::with_seed(5);
        let mut chance = || random.f64();
        let blocks: Vec<Block> = (0..BLOOMS)
            .map(|at| keyer.draw(at % set.forms.len(), &mut chance))
            .collect();
        let blooms: Vec<Vec<Value>> = blocks.iter().map(|block| values(set, block)).collect();
        for (block, bloom) in blocks.iter().zip(&blooms) {
            assert_eq!(
                Some(set.verdict_in(block).status),
                as_written(set, bloom).map(Status::Settled)
            );
        }
        let by_blocks = fastest(|| {
            blocks.iter().for_each(|block| {
                black_box(set.verdict_in(block));
            })
        });
        let by_rules = fastest(|| {
            blooms.iter().for_each(|bloom| {
                black_box(as_written(set, bloom));
            })
        });
        let rate = |seconds: f64| BLOOMS as f64 / seconds / 1000.0;
        println!(
            "{}: {:.0} thousand blooms a second by blocks, {:.0} by rules as written: {:.2} times as many",
            set.id,
            rate(by_blocks),
            rate(by_rules),
            by_rules / by_blocks
        );
    }
}

/// The fastest of a few rounds, in seconds.
fn fastest(work: impl Fn()) -> f64 {
    let time = |_| {
        let begun = Instant::now();
        work();
        begun.elapsed().as_secs_f64()
    };
    (0..ROUNDS).map(time).fold(f64::INFINITY, f64::min)
}

fn values(set: &RuleSet, block: &Block) -> Vec<Value> {
    let value = |(at, mask): (usize, &u64)| match set.scales()[at].atoms()
        [mask.trailing_zeros() as usize]
    {
        Atom::State(state) => Value::State(state),
        Atom::Span(span) => Value::Number(span.sample()),
        Atom::Absent => Value::Absent,
    };
    block
        .0
        .iter()
        .take(set.scales().len())
        .enumerate()
        .map(value)
        .collect()
}

/// The peer: the first shape whose rule holds and that no earlier one goes before, then its size.
fn as_written(set: &RuleSet, bloom: &[Value]) -> Option<usize> {
    let fits = |shape: &usize| {
        let shape = &set.shapes[*shape];
        holds(&shape.requires, bloom)
            && !shape
                .unless
                .iter()
                .any(|at| holds(&set.shapes[*at].requires, bloom))
    };
    let shape = (0..set.shapes.len()).find(fits)?;
    let size = set.traits.find("diameter")?;
    let sized = |span: Span| matches!(bloom[size], Value::Number(number) if within(span, number));
    set.forms
        .iter()
        .position(|form| form.shape == shape && sized(form.diameter))
}

fn holds(condition: &Condition, bloom: &[Value]) -> bool {
    match condition {
        Condition::All(list) => list.iter().all(|one| holds(one, bloom)),
        Condition::Any(list) => list.iter().any(|one| holds(one, bloom)),
        Condition::Not(one) => !holds(one, bloom),
        Condition::States(index, mask) => {
            matches!(bloom[*index], Value::State(state) if mask >> state & 1 == 1)
        }
        Condition::Number(index, span) => {
            matches!(bloom[*index], Value::Number(number) if within(*span, number))
        }
    }
}

fn within(span: Span, number: Exact) -> bool {
    let above = number > span.low || span.low_in && number == span.low;
    above && (number < span.high || span.high_in && number == span.high)
}
