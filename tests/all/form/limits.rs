//! Every limit of the rule sets that ship, from both sides.

use crate::common::rules_as_written::{Bloom, Value, bloom_in, can_be, forms_of, within};
use trug::form::{Answers, Kind, RuleSet, Status, Traits};
use trug::measure::Exact;

fn set_named(id: &str) -> RuleSet {
    let mut sets = RuleSet::embedded().into_iter();
    sets.find(|set| set.id == id).expect(id)
}

/// What a bloom is called: its forms and its size word.
fn called(set: &RuleSet, bloom: &Bloom) -> (Vec<String>, Option<String>) {
    let forms = forms_of(set, bloom).into_iter();
    let size = set.traits.find("diameter").expect("a diameter");
    let word = set
        .size_words
        .iter()
        .find(|(_, span)| matches!(bloom[size], Value::Number(number) if within(*span, number)));
    (
        forms.map(|form| set.forms[form].id.clone()).collect(),
        word.map(|(word, _)| word.clone()),
    )
}

/// Every named limit decides something: for some bloom, on the limit or a hair beside it, the name
/// changes from one to another of the three; and if that one named limit is moved by a hair, in
/// the text, some bloom is called otherwise. So no limit is a dead setting, and none is masked by
/// another with the same number.
#[test]
fn every_named_limit_decides_the_name_of_some_bloom() {
    let traits = Traits::embedded();
    for (file, text) in RuleSet::embedded_files() {
        let set = RuleSet::read(file, text, &traits).expect(file);
        let blocks = set.forms.iter().flat_map(|form| &form.blocks);
        let blooms: Vec<Bloom> = blocks.map(|block| bloom_in(&set, block)).collect();
        for (name, written) in &set.limits {
            // A hair: a hundredth of a per cent or of a millimetre or inch; of a count, one.
            let (number, unit) = written.split_once(' ').unwrap_or((written, ""));
            let number: Exact = number.parse().expect(written);
            let hair = if unit.is_empty() {
                Exact::whole(1)
            } else {
                Exact::ratio(1, 100)
            };
            let moved = [number + hair, number - hair]
                .map(|moved| {
                    text.replace(
                        &format!("{name:?}: {written:?}"),
                        &format!("{name:?}: \"{moved} {unit}\"").replace(" \"", "\""),
                    )
                })
                .map(|moved| {
                    assert_ne!(moved, text, "{file}: {name}");
                    RuleSet::read(file, &moved, &traits)
                });
            let (mut steps, mut moves) = (0, 0);
            for (index, one) in traits.list().iter().enumerate() {
                let (Some(at), Some(domain)) = (one.number(written), one.domain()) else {
                    continue;
                };
                let scale = if unit == "in" {
                    Exact::ratio(254, 10)
                } else {
                    Exact::whole(1)
                };
                for bloom in &blooms {
                    let with = |number: Exact| {
                        let mut bloom = bloom.clone();
                        bloom[index] = Value::Number(number);
                        let fits = within(domain, number) && can_be(&traits, &bloom);
                        fits.then_some(bloom)
                    };
                    let near = [at - hair * scale, at, at + hair * scale].map(with);
                    let names = near
                        .clone()
                        .map(|bloom| bloom.map(|bloom| called(&set, &bloom)));
                    let mut pairs = names.windows(2);
                    steps += usize::from(
                        pairs.any(|p| p[0].is_some() && p[1].is_some() && p[0] != p[1]),
                    );
                    for moved in moved.iter().flatten() {
                        let after = near
                            .clone()
                            .map(|bloom| bloom.map(|bloom| called(moved, &bloom)));
                        moves += usize::from(after != names);
                    }
                }
            }
            assert!(
                steps > 0,
                "{file}: no bloom changes its name at {name} = {written}"
            );
            assert!(
                moves > 0,
                "{file}: no bloom changes its name when {name} = {written} moves"
            );
        }
    }
}

/// A bloom, one of its traits, and its form for values of that trait: written by hand from the
/// definitions, not from the data.
type Row = (
    &'static str,
    &'static str,
    &'static str,
    &'static [(&'static str, &'static str)],
);

const OPEN: &str = "centre=open collar=none roll=flat";
const TUBE: &str = "centre=open rows=1 collar=none roll=forward";
const TUBE_COLLAR: &str = "centre=open rows=1 collar=petaloid roll=forward diameter=4in";
const SPINE: &str = "centre=closed heart=round tip=pointed roll=back set=regular outline=deep gradient=graded width=broad";
const GLOBE: &str =
    "centre=closed heart=round outline=globe tip=rounded set=regular roll=forward line=straight";
const SAUCER: &str =
    "centre=closed heart=round outline=saucer set=regular gradient=even tip=rounded line=straight";

const TRADE: &[Row] = &[
    (
        "diameter=4in",
        OPEN,
        "rows",
        &[
            ("1", "single"),
            ("2", "peony"),
            ("4", "peony"),
            ("5", "peony"),
            ("6", "novelty-open"),
        ],
    ),
    (
        "diameter=4in",
        TUBE,
        "rolled",
        &[
            ("5", "single"),
            ("40", "single"),
            ("66.99", "single"),
            ("67", "orchid"),
            ("67.01", "orchid"),
        ],
    ),
    (
        "",
        TUBE_COLLAR,
        "rolled",
        &[
            ("5", "collarette"),
            ("66.99", "collarette"),
            ("67", "orchette"),
            ("67.01", "orchette"),
        ],
    ),
    (
        "diameter=4in",
        GLOBE,
        "rolled",
        &[
            ("49.99", "formal-decorative"),
            ("50", "formal-decorative"),
            ("50.01", "ball"),
        ],
    ),
    (
        "line=straight diameter=6in",
        SPINE,
        "rolled",
        &[
            ("24.99", "formal-decorative"),
            ("25", "semi-cactus"),
            ("25.01", "semi-cactus"),
            ("49.99", "semi-cactus"),
            ("50", "semi-cactus"),
            ("50.01", "straight-cactus"),
        ],
    ),
    (
        "line=reflexed diameter=6in",
        SPINE,
        "rolled",
        &[("50", "semi-cactus"), ("50.01", "straight-cactus")],
    ),
    (
        "line=incurved diameter=6in",
        SPINE,
        "rolled",
        &[
            ("24.99", "novelty-fully-double"),
            ("25", "semi-cactus"),
            ("50", "semi-cactus"),
            ("50.01", "incurved-cactus"),
        ],
    ),
    (
        "roll=flat diameter=5in",
        SAUCER,
        "rows",
        &[
            ("3", "formal-decorative"),
            ("4", "waterlily"),
            ("5", "waterlily"),
            ("7", "waterlily"),
            ("8", "formal-decorative"),
        ],
    ),
    (
        "roll=back rows=6 diameter=5in",
        SAUCER,
        "rolled",
        &[
            ("24.99", "waterlily"),
            ("25", "novelty-fully-double"),
            ("25.01", "novelty-fully-double"),
        ],
    ),
    (
        "rolled=80",
        GLOBE,
        "diameter",
        &[
            ("50.79mm", "pompon"),
            ("2in", "pompon"),
            ("50.81mm", "miniature-ball"),
            ("88.89mm", "miniature-ball"),
            ("3 1/2 in", "ball"),
            ("88.91mm", "ball"),
        ],
    ),
    (
        "rows=1",
        OPEN,
        "diameter",
        &[
            ("50.79mm", "mignon-single"),
            ("2in", "mignon-single"),
            ("50.81mm", "single"),
        ],
    ),
    (
        "rolled=90",
        TUBE,
        "diameter",
        &[
            ("50.79mm", "micro-orchid"),
            ("2in", "micro-orchid"),
            ("50.81mm", "orchid"),
        ],
    ),
    (
        "",
        "centre=pincushion",
        "diameter",
        &[
            ("50.79mm", "micro-anemone"),
            ("2in", "micro-anemone"),
            ("50.81mm", "anemone"),
        ],
    ),
];

const REGISTER: &[Row] = &[
    (
        "",
        OPEN,
        "rows",
        &[("1", "single"), ("2", "peony"), ("6", "peony")],
    ),
    // A floret that curls a little at its tip is no orchid's: the register's groups are told apart
    // by florets that are flat as a whole or rolled as a whole. How much counts is our reading.
    (
        "",
        TUBE,
        "rolled",
        &[
            ("5", "single"),
            ("24.99", "single"),
            ("25", "single"),
            ("25.01", "single-orchid"),
            ("40", "single-orchid"),
            ("100", "single-orchid"),
        ],
    ),
    (
        "",
        "centre=open rows=1 collar=none roll=back",
        "rolled",
        &[("5", "single"), ("40", "single-orchid")],
    ),
    // The register has no group for a collarette of rolled florets.
    (
        "",
        TUBE_COLLAR,
        "rolled",
        &[
            ("5", "collerette"),
            ("25", "collerette"),
            ("25.01", "miscellaneous"),
            ("40", "miscellaneous"),
        ],
    ),
    (
        "diameter=48mm",
        GLOBE,
        "rolled",
        &[
            ("74.99", "decorative"),
            ("75", "ball"),
            ("75.01", "ball"),
            ("99.99", "ball"),
            ("100", "pompon"),
        ],
    ),
    (
        "rolled=100",
        GLOBE,
        "diameter",
        &[
            ("49.99mm", "pompon"),
            ("50mm", "pompon"),
            ("50.01mm", "ball"),
            ("2in", "ball"),
        ],
    ),
    (
        "outline=deep tip=rounded roll=forward centre=closed heart=round",
        "",
        "rolled",
        &[
            ("74.99", "decorative"),
            ("75", "decorative"),
            ("75.01", "miscellaneous"),
        ],
    ),
    (
        "line=straight",
        SPINE,
        "rolled",
        &[
            ("24.99", "decorative"),
            ("25", "decorative"),
            ("25.01", "semi-cactus"),
            ("64.99", "semi-cactus"),
            ("65", "cactus"),
            ("65.01", "cactus"),
        ],
    ),
    (
        "line=incurved",
        SPINE,
        "rolled",
        &[
            ("25", "decorative"),
            ("25.01", "semi-cactus"),
            ("64.99", "semi-cactus"),
            ("65", "cactus"),
        ],
    ),
    (
        "line=reflexed",
        SPINE,
        "rolled",
        &[
            ("25", "decorative"),
            ("25.01", "miscellaneous"),
            ("65", "miscellaneous"),
        ],
    ),
    (
        "roll=flat",
        SAUCER,
        "rows",
        &[("1", "waterlily"), ("7", "waterlily"), ("8", "decorative")],
    ),
    (
        "roll=forward rows=6",
        SAUCER,
        "rolled",
        &[
            ("24.99", "waterlily"),
            ("25", "waterlily"),
            ("25.01", "decorative"),
        ],
    ),
    (
        "roll=back rows=6",
        SAUCER,
        "rolled",
        &[("25", "waterlily"), ("25.01", "miscellaneous")],
    ),
];

#[test]
fn each_limit_falls_where_the_definitions_put_it() {
    for (id, rows) in [("trade-inch", TRADE), ("register-mm", REGISTER)] {
        let set = set_named(id);
        for (more, base, name, values) in rows {
            for (value, form) in *values {
                let mut pairs: Vec<String> = format!("{base} {more}")
                    .split_whitespace()
                    .map(str::to_string)
                    .collect();
                pairs.push(format!("{name}={value}"));
                let answers = Answers::read(&pairs, &set.traits).expect(base);
                let verdict = set.verdict(&answers);
                let found: Vec<&str> = verdict
                    .possible
                    .iter()
                    .map(|form| set.forms[*form].id.as_str())
                    .collect();
                assert_eq!(found, [*form], "{id}: {pairs:?}");
                assert!(matches!(verdict.status, Status::Settled(_)));
            }
        }
    }
}

#[test]
fn a_bloom_exactly_on_a_size_limit_has_the_smaller_word() {
    let inches = [
        ("4", "miniature", "small"),
        ("6", "small", "medium"),
        ("8", "medium", "large"),
        ("10", "large", "giant"),
    ];
    let millimetres = [
        ("100", "miniature", "small"),
        ("150", "small", "medium"),
        ("200", "medium", "large"),
        ("250", "large", "giant"),
    ];
    for (id, unit, limits) in [
        ("trade-inch", "in", inches),
        ("register-mm", "mm", millimetres),
    ] {
        let set = set_named(id);
        let size = set.traits.find("diameter").expect("a diameter");
        assert!(matches!(set.traits.get(size).kind, Kind::Length(_)));
        for (limit, at_most, over) in limits {
            for (diameter, word) in [(limit.to_string(), at_most), (format!("{limit}.001"), over)] {
                let pair = format!("diameter={diameter}{unit}");
                let answers = Answers::read(&[pair.as_str()], &set.traits).expect("a diameter");
                assert_eq!(set.size_of(&answers), Some(word), "{id}: {pair}");
            }
        }
    }
}
