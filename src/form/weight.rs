//! How common each observation is among blooms of a form, before any answer.
//!
//! A bloom of a form is drawn from the form's blocks with a weight that is a product over traits:
//! a reference weight for each atom, times `typical_odds` where the shape's typical states include
//! it. All of it is assumed: it orders what the rules leave open and decides nothing.

use super::condition::Condition;
use super::rules::{RuleSet, Shape};
use super::space::{Atom, Block, Scale, Span, bits};
use super::traits::{Kind, Trait};
use crate::measure::Exact;

/// The weight of one exact number, such as a limit itself, beside the spans around it.
const EXACT_POINT: f64 = 0.01;
/// The weight of a wholly rolled floret, which is a thing growers see, unlike exactly 50 %.
const WHOLE_SHARE: f64 = 0.1;
/// Below this many millimetres there are no blooms to speak of.
const LEAST_BLOOM: f64 = 10.0;

/// One shape's weight for every atom: `[trait][atom]`.
pub(super) type AtomWeights = Vec<Vec<f64>>;

/// The weights of every atom for a shape.
pub(super) fn atom_weights(set: &RuleSet, shape: &Shape) -> AtomWeights {
    let per_trait = |(index, one): (usize, &Trait)| {
        let scale = &set.scales()[index];
        let typical = typical_mask(shape, index, scale);
        let weigh = |(at, atom): (usize, &Atom)| {
            let odds = if typical >> at & 1 == 1 {
                set.typical_odds
            } else {
                1.0
            };
            reference(one, atom) * odds
        };
        scale.atoms().iter().enumerate().map(weigh).collect()
    };
    set.traits
        .list()
        .iter()
        .enumerate()
        .map(per_trait)
        .collect()
}

/// The total weight of a set of one trait's atoms.
pub(super) fn mask_weight(weights: &[f64], mask: u64) -> f64 {
    bits(mask)
        .take_while(|at| *at < weights.len())
        .map(|at| weights[at])
        .sum()
}

/// The total weight of a block.
pub(super) fn block_weight(weights: &AtomWeights, block: &Block) -> f64 {
    weights
        .iter()
        .zip(block.0)
        .map(|(own, mask)| mask_weight(own, mask))
        .product()
}

/// The atoms that the shape's typical states name; none where it says nothing of the trait.
fn typical_mask(shape: &Shape, index: usize, scale: &Scale) -> u64 {
    let named = shape
        .typical
        .iter()
        .filter_map(|condition| match condition {
            Condition::States(at, states) if *at == index => Some(scale.states(*states)),
            Condition::Number(at, span) if *at == index => Some(scale.touched(*span)),
            _ => None,
        });
    named.reduce(|all, one| all & one).unwrap_or(0)
}

/// An atom's weight where nothing is known of the form: states alike; counts and lengths alike on
/// a logarithmic scale; shares alike on a plain one.
pub(super) fn reference(one: &Trait, atom: &Atom) -> f64 {
    let Atom::Span(span) = atom else { return 1.0 };
    let (low, high) = (span.low.to_f64(), span.high.to_f64());
    match one.kind {
        Kind::OneOf(_) => 1.0,
        // Whether the number is 0 hangs on another trait, which has its own weight.
        _ if one.zero_where.is_some() && span.high == Exact::zero() => 1.0,
        Kind::Count(..) => ((high + 0.5) / (low - 0.5)).ln(),
        Kind::Share if is_whole(*span) => WHOLE_SHARE,
        Kind::Share => (high - low) / 100.0 + point(*span),
        Kind::Length(_) => (high.max(LEAST_BLOOM) / low.max(LEAST_BLOOM)).ln() + point(*span),
    }
}

fn is_whole(span: Span) -> bool {
    span.low == Exact::whole(100)
}

fn point(span: Span) -> f64 {
    if span.low == span.high {
        EXACT_POINT
    } else {
        0.0
    }
}
