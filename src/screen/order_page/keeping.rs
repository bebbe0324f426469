//! Changing the plan, undoing that, and what became of the save.

use super::{OrderPage, Step};
use crate::order::Plan;
use crate::screen::Effect;
use crate::screen::keeping::UNSAVED;

impl OrderPage {
    /// The plan as it stands; `None` where there is none.
    pub fn plan(&self) -> Option<&Plan> {
        self.plan.as_ref().ok()
    }

    /// Puts a changed plan in place of the one before, unless it cannot be: that is the error.
    pub(super) fn change(&mut self, plan: Plan, told: &str) -> Result<Option<Effect>, String> {
        if let Some(refusal) = self.keeper.refusal() {
            return Err(refusal);
        }
        if let Some(problem) = plan.problems().into_iter().next() {
            return Err(problem);
        }
        let before = std::mem::replace(&mut self.plan, Ok(plan));
        if before == self.plan {
            self.say("That is as it was: nothing was changed.");
            return Ok(None);
        }
        self.rework();
        if let Err(told) = &self.candidates {
            let told = told.clone();
            self.plan = before;
            self.rework();
            self.due = !self.is_fresh();
            return Err(told);
        }
        if let Ok(plan) = before {
            let told = told.to_string();
            self.history.remember(Step { plan, told });
        }
        Ok(self.changed(told))
    }

    pub(super) fn undo(&mut self) -> Option<Effect> {
        let turn = |step| turned(&mut self.plan, step);
        let Some(told) = self.history.undo(turn).map(|step| step.told.clone()) else {
            self.say("There is no change to undo.");
            return None;
        };
        self.rework();
        self.changed(&format!("took back: {told}"))
    }

    pub(super) fn redo(&mut self) -> Option<Effect> {
        let turn = |step| turned(&mut self.plan, step);
        let Some(told) = self.history.redo(turn).map(|step| step.told.clone()) else {
            self.say("There is nothing to do again.");
            return None;
        };
        self.rework();
        self.changed(&format!("done again: {told}"))
    }

    fn changed(&mut self, told: &str) -> Option<Effect> {
        self.say(told);
        self.keeper.changed().then_some(Effect::SaveOrder)
    }

    /// How many changes made here can be undone, and how many done again.
    pub(in crate::screen) fn depth(&self) -> (usize, usize) {
        self.history.depth()
    }

    /// The plan is on the disk.
    pub fn saved(&mut self) {
        self.keeper.saved(&mut self.note);
    }

    /// The plan could not be saved, and why. The change stays, and the next one saves it too.
    pub fn not_saved(&mut self, why: String) {
        self.keeper.not_saved(why);
    }

    /// Whether a change would be lost if the program ended now.
    pub fn is_unsaved(&self) -> bool {
        self.keeper.is_unsaved()
    }

    /// Leaving was asked for though a change is not saved.
    pub fn warn(&mut self) {
        self.say(UNSAVED);
    }

    /// Where changes go, in a few words for the head of the screen.
    pub fn kept(&self) -> String {
        self.keeper.in_words("your order")
    }
}

/// Puts the plan of a step in place; the step that leads back.
fn turned(plan: &mut Result<Plan, String>, step: Step) -> Option<Step> {
    let told = step.told;
    let plan = std::mem::replace(plan, Ok(step.plan)).ok()?;
    Some(Step { plan, told })
}
