//! A rule set as it is written in RON, checked and turned into a draft of a [`RuleSet`].

use std::collections::BTreeMap;

use serde::Deserialize;

use super::condition::{Condition, MOST_PARTS, Reader};
use super::met::MetTable;
use super::rules::{Form, Named, RuleSet, Shape};
use super::space::Span;
use super::traits::{Kind, Traits};
use crate::measure::SizeUnits;
use crate::problem::{Problem, read_ron};

/// What a form's id and name put in place of their shape's.
const OF_SHAPE: &str = "{shape}";
/// The trait that splits shapes by size.
const SIZE_TRAIT: &str = "diameter";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SetSource<'a> {
    id: &'a str,
    name: String,
    source: String,
    #[serde(default)]
    units: SizeUnits,
    #[serde(borrow)]
    limits: BTreeMap<&'a str, &'a str>,
    #[serde(borrow, default)]
    limit_notes: BTreeMap<&'a str, String>,
    #[serde(borrow)]
    words: BTreeMap<&'a str, &'a str>,
    typical_odds: f64,
    #[serde(borrow)]
    shapes: Vec<ShapeSource<'a>>,
    #[serde(borrow)]
    sizes: Vec<SplitSource<'a>>,
    #[serde(borrow)]
    size_words: Vec<SizeWordSource<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShapeSource<'a> {
    id: &'a str,
    name: String,
    means: String,
    requires: &'a str,
    #[serde(borrow, default)]
    unless: Unless<'a>,
    #[serde(default)]
    catch_all: bool,
    #[serde(borrow, default)]
    typical: &'a str,
}

#[derive(Deserialize)]
enum Unless<'a> {
    Above,
    These(#[serde(borrow)] Vec<&'a str>),
}

impl Default for Unless<'_> {
    fn default() -> Self {
        Unless::These(Vec::new())
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SplitSource<'a> {
    #[serde(borrow)]
    of: Vec<&'a str>,
    #[serde(borrow)]
    into: Vec<FormSource<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FormSource<'a> {
    id: &'a str,
    name: &'a str,
    diameter: &'a str,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SizeWordSource<'a> {
    word: String,
    diameter: &'a str,
}

impl RuleSet {
    /// Reads a rule set from RON, or says everything that is wrong with it.
    pub fn read(file: &str, text: &str, traits: &Traits) -> Result<RuleSet, Vec<Problem>> {
        let draft = draft(file, text, traits)?;
        RuleSet::compiled(draft).map_err(|message| vec![Problem::at(file, text, 0, message)])
    }
}

/// More than a million to one is certainty, which no rule of thumb is.
const MOST_ODDS: f64 = 1e6;

/// Reads a rule set without its blocks, or says everything that is wrong with it.
fn draft(file: &str, text: &str, traits: &Traits) -> Result<RuleSet, Vec<Problem>> {
    let source: SetSource<'_> = read_ron(file, text).map_err(|problem| vec![problem])?;
    let mut reader = Reader::new(file, text, traits);
    if !(1.0..=MOST_ODDS).contains(&source.typical_odds) {
        reader.note_field(
            "typical_odds",
            &source.typical_odds.to_string(),
            &format!("1 to {MOST_ODDS}"),
        );
    }
    if source.shapes.is_empty() {
        reader.note_field("shapes", "no shape", "at least one");
    }
    reader.limits = source.limits.clone();
    for name in source.limit_notes.keys() {
        if !source.limits.contains_key(name) {
            reader.note(name, "the name of a limit");
        }
    }
    for (name, words) in &source.words {
        if let Some(condition) = reader.read(words) {
            reader.words.insert(name, condition);
        }
    }
    let shapes = shapes(&mut reader, &source);
    let is_length = |at: &usize| matches!(traits.get(*at).kind, Kind::Length(_));
    let (forms, size_words) = match traits.find(SIZE_TRAIT).filter(is_length) {
        Some(size) => (
            forms(&mut reader, size, &source, &shapes),
            size_words(&mut reader, size, &source.size_words),
        ),
        None => {
            reader.note(
                source.id,
                "a trait `diameter`, a length, in the table of traits",
            );
            (Vec::new(), Vec::new())
        }
    };
    if !reader.problems.is_empty() {
        return Err(reader.problems);
    }
    Ok(RuleSet {
        id: source.id.to_string(),
        name: source.name,
        source: source.source,
        units: source.units,
        traits: traits.clone(),
        limits: source
            .limits
            .iter()
            .map(|(n, v)| (n.to_string(), v.to_string()))
            .collect(),
        shapes,
        forms,
        size_words,
        typical_odds: source.typical_odds,
        scales: Vec::new(),
        valid: Vec::new(),
        met: MetTable::default(),
    })
}

fn shapes<'a>(reader: &mut Reader<'a>, set: &SetSource<'a>) -> Vec<Shape> {
    let mut shapes: Vec<Shape> = Vec::new();
    for source in &set.shapes {
        if shapes.iter().any(|shape| shape.id == source.id) {
            reader.note(source.id, "each shape once");
        }
        let requires = reader.read(source.requires);
        let unless = match &source.unless {
            Unless::Above => (0..shapes.len()).collect(),
            Unless::These(ids) => {
                let mut known = Vec::new();
                for id in ids {
                    match shapes.iter().position(|shape| shape.id == *id) {
                        Some(index) => known.push(index),
                        None => reader.note(id, "the id of a shape written above this one"),
                    }
                }
                known
            }
        };
        let typical = reader.read(source.typical);
        shapes.push(Shape {
            id: source.id.to_string(),
            name: source.name.clone(),
            means: source.means.clone(),
            requires: requires.unwrap_or(Condition::All(Vec::new())),
            unless,
            catch_all: source.catch_all,
            typical: match typical {
                Some(Condition::All(list)) => list,
                Some(one) => vec![one],
                None => Vec::new(),
            },
            text: source.requires.to_string(),
            typical_text: source.typical.to_string(),
            names: names(set, source),
        });
    }
    shapes
}

/// The words and limits that a shape's rule and its sizes name, each once and before those that it
/// names itself.
fn names(set: &SetSource<'_>, shape: &ShapeSource<'_>) -> Vec<Named> {
    let split = set.split_of(shape.id).map_or(&[][..], |split| &split.into);
    let mut texts = vec![shape.requires];
    texts.extend(split.iter().map(|form| form.diameter));
    let mut named: Vec<Named> = Vec::new();
    let mut next = 0;
    while let Some(text) = texts.get(next).copied() {
        next += 1;
        for name in text.split(|c: char| !c.is_alphanumeric() && c != '-') {
            let word = set.words.get(name);
            let Some(value) = word.or_else(|| set.limits.get(name)) else {
                continue;
            };
            if named.iter().any(|known| known.name == name) {
                continue;
            }
            texts.extend(word);
            named.push(Named {
                name: name.to_string(),
                value: value.to_string(),
                note: set.limit_notes.get(name).cloned(),
            });
        }
    }
    named
}

impl<'a> SetSource<'a> {
    /// How the shape with this id is split by size: by its own line, else by that of all others.
    fn split_of(&self, shape: &str) -> Option<&SplitSource<'a>> {
        let own = self.sizes.iter().find(|split| split.of.contains(&shape));
        own.or_else(|| self.sizes.iter().find(|split| split.of.is_empty()))
    }
}

fn forms<'a>(
    reader: &mut Reader<'a>,
    size: usize,
    source: &SetSource<'a>,
    shapes: &[Shape],
) -> Vec<Form> {
    let mut forms: Vec<Form> = Vec::new();
    let domain = reader.traits.get(size).domain();
    let parts = parts_with_precedence(shapes);
    for split in &source.sizes {
        for of in &split.of {
            if !shapes.iter().any(|shape| shape.id == *of) {
                reader.note(of, "the id of a shape");
            }
        }
    }
    for (index, shape) in shapes.iter().enumerate() {
        let Some(split) = source.split_of(&shape.id) else {
            reader.note(
                source.shapes[index].id,
                "a line of `sizes` for this shape, or one with `of: []`",
            );
            continue;
        };
        if split.into.is_empty() {
            reader.note(
                source.shapes[index].id,
                "a form for this shape in `into`, which is empty",
            );
        }
        if parts[index] > MOST_PARTS {
            reader.note(
                source.shapes[index].id,
                "a shape that gives way to fewer others, or `unless: Above`: its rule is too tangled to prove",
            );
            continue;
        }
        for form in &split.into {
            let Some(diameter) = reader.read_span(size, form.diameter) else {
                continue;
            };
            let id = form.id.replace(OF_SHAPE, &shape.id);
            if forms.iter().any(|other| other.id == id) {
                reader.note(
                    form.id,
                    &format!("each form once, and {id:?} is there already"),
                );
            }
            forms.push(Form {
                id,
                name: form.name.replace(OF_SHAPE, &shape.name),
                shape: index,
                diameter,
                condition: sized(effective(shapes, index), size, diameter, domain),
                blocks: Vec::new(),
            });
        }
    }
    forms
}

/// A shape's demand with precedence: what it requires, and none of the shapes before it.
fn effective(shapes: &[Shape], index: usize) -> Condition {
    let shape = &shapes[index];
    let before: Vec<Condition> = shape
        .unless
        .iter()
        .map(|at| {
            if gives_way_within(shapes, *at, index) {
                shapes[*at].requires.clone()
            } else {
                effective(shapes, *at)
            }
        })
        .collect();
    if before.is_empty() {
        return shape.requires.clone();
    }
    Condition::All(vec![
        shape.requires.clone(),
        Condition::Not(Box::new(Condition::Any(before))),
    ])
}

/// Whether all that the shape `at` gives way to is taken by shapes before `index` too. Then a bloom
/// that fulfils `at`'s own demand is certainly taken before `index`, and the demand alone says so.
fn gives_way_within(shapes: &[Shape], at: usize, index: usize) -> bool {
    let mut own = shapes[at].unless.iter();
    own.all(|before| shapes[index].unless.contains(before))
}

/// How many parts [`effective`] would have for each shape: precedence may double it every time.
fn parts_with_precedence(shapes: &[Shape]) -> Vec<usize> {
    let mut parts: Vec<usize> = Vec::new();
    for (index, shape) in shapes.iter().enumerate() {
        let before = shape.unless.iter().map(|at| {
            if gives_way_within(shapes, *at, index) {
                shapes[*at].requires.parts()
            } else {
                parts[*at]
            }
        });
        let all = before.fold(shape.requires.parts(), usize::saturating_add);
        parts.push(all.saturating_add(2));
    }
    parts
}

fn sized(shape: Condition, size: usize, diameter: Span, domain: Option<Span>) -> Condition {
    // A form that takes every diameter has no test of it.
    if domain == Some(diameter) {
        return shape;
    }
    Condition::All(vec![Condition::Number(size, diameter), shape])
}

fn size_words<'a>(
    reader: &mut Reader<'a>,
    size: usize,
    sources: &[SizeWordSource<'a>],
) -> Vec<(String, Span)> {
    let mut words = Vec::new();
    for source in sources {
        if let Some(span) = reader.read_span(size, source.diameter) {
            words.push((source.word.clone(), span));
        }
    }
    words
}
