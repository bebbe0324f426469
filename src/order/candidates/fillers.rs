//! Which offers of what serves no need can lower the cost: the head of [`crate::order::padding`]
//! proves that the others may be left out.

use std::collections::BTreeMap;

use super::offered::Offered;
use super::reading::Reading;
use crate::order::Terms;
use crate::variety::Variety;

/// An offer of one of these varieties, by row.
type Filler = (usize, Offered);

/// By place in the list, rising: the offers, of varieties of which nothing is wanted, that can fill an
/// order up.
pub(super) fn fillers(
    reading: &Reading<'_>,
    rows: impl Iterator<Item = usize>,
) -> BTreeMap<usize, Vec<Offered>> {
    let mut kept: BTreeMap<usize, Vec<Offered>> = BTreeMap::new();
    let padded = |terms: &&Terms| terms.as_supplier().takes_padding();
    let suppliers: Vec<&Terms> = reading.plan.suppliers.iter().filter(padded).collect();
    if suppliers.is_empty() {
        return kept;
    }
    let mut by_supplier: Vec<Vec<Filler>> = vec![Vec::new(); suppliers.len()];
    let list = reading.terms.list.list();
    for row in rows {
        for offered in reading.offered(row).open {
            let offer = &list[row].offers[offered.at];
            let of = |terms: &&&Terms| terms.name == offer.supplier;
            let costs = offered.most > 0 && offer.price.in_hundredths() > 0;
            if let Some(supplier) = suppliers
                .iter()
                .position(|terms| of(&terms))
                .filter(|_| costs)
            {
                by_supplier[supplier].push((row, offered));
            }
        }
    }
    for (terms, fillers) in suppliers.iter().zip(by_supplier) {
        for (row, offered) in worth_having(terms, fillers, list) {
            kept.entry(row).or_default().push(offered);
        }
    }
    kept.values_mut()
        .for_each(|offers| offers.sort_by_key(|offered| offered.at));
    kept
}

/// Of one supplier's: at each price as many packs as come to the most that padding can, those on the
/// shortlist first, then those with the most tubers.
fn worth_having(terms: &Terms, mut fillers: Vec<Filler>, list: &[Variety]) -> Vec<Filler> {
    let offer = |(row, offered): &Filler| &list[*row].offers[offered.at];
    let price = |filler: &Filler| offer(filler).price.in_hundredths();
    let prices: Vec<(u64, u64)> = { fillers.iter() }
        .map(|filler| (price(filler), filler.1.most))
        .collect();
    let most = terms.as_supplier().most_padding(&prices);
    fillers.retain(|filler| price(filler) <= most);
    fillers.sort_by_key(|filler| {
        let wished = list[filler.0].shortlist.is_some();
        let tubers = std::cmp::Reverse(offer(filler).pack);
        (price(filler), !wished, tubers, filler.0, filler.1.at)
    });
    // Packs at the price at hand that are kept already.
    let (mut at_price, mut packs) = (0, 0_u64);
    fillers.retain(|filler| {
        if price(filler) != at_price {
            (at_price, packs) = (price(filler), 0);
        }
        let more = packs.saturating_mul(at_price) < most;
        packs = packs.saturating_add(filler.1.most);
        more
    });
    fillers
}
