//! Needs, beds, suppliers and the other figures for the jump line, and arriving at one.

use super::{OrderPage, Side};
use crate::order::Item;
use crate::screen::jump::place::{Goal, Kind, Place};
use crate::screen::kit::cursor::Cursor;

impl OrderPage {
    /// What can be jumped to on this page.
    pub(in crate::screen) fn places(&self) -> Vec<Place> {
        let Ok(plan) = self.in_view() else {
            return Vec::new();
        };
        let units = self.ground.as_ref().map(|ground| ground.stock().units);
        let units = units.unwrap_or_default();
        let place = |item: Item| {
            let (kind, name) = match item {
                Item::Need(_) | Item::Work(_) => (Kind::Need, item.name(plan)),
                Item::Bed(at) => (Kind::Bed, plan.beds[at].name.to_string()),
                Item::Supplier(_) => (Kind::Supplier, item.name(plan)),
                _ => (Kind::Figure, item.name(plan)),
            };
            Place::new(kind, name, Goal::Item(item)).with(item.value(plan, units))
        };
        Item::all(plan).into_iter().map(place).collect()
    }

    /// Puts the cursor on a figure of the plan.
    pub(in crate::screen) fn point_at(&mut self, item: Item) {
        self.note = None;
        self.answer = None;
        self.open_fold_of(item);
        let at = self.items().iter().position(|one| *one == item);
        self.side = Side::Given;
        self.at[Side::Given as usize] = Cursor::on(at.unwrap_or(0));
    }
}
