//! Belief: how likely each form is, given answers of which any may be mistaken.
//!
//! Bayes over the rules themselves. Before any answer a bloom's form has its prior weight, and the
//! bloom is drawn from the form's blocks by the weights of `weight`. An answer names the true atom
//! with the chance `1 - mistake` of its trait, else another one: any other state alike, a near
//! number likelier than a far one. Within a block traits are independent, so a form's share is a
//! sum over its blocks of a product over traits.

use std::collections::HashMap;

use statrs::distribution::{Binomial, DiscreteCDF};

use super::answer::{Answer, Answers};
use super::rules::RuleSet;
use super::space::{Atom, Block, Span, bits};
use super::weight::{AtomWeights, atom_weights, block_weight, mask_weight, reference};
use crate::measure::Exact;
use crate::measure::sample::Sample;

/// A rule set with its weights, ready to key blooms.
#[derive(Debug, Clone)]
pub struct Keyer {
    /// The rules.
    pub set: RuleSet,
    /// How common its forms are taken to be.
    pub prior: Prior,
    /// Each shape's weight of each atom.
    pub(super) weights: Vec<AtomWeights>,
    /// Every block with its form.
    pub(super) blocks: Vec<WeighedBlock>,
    /// What blocks are made of, each part once: most blocks of a shape share theirs.
    parts: Vec<BlockPart>,
    /// `[trait][true atom][reported atom]`: the chance of a report.
    pub(super) reports: Vec<Vec<Vec<f64>>>,
}

/// How common each form is taken to be before a bloom is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Prior {
    /// All alike: what is told rests on the looks alone. By this a plant is judged, everywhere.
    Even,
    /// As common as in the grower's list: the forms that are grown are the ones that will be met.
    Counts,
}

impl Prior {
    /// What programs call it.
    pub fn id(self) -> &'static str {
        match self {
            Prior::Even => "even",
            Prior::Counts => "list",
        }
    }

    /// In words, to stand behind what was told by it.
    pub fn in_words(self) -> &'static str {
        match self {
            Prior::Even => "all forms alike before the first look",
            Prior::Counts => "forms before the first look as common as in your list",
        }
    }
}

/// One block of a form.
#[derive(Debug, Clone)]
pub(super) struct WeighedBlock {
    pub form: usize,
    pub shape: usize,
    pub block: Block,
    /// The form's prior over the weight of all its blocks.
    pub scale: f64,
    /// The weight of each trait's atoms in the block.
    pub traits: Vec<f64>,
    /// The place of each trait's part among the keyer's.
    parts: Vec<usize>,
}

/// Some atoms of one trait, with the weights of one shape.
#[derive(Debug, Clone, PartialEq)]
struct BlockPart {
    shape: usize,
    index: usize,
    mask: u64,
    weight: f64,
}

/// How likely each form is.
#[derive(Debug, Clone, PartialEq)]
pub struct Belief {
    /// Each form's share, by its index; sums to 1.
    pub shares: Vec<f64>,
}

/// The answer that most likely misleads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suspect {
    /// The trait.
    pub index: usize,
    /// The chance (0 to 1) that its answer is wrong, given all answers.
    pub chance: f64,
}

impl Keyer {
    /// A keyer that takes every form as equally likely before the first answer.
    pub fn even(set: RuleSet) -> Keyer {
        let weights = vec![1.0; set.forms.len()];
        Keyer::weighted(set, &weights, Prior::Even)
    }

    /// A keyer whose forms have these weights before the first answer, such as how many of the
    /// grower's varieties have each; half of one is added to each so that none is impossible.
    pub fn from_counts(set: RuleSet, counts: &[usize]) -> Keyer {
        let weights: Vec<f64> = counts.iter().map(|count| *count as f64 + 0.5).collect();
        Keyer::weighted(set, &weights, Prior::Counts)
    }

    fn weighted(set: RuleSet, weights: &[f64], prior: Prior) -> Keyer {
        let total: f64 = weights.iter().sum();
        let shares: Vec<f64> = weights.iter().map(|weight| weight / total).collect();
        let atoms: Vec<AtomWeights> = set
            .shapes
            .iter()
            .map(|shape| atom_weights(&set, shape))
            .collect();
        let mut blocks = Vec::new();
        let mut parts: Vec<BlockPart> = Vec::new();
        let mut places: HashMap<(usize, usize, u64), usize> = HashMap::new();
        for (index, form) in set.forms.iter().enumerate() {
            let own = &atoms[form.shape];
            let mass: f64 = form
                .blocks
                .iter()
                .map(|block| block_weight(own, block))
                .sum();
            for block in &form.blocks {
                let part = |(index, (own, mask)): (usize, (&Vec<f64>, u64))| {
                    let shape = form.shape;
                    *places.entry((shape, index, mask)).or_insert_with(|| {
                        let weight = mask_weight(own, mask);
                        parts.push(BlockPart {
                            shape,
                            index,
                            mask,
                            weight,
                        });
                        parts.len() - 1
                    })
                };
                let own_parts = own.iter().zip(block.0).enumerate().map(part).collect();
                blocks.push(WeighedBlock {
                    parts: own_parts,
                    form: index,
                    shape: form.shape,
                    block: *block,
                    scale: shares[index] / mass,
                    traits: own
                        .iter()
                        .zip(block.0)
                        .map(|(own, mask)| mask_weight(own, mask))
                        .collect(),
                });
            }
        }
        let reports = (0..set.traits.list().len())
            .map(|index| reports(&set, index))
            .collect();
        Keyer {
            set,
            prior,
            weights: atoms,
            blocks,
            parts,
            reports,
        }
    }

    /// How likely each form is, given the answers.
    pub fn belief(&self, answers: &Answers) -> Belief {
        let evidence = self.evidence(answers);
        let value = |part: &BlockPart| match &evidence[part.index] {
            None => part.weight,
            Some(likelihood) => self.weighed(part.shape, part.index, part.mask, likelihood),
        };
        let values: Vec<f64> = self.parts.iter().map(value).collect();
        let mut shares = vec![0.0; self.set.forms.len()];
        for block in &self.blocks {
            let factors = block.parts.iter().map(|part| values[*part]);
            shares[block.form] += block.scale * factors.product::<f64>();
        }
        normalise(&mut shares);
        Belief { shares }
    }

    /// The answer that most likely misleads; `None` where nothing was answered.
    pub fn suspect(&self, answers: &Answers) -> Option<Suspect> {
        let evidence = self.evidence(answers);
        let told = |index: &usize| !matches!(answers.get(*index), None | Some(Answer::CannotTell));
        let answered: Vec<usize> = (0..self.reports.len()).filter(told).collect();
        let mut right = vec![0.0; self.reports.len()];
        let mut total = 0.0;
        for block in &self.blocks {
            let factors: Vec<f64> = (0..block.traits.len())
                .map(|i| self.factor(block, i, &evidence))
                .collect();
            let whole: f64 = block.scale * factors.iter().product::<f64>();
            total += whole;
            for index in &answered {
                let scale = &self.set.scales()[*index];
                let told = answers.get(*index).map_or(0, |answer| answer.mask(scale));
                // Where the trait does not apply, another answer led to the question.
                let mask = told | scale.absent();
                let likelihood = evidence[*index].as_deref().unwrap_or(&[]);
                let agreeing = self.dot(block, *index, mask, likelihood);
                // OK because an answer's factor is positive: every mistake has a chance.
                right[*index] += whole * agreeing / factors[*index];
            }
        }
        let suspect = |index: &usize| Suspect {
            index: *index,
            chance: 1.0 - right[*index] / total,
        };
        answered
            .iter()
            .map(suspect)
            .max_by(|a, b| a.chance.total_cmp(&b.chance))
    }

    /// For each answered trait, the likelihood of all looks at it for every true atom.
    pub(super) fn evidence(&self, answers: &Answers) -> Vec<Option<Vec<f64>>> {
        let one = |index: usize| {
            let mut looks = answers
                .looks(index)
                .filter(|look| **look != Answer::CannotTell)
                .peekable();
            looks.peek()?;
            let mut likelihood = vec![1.0; self.reports[index].len()];
            for look in looks {
                for (own, look) in likelihood.iter_mut().zip(self.look(index, look)) {
                    *own *= look;
                }
            }
            Some(likelihood)
        };
        (0..self.reports.len()).map(one).collect()
    }

    /// The chance of one answer for every true atom.
    fn look(&self, index: usize, answer: &Answer) -> Vec<f64> {
        if let Answer::Values(values) = answer
            && values.len() > 1
        {
            return self.several(index, values);
        }
        let mask = answer.mask(&self.set.scales()[index]);
        self.reports[index]
            .iter()
            .map(|row| mask_weight(row, mask))
            .collect()
    }

    /// Several measured blooms: the chance by Student's t that the true mean lies in each atom,
    /// over the atom's own reference weight, which is what makes a likelihood of it.
    fn several(&self, index: usize, exact: &[Exact]) -> Vec<f64> {
        let values: Vec<f64> = exact.iter().map(|value| value.to_f64()).collect();
        let mistake = mostly_mistaken(self.set.traits.get(index).mistake, exact.len());
        let atoms = self.set.scales()[index].atoms();
        let sample = Sample::of(&values);
        let mean = Exact::mean(exact);
        let spread = sample
            .and_then(|sample| sample.deviation)
            .is_some_and(|s| s > 0.0);
        let at_least = |limit: Exact| {
            sample
                .and_then(|s| s.chance_at_least(limit.to_f64()))
                .unwrap_or(0.0)
        };
        let within = |span: &Span| match mean {
            // Blooms that are all alike leave no doubt but that of a mistake.
            Some(mean) if !spread => f64::from(u8::from(span.holds(mean))),
            _ => at_least(span.low) - at_least(span.high),
        };
        let one = self.set.traits.get(index);
        let floor = mistake / atoms.iter().map(|atom| reference(one, atom)).sum::<f64>();
        let chance = |atom: &Atom| match atom {
            Atom::Span(span) => (1.0 - mistake) * within(span) / reference(one, atom) + floor,
            _ => floor,
        };
        atoms.iter().map(chance).collect()
    }

    /// One trait's part of a block's weight, given the evidence.
    pub(super) fn factor(
        &self,
        block: &WeighedBlock,
        index: usize,
        evidence: &[Option<Vec<f64>>],
    ) -> f64 {
        match &evidence[index] {
            None => block.traits[index],
            Some(likelihood) => self.dot(block, index, u64::MAX, likelihood),
        }
    }

    fn dot(&self, block: &WeighedBlock, index: usize, within: u64, likelihood: &[f64]) -> f64 {
        self.weighed(
            block.shape,
            index,
            block.block.0[index] & within,
            likelihood,
        )
    }

    /// The sum of a shape's weights of some atoms of one trait, each by its likelihood.
    fn weighed(&self, shape: usize, index: usize, mask: u64, likelihood: &[f64]) -> f64 {
        let weights = &self.weights[shape][index];
        bits(mask)
            .take_while(|at| *at < weights.len())
            .map(|at| weights[at] * likelihood[at])
            .sum()
    }
}

impl Belief {
    /// Forms from the likeliest down, with their shares.
    pub fn ranked(&self) -> Vec<(usize, f64)> {
        let mut ranked: Vec<(usize, f64)> = self.shares.iter().copied().enumerate().collect();
        ranked.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        ranked
    }
}

/// `[true atom][reported atom]`: what growers report of a trait. A trait that does not apply is
/// never reported as such; asked all the same, any answer is as likely as another.
fn reports(set: &RuleSet, index: usize) -> Vec<Vec<f64>> {
    let atoms = set.scales()[index].atoms();
    let mistake = set.traits.get(index).mistake;
    let present = |atom: &Atom| !matches!(atom, Atom::Absent);
    let count = atoms.iter().filter(|atom| present(atom)).count() as f64;
    let row = |(truth, true_atom): (usize, &Atom)| {
        let closeness = |(told, atom): (usize, &Atom)| match (true_atom, atom) {
            (_, Atom::Absent) => 0.0,
            (Atom::Span(_), _) if told != truth => 0.5_f64.powi(told.abs_diff(truth) as i32),
            _ => 1.0,
        };
        let mut row: Vec<f64> = atoms.iter().enumerate().map(closeness).collect();
        if !present(true_atom) {
            return row.iter().map(|one| one / count).collect();
        }
        row[truth] = 0.0;
        let others: f64 = row.iter().sum();
        row.iter_mut().for_each(|one| *one *= mistake / others);
        row[truth] = 1.0 - mistake;
        row
    };
    atoms.iter().enumerate().map(row).collect()
}

/// The chance that over half of `count` values are mistaken, each by itself: what it takes for
/// their mean to mislead. Never 0, so that no answer is beyond doubt.
fn mostly_mistaken(mistake: f64, count: usize) -> f64 {
    const LEAST: f64 = 1e-9;
    // OK because a trait's rate of mistakes is over 0 and under 0.5.
    let law = Binomial::new(mistake, count as u64);
    law.map_or(mistake, |law| law.sf(count as u64 / 2))
        .max(LEAST)
}

pub(super) fn normalise(shares: &mut [f64]) {
    let total: f64 = shares.iter().sum();
    shares.iter_mut().for_each(|share| *share /= total);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keyer() -> Keyer {
        Keyer::even(RuleSet::embedded().remove(0))
    }

    fn answers(keyer: &Keyer, text: &str) -> Answers {
        let pairs: Vec<&str> = text.split_whitespace().collect();
        Answers::read(&pairs, &keyer.set.traits).expect(text)
    }

    fn leader(keyer: &Keyer, text: &str) -> (String, f64) {
        let (form, share) = keyer.belief(&answers(keyer, text)).ranked()[0];
        (keyer.set.forms[form].id.clone(), share)
    }

    #[test]
    fn shares_sum_to_one_and_no_answer_is_the_prior() {
        let keyer = keyer();
        let none = keyer.belief(&Answers::default());
        assert!(
            none.shares
                .iter()
                .all(|share| (share - 1.0 / 35.0).abs() < 1e-12)
        );
        let some = keyer.belief(&answers(&keyer, "centre=open rows=1 diameter=98mm,104mm"));
        assert!((some.shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn one_mistaken_answer_does_not_bury_the_right_form() {
        let keyer = keyer();
        // A ball whose grower took the outline for a saucer: no rule calls it a ball.
        let told = "centre=closed outline=saucer tip=rounded set=regular roll=forward rolled=80 gradient=graded rows=14 diameter=105mm";
        let verdict = keyer.set.verdict(&answers(&keyer, told));
        let ball = keyer.set.find("ball").expect("ball");
        assert!(!verdict.possible.contains(&ball));
        let ranked = keyer.belief(&answers(&keyer, told)).ranked();
        assert!(
            ranked[..3].iter().any(|(form, _)| *form == ball),
            "{ranked:?}"
        );
    }

    #[test]
    fn when_the_answers_contradict_the_ranking_leads_and_names_the_suspect() {
        let keyer = keyer();
        let told = "centre=closed collar=none rows=12 tip=pointed roll=back rolled=80 line=straight diameter=7in";
        assert!(
            keyer
                .set
                .verdict(&answers(&keyer, told))
                .possible
                .is_empty()
        );
        assert_eq!(leader(&keyer, told).0, "straight-cactus");
        let told = "centre=open collar=none rows=12 tip=pointed roll=back rolled=80 line=incurved heart=round outline=deep diameter=7in";
        let suspect = keyer.suspect(&answers(&keyer, told)).expect("a suspect");
        assert_eq!(keyer.set.traits.get(suspect.index).id, "centre");
        assert_eq!(leader(&keyer, told).0, "incurved-cactus");
    }

    #[test]
    fn many_agreeing_looks_tend_to_certainty_and_one_among_ten_does_not_turn_it() {
        let keyer = keyer();
        let tip = keyer.set.traits.find("tip").expect("tip");
        let mut given = answers(
            &keyer,
            "centre=closed roll=back rolled=80 line=straight diameter=7in",
        );
        for look in [0b10, 0b10, 0b10, 0b100, 0b10, 0b10, 0b10, 0b10, 0b10, 0b10] {
            given.look_again(tip, Answer::States(look));
        }
        let (form, share) = keyer.belief(&given).ranked()[0];
        assert_eq!(keyer.set.forms[form].id, "straight-cactus");
        assert!(share > 0.9, "{share}");
    }

    #[test]
    fn many_measured_blooms_leave_no_doubt_of_the_size() {
        // By hand: 0.03; its square; 3 * 0.03^2 * 0.97 + 0.03^3.
        for (count, expected) in [(1, 0.03), (2, 0.0009), (3, 0.002646)] {
            assert!((mostly_mistaken(0.03, count) - expected).abs() < 1e-12);
        }
        let keyer = keyer();
        let ball = "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90";
        let few = leader(&keyer, &format!("{ball} diameter=46mm"));
        let many = leader(
            &keyer,
            &format!("{ball} diameter=46mm,45mm,47mm,44mm,46mm,47mm"),
        );
        assert!(
            few.0 == "pompon" && many.0 == "pompon" && many.1 > few.1,
            "{few:?} {many:?}"
        );
    }

    #[test]
    fn several_blooms_across_a_limit_leave_both_sides_likely() {
        let keyer = keyer();
        let ball = "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90";
        let belief = keyer.belief(&answers(
            &keyer,
            &format!("{ball} diameter=86mm,92mm,88mm,90mm"),
        ));
        for side in ["ball", "miniature-ball"] {
            let share = belief.shares[keyer.set.find(side).expect(side)];
            assert!(share > 0.25, "{side} {share}");
        }
        let (form, share) = leader(&keyer, &format!("{ball} diameter=100mm,101mm,102mm,103mm"));
        assert!(form == "ball" && share > 0.9, "{share}");
    }
}
