//! One bloom gone through a card step by step, for whoever has never used a key.

use super::answer::{Answer, Answers};
use super::fold::{Steps, Target};
use super::rules::RuleSet;
use super::words::{mask_words, number_words};
use crate::measure::SizeUnits;

/// So many steps show how a key goes, and fit beside a drawing.
const STEPS: usize = 4;

/// A bloom, and what the card makes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// What it looks like: an invented bloom, the most typical of its form.
    pub answers: Answers,
    /// The steps that it goes through, in order.
    pub steps: Vec<WorkedStep>,
    /// The shape or the form that the last step leads to.
    pub reached: String,
    /// How far across it is, where that makes a form of the shape.
    pub across: Option<String>,
    /// Its form, by index.
    pub form: usize,
}

/// A step that the bloom goes through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkedStep {
    /// The number of the step, from 1.
    pub number: usize,
    /// Its answer, in the card's words.
    pub answer: String,
}

impl Steps<'_> {
    /// The bloom whose way through the card is nearest to a few steps long: of a form that size makes
    /// of its shape, where there is one. `None` where no form's typical bloom has one way to go.
    pub(super) fn worked(&self, by_size: bool, units: SizeUnits) -> Option<Worked> {
        let set = &self.keyer.set;
        let ways = (0..set.forms.len()).filter_map(|form| self.way_of(form, by_size, units));
        let unlike = |worked: &Worked| {
            // That size changes the name shows what the table of sizes is for.
            let renamed = set.forms.get(worked.form);
            let renamed = renamed.is_some_and(|form| form.name != worked.reached);
            let few = worked.steps.len().abs_diff(STEPS);
            (worked.across.is_none(), !renamed, few)
        };
        ways.min_by_key(unlike)
    }

    fn way_of(&self, form: usize, by_size: bool, units: SizeUnits) -> Option<Worked> {
        let set = &self.keyer.set;
        let answers = set.typical(form, &Answers::default())?;
        let mut steps = Vec::new();
        let mut at = *self.order.first()?;
        let goal = loop {
            let step = self.printed.get(at)?;
            let scale = set.scales().get(step.index)?;
            let seen = answers.get(step.index)?.mask(scale);
            let holds = |branch: &&(u64, Target)| seen != 0 && branch.0 & seen == seen;
            let (atoms, target) = step.branches.iter().find(holds)?;
            steps.push(WorkedStep {
                number: self.order.iter().position(|other| *other == at)? + 1,
                answer: mask_words(set.traits.get(step.index), scale, *atoms, units),
            });
            match target {
                Target::Goal(goal) => break *goal,
                Target::Step(next) => at = *next,
            }
        };
        let reached = match by_size {
            true => &set.forms.get(goal)?.name,
            false => &set.shapes.get(goal)?.name,
        };
        let reached_form = if by_size { goal } else { form };
        Some(Worked {
            reached: reached.clone(),
            across: if by_size {
                None
            } else {
                across(set, form, &answers, units)
            },
            answers,
            steps,
            form: reached_form,
        })
    }
}

/// How far across the bloom is, where its shape has several sizes.
fn across(set: &RuleSet, form: usize, answers: &Answers, units: SizeUnits) -> Option<String> {
    let shape = set.forms.get(form)?.shape;
    let sizes = set
        .forms
        .iter()
        .filter(|other| other.shape == shape)
        .count();
    let diameter = set.traits.find("diameter").filter(|_| sizes > 1)?;
    let span = answers.get(diameter).and_then(Answer::span)?;
    Some(number_words(set.traits.get(diameter), span.low, units))
}
