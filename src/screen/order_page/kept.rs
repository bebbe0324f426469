//! What was settled before, so that nothing is solved again of which nothing has changed.

use std::rc::Rc;

use super::OrderPage;
use crate::order::{Aim, Candidates, Kept, Order, Plan, Settled};

/// Solutions kept for an undo.
const MOST_KNOWN: usize = 12;

impl OrderPage {
    /// The same page, with what was settled when it was last open.
    pub(in crate::screen) fn with_kept(mut self, kept: Vec<Kept>) -> OrderPage {
        self.kept = kept;
        self
    }

    /// What was settled, for each aim.
    pub(in crate::screen) fn settled_orders(&self) -> &[Kept] {
        &self.kept
    }

    /// The same page, settling for this.
    #[cfg(test)]
    pub(in crate::screen) fn settling(mut self, aim: Aim) -> OrderPage {
        self.aim = aim;
        self
    }

    /// Settles for a usual season, or again so that each need is as sure as it asks for.
    pub(super) fn turn_aim(&mut self) {
        let told = match self.aim {
            Aim::Surely => {
                self.aim = Aim::OnAverage;
                "For a usual season, in which every figure is as planned. A: as sure as asked again."
            }
            Aim::OnAverage => {
                self.aim = Aim::Surely;
                "Each need as sure as it asks for. A: for a usual season."
            }
        };
        self.known.clear();
        self.rework();
        self.solved = self.solved.take().filter(|_| !self.due);
        self.say(told);
    }

    /// What was settled of the plan as it is: here, or as it is kept.
    pub(super) fn settled_before(&self) -> Option<(Plan, Rc<Settled>)> {
        let whole = self.whole.as_ref()?;
        let known = self.known.iter().find(|(known, _)| known == whole);
        if known.is_some() {
            return known.cloned();
        }
        Some((whole.clone(), self.settled_for(self.aim)?))
    }

    /// What was settled for this of the plan as it is, as it is kept.
    pub(super) fn settled_for(&self, aim: Aim) -> Option<Rc<Settled>> {
        let (whole, ground) = (self.whole.as_ref()?, self.ground.as_ref()?);
        let candidates = self.candidates.as_ref().ok()?;
        let mut kept = self.kept.iter();
        let kept = kept.find(|kept| {
            let is_asked = kept.aim == aim && !kept.stopped;
            is_asked && kept.is_of(whole, candidates, ground.list())
        })?;
        Some(Rc::new(kept.settled(candidates.clone())))
    }

    /// Keeps what was settled to the end: here, and beside the plan where that is saved.
    pub(super) fn keep(&mut self, plan: &Plan, settled: &Rc<Settled>) {
        self.known.truncate(MOST_KNOWN - 1);
        self.known.insert(0, (plan.clone(), Rc::clone(settled)));
        let (Some(ground), Ok(candidates)) = (&self.ground, &self.candidates) else {
            return;
        };
        let from = (plan, candidates, ground.list());
        let kept = Kept::of(self.aim, from, settled, false, self.today);
        self.kept.retain(|other| other.aim != kept.aim);
        self.to_keep = self.keeper.saves().then(|| kept.clone());
        self.kept.push(kept);
    }

    /// The order that is planted, of these candidates: as it was settled last, whatever was learned since; else
    /// the one in view.
    pub(super) fn planted_of(&self, candidates: &Candidates) -> Option<Order> {
        let kept = self.kept.iter().find(|kept| kept.aim == self.aim);
        let kept = kept.and_then(|kept| kept.order(candidates));
        kept.or_else(|| {
            let settled = self.settled.as_ref()?;
            { settled.order.as_ref()? }.moved(&settled.candidates, candidates)
        })
    }

    /// What was settled since this was last asked, to be kept beside the plan.
    pub(in crate::screen) fn take_unkept(&mut self) -> Option<Kept> {
        self.to_keep.take()
    }
}
