//! Slips of what is not in the plan yet: a need, an event, a round, a bed, a supplier's terms.

use super::filling::{NO_PLAN, new};
use super::slip::{Kind, Slip};
use super::{OrderPage, Side};
use crate::order::{Bed, Item, Need, Plan, Terms, Work};

impl OrderPage {
    /// Opens a slip to add what the cursor is at, or a need.
    pub(super) fn add_like_this(&mut self) {
        let kind = match (self.side, self.item()) {
            (Side::Given, Some(Item::Bed(_))) => Kind::Bed,
            (Side::Given, Some(Item::Supplier(_))) => Kind::Terms,
            (Side::Given, Some(Item::Work(at))) => match is_event(self.plan(), at) {
                true => Kind::Event,
                false => Kind::Round,
            },
            _ => Kind::Need,
        };
        self.add(kind);
    }

    /// Opens a slip to add one of this kind.
    pub(super) fn add(&mut self, kind: Kind) {
        let Some(ground) = self.record_ground() else {
            return self.say(NO_PLAN);
        };
        let plan = ground.plan;
        let slip = match kind {
            Kind::Need => Slip::Need(new("A new need", Need::fresh(plan), ground), None),
            Kind::Event => {
                let event = Work::fresh_event(plan, ground.pieces);
                Slip::Work(new("A new event", event, ground), None)
            }
            Kind::Round => {
                let round = Work::fresh_round(plan, ground.pieces);
                Slip::Work(new("A new round", round, ground), None)
            }
            Kind::Bed => Slip::Bed(
                new("A new bed", Bed::fresh(plan, ground.units), ground),
                None,
            ),
            Kind::Terms => {
                let title = "A supplier's terms";
                Slip::Terms(new(title, Terms::fresh(ground), ground), None)
            }
        };
        self.slip = Some(slip);
    }
}

/// Whether the event or the round at a place is an event.
fn is_event(plan: Option<&Plan>, at: usize) -> bool {
    let work = plan.and_then(|plan| plan.work.get(at));
    work.is_none_or(Work::is_event)
}
