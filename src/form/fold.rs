//! A key folded: sub-keys that serve as well in another's place are told once, at the least cost.

use super::belief::{Keyer, WeighedBlock};
use super::field_key::{FieldKey, Step};
use super::space::{Atom, Block};
use super::weight::block_weight;

/// A step as it is printed: steps that are told alike are one.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Printed {
    pub index: usize,
    /// Answers as atoms of the trait, and where each leads; those that lead to the same are one.
    pub branches: Vec<(u64, Target)>,
}

/// Where an answer leads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Target {
    Goal(usize),
    /// A place among the steps.
    Step(usize),
}

/// A key as it is printed.
pub(super) struct Steps<'a> {
    pub keyer: &'a Keyer,
    by_size: bool,
    /// Every step; a step comes after those that it leads to.
    pub printed: Vec<Printed>,
    first: Target,
    /// For each step, the blooms that come to it.
    met: Vec<Vec<Block>>,
    /// The steps as they are met from the first.
    pub order: Vec<usize>,
}

impl<'a> Steps<'a> {
    pub(super) fn of(keyer: &'a Keyer, key: &FieldKey) -> Steps<'a> {
        let mut steps = Steps {
            keyer,
            by_size: key.by_size,
            printed: Vec::new(),
            first: Target::Goal(0),
            met: Vec::new(),
            order: Vec::new(),
        };
        steps.first = steps.gather(&key.first);
        steps.walked()
    }

    fn gather(&mut self, step: &Step) -> Target {
        let (index, branches) = match step {
            Step::Form(goal) => return Target::Goal(*goal),
            Step::Ask { index, branches } => (*index, branches),
        };
        let branches = branches
            .iter()
            .map(|branch| (branch.atoms, self.gather(&branch.next)))
            .collect();
        self.add(index, branches)
    }

    /// Adds a step, unless all its answers lead to the same or it is there already.
    fn add(&mut self, index: usize, branches: Vec<(u64, Target)>) -> Target {
        let mut joined: Vec<(u64, Target)> = Vec::new();
        for (atoms, target) in branches {
            match joined.iter_mut().find(|(_, known)| *known == target) {
                Some((known, _)) => *known |= atoms,
                None => joined.push((atoms, target)),
            }
        }
        if let [(_, only)] = joined[..] {
            return only;
        }
        self.fill(index, &mut joined);
        let printed = Printed {
            index,
            branches: joined,
        };
        let known = self.printed.iter().position(|other| *other == printed);
        Target::Step(known.unwrap_or_else(|| {
            self.printed.push(printed);
            self.printed.len() - 1
        }))
    }

    /// The steps with `to` in the place of `from`, and what that makes alike told once.
    fn with(&self, from: usize, to: usize) -> Steps<'a> {
        let mut steps = Steps {
            keyer: self.keyer,
            by_size: self.by_size,
            printed: Vec::new(),
            first: self.first,
            met: Vec::new(),
            order: Vec::new(),
        };
        let mut places: Vec<Option<Target>> = vec![None; self.printed.len()];
        steps.first = steps.copied(self, self.first, (from, to), &mut places);
        steps.walked()
    }

    fn copied(
        &mut self,
        old: &Steps<'_>,
        target: Target,
        instead: (usize, usize),
        places: &mut [Option<Target>],
    ) -> Target {
        let at = match target {
            Target::Goal(_) => return target,
            Target::Step(at) if at == instead.0 => instead.1,
            Target::Step(at) => at,
        };
        if let Some(known) = places[at] {
            return known;
        }
        let step = &old.printed[at];
        let lead =
            |(atoms, target): &(u64, Target)| (*atoms, self.copied(old, *target, instead, places));
        let branches = step.branches.iter().map(lead).collect();
        let place = self.add(step.index, branches);
        places[at] = Some(place);
        place
    }

    /// The steps with the blooms that come to each, in the order in which they are met.
    fn walked(mut self) -> Steps<'a> {
        self.met = vec![Vec::new(); self.printed.len()];
        self.order.clear();
        let whole = Block::whole(self.keyer.set.scales());
        let all: Vec<&WeighedBlock> = self.keyer.blocks.iter().collect();
        self.walk(self.first, &whole, &all);
        self
    }

    fn walk(&mut self, target: Target, state: &Block, left: &[&'a WeighedBlock]) {
        let Target::Step(at) = target else { return };
        if !self.order.contains(&at) {
            self.order.push(at);
        }
        self.met[at].push(*state);
        let index = self.printed[at].index;
        for (atoms, target) in self.printed[at].branches.clone() {
            let Some(next) = state.narrowed(index, atoms) else {
                continue;
            };
            let left = Steps::reaching(&next, left);
            if !left.is_empty() {
                self.walk(target, &next, &left);
            }
        }
    }

    /// The mean number of questions, and of yes/no tests where each step is the best chain of
    /// them.
    pub(super) fn means(&self) -> (f64, f64) {
        let all: Vec<&WeighedBlock> = self.keyer.blocks.iter().collect();
        let (mut questions, mut tests) = (0.0, 0.0);
        for (step, met) in self.printed.iter().zip(&self.met) {
            for state in met {
                let left = Steps::reaching(state, &all);
                let branch = |(atoms, _): &(u64, Target)| {
                    state
                        .narrowed(step.index, *atoms)
                        .map_or(0.0, |next| self.mass(&next, &left))
                };
                let weights: Vec<f64> = step
                    .branches
                    .iter()
                    .map(branch)
                    .filter(|weight| *weight > 0.0)
                    .collect();
                questions += self.mass(state, &left);
                tests += huffman(&weights);
            }
        }
        let total = self.mass(&Block::whole(self.keyer.set.scales()), &all);
        (questions / total, tests / total)
    }

    /// Whether the steps bring every bloom to its form.
    #[cfg(test)]
    pub(super) fn serves(&self) -> bool {
        let all: Vec<&WeighedBlock> = self.keyer.blocks.iter().collect();
        self.cost(self.first, &Block::whole(self.keyer.set.scales()), &all)
            .is_some()
    }

    /// With fewer steps, until the text of them `fits`: one step takes the place of another that
    /// it serves as well, each time the one that adds fewest questions. As few as can be where
    /// none fit.
    pub(super) fn folded(self, fits: impl Fn(&Steps<'a>) -> bool) -> Steps<'a> {
        let mut steps = self;
        while !fits(&steps) {
            match steps.cheapest() {
                Some((from, to)) => steps = steps.with(from, to),
                None => break,
            }
        }
        steps
    }

    /// Gives numbers that no bloom can have here to the answer below them, else to the one above:
    /// `under 25 %` is said in fewer words than `over 0 % and under 25 %`.
    fn fill(&self, index: usize, branches: &mut [(u64, Target)]) {
        let atoms = self.keyer.set.scales()[index].atoms();
        let numbers = || (0..atoms.len()).filter(|at| matches!(atoms[*at], Atom::Span(_)));
        let holder = |branches: &[(u64, Target)], at: usize| {
            branches.iter().position(|(mask, _)| mask >> at & 1 == 1)
        };
        let mut last = numbers().find_map(|at| holder(branches, at));
        for at in numbers() {
            match (holder(branches, at), last) {
                (Some(own), _) => last = Some(own),
                (None, Some(last)) => branches[last].0 |= 1 << at,
                (None, None) => {}
            }
        }
    }

    fn goal(&self, block: &WeighedBlock) -> usize {
        if self.by_size {
            block.form
        } else {
            block.shape
        }
    }

    /// The blocks of a list that reach into `state`.
    fn reaching(state: &Block, blocks: &[&'a WeighedBlock]) -> Vec<&'a WeighedBlock> {
        blocks
            .iter()
            .copied()
            .filter(|own| own.block.meets(state))
            .collect()
    }

    fn mass(&self, state: &Block, left: &[&WeighedBlock]) -> f64 {
        let inside = |own: &&WeighedBlock| {
            let met = own.block.meet(state);
            met.map_or(0.0, |met| {
                own.scale * block_weight(&self.keyer.weights[own.shape], &met)
            })
        };
        left.iter().map(inside).sum()
    }

    /// What a sub-key costs the blooms of `state`; `None` where it would not bring each to its
    /// form.
    fn cost(&self, target: Target, state: &Block, left: &[&'a WeighedBlock]) -> Option<f64> {
        let step = match target {
            Target::Goal(goal) => {
                return left.iter().all(|own| self.goal(own) == goal).then_some(0.0);
            }
            Target::Step(at) => &self.printed[at],
        };
        let answers = step.branches.iter().fold(0, |all, (atoms, _)| all | atoms);
        let asked = left.iter().fold(0, |all, own| {
            all | own.block.0[step.index] & state.0[step.index]
        });
        if asked & !answers != 0 {
            return None;
        }
        let mut cost = self.mass(state, left);
        for (atoms, target) in &step.branches {
            let Some(next) = state.narrowed(step.index, *atoms) else {
                continue;
            };
            let left = Steps::reaching(&next, left);
            if !left.is_empty() {
                cost += self.cost(*target, &next, &left)?;
            }
        }
        Some(cost)
    }

    /// The steps that a step leads to, itself included.
    fn below(&self, at: usize) -> Vec<usize> {
        let mut below = vec![at];
        let mut next = 0;
        while next < below.len() {
            for (_, target) in &self.printed[below[next]].branches {
                if let Target::Step(step) = target
                    && !below.contains(step)
                {
                    below.push(*step);
                }
            }
            next += 1;
        }
        below
    }

    /// The cheapest way to print fewer steps: a step, and one that stands in its place.
    fn cheapest(&self) -> Option<(usize, usize)> {
        let all: Vec<&WeighedBlock> = self.keyer.blocks.iter().collect();
        let mut best: Option<(f64, usize, usize)> = None;
        for &from in self.order.iter().skip(1) {
            let met: Vec<_> = self.met[from]
                .iter()
                .map(|state| (state, Steps::reaching(state, &all)))
                .collect();
            let cost_of = |target| {
                met.iter()
                    .map(|(state, left)| self.cost(target, state, left))
                    .sum::<Option<f64>>()
            };
            let Some(own) = cost_of(Target::Step(from)) else {
                continue;
            };
            for &to in self.order.iter().filter(|to| **to != from) {
                // A step that leads back to the one it replaces would go round in a ring.
                if self.below(to).contains(&from) {
                    continue;
                }
                let Some(cost) = cost_of(Target::Step(to)) else {
                    continue;
                };
                if best.is_none_or(|(known, ..)| cost - own < known) {
                    best = Some((cost - own, from, to));
                }
            }
        }
        best.map(|(_, from, to)| (from, to))
    }
}

/// The least mean number of yes/no tests that tell kinds of these weights apart, times the sum of
/// the weights: Huffman's code.
pub(super) fn huffman(weights: &[f64]) -> f64 {
    let mut weights = weights.to_vec();
    let mut cost = 0.0;
    while weights.len() > 1 {
        weights.sort_by(|a, b| b.total_cmp(a));
        let (Some(a), Some(b)) = (weights.pop(), weights.pop()) else {
            break;
        };
        cost += a + b;
        weights.push(a + b);
    }
    cost
}
