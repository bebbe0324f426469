//! Near misses: the named forms that a bloom would have but for one or two answers.

use super::answer::Answers;
use super::belief::{Belief, Keyer};
use super::phrase::mask_said;
use super::space::Block;
use crate::measure::SizeUnits;

/// The most answers that a near miss may be away.
const FARTHEST: usize = 2;

/// A form that the bloom would have but for a few answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NearMiss {
    /// The form.
    pub form: usize,
    /// The answers that would have to differ, each with the atoms that the form wants there.
    pub but_for: Vec<(usize, u64)>,
}

/// A shape beside a form, and what parts them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Neighbour {
    /// The shape.
    pub shape: usize,
    /// What a typical bloom of the form would show if it were of this shape: `a saucer from the
    /// side and 4 to 7 rows of florets`.
    pub wants: String,
}

impl Keyer {
    /// The shapes one or two looks away from a typical bloom of this form, the nearest first, and
    /// each difference once.
    pub fn neighbours(&self, form: usize, units: SizeUnits) -> Vec<Neighbour> {
        let set = &self.set;
        let Some(answers) = set.typical(form, &Answers::default()) else {
            return Vec::new();
        };
        let mut neighbours: Vec<Neighbour> = Vec::new();
        for miss in self.near_misses(&answers, &self.belief(&answers)) {
            let shape = set.forms[miss.form].shape;
            // That a trait no longer applies follows from the others.
            let applies = |(index, mask): &&(usize, u64)| *mask != set.scales()[*index].absent();
            let wants = miss.but_for.iter().filter(applies).map(|(index, mask)| {
                let (own, scale) = (set.traits.get(*index), &set.scales()[*index]);
                mask_said(own, scale, *mask, units)
            });
            let wants = wants.collect::<Vec<_>>().join(" and ");
            let known = neighbours.iter().any(|one| one.wants == wants);
            if !known && shape != set.forms[form].shape {
                neighbours.push(Neighbour { shape, wants });
            }
        }
        neighbours
    }

    /// The named forms one or two answers away, the nearest and likeliest first. Only the nearest
    /// of a shape's sizes is told, and no catch-all.
    pub fn near_misses(&self, answers: &Answers, belief: &Belief) -> Vec<NearMiss> {
        let block = answers.block(self.set.scales());
        let mut near: Vec<NearMiss> = (0..self.set.forms.len())
            .filter(|form| !self.set.shape_of(*form).catch_all)
            .filter_map(|form| self.near_miss(&block, form))
            .collect();
        near.sort_by(|a, b| {
            let by_share = belief.shares[b.form].total_cmp(&belief.shares[a.form]);
            a.but_for.len().cmp(&b.but_for.len()).then(by_share)
        });
        let mut shapes = Vec::new();
        near.retain(|miss| {
            let shape = self.set.forms[miss.form].shape;
            let new = !shapes.contains(&shape);
            shapes.push(shape);
            new
        });
        near
    }

    fn near_miss(&self, block: &Block, form: usize) -> Option<NearMiss> {
        let missed = |own: &Block| -> Vec<(usize, u64)> {
            let pairs = own.0.iter().zip(block.0).enumerate();
            pairs
                .filter(|(_, (own, other))| *own & other == 0)
                .map(|(index, (own, _))| (index, *own))
                .collect()
        };
        let all = self.set.forms[form].blocks.iter().map(missed);
        let but_for = all.min_by_key(Vec::len)?;
        (1..=FARTHEST)
            .contains(&but_for.len())
            .then_some(NearMiss { form, but_for })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;

    #[test]
    fn a_novelty_is_a_named_form_but_for_an_answer() {
        let keyer = Keyer::even(RuleSet::embedded().remove(0));
        let near = |text: &str| {
            let pairs: Vec<&str> = text.split_whitespace().collect();
            let answers = Answers::read(&pairs, &keyer.set.traits).expect(text);
            let belief = keyer.belief(&answers);
            let told = keyer
                .near_misses(&answers, &belief)
                .into_iter()
                .map(|miss| {
                    let traits = miss
                        .but_for
                        .iter()
                        .map(|(t, _)| keyer.set.traits.get(*t).id.as_str());
                    format!(
                        "{} but for {}",
                        keyer.set.forms[miss.form].id,
                        traits.collect::<Vec<_>>().join(" ")
                    )
                });
            told.collect::<Vec<_>>()
        };
        let bloom = "centre=closed rows=12 tip=pointed roll=flat rolled=0 line=incurved set=regular outline=deep gradient=even width=broad heart=round diameter=120mm";
        let told = near(bloom);
        assert_eq!(
            told[..2],
            [
                "formal-decorative but for line",
                "informal-decorative but for set"
            ]
        );
        assert!(
            told.contains(&"waterlily but for rows outline".to_string()),
            "{told:?}"
        );
        assert!(
            near("centre=open rows=2 collar=petaloid diameter=3in")
                .contains(&"collarette but for rows".to_string())
        );
    }
    #[test]
    fn a_form_is_told_from_its_neighbours() {
        for set in RuleSet::embedded() {
            let keyer = Keyer::even(set);
            for form in 0..keyer.set.forms.len() {
                let own = keyer.set.forms[form].shape;
                let near = keyer.neighbours(form, SizeUnits::Mm);
                assert!(
                    near.iter()
                        .all(|one| one.shape != own && !one.wants.is_empty()),
                    "{}: {near:?}",
                    keyer.set.forms[form].id
                );
            }
        }
        let keyer = Keyer::even(RuleSet::embedded().remove(0));
        let ball = keyer.set.find("ball").expect("a form");
        let near = keyer.neighbours(ball, SizeUnits::Mm);
        let told = near.iter().map(|one| {
            let shape = &keyer.set.shapes[one.shape];
            format!("{}: {}", one.wants, shape.name)
        });
        let told: Vec<String> = told.collect();
        assert!(
            told.contains(&"florets wavy: informal decorative".to_string()),
            "{told:?}"
        );
    }
}
