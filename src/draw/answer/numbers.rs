//! The number that stands for several.

use crate::form::space::{Atom, Scale, Span, bits};

/// The number in the middle of those in a mask; `None` where it holds none.
pub(super) fn middle(scale: &Scale, mask: u64) -> Option<f64> {
    let low = spans(scale, mask).next()?.low;
    let high = spans(scale, mask).last()?.high;
    Some((low.to_f64() + high.to_f64()) / 2.0)
}

fn spans(scale: &Scale, mask: u64) -> impl Iterator<Item = Span> {
    bits(mask).filter_map(|at| match scale.atoms().get(at) {
        Some(Atom::Span(span)) => Some(*span),
        _ => None,
    })
}
