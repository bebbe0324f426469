//! Numbers of a trait that tell it best: a low one, a middle one and a high one.

use super::space::{Atom, Scale};
use super::traits::{Kind, Trait};
use crate::measure::Exact;

/// Rows that can be counted at a glance, and so many that nobody counts them: more look the same.
const ROWS: [i64; 3] = [1, 3, 8];
/// Parts of a floret, per cent.
const SHARES: [i64; 3] = [25, 50, 100];

/// The numbers of a trait that tell it best, as files have them; none of a trait of states. Of a
/// length these are limits of the rules: the least, one between, the greatest.
pub fn telling_numbers(one: &Trait, scale: &Scale) -> Vec<Exact> {
    match one.kind {
        Kind::OneOf(_) => Vec::new(),
        Kind::Count(..) => ROWS.map(Exact::whole).to_vec(),
        Kind::Share => SHARES.map(Exact::whole).to_vec(),
        Kind::Length(_) => {
            let limits = limits(scale);
            let last = limits.len().saturating_sub(1);
            let places = [0, limits.len() / 2, last].into_iter();
            let mut few: Vec<Exact> = places.filter_map(|at| limits.get(at).copied()).collect();
            few.dedup();
            few
        }
    }
}

/// Where the rules part the numbers, rising.
fn limits(scale: &Scale) -> Vec<Exact> {
    let ends = scale.atoms().iter().filter_map(|atom| match atom {
        Atom::Span(span) => Some(span.high),
        _ => None,
    });
    let mut ends: Vec<Exact> = ends.collect();
    ends.dedup();
    // The last end is that of all numbers, not a limit.
    ends.pop();
    ends
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;

    #[test]
    fn the_sizes_that_tell_are_limits_of_the_rules() {
        let set = &RuleSet::embedded()[0];
        let index = set.traits.find("diameter").expect("a trait");
        let told = telling_numbers(set.traits.get(index), &set.scales()[index]);
        let inches: Vec<f64> = told.iter().map(|mm| mm.to_f64() / 25.4).collect();
        assert!(
            inches.windows(2).all(|pair| pair[0] < pair[1]),
            "{inches:?}"
        );
        assert_eq!((inches.first(), inches.last()), (Some(&2.0), Some(&10.0)));
    }
}
