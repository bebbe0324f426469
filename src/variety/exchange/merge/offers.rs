//! What a supplier offers, and how much of it the supplier has: never what the grower has.

use super::Merge;
use crate::variety::exchange::cell;
use crate::variety::exchange::field::Field;
use crate::variety::record::Offer;
use crate::variety::text::folded;

impl Merge<'_> {
    pub(super) fn offers(&mut self) {
        let value = self.read(Field::Offers, |cell| {
            cell::items(cell)
                .iter()
                .map(|item| cell::offer(item))
                .collect::<Result<Vec<_>, _>>()
        });
        if let Some(value) = value {
            self.variety.offers = value;
        }
        let price = self.read(Field::Price, cell::money);
        let pack = self.read(Field::Pack, cell::count);
        let available = self.read(Field::Available, cell::whole);
        let tubers = self.read(Field::AvailableTubers, cell::whole);
        let closes = self.read(Field::Closes, cell::date);
        let none = price.is_none() && pack.is_none() && available.is_none() && tubers.is_none();
        if none && closes.is_none() {
            return;
        }
        let supplier = self
            .read(Field::Supplier, cell::text)
            .or(self.terms.supplier.cloned());
        let Some(supplier) = supplier else {
            let told =
                "found an offer without a supplier, expected a supplier column, or --supplier NAME";
            return self.problem(Field::Price, told);
        };
        let offers = &mut self.variety.offers;
        let old = offers
            .iter()
            .position(|one| folded(&one.supplier) == folded(&supplier));
        let before = old.map(|at| offers[at].clone());
        let price = price.or(before.as_ref().map(|one| one.price));
        let pack = pack
            .or(before.as_ref().map(|one| one.pack))
            .or(self.terms.pack);
        let (Some(price), Some(pack)) = (price, pack) else {
            let (field, told) = if price.is_none() {
                (
                    Field::Price,
                    "found an offer without a price, expected the price of a pack",
                )
            } else {
                (
                    Field::Pack,
                    "found a price and no pack, expected tubers in a pack, or --pack 1 where the price is of one",
                )
            };
            return self.problem(field, told);
        };
        // A last pack that is not full is not sold.
        let available = available.or(tubers.map(|tubers| tubers / pack));
        let offer = Offer {
            supplier: before.as_ref().map_or(supplier, |one| one.supplier.clone()),
            price,
            pack,
            available: available.or(before.as_ref().and_then(|one| one.available)),
            closes: closes.or(before.and_then(|one| one.closes)),
        };
        match old {
            Some(at) => offers[at] = offer,
            None => offers.push(offer),
        }
    }
}
