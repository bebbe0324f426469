//! A quantity fixed by hand: tubers of a variety, bought of whoever sells them so at least cost.

use super::plan::{Fixed, Plan};
use crate::variety::Variety;

impl Plan {
    /// Fixes the tubers bought of a variety: of the supplier whose pack divides them at least cost,
    /// and none of the others. What was fixed of it before is forgotten.
    ///
    /// # Errors
    /// A sentence where no open offer comes in packs that make up so many.
    pub fn fix(&mut self, variety: &Variety, tubers: u32) -> Result<(), String> {
        // Of several packs of one supplier the first is the one that can be fixed.
        let mut firsts: Vec<&crate::variety::Offer> = Vec::new();
        for offer in &variety.offers {
            let open = offer.closes.is_none_or(|closes| closes >= self.ordered);
            if open && !firsts.iter().any(|first| first.supplier == offer.supplier) {
                firsts.push(offer);
            }
        }
        let makes_up = |offer: &&&crate::variety::Offer| {
            let packs = tubers / offer.pack.get();
            let enough = offer.available.is_none_or(|available| packs <= available);
            tubers.is_multiple_of(offer.pack.get()) && enough
        };
        let cost = |offer: &&&crate::variety::Offer| {
            u64::from(tubers / offer.pack.get()) * offer.price.in_hundredths()
        };
        let Some(chosen) = firsts.iter().filter(makes_up).min_by_key(cost) else {
            let sold: Vec<String> = firsts
                .iter()
                .map(|offer| {
                    let most = offer
                        .available
                        .map_or(String::new(), |most| format!(", at most {most}"));
                    format!("packs of {} from {}{most}", offer.pack, offer.supplier)
                })
                .collect();
            return Err(match sold.is_empty() {
                true => format!(
                    "{}: found {tubers} tubers, expected a variety that someone offers",
                    variety.name
                ),
                false => format!(
                    "{}: found {tubers} tubers, expected a number that its packs make up: {}",
                    variety.name,
                    sold.join("; ")
                ),
            });
        };
        self.unfix(variety);
        for offer in &firsts {
            let packs = if offer.supplier == chosen.supplier {
                tubers / offer.pack.get()
            } else {
                0
            };
            self.fixed.push(Fixed {
                variety: variety.name.clone(),
                supplier: offer.supplier.clone(),
                packs,
            });
        }
        Ok(())
    }

    /// Lets the quantity of a variety be chosen again; whether it was fixed.
    pub fn unfix(&mut self, variety: &Variety) -> bool {
        let before = self.fixed.len();
        self.fixed.retain(|fixed| fixed.variety != variety.name);
        self.fixed.len() < before
    }
}
