//! The offers of a variety that can be taken up.

use super::reading::Reading;
use crate::order::Fixed;

/// An offer that can be taken up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Offered {
    /// Its place among its variety's offers.
    pub(super) at: usize,
    /// The least packs.
    pub(super) least: u64,
    /// The most packs.
    pub(super) most: u64,
}

/// A variety's offers.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Offers {
    /// Those that can be taken up.
    pub(super) open: Vec<Offered>,
    /// How many have closed.
    pub(super) closed: usize,
}

impl Reading<'_> {
    /// The offers of a variety that are open on the day of the order, and may be taken up.
    pub(super) fn offered(&self, row: usize) -> Offers {
        let (plan, variety) = (self.plan, &self.terms.list.list()[row]);
        let mut offers = Offers::default();
        let mut fixed_already: Vec<&str> = Vec::new();
        for (at, offer) in variety.offers.iter().enumerate() {
            let of_this =
                |one: &&Fixed| one.variety == variety.name && one.supplier == offer.supplier;
            let fixed = plan.fixed.iter().find(of_this);
            let is_closed = offer.closes.is_some_and(|closes| closes < plan.ordered);
            offers.closed += usize::from(is_closed);
            let barred = plan.shortlist_only && variety.shortlist.is_none() && fixed.is_none();
            if is_closed || barred {
                continue;
            }
            let (mut least, mut most) = (0, u64::from(offer.available.unwrap_or(u32::MAX)));
            if let Some(fixed) = fixed {
                // Of several packs of one supplier the first is the one that is fixed.
                let first = !fixed_already.contains(&offer.supplier.as_str());
                fixed_already.push(&offer.supplier);
                least = if first { u64::from(fixed.packs) } else { 0 };
                most = least;
            }
            offers.open.push(Offered { at, least, most });
        }
        offers
    }
}
