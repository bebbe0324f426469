//! The search for a shortest key: branch and bound, with each state remembered.

use std::collections::HashMap;

use super::step::{Branch, Step};
use crate::form::piece::{Asked, Left, Pieces};
use crate::form::space::{MOST_TRAITS, bits};

/// What the answers so far leave.
#[derive(Debug, Clone, Copy)]
pub(super) struct State {
    left: Left,
    /// The letters of the answers so far.
    answered: u128,
    /// The letters of the traits not asked yet.
    open: u128,
    /// Where the masses of the pieces begin in [`Search::masses`]; only of those left are they true.
    masses: usize,
}

/// An answer and what it leaves.
#[derive(Debug, Clone, Copy)]
struct Lead {
    /// The letters of the answer, as a mask over its trait's letters.
    letters: u64,
    left: Left,
    /// The least that it can cost.
    least: f64,
}

/// A question to ask at a state.
#[derive(Debug, Clone, Copy, Default)]
struct Plan {
    index: usize,
    /// Its answers: a range of [`Search::leads`].
    leads: (usize, usize),
    /// The sum of what they cost at least.
    least: f64,
}

/// What is known of a state's cost.
#[derive(Debug, Clone, Copy)]
struct Known {
    /// The cost, weighted by how often the state is met; a lower bound where no question is kept.
    cost: f64,
    /// The trait to ask.
    ask: Option<usize>,
}

/// The search and what it has found so far.
pub(super) struct Search<'a> {
    pieces: &'a Pieces,
    /// What is known of each state, by the letters that it leaves.
    known: HashMap<u128, Known>,
    pub(super) visited: usize,
    /// How many states are searched before the first question that comes is taken.
    patience: usize,
    /// Two stacks, so that the recursion allocates nothing: masses of the pieces left, and answers.
    masses: Vec<f64>,
    leads: Vec<Lead>,
    /// Scratch: each goal's weight, 0 between uses.
    weights: Vec<f64>,
    /// Scratch: the weights of the goals left, rising.
    sorted: Vec<f64>,
}

impl<'a> Search<'a> {
    pub(super) fn of(pieces: &'a Pieces, patience: usize) -> Search<'a> {
        Search {
            pieces,
            patience,
            known: HashMap::new(),
            visited: 0,
            masses: pieces.pieces.iter().map(|piece| piece.mass).collect(),
            leads: Vec::new(),
            weights: vec![0.0; pieces.goals],
            sorted: Vec::new(),
        }
    }

    pub(super) fn first(&self) -> State {
        State {
            left: Left::of(0..self.pieces.pieces.len()),
            answered: 0,
            open: self.pieces.traits.iter().map(Asked::full).sum(),
            masses: 0,
        }
    }

    pub(super) fn mass(&self, state: &State) -> f64 {
        let masses = &self.masses[state.masses..];
        state.left.iter().map(|piece| masses[piece]).sum()
    }

    /// What tells states apart: the letters of the answers, and those of the pieces left where
    /// nothing is answered yet. Equal keys leave equal pieces with equal masses.
    fn key(&self, state: &State) -> u128 {
        let own = state.left.iter().map(|piece| self.pieces.letters[piece]);
        state.answered | own.fold(0, |all, own| all | own) & state.open
    }

    fn is_settled(&self, left: &Left) -> bool {
        let mut goals = left.iter().map(|piece| self.pieces.pieces[piece].goal);
        let first = goals.next();
        goals.all(|goal| Some(goal) == first)
    }

    /// The least cost of a state where that is under `limit`; else a bound on it that is not.
    pub(super) fn cost(&mut self, state: &State, limit: f64) -> f64 {
        let key = self.key(state);
        if let Some(known) = self.known.get(&key)
            && (known.ask.is_some() || known.cost >= limit)
        {
            return known.cost;
        }
        self.visited += 1;
        let here = self.mass(state);
        let leads_before = self.leads.len();
        let (mut plans, count) = self.plans(state);
        let plans = &mut plans[..count];
        plans.sort_unstable_by(|a, b| a.least.total_cmp(&b.least));
        let mut best = if self.is_out_of_patience() {
            f64::INFINITY
        } else {
            limit
        };
        let mut ask = None;
        let mut bound = f64::INFINITY;
        for plan in plans.iter() {
            if ask.is_some() && self.is_out_of_patience() {
                break;
            }
            // What the answers cost at least, replaced one by one by what they do cost: past the
            // best known, the plan is lost.
            let mut cost = here + plan.least;
            for at in plan.leads.0..plan.leads.1 {
                if cost >= best {
                    break;
                }
                let lead = self.leads[at];
                if lead.least > 0.0 {
                    let others = cost - lead.least;
                    cost = others + self.cost_of(state, plan.index, &lead, best - others);
                }
            }
            bound = bound.min(cost);
            if cost < best {
                best = cost;
                ask = Some(plan.index);
            }
        }
        self.leads.truncate(leads_before);
        let cost = if ask.is_some() { best } else { bound };
        self.known.insert(key, Known { cost, ask });
        cost
    }

    fn is_out_of_patience(&self) -> bool {
        self.visited >= self.patience
    }

    fn cost_of(&mut self, state: &State, index: usize, lead: &Lead, limit: f64) -> f64 {
        let masses_before = self.masses.len();
        let next = self.next(state, index, lead);
        let cost = self.cost(&next, limit);
        self.masses.truncate(masses_before);
        cost
    }

    /// The state after an answer; its masses are pushed.
    fn next(&mut self, state: &State, index: usize, lead: &Lead) -> State {
        let asked = &self.pieces.traits[index];
        let masses = self.masses.len();
        self.masses.resize(masses + self.pieces.pieces.len(), 0.0);
        for piece in lead.left.iter() {
            let share = asked.share(lead.letters, piece);
            self.masses[masses + piece] = self.masses[state.masses + piece] * share;
        }
        State {
            left: lead.left,
            answered: state.answered | asked.placed(lead.letters),
            open: state.open & !asked.full(),
            masses,
        }
    }

    /// The questions that make sense and a difference, and how many; their answers are pushed.
    fn plans(&mut self, state: &State) -> ([Plan; MOST_TRAITS], usize) {
        let mut plans = [Plan::default(); MOST_TRAITS];
        let mut arities = [0; MOST_TRAITS];
        let mut count = 0;
        for (index, asked) in self.pieces.traits.iter().enumerate() {
            if asked.full() & state.open == 0 {
                continue;
            }
            let from = self.leads.len();
            self.push_leads(&state.left, asked);
            let leads = &self.leads[from..];
            arities[index] = leads
                .iter()
                .filter(|lead| lead.letters != asked.absent)
                .count();
            if leads.len() > 1 && !asked.absent_in.meets(&state.left) {
                plans[count] = Plan {
                    index,
                    leads: (from, self.leads.len()),
                    least: 0.0,
                };
                count += 1;
            } else {
                self.leads.truncate(from);
            }
        }
        for plan in &mut plans[..count] {
            // Further down a question tells no more apart than here, and this one nothing.
            let mut later = arities;
            later[plan.index] = 0;
            later.sort_unstable_by(|a, b| b.cmp(a));
            for at in plan.leads.0..plan.leads.1 {
                let least = self.least(state, plan.index, at, &later);
                self.leads[at].least = least;
                plan.least += least;
            }
        }
        (plans, count)
    }

    fn push_leads(&mut self, left: &Left, asked: &Asked) {
        let from = self.leads.len();
        for (at, letter) in asked.letters.iter().enumerate() {
            let left = letter.held_by.and(left);
            if left == Left::NONE {
                continue;
            }
            match self.leads[from..].iter_mut().find(|lead| lead.left == left) {
                Some(lead) => lead.letters |= 1 << at,
                None => self.leads.push(Lead {
                    letters: 1 << at,
                    left,
                    least: 0.0,
                }),
            }
        }
    }

    /// The least that an answer can cost.
    fn least(&mut self, state: &State, index: usize, lead: usize, arities: &[usize]) -> f64 {
        let lead = self.leads[lead];
        if self.is_settled(&lead.left) {
            return 0.0;
        }
        let asked = &self.pieces.traits[index];
        for piece in lead.left.iter() {
            let mass = self.masses[state.masses + piece] * asked.share(lead.letters, piece);
            self.weights[self.pieces.pieces[piece].goal] += mass;
        }
        self.sorted.clear();
        for weight in &mut self.weights {
            if *weight > 0.0 {
                self.sorted.push(std::mem::take(weight));
            }
        }
        self.sorted.sort_unstable_by(f64::total_cmp);
        least_cost(&self.sorted, arities)
    }

    pub(super) fn step(&mut self, state: &State, total: f64) -> Option<Step> {
        let mut pieces = state.left.iter();
        if self.is_settled(&state.left) {
            return pieces
                .next()
                .map(|piece| Step::Form(self.pieces.pieces[piece].goal));
        }
        let index = self.known.get(&self.key(state))?.ask?;
        let from = self.leads.len();
        self.push_leads(&state.left, &self.pieces.traits[index]);
        let mut branches = Vec::new();
        for lead in self.leads.split_off(from) {
            let masses_before = self.masses.len();
            let next = self.next(state, index, &lead);
            let letters = &self.pieces.traits[index].letters;
            branches.push(Branch {
                atoms: bits(lead.letters).map(|at| letters[at].atoms).sum(),
                share: self.mass(&next) / total,
                next: self.step(&next, total)?,
            });
            self.masses.truncate(masses_before);
        }
        Some(Step::Ask { index, branches })
    }
}

/// The least that telling goals of these weights (rising) apart can cost, where no two questions of
/// a path are the same and the questions have these numbers of answers (falling).
///
/// A goal that is reached after d questions takes at least 1 in a[1] * ... * a[d] of the room, and
/// the room is 1, as in Kraft's inequality. All goals are taken one question deep, then those that
/// free most room for their weight go deeper, the last one in part.
fn least_cost(weights: &[f64], arities: &[usize]) -> f64 {
    let mut cost: f64 = weights.iter().sum();
    // How much of the room a goal at each depth takes; and how many goals are deeper than that.
    let mut room = [0.0; MOST_TRAITS];
    let mut deeper = [0; MOST_TRAITS];
    let mut depths = 0;
    let mut one = 1.0;
    for arity in arities.iter().take_while(|arity| **arity > 1) {
        one /= *arity as f64;
        room[depths] = one;
        depths += 1;
    }
    let mut over = weights.len() as f64 * room[0] - 1.0;
    while over > 0.0 {
        let price = |depth: &usize| {
            let weight = weights
                .get(deeper[*depth])
                .copied()
                .unwrap_or(f64::INFINITY);
            weight / (room[*depth] - room[depth + 1])
        };
        let cheapest = (0..depths.saturating_sub(1)).min_by(|a, b| price(a).total_cmp(&price(b)));
        let Some((depth, price)) = cheapest.map(|depth| (depth, price(&depth))) else {
            break;
        };
        if price == f64::INFINITY {
            break;
        }
        let freed = over.min(room[depth] - room[depth + 1]);
        cost += price * freed;
        over -= freed;
        deeper[depth] += 1;
    }
    cost
}
