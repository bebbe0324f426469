//! The field key: of all orders in which the questions can be asked, one with the fewest expected.
//!
//! Exact: a search over the states that answers can lead to, by branch and bound with each state
//! remembered. Letters that no piece left can tell apart are one branch. A state costs nothing
//! where one goal is left, else one question and what its branches cost.
//!
//! Once asked, a trait tells nothing more, since the pieces left all hold the whole branch: no
//! path asks it twice. That is what bounds a state's cost from below, and what lets a piece's mass
//! be carried along, one factor a question.

use std::collections::HashMap;

use super::belief::Keyer;
use super::piece::{Asked, Left, Pieces};
use super::space::{MOST_TRAITS, bits};

/// After so many states the search takes each state's most promising question unproved.
const MOST_STATES: usize = 1_000_000;

/// A key from a state on.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// One form, or one shape where the key is not by size, is left.
    Form(usize),
    /// Ask of a trait, and go on by the answer.
    Ask {
        /// The trait.
        index: usize,
        /// Where each answer leads.
        branches: Vec<Branch>,
    },
}

/// An answer in a key.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    /// The answer as atoms of the trait.
    pub atoms: u64,
    /// How often it is met, of all blooms that are keyed.
    pub share: f64,
    /// Where it leads.
    pub next: Step,
}

/// A shortest key.
#[derive(Debug, Clone)]
pub struct FieldKey {
    /// Where to begin.
    pub first: Step,
    /// The mean number of questions to the form.
    pub mean: f64,
    /// Whether its leaves are forms; else they are shapes.
    pub by_size: bool,
    /// Whether no key is shorter. The rules of a tangled set can take too long to prove that.
    pub proved: bool,
    /// How many states the search went through.
    pub states: usize,
}

impl Keyer {
    /// The key with the fewest questions on average, over blooms as the keyer weighs them, to the
    /// form where `by_size`, else to the shape. `None` where the rules fall into too many pieces
    /// to be searched, or where they leave blooms that no question tells apart.
    pub fn shortest_key(&self, by_size: bool) -> Option<FieldKey> {
        self.key_within(MOST_STATES, by_size)
    }

    fn key_within(&self, patience: usize, by_size: bool) -> Option<FieldKey> {
        let pieces = Pieces::of(self, by_size)?;
        let mut search = Search::of(&pieces, patience);
        let first = search.first();
        let total = search.mass(&first);
        let cost = search.cost(&first, f64::INFINITY);
        let first = search.step(&first, total)?;
        Some(FieldKey {
            first,
            mean: cost / total,
            by_size,
            proved: search.visited < patience,
            states: search.visited,
        })
    }
}

/// What the answers so far leave.
#[derive(Debug, Clone, Copy)]
struct State {
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

struct Search<'a> {
    pieces: &'a Pieces,
    /// What is known of each state, by the letters that it leaves.
    known: HashMap<u128, Known>,
    visited: usize,
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
    fn of(pieces: &'a Pieces, patience: usize) -> Search<'a> {
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

    fn first(&self) -> State {
        State {
            left: Left::of(0..self.pieces.pieces.len()),
            answered: 0,
            open: self.pieces.traits.iter().map(Asked::full).sum(),
            masses: 0,
        }
    }

    fn mass(&self, state: &State) -> f64 {
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
    fn cost(&mut self, state: &State, limit: f64) -> f64 {
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

    fn step(&mut self, state: &State, total: f64) -> Option<Step> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::space::Block;
    use crate::form::{RuleSet, Traits};

    fn embedded() -> Vec<Keyer> {
        RuleSet::embedded().into_iter().map(Keyer::even).collect()
    }

    /// Walks a bloom down the key: the goal and the number of questions.
    fn walked(key: &FieldKey, bloom: &Block) -> (usize, f64) {
        let (mut step, mut asked) = (&key.first, 0.0);
        while let Step::Ask { index, branches } = step {
            let branch = branches
                .iter()
                .find(|branch| branch.atoms & bloom.0[*index] != 0);
            step = &branch.expect("a branch for every bloom").next;
            asked += 1.0;
        }
        match step {
            Step::Form(goal) => (*goal, asked),
            Step::Ask { .. } => unreachable!("the walk went on"),
        }
    }

    /// The optima that a plain search over whole blocks, without these bounds, found as well.
    #[test]
    fn the_embedded_sets_have_their_shortest_keys() {
        let means: Vec<f64> = embedded()
            .iter()
            .map(|keyer| keyer.shortest_key(false).expect("a key").mean)
            .collect();
        for (found, known) in means.iter().zip([4.386422, 4.674394]) {
            assert!((found - known).abs() < 1e-6, "{found} {known}");
        }
    }

    #[test]
    fn every_bloom_comes_to_its_form_in_the_mean_number_of_questions() {
        let mut random = fastrand::Rng::with_seed(3);
        for keyer in embedded() {
            let key = keyer.shortest_key(false).expect("a key");
            let (count, mut asked) = (4000, 0.0);
            for at in 0..count {
                let form = at % keyer.set.forms.len();
                let (goal, questions) = walked(&key, &keyer.draw(form, &mut || random.f64()));
                assert_eq!(goal, keyer.set.forms[form].shape);
                asked += questions;
            }
            let mean = asked / count as f64;
            assert!((mean - key.mean).abs() < 0.06, "{mean} {}", key.mean);
        }
    }

    #[test]
    fn out_of_patience_the_key_is_whole_and_says_that_it_is_not_proved() {
        for keyer in embedded() {
            let best = keyer.shortest_key(false).expect("a key");
            let quick = keyer.key_within(50, false).expect("a key");
            assert!(best.proved && !quick.proved);
            assert!(
                (best.mean..best.mean * 1.15).contains(&quick.mean),
                "{} {}",
                quick.mean,
                best.mean
            );
        }
    }

    /// The least mean by trying every question in every order on every complete observation.
    fn brute(blooms: &[(Block, usize, f64)], traits: usize) -> f64 {
        let settled = blooms.iter().all(|(_, form, _)| *form == blooms[0].1);
        if settled {
            return 0.0;
        }
        let here: f64 = blooms.iter().map(|(.., mass)| mass).sum();
        let cost = |index: usize| {
            let mut answers: Vec<u64> = blooms.iter().map(|(bloom, ..)| bloom.0[index]).collect();
            answers.sort_unstable();
            answers.dedup();
            let after = |answer: &u64| {
                let left: Vec<_> = blooms
                    .iter()
                    .filter(|(bloom, ..)| bloom.0[index] == *answer)
                    .copied()
                    .collect();
                brute(&left, traits)
            };
            if answers.len() < 2 {
                f64::INFINITY
            } else {
                here + answers.iter().map(after).sum::<f64>()
            }
        };
        (0..traits).map(cost).fold(f64::INFINITY, f64::min)
    }

    /// A small table of four traits and a diameter, and a rule set at random over them.
    fn small(random: &mut fastrand::Rng) -> Keyer {
        let states = [2, 3, 2, 2];
        let one = |(index, states): (usize, &usize)| {
            let states: String = (0..*states)
                .map(|state| format!("(id: \"s{state}\", means: \"\"),"))
                .collect();
            format!(
                "(id: \"t{index}\", ask: \"\", look: \"\", kind: OneOf([{states}]), effort: Look, mistake: 0.05),"
            )
        };
        let list: String = states.iter().enumerate().map(one).collect();
        let traits = format!(
            "[{list} (id: \"diameter\", ask: \"\", look: \"\", kind: Length(\"9mm\"), effort: Measure, mistake: 0.05)]"
        );
        let traits = Traits::read("traits.ron", &traits).expect("traits");
        let mut test = || {
            let index = random.usize(..states.len());
            format!("t{index}=s{}", random.usize(..states[index]))
        };
        let mut shapes = String::new();
        for shape in 0..5 {
            let requires = format!("{}, ({} or {})", test(), test(), test());
            shapes += &format!(
                "(id: \"f{shape}\", name: \"\", means: \"\", requires: \"{requires}\", unless: Above),"
            );
        }
        shapes += "(id: \"rest\", name: \"\", means: \"\", requires: \"\", unless: Above),";
        let set = format!("(id: \"small\", name: \"\", source: \"\", limits: {{}}, words: {{}}, typical_odds: 1, shapes: [{shapes}],
            sizes: [(of: [], into: [(id: \"{{shape}}\", name: \"\", diameter: \"\")])], size_words: [])");
        Keyer::even(RuleSet::read("small.ron", &set, &traits).expect("a set"))
    }

    #[test]
    fn no_order_of_questions_is_shorter_on_small_sets() {
        let mut random = fastrand::Rng::with_seed(11);
        for _ in 0..60 {
            let keyer = small(&mut random);
            let mut blooms = Vec::new();
            for block in &keyer.blocks {
                let atoms: u128 = block.block.volume();
                let mass = block.scale * block.traits.iter().product::<f64>() / atoms as f64;
                let mut cells = vec![block.block];
                for index in 0..5 {
                    let cut = |cell: Block| {
                        bits(cell.0[index])
                            .filter_map(move |at| cell.narrowed(index, 1 << at))
                            .collect::<Vec<_>>()
                    };
                    cells = cells.into_iter().flat_map(cut).collect();
                }
                // The diameter decides nothing here: one of its atoms stands for all.
                let blooms_of = cells.into_iter().map(|cell| (cell, block.form, mass));
                blooms.extend(blooms_of);
            }
            let total: f64 = blooms.iter().map(|(.., mass)| mass).sum();
            let known = brute(&blooms, 4) / total;
            let key = keyer.shortest_key(true).expect("a key");
            assert!((key.mean - known).abs() < 1e-9, "{} {known}", key.mean);
        }
    }
}
