//! The field key: of all orders in which the questions can be asked, one with the fewest expected.
//!
//! Exact: a search over every state that answers can lead to, each solved once. Atoms that no
//! block left can tell apart are one branch. A state costs nothing where one form is left, else
//! one question and what its branches cost.

use std::collections::HashMap;

use super::belief::Keyer;
use super::question::entropy;
use super::space::{Block, bits};
use super::weight::mask_weight;

/// A key from a state on.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// One form is left.
    Form(usize),
    /// Ask of a trait, and go on by the answer.
    Ask {
        /// The trait.
        index: usize,
        /// The answers as atoms of the trait, and where each leads.
        branches: Vec<(u64, Step)>,
    },
}

/// A shortest key.
#[derive(Debug, Clone)]
pub struct FieldKey {
    /// Where to begin.
    pub first: Step,
    /// The mean number of questions to the form.
    pub mean: f64,
    /// How many states the search solved.
    pub states: usize,
}

impl Keyer {
    /// The key with the fewest questions on average, over blooms as the keyer weighs them, to the
    /// form where `by_size`, else to the shape.
    pub fn shortest_key(&self, by_size: bool) -> FieldKey {
        let mut search = Search {
            keyer: self,
            by_size,
            solved: HashMap::new(),
        };
        let whole = Block::whole(self.set.scales());
        let all: Vec<usize> = (0..self.blocks.len()).collect();
        let total: f64 = search.weights(&whole, &all).iter().sum();
        let cost = search.cost(&whole, &all);
        FieldKey {
            first: search.step(&whole, &all),
            mean: cost / total,
            states: search.solved.len(),
        }
    }
}

struct Search<'a> {
    keyer: &'a Keyer,
    by_size: bool,
    /// The least cost of a state, weighted by how often it is met, and the trait to ask there.
    solved: HashMap<Block, (f64, usize)>,
}

/// A state that an answer leads to, and the blocks left there.
type Branch = (Block, Vec<usize>);

/// The least that telling goals of these weights apart can cost: one question each, and no fewer
/// than a code of `widest` letters for the goals needs (Shannon's bound).
fn least_cost(weights: &[f64], widest: usize) -> f64 {
    let total: f64 = weights.iter().sum();
    total * (entropy(weights) / (widest as f64).log2()).max(1.0)
}

/// A question to ask at a state.
struct Plan {
    index: usize,
    /// The branches that need more questions, each with the least that they can cost.
    open: Vec<(Block, Vec<usize>, f64)>,
    /// The sum of those.
    least: f64,
}

impl Search<'_> {
    fn goal(&self, block: usize) -> usize {
        let block = &self.keyer.blocks[block];
        if self.by_size {
            block.form
        } else {
            block.shape
        }
    }

    fn is_settled(&self, left: &[usize]) -> bool {
        left.iter()
            .all(|block| self.goal(*block) == self.goal(left[0]))
    }

    /// How much of each goal is left in a state.
    fn weights(&self, state: &Block, left: &[usize]) -> Vec<f64> {
        let goals = if self.by_size {
            self.keyer.set.forms.len()
        } else {
            self.keyer.set.shapes.len()
        };
        let mut found = vec![0.0; goals];
        for block in left {
            let own = &self.keyer.blocks[*block];
            let weights = &self.keyer.weights[own.shape];
            let masks = own
                .block
                .0
                .iter()
                .zip(state.0)
                .map(|(own, state)| own & state);
            let inside: f64 = weights
                .iter()
                .zip(masks)
                .map(|(w, mask)| mask_weight(w, mask))
                .product();
            found[self.goal(*block)] += own.scale * inside;
        }
        found
    }

    /// The least cost of a state.
    fn cost(&mut self, state: &Block, left: &[usize]) -> f64 {
        if self.is_settled(left) {
            return 0.0;
        }
        if let Some((cost, _)) = self.solved.get(state) {
            return *cost;
        }
        let here: f64 = self.weights(state, left).iter().sum();
        let questions: Vec<(usize, Vec<Branch>)> = (0..self.keyer.reports.len())
            .filter_map(|index| Some((index, self.branches(state, left, index)?)))
            .collect();
        // Further down no question has more branches than here: fewer blocks tell fewer apart.
        let widest = questions
            .iter()
            .map(|(_, branches)| branches.len())
            .max()
            .unwrap_or(2);
        let plan = |(index, branches)| self.plan(index, branches, widest);
        let mut plans: Vec<Plan> = questions.into_iter().map(plan).collect();
        plans.sort_by(|a, b| a.least.total_cmp(&b.least));
        let mut best = (f64::INFINITY, usize::MAX);
        for plan in plans {
            // What the open branches cost at least, one question each, replaced one by one by what
            // they do cost: past the best known, the plan is lost.
            let mut cost = here + plan.least;
            for (next, left, least) in &plan.open {
                if cost >= best.0 {
                    break;
                }
                cost += self.cost(next, left) - least;
            }
            if cost < best.0 {
                best = (cost, plan.index);
            }
        }
        self.solved.insert(*state, best);
        best.0
    }

    fn plan(&self, index: usize, branches: Vec<Branch>, widest: usize) -> Plan {
        let open = branches
            .into_iter()
            .filter(|(_, left)| !self.is_settled(left));
        let open: Vec<_> = open
            .map(|(next, left)| {
                let least = least_cost(&self.weights(&next, &left), widest);
                (next, left, least)
            })
            .collect();
        let least = open.iter().map(|(_, _, least)| least).sum();
        Plan { index, open, least }
    }

    /// Where each kind of answer leads; `None` where the question makes no sense or no difference.
    fn branches(&self, state: &Block, left: &[usize], index: usize) -> Option<Vec<Branch>> {
        let absent = self.keyer.set.scales()[index].absent();
        let mask = |block: &usize| self.keyer.blocks[*block].block.0[index];
        if state.0[index].count_ones() < 2
            || left
                .iter()
                .any(|block| mask(block) & absent & state.0[index] != 0)
        {
            return None;
        }
        let mut classes: Vec<(u64, Vec<usize>)> = Vec::new();
        for at in bits(state.0[index]) {
            let with: Vec<usize> = left
                .iter()
                .copied()
                .filter(|block| mask(block) >> at & 1 == 1)
                .collect();
            if with.is_empty() {
                continue;
            }
            match classes.iter_mut().find(|(_, known)| *known == with) {
                Some((class, _)) => *class |= 1 << at,
                None => classes.push((1 << at, with)),
            }
        }
        if classes.len() < 2 {
            return None;
        }
        let lead = |(class, with): (u64, Vec<usize>)| Some((state.narrowed(index, class)?, with));
        classes.into_iter().map(lead).collect()
    }

    fn step(&self, state: &Block, left: &[usize]) -> Step {
        if self.is_settled(left) {
            return Step::Form(self.goal(left[0]));
        }
        let index = self
            .solved
            .get(state)
            .map_or(usize::MAX, |(_, index)| *index);
        let branches = self.branches(state, left, index).unwrap_or_default();
        let lead = |(next, left): &(Block, Vec<usize>)| (next.0[index], self.step(next, left));
        Step::Ask {
            index,
            branches: branches.iter().map(lead).collect(),
        }
    }
}
