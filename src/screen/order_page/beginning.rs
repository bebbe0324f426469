//! An order begun from nothing: the season, the first bed and the first need, each on a slip. Nothing
//! is saved before there is all that an order takes.

use super::OrderPage;
use super::filling::new;
use super::slip::Slip;
use crate::order::{Bed, Need, Plan, UsualFrosts, season_ahead};
use crate::screen::Effect;
use crate::screen::filling::Filling;
use crate::variety::Text;

/// What is done next where there is no order.
pub(super) const BEGINS: &str = "No order yet: b begins one. It asks for the season with the money, the first bed and the first need, and then finds what to buy; Ctrl-S gives each slip.";

impl OrderPage {
    /// Whether an order can be begun here: the folder has none.
    pub(super) fn begins(&self) -> bool {
        self.plan.is_err() && self.can_begin
    }

    /// The frosts that a new order begins with.
    pub(in crate::screen) fn set_usual_frosts(&mut self, frosts: UsualFrosts) {
        self.usual_frosts = frosts;
    }

    /// What money is counted in.
    pub(in crate::screen) fn set_currency(&mut self, currency: Option<Text>) {
        self.currency = currency;
    }

    /// The colours last looked for on the Choose page, to be offered for an event.
    pub(in crate::screen) fn set_palette(&mut self, palette: Vec<Text>) {
        self.palette = palette;
    }

    /// Opens the slip of what is lacking next.
    pub(super) fn begin_plan(&mut self) {
        if self.draft.is_none() {
            self.draft = Plan::season_alone(season_ahead(self.today), self.usual_frosts);
            if let Some(ground) = self.record_ground() {
                let title = "The season and the money (1 of 3)";
                let slip = Filling::of_new(title, ground.plan.clone(), ground);
                self.slip = Some(Slip::Season(Box::new(slip)));
            }
            return;
        }
        let Some(ground) = self.record_ground() else {
            return;
        };
        let plan = ground.plan;
        let slip = if plan.beds.is_empty() {
            let bed = Bed::fresh(plan, ground.units);
            let slip = new("The first bed (2 of 3)", bed, ground);
            Slip::Bed(slip, None)
        } else {
            let slip = new("The first need (3 of 3)", Need::fresh(plan), ground);
            Slip::Need(slip, None)
        };
        self.slip = Some(slip);
    }

    /// Takes in what was given on a slip of an order that is begun, and asks for what is lacking next.
    pub(super) fn take_beginning(&mut self, slip: Slip, plan: Plan) -> Option<Effect> {
        if plan.needs.is_empty() && plan.work.is_empty() {
            self.draft = Some(plan);
            self.begin_plan();
            return None;
        }
        match self.change(plan, "the order is begun") {
            Ok(effect) => {
                self.draft = None;
                effect
            }
            Err(why) => {
                self.refuse_slip(slip, why);
                None
            }
        }
    }

    /// A slip was closed: where an order is half begun what was given of it stays, and that is said.
    pub(super) fn leave_slip(&mut self, slip: &Slip) {
        match slip {
            Slip::Season(_) if self.begins() => self.draft = None,
            _ if self.begins() => {
                self.say("The order is begun and not saved yet: b goes on with it.");
            }
            _ => {}
        }
    }
}
