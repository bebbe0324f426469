//! Random rule sets of small traits, held against reading the rules one by one on every bloom.

use crate::common::rules_as_written as common;

use crate::common::rules_as_written::{Bloom, Value, agrees, can_be, every_bloom, forms_of};
use proptest::prelude::*;
use trug::form::space::{Atom, Block, Span};
use trug::form::{Answer, Answers, Kind, RuleSet, Status, Traits};
use trug::measure::Exact;

/// Random bytes as choices: all that is random comes from here, so a failing case shrinks.
struct Tape<'a> {
    bytes: &'a [u8],
}

impl Tape<'_> {
    fn pick(&mut self, choices: usize) -> usize {
        let (first, rest) = self.bytes.split_first().unwrap_or((&0, &[]));
        self.bytes = rest;
        usize::from(*first) % choices
    }

    fn one_in(&mut self, chances: usize) -> bool {
        self.pick(chances) == chances - 1
    }

    /// Some of the words, at least one.
    fn some<'w>(&mut self, words: &[&'w str]) -> Vec<&'w str> {
        let mask = 1 + self.pick((1 << words.len()) - 1);
        let chosen = words
            .iter()
            .enumerate()
            .filter(|(at, _)| mask >> at & 1 == 1);
        chosen.map(|(_, word)| *word).collect()
    }
}

/// Three to five traits: states, gated states, a share, a gated count, and the diameter.
fn traits(tape: &mut Tape<'_>) -> Traits {
    let state = |id: &str| format!("(id: {id:?}, means: \"\")");
    let line = |id: &str, kind: &str, gates: String| {
        format!(
            "(id: {id:?}, ask: \"\", look: \"\", kind: {kind}, effort: Look, mistake: 0.1{gates}),\n"
        )
    };
    let states = |ids: &[&str]| {
        let listed: Vec<String> = ids.iter().map(|id| state(id)).collect();
        format!("OneOf([{}])", listed.join(","))
    };
    let ids = ["x", "y", "z"];
    let first = &ids[..2 + tape.pick(2)];
    let mut text = format!("[\n{}", line("a", &states(first), String::new()));
    if !tape.one_in(3) {
        let gate = format!(", only_where: \"a={}\"", tape.some(first).join("|"));
        let gate = if tape.one_in(4) { String::new() } else { gate };
        text += &line("b", &states(&ids[..2]), gate);
    }
    let gate = match tape.pick(4) {
        0 => String::new(),
        1 => ", zero_where: \"not a=x\"".to_string(),
        2 => ", only_where: \"a=x|y\", zero_where: \"a=x\"".to_string(),
        _ => ", zero_where: \"a=x\"".to_string(),
    };
    text += &line("c", "Share", gate);
    if tape.one_in(2) {
        let gate = if tape.one_in(2) {
            ", only_where: \"not c over 50 or a=x\""
        } else {
            ""
        };
        text += &line("d", "Count(1, 4)", gate.to_string());
    }
    text += &line("diameter", "Length(\"100mm\")", String::new());
    text += "]";
    Traits::read("traits.ron", &text).unwrap_or_else(|problems| panic!("{problems:?}\n{text}"))
}

fn test(tape: &mut Tape<'_>, traits: &Traits) -> String {
    let one = traits.get(tape.pick(traits.list().len()));
    let relation = tape.pick(5);
    let numbers: &[&str] = match &one.kind {
        Kind::OneOf(states) => {
            let ids: Vec<&str> = states.iter().map(|state| state.id.as_str()).collect();
            return format!("{}={}", one.id, tape.some(&ids).join("|"));
        }
        Kind::Count(..) => &["2", "3"],
        Kind::Share => &["25 %", "half", "75 %"],
        Kind::Length(_) => &["2 in", "20 mm"],
    };
    let number = numbers[tape.pick(numbers.len())];
    let relation = ["over ", "under ", "at least ", "at most ", "="][relation];
    format!("{} {relation}{number}", one.id)
}

fn condition(tape: &mut Tape<'_>, traits: &Traits, depth: usize) -> String {
    if depth == 0 {
        return test(tape, traits);
    }
    let mut inner = || condition(tape, traits, depth - 1);
    let (first, second) = (inner(), inner());
    match tape.pick(5) {
        0 => first,
        1 => format!("({first}, {second})"),
        2 => format!("({first} or {second})"),
        3 => format!("not ({first} and {second})"),
        _ => format!("({first} or not {second})"),
    }
}

fn rule_set(tape: &mut Tape<'_>) -> RuleSet {
    let traits = traits(tape);
    let count = 2 + tape.pick(4);
    let ids: Vec<String> = (0..count).map(|at| format!("s{at}")).collect();
    let mut shapes = String::new();
    for (at, id) in ids.iter().enumerate() {
        let depth = tape.pick(3);
        let last = at + 1 == count;
        let requires = match last && !tape.one_in(3) {
            true => String::new(),
            false => condition(tape, &traits, depth),
        };
        let unless = match tape.pick(4) {
            0 if at > 0 && !last => {
                let above: Vec<&str> = ids[..at].iter().map(String::as_str).collect();
                format!("These({:?})", tape.some(&above))
            }
            1 if !last => "These([])".to_string(),
            _ => "Above".to_string(),
        };
        shapes += &format!(
            "(id: {id:?}, name: {id:?}, means: \"\", requires: {requires:?}, unless: {unless}),\n"
        );
    }
    let split = match tape.pick(6) {
        0 => {
            "(id: \"{shape}\", name: \"\", diameter: \"over 2 in\"), (id: \"small-{shape}\", name: \"\", diameter: \"at most 2 in\")"
        }
        1 => {
            "(id: \"{shape}\", name: \"\", diameter: \"at least 2 in\"), (id: \"small-{shape}\", name: \"\", diameter: \"at most 2 in\")"
        }
        2 => {
            "(id: \"{shape}\", name: \"\", diameter: \"over 2 in\"), (id: \"small-{shape}\", name: \"\", diameter: \"under 2 in\")"
        }
        _ => "(id: \"{shape}\", name: \"\", diameter: \"\")",
    };
    let text = format!(
        "(id: \"r\", name: \"\", source: \"\", limits: {{\"half\": \"50 %\"}}, words: {{}}, typical_odds: 5,
shapes: [\n{shapes}], sizes: [(of: [], into: [{split}])], size_words: [])"
    );
    RuleSet::read("r.ron", &text, &traits).unwrap_or_else(|problems| panic!("{problems:?}\n{text}"))
}

fn answer(tape: &mut Tape<'_>, kind: &Kind, narrow: bool) -> Answer {
    let number = |at: usize| match kind {
        Kind::Count(..) => Exact::whole(1 + at as i64 % 4),
        // Limits (20 and 50.8 mm; 25, 50 and 75 %), a hair beside them, and the ends.
        Kind::Length(_) => ["1", "20", "20.01", "50", "50.8", "100"][at % 6]
            .parse()
            .expect("a number"),
        _ => ["0", "24.99", "25", "50", "60", "75", "100"][at % 7]
            .parse()
            .expect("a number"),
    };
    match kind {
        Kind::OneOf(states) => {
            let mask = if narrow {
                1 << tape.pick(states.len())
            } else {
                1 + tape.pick((1 << states.len()) - 1)
            };
            Answer::States(mask as u64)
        }
        Kind::Length(_) if tape.one_in(3) => {
            Answer::Values((0..2).map(|_| number(tape.pick(6))).collect())
        }
        _ if !narrow && tape.one_in(2) => {
            let (one, other) = (number(tape.pick(7)), number(tape.pick(7)));
            Answer::Range(Span::closed(one.min(other), one.max(other)))
        }
        _ => Answer::Values(vec![number(tape.pick(7))]),
    }
}

fn answers(tape: &mut Tape<'_>, traits: &Traits) -> Answers {
    let mut answers = Answers::default();
    for (index, one) in traits.list().iter().enumerate() {
        match tape.pick(6) {
            0 | 1 => {}
            2 => answers.set(index, Answer::CannotTell),
            how => answers.set(index, answer(tape, &one.kind, how == 3)),
        }
    }
    answers
}

/// The answers to the traits of `subset` alone.
fn only(answers: &Answers, subset: usize) -> Answers {
    let mut left = Answers::default();
    for (index, answer) in answers.iter().filter(|(index, _)| subset >> index & 1 == 1) {
        left.set(index, answer.clone());
    }
    left
}

/// Every bloom with its forms.
fn keyed(set: &RuleSet, answers: &[&Answers]) -> Vec<(Bloom, Vec<usize>)> {
    let mut named = Vec::new();
    for (index, answer) in answers.iter().flat_map(|answers| answers.iter()) {
        if let Some(span) = answer.span() {
            named.extend([(index, span.low), (index, span.high)]);
        }
    }
    let blooms = every_bloom(set, &named).into_iter();
    blooms
        .map(|bloom| {
            let forms = forms_of(set, &bloom);
            (bloom, forms)
        })
        .collect()
}

fn possible(set: &RuleSet, answers: &Answers, keyed: &[(Bloom, Vec<usize>)]) -> Vec<usize> {
    let mut seen = vec![false; set.forms.len()];
    for (_, forms) in keyed.iter().filter(|(bloom, _)| agrees(answers, bloom)) {
        forms.iter().for_each(|form| seen[*form] = true);
    }
    (0..seen.len()).filter(|form| seen[*form]).collect()
}

/// How many answers the smallest set has that leaves none of `excluded` possible.
fn fewest(
    set: &RuleSet,
    answers: &Answers,
    keyed: &[(Bloom, Vec<usize>)],
    excluded: &[usize],
) -> u32 {
    let subsets = 0..1_usize << set.traits.list().len();
    let excludes = |subset: &usize| {
        let left = possible(set, &only(answers, *subset), keyed);
        !left.iter().any(|form| excluded.contains(form))
    };
    subsets
        .filter(excludes)
        .map(usize::count_ones)
        .min()
        .expect("all answers exclude")
}

/// Whether a value lies in the atom.
fn lies_in(value: Value, atom: Atom) -> bool {
    match (value, atom) {
        (Value::State(state), Atom::State(own)) => state == own,
        (Value::Number(number), Atom::Span(span)) => common::within(span, number),
        (Value::Absent, Atom::Absent) => true,
        _ => false,
    }
}

fn bloom_is_in(set: &RuleSet, bloom: &[Value], block: &Block) -> bool {
    bloom.iter().enumerate().all(|(index, value)| {
        let atoms = set.scales()[index].atoms().iter().enumerate();
        let mut own = atoms.filter(|(at, _)| block.0[index] >> at & 1 == 1);
        own.any(|(_, atom)| lies_in(*value, *atom))
    })
}

fn tape() -> impl Strategy<Value = Vec<u8>> {
    proptest::collection::vec(any::<u8>(), 60..160)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn the_proof_is_what_reading_every_bloom_shows(bytes in tape()) {
        let set = rule_set(&mut Tape { bytes: &bytes });
        let proof = set.prove();
        let keyed = keyed(&set, &[]);
        prop_assert_eq!(proof.total, keyed.iter().all(|(_, forms)| !forms.is_empty()));
        prop_assert_eq!(proof.disjoint, keyed.iter().all(|(_, forms)| forms.len() < 2));
        prop_assert_eq!(proof.gap.is_none(), proof.total);
        prop_assert_eq!(proof.overlap.is_none(), proof.disjoint);
        if let Some(block) = proof.gap {
            let bloom = common::bloom_in(&set, &block);
            prop_assert!(can_be(&set.traits, &bloom) && forms_of(&set, &bloom).is_empty());
            prop_assert_eq!(block.volume(), 1);
        }
        if let Some((block, first, second)) = proof.overlap {
            let bloom = common::bloom_in(&set, &block);
            let forms = forms_of(&set, &bloom);
            prop_assert!(can_be(&set.traits, &bloom));
            prop_assert!(first != second && forms.contains(&first) && forms.contains(&second));
            prop_assert_eq!(block.volume(), 1);
        }
        let never = (0..set.forms.len()).filter(|form| !keyed.iter().any(|(_, f)| f.contains(form)));
        prop_assert_eq!(&proof.never, &never.collect::<Vec<_>>());
        // Each atom's samples fall in one atom: as many cells as distinct atom tuples.
        let mut cells: Vec<Vec<u32>> = keyed.iter().map(|(bloom, _)| {
            let atom = |(value, scale): (&Value, &trug::form::space::Scale)| {
                scale.atoms().iter().position(|atom| lies_in(*value, *atom)).map_or(99, |at| at as u32)
            };
            bloom.iter().zip(set.scales()).map(atom).collect()
        }).collect();
        cells.sort();
        cells.dedup();
        prop_assert_eq!(proof.cells, cells.len() as u128);
    }

    #[test]
    fn the_blocks_of_a_form_hold_its_blooms_once(bytes in tape()) {
        let set = rule_set(&mut Tape { bytes: &bytes });
        for (bloom, forms) in keyed(&set, &[]) {
            for (at, form) in set.forms.iter().enumerate() {
                let blocks = form.blocks.iter().filter(|block| bloom_is_in(&set, &bloom, block));
                prop_assert_eq!(blocks.count(), usize::from(forms.contains(&at)));
            }
        }
    }

    #[test]
    fn the_verdict_is_what_reading_every_completion_shows(bytes in tape()) {
        let backward: Vec<u8> = bytes.iter().rev().copied().collect();
        let set = rule_set(&mut Tape { bytes: &bytes });
        let answers = answers(&mut Tape { bytes: &backward }, &set.traits);
        let keyed = keyed(&set, &[&answers]);
        let expected = possible(&set, &answers, &keyed);
        let verdict = set.verdict(&answers);
        prop_assert_eq!(&verdict.possible, &expected);
        prop_assert_eq!(verdict.status, match expected[..] {
            [] => Status::None,
            [one] => Status::Settled(one),
            _ => Status::Open,
        });
        for form in 0..set.forms.len() {
            let by = set.ruled_out_by(&answers, form);
            let anywhere = keyed.iter().any(|(_, forms)| forms.contains(&form));
            if expected.contains(&form) || !anywhere {
                prop_assert!(by.is_empty());
                continue;
            }
            let subset = by.iter().map(|index| 1_usize << index).sum();
            prop_assert!(!possible(&set, &only(&answers, subset), &keyed).contains(&form));
            prop_assert_eq!(by.len() as u32, fewest(&set, &answers, &keyed, &[form]));
            prop_assert!(by.is_sorted());
        }
    }

    #[test]
    fn a_conflict_names_as_few_answers_as_can_be_and_what_mends_it(bytes in tape()) {
        let backward: Vec<u8> = bytes.iter().rev().copied().collect();
        let set = rule_set(&mut Tape { bytes: &bytes });
        let answers = answers(&mut Tape { bytes: &backward }, &set.traits);
        let keyed = keyed(&set, &[&answers]);
        let all: Vec<usize> = (0..set.forms.len()).collect();
        let conflict = set.conflict(&answers);
        prop_assert_eq!(conflict.is_some(), possible(&set, &answers, &keyed).is_empty());
        let Some(conflict) = conflict else { return Ok(()) };
        prop_assert_eq!(conflict.gap, keyed.iter().any(|(bloom, _)| agrees(&answers, bloom)));
        let subset = conflict.traits.iter().map(|index| 1_usize << index).sum();
        prop_assert!(possible(&set, &only(&answers, subset), &keyed).is_empty());
        prop_assert_eq!(conflict.traits.len() as u32, fewest(&set, &answers, &keyed, &all));
        let named: Vec<usize> = conflict.mends.iter().map(|(index, _)| *index).collect();
        prop_assert_eq!(&named, &conflict.traits);
        for (index, mask) in conflict.mends {
            let mut rest = answers.clone();
            rest.take_back(index);
            for (at, atom) in set.scales()[index].atoms().iter().enumerate() {
                let mends = *atom != Atom::Absent && keyed.iter().any(|(bloom, forms)| {
                    !forms.is_empty() && agrees(&rest, bloom) && lies_in(bloom[index], *atom)
                });
                prop_assert_eq!(mask >> at & 1 == 1, mends, "trait {} atom {:?}", index, atom);
            }
        }
    }

    #[test]
    fn a_more_certain_observation_never_makes_a_form_possible_again(bytes in tape()) {
        let backward: Vec<u8> = bytes.iter().rev().copied().collect();
        let set = rule_set(&mut Tape { bytes: &bytes });
        let mut second = Tape { bytes: &backward };
        let mut given = answers(&mut second, &set.traits);
        let mut before = set.verdict(&given).possible;
        for (index, one) in set.traits.list().iter().enumerate() {
            let narrower = match given.get(index) {
                None | Some(Answer::CannotTell) => answer(&mut second, &one.kind, false),
                Some(Answer::States(mask)) => Answer::States(mask & mask.wrapping_neg()),
                Some(Answer::Range(span)) => Answer::Values(vec![span.low]),
                Some(Answer::Values(_)) => continue,
            };
            given.set(index, narrower);
            let after = set.verdict(&given).possible;
            prop_assert!(after.iter().all(|form| before.contains(form)), "{:?} {:?}", before, after);
            before = after;
        }
    }
}
