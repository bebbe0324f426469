//! The most typical bloom of a form: what a drawing of it shows where nobody has looked.

use super::answer::{Answer, Answers};
use super::rules::RuleSet;
use super::space::{Atom, Block, bits};
use super::traits::{Kind, Trait};
use super::weight::{AtomWeights, atom_weights, block_weight, mask_weight};
use crate::measure::Exact;

/// Blooms of less than this share of a span of diameters are not typical of it.
const LEAST_OF_SPAN: f64 = 0.5;

impl RuleSet {
    /// The most typical complete bloom of the form with this index that agrees with the answers;
    /// `None` where the answers rule the form out. Nothing is told of a trait that does not apply.
    ///
    /// Of the form's blocks the heaviest is taken, by the weights that belief goes by. In it a
    /// trait of states shows its heaviest state, or a choice of equals; a number is the median.
    /// Numbers that were measured are kept as they are.
    pub fn typical(&self, form: usize, answers: &Answers) -> Option<Answers> {
        let asked = answers.block(&self.scales);
        let own = atom_weights(self, self.shape_of(form));
        let blocks = self.forms[form].blocks.iter();
        let block = blocks
            .filter_map(|block| block.meet(&asked))
            .max_by(|a, b| block_weight(&own, a).total_cmp(&block_weight(&own, b)))?;
        Some(self.middle(&block, &own, answers))
    }

    /// One bloom of a block: its likeliest states and its median numbers.
    fn middle(&self, block: &Block, own: &AtomWeights, answers: &Answers) -> Answers {
        let mut bloom = Answers::default();
        for (index, one) in self.traits.list().iter().enumerate() {
            let (atoms, weights) = (self.scales[index].atoms(), &own[index]);
            let mask = block.0[index];
            let state = |at: usize| match atoms.get(at) {
                Some(Atom::State(state)) => 1 << state,
                _ => 0,
            };
            let most = heaviest(weights, mask);
            let answer = match (&one.kind, answers.get(index)) {
                (Kind::OneOf(_), _) => {
                    let equals = bits(mask).filter(|at| weights.get(*at) == Some(&most));
                    Some(Answer::States(equals.map(state).sum()))
                        .filter(|answer| *answer != Answer::States(0))
                }
                (_, Some(Answer::Values(values))) => Some(Answer::Values(values.clone())),
                _ => median(one, atoms, weights, mask).map(|value| Answer::Values(vec![value])),
            };
            if let Some(answer) = answer {
                bloom.set(index, answer);
            }
        }
        bloom
    }
}

/// The greatest weight of a set of one trait's atoms.
fn heaviest(weights: &[f64], mask: u64) -> f64 {
    let own = bits(mask).filter_map(|at| weights.get(at));
    own.copied().fold(0.0, f64::max)
}

/// The median of a trait's numbers over some atoms: counts and shares alike within an atom, whole
/// numbers for a count; of a diameter in the upper part of the atom, where most blooms are.
fn median(one: &Trait, atoms: &[Atom], weights: &[f64], mask: u64) -> Option<Exact> {
    let total = mask_weight(weights, mask);
    let mut before = 0.0;
    for at in bits(mask) {
        let weight = *weights.get(at)?;
        let Atom::Span(span) = *atoms.get(at)? else {
            continue;
        };
        if before + weight < total / 2.0 {
            before += weight;
            continue;
        }
        if span.low == span.high {
            return Some(span.low);
        }
        let least = match one.kind {
            Kind::Length(_) => (span.high.to_f64() * LEAST_OF_SPAN).max(span.low.to_f64()),
            _ => span.low.to_f64(),
        };
        let share = ((total / 2.0 - before) / weight).clamp(0.05, 0.95);
        let value = least + share * (span.high.to_f64() - least);
        let value = Exact::whole(value.round() as i64);
        return Some(if span.holds(value) {
            value
        } else {
            span.sample()
        });
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Status;

    fn typical(form: &str, pairs: &[&str]) -> Option<String> {
        let set = &RuleSet::embedded()[0];
        let answers = Answers::read(pairs, &set.traits).expect("answers");
        let bloom = set.typical(set.find(form).expect("a form"), &answers)?;
        Some(bloom.print(&set.traits))
    }

    #[test]
    fn every_form_has_a_typical_bloom_that_keys_back_to_it() {
        for set in RuleSet::embedded() {
            for form in 0..set.forms.len() {
                let bloom = set.typical(form, &Answers::default()).expect("a bloom");
                let told = bloom.print(&set.traits);
                assert_eq!(
                    set.verdict(&bloom).status,
                    Status::Settled(form),
                    "{}: {told}",
                    set.forms[form].id
                );
            }
        }
    }

    #[test]
    fn what_was_seen_is_kept_and_what_rules_the_form_out_is_told() {
        let seen = ["tip=pointed", "rows=12", "diameter=98mm,104mm"];
        let told = typical("formal-decorative", &seen).expect("allowed");
        for pair in seen {
            assert!(told.contains(pair), "{told}");
        }
        assert!(told.contains("line=reflexed"), "{told}");
        assert_eq!(typical("formal-decorative", &["centre=open"]), None);
    }

    #[test]
    fn a_choice_that_the_form_leaves_open_stays_one() {
        let told = typical("semi-cactus", &[]).expect("a bloom");
        assert!(told.contains("line=incurved|straight"), "{told}");
    }
}
