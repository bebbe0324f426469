//! What it costs to be surer: asked of the search, and shown as bars.

use super::task::{Question, Surer};
use super::{Answer, OrderPage};
use crate::order::{Item, Promised};
use crate::screen::kit::text::Row;
use crate::screen::theme::{Role, Theme};
use crate::variety::Money;

/// Columns before a bar: how sure, and the cost.
const LEAD: usize = 24;

impl OrderPage {
    /// Asks what surer costs: of every need, or of the one or the event under the cursor alone.
    pub(super) fn ask_surer(&mut self, alone: bool) {
        let of = match (alone, self.shown_item()) {
            (false, _) => None,
            (true, Some(Item::Need(at))) => Some(Promised::Need(at)),
            (true, Some(Item::Work(at))) => Some(Promised::Work(at)),
            (true, _) => {
                return self.say("C asks of what is under the cursor: go to a need or an event.");
            }
        };
        let met = { self.settled.as_ref() }.is_some_and(|settled| settled.status.meets_all());
        match self.is_fresh() {
            false => self.say("Not solved yet: what surer costs can be asked then."),
            true if !met => self.say("Not every need is met: m looks for what would mend that."),
            true => self.question = Some(Question::Surer { of }),
        }
    }

    /// Of whom it is told.
    pub(super) fn surer_head(&self) -> String {
        let of = self.surer.as_ref().and_then(|surer| surer.of);
        let named = of.and_then(|of| Some(of.name(self.in_view().ok()?)));
        let whose = named.unwrap_or("every need");
        format!("What it costs that {whose} is met in so many seasons of 100")
    }

    /// A bar for each step.
    pub(super) fn surer_rows(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let steps = self.surer.iter().flat_map(|surer| &surer.steps);
        let most = steps.clone().filter_map(|step| step.1).max();
        let most = most.map_or(0, Money::in_hundredths).max(1) as f64;
        let row = |(sure, cost): &(f64, Option<Money>)| {
            let sure = Row::of(format!("{:>4.0}", sure * 100.0), Role::Strong);
            let Some(cost) = cost else {
                return sure.with("   none that sure was found in these beds", Role::Doubt);
            };
            let share = cost.in_hundredths() as f64 / most;
            let bar = theme.signs().bar(share, columns.saturating_sub(LEAD));
            let sure = sure.with(format!("  {:>12}  ", cost.to_string()), Role::Plain);
            sure.with(bar, Role::Bar)
        };
        steps.map(row).collect()
    }

    /// Puts what surer costs in view.
    pub(super) fn show_surer(&mut self, surer: Surer) {
        self.surer = Some(surer);
        self.answer = Some(Answer::Surer);
    }
}
