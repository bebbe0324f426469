//! Rules evaluated one by one on one complete bloom, straight from the conditions: what the blocks,
//! the verdict and the proof are held against. Uses nothing of `space` but the data types.
#![allow(dead_code, unreachable_pub)]

use std::path::PathBuf;

use trug::form::condition::Condition;
use trug::form::space::{Atom, Block, Span};
use trug::form::{Answer, Answers, Kind, RuleSet, Traits};
use trug::measure::Exact;

/// One trait of a complete bloom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value {
    State(usize),
    Number(Exact),
    Absent,
}

/// A complete bloom: one value a trait.
pub type Bloom = Vec<Value>;

/// Whether a number lies in a span, by comparing its ends.
pub fn within(span: Span, number: Exact) -> bool {
    let above = number > span.low || span.low_in && number == span.low;
    let below = number < span.high || span.high_in && number == span.high;
    above && below
}

/// Whether a condition holds for a bloom. A trait that does not apply fulfils no test.
pub fn holds(condition: &Condition, bloom: &[Value]) -> bool {
    match condition {
        Condition::All(list) => list.iter().all(|one| holds(one, bloom)),
        Condition::Any(list) => list.iter().any(|one| holds(one, bloom)),
        Condition::Not(one) => !holds(one, bloom),
        Condition::States(index, mask) => match bloom[*index] {
            Value::State(state) => mask >> state & 1 == 1,
            _ => false,
        },
        Condition::Number(index, span) => match bloom[*index] {
            Value::Number(number) => within(*span, number),
            _ => false,
        },
    }
}

/// Whether a bloom can be: every trait is there exactly where it applies, and its number is 0
/// exactly where the table says.
pub fn can_be(traits: &Traits, bloom: &[Value]) -> bool {
    traits.list().iter().zip(bloom).all(|(one, value)| {
        let applies = one
            .only_where
            .as_ref()
            .is_none_or(|gate| holds(gate, bloom));
        if applies == (*value == Value::Absent) {
            return false;
        }
        let nought = *value == Value::Number(Exact::zero());
        let zero = one.zero_where.as_ref().map(|gate| holds(gate, bloom));
        zero.is_none_or(|zero| *value == Value::Absent || nought == zero)
    })
}

/// The forms of a bloom, by reading every rule: one where the set is right.
pub fn forms_of(set: &RuleSet, bloom: &[Value]) -> Vec<usize> {
    let mut shapes: Vec<bool> = Vec::new();
    for shape in &set.shapes {
        let before = shape.unless.iter().any(|at| shapes[*at]);
        shapes.push(holds(&shape.requires, bloom) && !before);
    }
    let size = set.traits.find("diameter").expect("a diameter");
    let fits = |span: Span| {
        set.traits.get(size).domain() == Some(span)
            || matches!(bloom[size], Value::Number(number) if within(span, number))
    };
    (0..set.forms.len())
        .filter(|at| shapes[set.forms[*at].shape] && fits(set.forms[*at].diameter))
        .collect()
}

/// Whether a bloom is among those that the answers leave.
pub fn agrees(answers: &Answers, bloom: &[Value]) -> bool {
    answers
        .iter()
        .all(|(index, answer)| match (answer, bloom[index]) {
            (Answer::CannotTell, _) => true,
            (Answer::States(mask), Value::State(state)) => mask >> state & 1 == 1,
            (Answer::Values(values), Value::Number(number)) => {
                let sum = values.iter().fold(Exact::zero(), |sum, one| sum + *one);
                sum / Exact::whole(values.len() as i64) == number
            }
            (Answer::Range(span), Value::Number(number)) => within(*span, number),
            _ => false,
        })
}

/// A bloom of a block: the first atom of each trait, by a value inside it.
pub fn bloom_in(set: &RuleSet, block: &Block) -> Bloom {
    let sample = |(scale, mask): (&trug::form::space::Scale, u64)| match scale.atoms()
        [mask.trailing_zeros() as usize]
    {
        Atom::State(state) => Value::State(state),
        Atom::Span(span) => Value::Number(span.sample()),
        Atom::Absent => Value::Absent,
    };
    set.scales().iter().zip(block.0).map(sample).collect()
}

/// Every bloom that can be, with numbers at and between all that the rules and `extra` name, and
/// every whole number of a count.
pub fn every_bloom(set: &RuleSet, extra: &[(usize, Exact)]) -> Vec<Bloom> {
    let mut named: Vec<(usize, Exact)> = extra.to_vec();
    for shape in &set.shapes {
        shape.requires.cuts(&mut named);
    }
    for one in set.traits.list() {
        for gate in [&one.only_where, &one.zero_where].into_iter().flatten() {
            gate.cuts(&mut named);
        }
    }
    let size = set.traits.find("diameter").expect("a diameter");
    for form in &set.forms {
        named.extend([(size, form.diameter.low), (size, form.diameter.high)]);
    }
    let mut blooms: Vec<Bloom> = vec![Vec::new()];
    for (index, one) in set.traits.list().iter().enumerate() {
        let mut values: Vec<Value> = match (&one.kind, one.domain()) {
            (Kind::OneOf(states), _) => (0..states.len()).map(Value::State).collect(),
            (Kind::Count(least, most), _) => {
                let whole = |n| Value::Number(Exact::whole(n));
                (*least..=*most).map(whole).collect()
            }
            (_, Some(domain)) => {
                let own = named.iter().filter(|(at, _)| *at == index).map(|(_, n)| *n);
                let mut ends: Vec<Exact> = own.chain([domain.low, domain.high]).collect();
                ends.sort();
                ends.dedup();
                let between = ends.windows(2).map(|p| (p[0] + p[1]) / Exact::whole(2));
                let all: Vec<Exact> = ends.iter().copied().chain(between).collect();
                all.into_iter()
                    .filter(|n| within(domain, *n))
                    .map(Value::Number)
                    .collect()
            }
            (_, None) => Vec::new(),
        };
        if one.only_where.is_some() {
            values.push(Value::Absent);
        }
        blooms = blooms
            .iter()
            .flat_map(|bloom| {
                values.iter().map(move |value| {
                    let mut longer = bloom.clone();
                    longer.push(*value);
                    longer
                })
            })
            .collect();
    }
    blooms.retain(|bloom| can_be(&set.traits, bloom));
    blooms
}

/// The deliberately broken rule sets: file name without its ending, and text; in order of names.
pub fn broken_files() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/data/broken");
    let mut files: Vec<(String, String)> = std::fs::read_dir(&folder)
        .expect("tests/data/broken")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .map(|path| {
            let name = path.file_stem().expect("a name").to_string_lossy();
            (
                name.into_owned(),
                std::fs::read_to_string(&path).expect("a file"),
            )
        })
        .collect();
    files.sort();
    files
}

/// The embedded rule sets and the broken ones: name and text.
pub fn all_files() -> Vec<(String, String)> {
    let embedded = RuleSet::embedded_files()
        .map(|(file, text)| (file.trim_end_matches(".ron").to_string(), text.to_string()));
    embedded.into_iter().chain(broken_files()).collect()
}

/// Reads one of [`all_files`].
pub fn read(name: &str, text: &str) -> RuleSet {
    RuleSet::read(&format!("{name}.ron"), text, &Traits::embedded()).expect(name)
}
