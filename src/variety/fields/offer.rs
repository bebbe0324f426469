//! An offer that may be half filled in.

use std::num::NonZeroU32;

use jiff::civil::Date;

use crate::measure::Money;
use crate::variety::exchange::{Field, typed};
use crate::variety::record::Offer;
use crate::variety::text::Text;

/// An offer as far as it is filled in.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct LooseOffer {
    supplier: Option<Text>,
    price: Option<Money>,
    pack: Option<NonZeroU32>,
    available: Option<u32>,
    closes: Option<Date>,
}

impl LooseOffer {
    pub(super) fn of(offer: &Offer) -> LooseOffer {
        LooseOffer {
            supplier: Some(offer.supplier.clone()),
            price: Some(offer.price),
            pack: Some(offer.pack),
            available: offer.available,
            closes: offer.closes,
        }
    }

    /// The offer; `None` where it has no supplier, price or pack.
    pub(super) fn whole(&self) -> Option<Offer> {
        Some(Offer {
            supplier: self.supplier.clone()?,
            price: self.price?,
            pack: self.pack?,
            available: self.available,
            closes: self.closes,
        })
    }

    pub(super) fn is_empty(&self) -> bool {
        *self == LooseOffer::default()
    }

    /// What stands in one of its fields.
    pub(super) fn text(&self, field: Field) -> String {
        let text = match field {
            Field::Supplier => self.supplier.as_ref().map(Text::to_string),
            Field::Price => self.price.map(|price| price.to_string()),
            Field::Pack => self.pack.map(|pack| pack.to_string()),
            Field::Available => self.available.map(|packs| packs.to_string()),
            _ => self.closes.map(|day| day.to_string()),
        };
        text.unwrap_or_default()
    }

    /// Takes in one of its fields; without a supplier nothing of it is left.
    pub(super) fn take(&mut self, field: Field, text: &str) -> Result<(), String> {
        match (field, text) {
            (Field::Supplier, "") => *self = LooseOffer::default(),
            (Field::Supplier, text) => self.supplier = Some(typed::text(text)?),
            (Field::Price, "") => self.price = None,
            (Field::Price, text) => self.price = Some(typed::money(text)?),
            (Field::Pack, "") => self.pack = None,
            (Field::Pack, text) => self.pack = Some(typed::count(text)?),
            (Field::Available, "") => self.available = None,
            (Field::Available, text) => self.available = Some(typed::whole(text)?),
            (_, "") => self.closes = None,
            (_, text) => self.closes = Some(typed::date(text)?),
        }
        Ok(())
    }

    /// What it lacks: the field, and a clause.
    pub(super) fn lacks(&self) -> Option<(Field, String)> {
        let of = self.supplier.as_ref();
        let of = of.map_or(String::new(), |supplier| format!(" of {supplier}"));
        let told = |what: &str, expected: &str| {
            format!("found an offer{of} without {what}, expected {expected}")
        };
        if self.supplier.is_none() {
            let expected = "who offers it, or all of the offer empty";
            return Some((Field::Supplier, told("a supplier", expected)));
        }
        if self.price.is_none() {
            let expected = "what a pack costs, such as 4.50";
            return Some((Field::Price, told("a price", expected)));
        }
        let expected = "tubers in a pack, 1 where the price is of one";
        self.pack
            .is_none()
            .then(|| (Field::Pack, told("a pack", expected)))
    }
}
