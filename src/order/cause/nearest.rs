//! Where no variety is of all that a need asks: which of its words leaves none, and what is nearest without it.

use super::why::{Given, Nearest};
use crate::order::candidates::{Candidates, ListContext, Match};
use crate::order::plan::Plan;
use crate::variety::closeness;

/// Farther apart than any two colours are.
const ANY_COLOUR: f64 = 200.0;
/// What fits not at all is told apart by its colour.
const LEAST: f64 = 1e-3;

/// The nearest variety that can be had with one word of the need given up, for each word with which there is
/// one; else with two, and so on. Nothing where none can be had at all.
pub(super) fn nearest(plan: &Plan, against: ListContext<'_>, need: usize) -> Vec<Nearest> {
    let asked = &plan.needs[need];
    let words = [
        (Given::Colours, !asked.colours.is_empty()),
        (Given::Use, asked.for_use.is_some()),
        (Given::Forms, !asked.forms.is_empty()),
    ];
    let words: Vec<Given> = { words.into_iter() }
        .filter_map(|(word, is_asked)| is_asked.then_some(word))
        .collect();
    let sets = (1..1_usize << words.len()).map(|set| {
        let given_up = words
            .iter()
            .enumerate()
            .filter(|(at, _)| set >> at & 1 == 1);
        given_up.map(|one| *one.1).collect::<Vec<Given>>()
    });
    let sets: Vec<Vec<Given>> = sets.collect();
    for size in 1..=words.len() {
        let of_size = sets.iter().filter(|set| set.len() == size);
        let found = of_size.filter_map(|set| without(plan, against, need, set));
        let found: Vec<Nearest> = found.collect();
        if !found.is_empty() {
            return found;
        }
    }
    Vec::new()
}

/// The variety that is nearest to the need with these words of it given up.
fn without(
    plan: &Plan,
    against: ListContext<'_>,
    need: usize,
    given_up: &[Given],
) -> Option<Nearest> {
    let mut asked = plan.needs[need].clone();
    for word in given_up {
        match word {
            Given::Colours => asked.within = Some(ANY_COLOUR),
            Given::Use => asked.fitness = Some(0.0),
            Given::Forms => asked.forms.clear(),
        }
    }
    let alone = Plan {
        needs: vec![asked],
        work: Vec::new(),
        ..plan.clone()
    };
    let candidates = Candidates::of(&alone, against).ok()?;
    let plants = candidates.model.plants_to_be_had(&candidates.offered);
    let own = candidates.matches.iter().enumerate();
    let own = own.filter_map(|(at, matches)| Some((at, matches.first()?)));
    // What is not asked for makes no difference, and what is not known as little as it can.
    let unknown = if alone.needs[0].for_use.is_some() {
        LEAST
    } else {
        1.0
    };
    let near = |one: &Match| {
        let fitness = one.fitness.unwrap_or(unknown).max(LEAST);
        closeness(fitness, one.distance.unwrap_or(0.0))
    };
    let (at, best) = own
        .filter(|(at, _)| plants[*at] > 0)
        .max_by(|one, other| near(one.1).total_cmp(&near(other.1)))?;
    Some(Nearest {
        given_up: given_up.to_vec(),
        variety: candidates.model.varieties[at].name.clone(),
        fitness: best.fitness,
        distance: best.distance,
    })
}
