//! What is bought only to fill an order up: to a supplier's least order, or to free postage.
//!
//! A pack whose tubers are of no use gives an order nothing but worth: what is bought need not be
//! planted, so it takes no place. Of one supplier let everything else come to G and such padding to
//! t on top; whatever G is, needs, beds and varieties are as they are, and only t and the postage are
//! left to choose. With a least order L, postage P, and postage free from F:
//! - without L and F, and where nothing else is bought there, the best t is 0;
//! - the least sum of padding that is no less than L - G reaches the least order. It is no more than
//!   the least sum that is no less than L itself; call that R, and 0 where there is no L;
//! - beyond that, t pays only by saving the postage, so only where it is under P more.
//!
//! So for every order there is one with all else the same, that costs no more, with t at most
//! R + P - 1 (R where nothing is ever free). This holds whatever is sought (cost, plants, stems short
//! within the money, merit), as all of them are left as they were. It follows that these may be left
//! out and the least cost stays what it is:
//! - padding from a supplier without a least order and without a postage that ends;
//! - packs that cost nothing, or more than that most;
//! - of packs at one price, all beyond so many as come to that most, whoever's tubers they are.

use super::model::{Choice, Model, Supplier};
use super::solve::check::Fault;
use crate::variety::Money;

/// Packs of which no tuber is needed, and what they are bought for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Padding {
    /// How many.
    pub packs: u64,
    /// The least order that is reached with them.
    pub least: Option<Money>,
    /// The worth from which postage is free, that is reached with them.
    pub free_over: Option<Money>,
}

impl Padding {
    /// What they are bought for: `to reach the least order of 20.00`.
    pub fn purpose(&self) -> String {
        let least = self
            .least
            .map(|least| format!("the least order of {least}"));
        let free = { self.free_over }.map(|over| format!("free postage from {over}"));
        let reached: Vec<String> = least.into_iter().chain(free).collect();
        format!("to reach {}", reached.join(" and "))
    }
}

impl Supplier {
    /// Whether worth alone can lower what an order here costs, or make it possible.
    pub(super) fn takes_padding(&self) -> bool {
        self.least > 0 || (self.free_over.is_some() && self.postage > 0)
    }

    /// The most, in hundredths, that padding from these packs (price, how many) can usefully come to.
    pub(super) fn most_padding(&self, packs: &[(u64, u64)]) -> u64 {
        let saves = self.free_over.map_or(0, |_| self.postage.saturating_sub(1));
        self.reaching(packs).saturating_add(saves)
    }

    /// No less than the least sum of packs that reaches the least order, if any does: one pack that
    /// does so alone, or the cheapest one after the other until they do.
    fn reaching(&self, packs: &[(u64, u64)]) -> u64 {
        let open = packs.iter().filter(|(_, most)| *most > 0);
        let alone = open.map(|pack| pack.0);
        let alone = alone.filter(|price| *price >= self.least);
        let mut packs = packs.to_vec();
        packs.sort_unstable();
        let mut sum: u64 = 0;
        for (price, most) in packs {
            let needed = (self.least.saturating_sub(sum)).div_ceil(price.max(1));
            sum = sum.saturating_add(price.saturating_mul(needed.min(most)));
        }
        alone.fold(sum, u64::min)
    }
}

impl Model {
    /// By offer: the packs that could all be left out and no need would lack a stem more, where that
    /// would miss a supplier's least order or free postage. The least fitting are taken as padding
    /// first, of those the dearest.
    pub(super) fn padding(&self, choice: &Choice) -> Vec<Option<Padding>> {
        let mut without = choice.clone();
        let faults = self.faults(choice);
        let short = self.lacks(choice);
        // A supplier's terms may be missed, nothing else more than it is.
        let serves = |fewer: &Choice| {
            let more = |fault: &Fault| !faults.contains(fault) && !is_of_terms(fault);
            !self.faults(fewer).iter().any(more) && self.lacks(fewer) <= short
        };
        let padded = |at: &usize| {
            let offer = &self.offers[*at];
            let more = choice.packs[*at] > offer.least;
            more && self.suppliers[offer.supplier].takes_padding()
        };
        let mut offers: Vec<usize> = (0..self.offers.len()).filter(padded).collect();
        offers.sort_by_key(|at| {
            let offer = &self.offers[*at];
            let merit = self.varieties[offer.variety].merit;
            (merit, std::cmp::Reverse(offer.price), *at)
        });
        for at in offers {
            // Leaving out more never serves better: halve the way to the most that may be.
            let (mut may, mut not) = (0, choice.packs[at] - self.offers[at].least + 1);
            while not - may > 1 {
                let middle = (may + not) / 2;
                if serves(&self.with_fewer_packs(&without, at, middle)) {
                    may = middle;
                } else {
                    not = middle;
                }
            }
            without = self.with_fewer_packs(&without, at, may);
        }
        let (whole, left) = (self.bill(&choice.packs), self.bill(&without.packs));
        let padding = |at: usize| {
            let offer = &self.offers[at];
            let terms = &self.suppliers[offer.supplier];
            let packs = choice.packs[at] - without.packs[at];
            let (worth, left) = (whole[offer.supplier].0, left[offer.supplier].0);
            let reached = |limit: &u64| left < *limit && *limit <= worth;
            let least = Some(terms.least).filter(reached);
            let free_over = terms
                .free_over
                .filter(|_| terms.postage > 0)
                .filter(reached);
            (packs > 0 && least.or(free_over).is_some()).then(|| Padding {
                packs,
                least: least.map(Money::hundredths),
                free_over: free_over.map(Money::hundredths),
            })
        };
        (0..self.offers.len()).map(padding).collect()
    }

    /// So many packs of an offer fewer, and of its variety what can still be planted.
    fn with_fewer_packs(&self, choice: &Choice, at: usize, fewer: u64) -> Choice {
        let mut choice = choice.clone();
        choice.packs[at] -= fewer;
        let variety = self.offers[at].variety;
        let tubers = self.tubers(&choice.packs)[variety];
        choice.plants[variety] = choice.plants[variety].min(tubers);
        choice
    }
}

fn is_of_terms(fault: &Fault) -> bool {
    matches!(fault, Fault::LeastOrder(_) | Fault::Money)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Every sum that the packs come to.
    fn sums(packs: &[(u64, u64)]) -> Vec<u64> {
        packs.iter().fold(vec![0], |sums, (price, most)| {
            let more = |sum: &u64| {
                (0..=*most)
                    .map(|packs| sum + price * packs)
                    .collect::<Vec<_>>()
            };
            sums.iter().flat_map(more).collect()
        })
    }

    /// Of a pack that is sold out none can be bought, however well its price would reach the least.
    #[test]
    fn what_is_sold_out_fills_no_order_up() {
        let terms = Supplier {
            name: String::new(),
            postage: 0,
            free_over: None,
            least: 2,
        };
        assert_eq!(terms.most_padding(&[(15, 0), (16, 1)]), 16);
    }

    proptest! {
        /// By trying every sum: none over the most is better than the best of those up to it, whatever
        /// else the order is worth.
        #[test]
        fn no_more_padding_than_the_most_is_ever_better(
            packs in prop::collection::vec((1..30_u64, 0..5_u64), 0..4),
            worth in 1..80_u64,
            least in 0..70_u64,
            postage in 0..25_u64,
            free_over in prop::option::of(0..90_u64),
        ) {
            let terms = Supplier { name: String::new(), postage, free_over, least };
            let cost = |padding: &u64| {
                let free = free_over.is_some_and(|over| worth + padding >= over);
                (worth + padding >= least).then_some(padding + if free { 0 } else { postage })
            };
            let most = match terms.takes_padding() {
                true => terms.most_padding(&packs),
                false => 0,
            };
            let all = sums(&packs);
            let few = all.iter().filter(|sum| **sum <= most);
            prop_assert_eq!(few.filter_map(cost).min(), all.iter().filter_map(cost).min());
        }
    }
}
