//! What an order comes to with a pack more.

use crate::order::model::{Model, Supplier};

/// The bills of an order.
pub(super) struct Bills<'a> {
    model: &'a Model,
    /// By supplier: what is bought is worth, and costs with its postage.
    bills: Vec<(u64, u64)>,
    /// What all costs.
    pub(super) cost: u64,
}

impl<'a> Bills<'a> {
    pub(super) fn of(model: &'a Model, packs: &[u64]) -> Bills<'a> {
        let bills = model.bill(packs).into_iter();
        let bills: Vec<(u64, u64)> = bills.map(|(worth, post)| (worth, worth + post)).collect();
        let cost = bills.iter().map(|bill| bill.1).sum();
        Bills { model, bills, cost }
    }

    /// The cost with a pack more of an offer; `None` where its supplier takes no order so small.
    pub(super) fn with(&self, offer: usize) -> Option<u64> {
        let offer = &self.model.offers[offer];
        let terms: &Supplier = &self.model.suppliers[offer.supplier];
        let (before, cost) = self.bills[offer.supplier];
        let worth = before + offer.price;
        let free = terms.free_over.is_some_and(|over| worth >= over);
        let post = if free { 0 } else { terms.postage };
        (worth >= terms.least).then_some(self.cost - cost + worth + post)
    }
}
