//! A rule set, compiled: every form as disjoint blocks of the space of observations.

use super::answer::{Answer, Answers};
use super::condition::{Condition, MOST_BLOCKS, Parted};
use super::met::MetTable;
use super::space::{Atom, Block, MOST_ATOMS, Scale, Span, bits, merged};
use super::traits::{Kind, Trait, Traits};
use crate::measure::same_id;
use crate::measure::{Exact, SizeUnits};

/// The rule sets that ship in the binary, by file name.
const EMBEDDED: [(&str, &str); 2] = [
    (
        "trade-inch.ron",
        include_str!("../../assets/rules/trade-inch.ron"),
    ),
    (
        "register-mm.ron",
        include_str!("../../assets/rules/register-mm.ron"),
    ),
];

/// A society's or the trade's definitions of form, ready to key with.
#[derive(Debug, Clone)]
pub struct RuleSet {
    /// The id used in files, commands and JSON.
    pub id: String,
    /// The name in plain words.
    pub name: String,
    /// Whose definitions they are.
    pub source: String,
    /// The units that its limits are usually told in.
    pub units: SizeUnits,
    /// The traits that the rules speak of.
    pub traits: Traits,
    /// Named limits as written, in the order of their names.
    pub limits: Vec<(String, String)>,
    /// Shapes in the order of the file.
    pub shapes: Vec<Shape>,
    /// Forms: each shape, split by size where the set splits it.
    pub forms: Vec<Form>,
    /// Words for sizes, each with its diameters in millimetres.
    pub size_words: Vec<(String, Span)>,
    /// How many times likelier a typical state is than another that the rule allows.
    pub typical_odds: f64,
    pub(super) scales: Vec<Scale>,
    pub(super) valid: Vec<Block>,
    pub(super) met: MetTable,
}

/// A shape: what a rule defines, before size splits it.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// The id used in files.
    pub id: String,
    /// The name in plain words.
    pub name: String,
    /// What a bloom of this shape looks like, in one phrase.
    pub means: String,
    /// The shape's own demand, before precedence.
    pub requires: Condition,
    /// Indices of the shapes that come before it.
    pub unless: Vec<usize>,
    /// Whether the shape takes what no other shape takes.
    pub catch_all: bool,
    /// What most blooms of the shape show; decides nothing.
    pub typical: Vec<Condition>,
    /// The rule as it is written.
    pub text: String,
    /// What is typical as it is written.
    pub typical_text: String,
    /// The words and limits that the rule and its sizes name, each with what it stands for.
    pub names: Vec<Named>,
}

/// A word or a limit that a rule names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// The name.
    pub name: String,
    /// What it stands for, as it is written: `67 %`, or a condition.
    pub value: String,
    /// Its source, or on what published lists differ.
    pub note: Option<String>,
}

/// A form: what a bloom is keyed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// The id used in files, commands and JSON.
    pub id: String,
    /// The name in plain words.
    pub name: String,
    /// Index of its shape.
    pub shape: usize,
    /// The diameters of this form in millimetres.
    pub diameter: Span,
    /// Everything that makes a bloom this form, precedence and size included.
    pub condition: Condition,
    /// The observations of this form, as disjoint blocks.
    pub blocks: Vec<Block>,
}

impl RuleSet {
    /// The rule sets that ship in the binary; the first is the one used where none is named.
    ///
    /// # Panics
    /// Never: a test reads the embedded sets.
    pub fn embedded() -> Vec<RuleSet> {
        let traits = Traits::embedded();
        EMBEDDED
            .iter()
            .map(|(file, text)| RuleSet::read(file, text, &traits))
            .map(|set| set.expect("the embedded rule sets are read by a test"))
            .collect()
    }

    /// The embedded rule sets as files: name and text.
    pub fn embedded_files() -> [(&'static str, &'static str); 2] {
        EMBEDDED
    }

    /// Cuts the space at the set's numbers and turns every form's condition into blocks.
    pub(super) fn compiled(mut draft: RuleSet) -> Result<RuleSet, String> {
        draft.scales = scales(&[&draft])?;
        draft.valid = valid(&draft.traits, &draft.scales)?;
        let blocks = draft.blocks_on(&draft.scales, &draft.valid)?;
        for (form, blocks) in draft.forms.iter_mut().zip(blocks) {
            form.blocks = blocks;
        }
        draft.met = MetTable::of(&draft.scales, draft.forms.iter().map(|form| &form.blocks));
        Ok(draft)
    }

    /// Every form's blocks within the valid observations of a space cut by `scales`.
    pub(super) fn blocks_on(
        &self,
        scales: &[Scale],
        valid: &[Block],
    ) -> Result<Vec<Vec<Block>>, String> {
        let blocks = |form: &Form| match form.condition.part(scales, valid.to_vec()) {
            Some(Parted { inside, .. }) => Ok(merged(inside)),
            None => Err(format!(
                "found a rule for {:?} that is too tangled to prove, expected fewer clauses that overlap",
                form.id
            )),
        };
        let blocks: Vec<Vec<Block>> = self.forms.iter().map(blocks).collect::<Result<_, _>>()?;
        let count: usize = blocks.iter().map(Vec::len).sum();
        if count > MOST_BLOCKS {
            return Err(format!(
                "found rules that together are too tangled to prove ({count} blocks), expected fewer clauses that overlap"
            ));
        }
        Ok(blocks)
    }

    /// The index of the form with this id, however its words are joined.
    pub fn find(&self, id: &str) -> Option<usize> {
        let own = self.forms.iter().position(|form| form.id == id);
        own.or_else(|| self.forms.iter().position(|form| same_id(id, &form.id)))
    }

    /// The shape of the form with this index.
    pub fn shape_of(&self, form: usize) -> &Shape {
        &self.shapes[self.forms[form].shape]
    }

    /// What is noted of a limit of the trait with this index that one of the forms' rules names.
    pub fn note_of(&self, forms: &[usize], index: usize, limit: Exact) -> Option<&str> {
        let one = self.traits.get(index);
        let mut named = forms.iter().flat_map(|form| &self.shape_of(*form).names);
        named.find_map(|named| {
            let note = named.note.as_deref()?;
            (one.number(&named.value) == Some(limit)).then_some(note)
        })
    }

    /// How the traits are cut: one scale a trait.
    pub fn scales(&self) -> &[Scale] {
        &self.scales
    }

    /// The complete observations that can be, as disjoint blocks.
    pub fn valid(&self) -> &[Block] {
        &self.valid
    }

    /// One complete observation of a block as answers: a state, or a number in the middle of what
    /// no rule tells apart; nothing for a trait that does not apply.
    pub fn bloom_in(&self, block: &Block) -> Answers {
        let mut answers = Answers::default();
        for (index, scale) in self.scales.iter().enumerate() {
            match bits(block.0[index]).next().map(|at| scale.atoms()[at]) {
                Some(Atom::State(state)) => answers.set(index, Answer::States(1 << state)),
                Some(Atom::Span(span)) => answers.set(index, Answer::Values(vec![span.sample()])),
                Some(Atom::Absent) | None => {}
            }
        }
        answers
    }

    /// The word for the size of blooms that all lie in `diameters` (mm); `None` where two words or
    /// none apply.
    pub fn size_word(&self, diameters: Span) -> Option<&str> {
        let mut touched = self
            .size_words
            .iter()
            .filter(|(_, span)| span.meet(diameters).is_some());
        let (word, _) = touched.next()?;
        touched.next().is_none().then_some(word.as_str())
    }

    fn cuts(&self) -> Vec<(usize, Exact)> {
        let mut cuts = Vec::new();
        for form in &self.forms {
            form.condition.cuts(&mut cuts);
        }
        for typical in self.shapes.iter().flat_map(|shape| &shape.typical) {
            typical.cuts(&mut cuts);
        }
        cuts
    }
}

/// One scale a trait, cut at every number that any of the sets names. The sets share their traits.
pub(super) fn scales(sets: &[&RuleSet]) -> Result<Vec<Scale>, String> {
    let traits = &sets[0].traits;
    let mut cuts: Vec<_> = sets.iter().flat_map(|set| set.cuts()).collect();
    for (index, one) in traits.list().iter().enumerate() {
        for gate in [&one.only_where, &one.zero_where].into_iter().flatten() {
            gate.cuts(&mut cuts);
        }
        if one.zero_where.is_some() {
            cuts.push((index, Exact::zero()));
        }
    }
    let scale = |(index, one): (usize, &Trait)| {
        let gated = one.only_where.is_some();
        let scale = match one.domain() {
            None => Scale::of_states(one.states().len(), gated),
            Some(domain) => {
                let own: Vec<_> = cuts
                    .iter()
                    .filter(|(at, _)| *at == index)
                    .map(|c| c.1)
                    .collect();
                Scale::of_numbers(domain, &own, matches!(one.kind, Kind::Count(..)), gated)
            }
        };
        if scale.atoms().len() > MOST_ATOMS {
            return Err(format!(
                "found so many limits for {} that it has {} parts, expected at most {MOST_ATOMS}",
                one.id,
                scale.atoms().len()
            ));
        }
        Ok(scale)
    };
    traits.list().iter().enumerate().map(scale).collect()
}

/// The observations that can be: a trait is absent exactly where it does not apply, and a number
/// is 0 exactly where the table says.
pub(super) fn valid(traits: &Traits, scales: &[Scale]) -> Result<Vec<Block>, String> {
    let mut valid = vec![Block::whole(scales)];
    let zero = Span::point(Exact::zero());
    for (index, one) in traits.list().iter().enumerate() {
        let (absent, nought) = (scales[index].absent(), scales[index].touched(zero));
        let gates = [
            (&one.only_where, !absent, absent),
            (&one.zero_where, nought | absent, !nought),
        ];
        for (gate, where_it_holds, elsewhere) in gates {
            let Some(gate) = gate else { continue };
            let parted = gate.part(scales, valid).ok_or_else(|| {
                format!(
                    "found a table of traits that is too tangled to prove at {:?}, expected fewer traits that hang on others",
                    one.id
                )
            })?;
            let narrow = |blocks: Vec<Block>, mask| {
                blocks
                    .into_iter()
                    .filter_map(move |b| b.narrowed(index, mask))
            };
            valid = narrow(parted.inside, where_it_holds)
                .chain(narrow(parted.outside, elsewhere))
                .collect();
        }
    }
    Ok(merged(valid))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_embedded_sets_have_their_forms() {
        let [trade, register] = &RuleSet::embedded()[..] else {
            panic!("two sets")
        };
        assert_eq!((trade.shapes.len(), trade.forms.len()), (17, 35));
        assert_eq!((register.shapes.len(), register.forms.len()), (15, 15));
    }

    #[test]
    fn a_shape_has_the_words_and_limits_of_its_rule_and_its_sizes() {
        let set = &RuleSet::embedded()[0];
        let names = |id: &str| {
            let names = set.shape_of(set.find(id).expect(id)).names.iter();
            names.map(|named| named.name.as_str()).collect::<Vec<_>>()
        };
        assert_eq!(names("pompon"), ["ball-roll", "ball-size", "micro-size"]);
        // `tubed` is a word, and its own limit is told behind it.
        assert_eq!(names("orchid"), ["tubed", "micro-size", "tube-roll"]);
    }
}
