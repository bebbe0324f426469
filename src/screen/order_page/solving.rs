//! Solving without a thread: a task is handed to the edge, which runs it and looks at the keys at
//! every step; its outcome comes back as a message.

use std::cmp::Ordering;
use std::rc::Rc;

use super::running::Running;
use super::task::{Found, Outcome, Question, Task, What};
use super::{Answer, OrderPage, Side};
use crate::order::{Aim, Order, Settled, Status};
use crate::variety::Money;

/// A search says how far it is once in so many nodes.
const TOLD_EVERY: usize = 100;

impl OrderPage {
    /// Whether there is a task to begin.
    pub fn has_work(&self) -> bool {
        let asks = self.due || self.question.is_some() || self.wants_causes();
        self.running.is_none() && asks
    }

    /// Begins the next task: the plan first, then what is asked of its solution.
    pub fn begin(&mut self) -> Option<Task> {
        let question = if self.due {
            None
        } else {
            let asked = self.question.take();
            Some(asked.or(self.wants_causes().then_some(Question::Causes))?)
        };
        let what = match question {
            None => What::Settle {
                aim: self.aim,
                plan: Box::new(self.whole.clone()?),
                ground: Rc::clone(self.ground.as_ref()?),
                candidates: Box::new(self.candidates.clone().ok()?),
            },
            Some(Question::Causes) => What::Causes {
                plan: Box::new(self.whole.clone()?),
                ground: Rc::clone(self.ground.as_ref()?),
                settled: Rc::clone(self.settled.as_ref()?),
            },
            Some(Question::Mends) => What::Mends {
                plan: Box::new(self.whole.clone()?),
                ground: Rc::clone(self.ground.as_ref()?),
                settled: Rc::clone(self.settled.as_ref()?),
            },
            Some(Question::Surer { of }) => What::Surer {
                plan: Box::new(self.whole.clone()?),
                ground: Rc::clone(self.ground.as_ref()?),
                candidates: Box::new(self.candidates.clone().ok()?),
                usual: self.settled_for(Aim::OnAverage),
                of,
            },
            Some(Question::Without { row }) => What::Without {
                plan: Box::new(self.whole.clone()?),
                ground: Rc::clone(self.ground.as_ref()?),
                settled: Rc::clone(self.settled.as_ref()?),
                row,
            },
        };
        self.due = false;
        self.begun += 1;
        self.running = Some(Running {
            id: self.begun,
            question,
            nodes: 0,
            stopped: false,
        });
        Some(Task {
            id: self.begun,
            what,
        })
    }

    /// Whether the task should go on: it was not stopped, and the plan is still the one it is of.
    pub fn goes_on(&self, id: u64) -> bool {
        self.running
            .is_some_and(|running| running.id == id && !running.stopped)
    }

    /// Takes in what a task came to. Where the plan has changed since, an order is shown as one of
    /// the older numbers if there is none yet; anything else is of no use.
    pub fn take(&mut self, outcome: Outcome) {
        if outcome.id <= self.moved {
            return;
        }
        let Some(running) = self.running.filter(|running| running.id == outcome.id) else {
            if let (Found::Settled { plan, settled }, None) = (outcome.found, &self.settled)
                && settled.order.is_some()
            {
                self.put(Some(*plan), settled);
            }
            return;
        };
        self.running = None;
        match outcome.found {
            Found::Settled { plan, settled } => {
                if !running.stopped {
                    self.keep(&plan, &settled);
                }
                let told = self.settled.as_ref().and_then(|old| dearer(old, &settled));
                if let Some(told) = told.filter(|_| !running.stopped) {
                    let note = self.note.take();
                    self.note = Some(note.map_or(told.clone(), |note| format!("{note}. {told}")));
                }
                // The last order stays where a search was stopped before it found one as good.
                let keeps = self.settled.as_ref();
                if running.stopped && keeps.is_some_and(|old| found_less(old, &settled)) {
                    self.say(match self.is_fresh() {
                        true => "Stopped: nothing better was found yet. s solves again.",
                        false => "Stopped: no order was found yet for the changed figures.",
                    });
                } else {
                    self.put(Some(*plan), settled);
                    if running.stopped {
                        self.say("Stopped: s solves again.");
                    }
                }
            }
            // Those that were found before it was stopped are causes all the same.
            Found::Causes(causes) => self.causes = Some(causes),
            Found::Mends(_) if running.stopped => {
                self.say("Stopped: nothing is known of what would mend it.")
            }
            Found::Mends(mends) => {
                self.mends = Some(mends);
                self.answer = Some(Answer::Mends);
            }
            Found::Surer(_) if running.stopped => {
                self.say("Stopped: it is not known what surer costs.")
            }
            Found::Surer(surer) => self.show_surer(surer),
            Found::Without(_) if running.stopped => {
                self.say("Stopped: it is not known what doing without it costs.")
            }
            Found::Without(reply) => {
                self.replies.retain(|old| old.row != reply.row);
                self.replies.push(reply);
            }
        }
    }

    /// Nodes of the task under way, as they are shown.
    pub fn looked_at(&self) -> usize {
        self.running.map_or(0, |running| running.nodes)
    }

    pub(super) fn looked(&mut self, nodes: usize) {
        if let Some(running) = &mut self.running {
            running.nodes = nodes / TOLD_EVERY * TOLD_EVERY;
        }
    }

    pub(super) fn stop(&mut self) {
        match &mut self.running {
            Some(running) => running.stopped = true,
            None if self.due || self.question.is_some() => {
                (self.due, self.question) = (false, None);
                self.say("Stopped: s solves again.");
            }
            None => self.say("Nothing is being solved."),
        }
    }

    pub(super) fn solve_again(&mut self) {
        if self.is_fresh() && self.settled_to_the_end() {
            return self.say("This is solved to the end: nothing has changed since.");
        }
        self.rework();
        if let Err(told) = &self.candidates {
            self.note = Some(told.clone()).filter(|told| !told.is_empty());
        }
    }

    /// Whether the solution in view is of the plan as it is.
    pub(super) fn is_fresh(&self) -> bool {
        self.of_this_list && self.solved.as_ref() == self.whole.as_ref()
    }

    /// Whether why needs are not met, or not as surely as was asked, is yet to be worked out.
    fn wants_causes(&self) -> bool {
        let unmet = |settled: &Rc<Settled>| {
            let mut promises = settled.promises.iter();
            settled.falls_short() || promises.any(|promise| !promise.is_met())
        };
        let unmet = self.settled.as_ref().is_some_and(unmet);
        unmet && self.causes.is_none() && self.is_fresh()
    }

    fn settled_to_the_end(&self) -> bool {
        self.settled_before().is_some()
    }

    pub(super) fn ask_mends(&mut self) {
        let short = self.settled.as_ref().is_some_and(|one| one.falls_short());
        match self.settled.as_ref().map(|settled| settled.status) {
            _ if !self.is_fresh() => {
                self.say("Not solved yet: what would mend it can be asked then.")
            }
            Some(_) if short => self.question = Some(Question::Mends),
            Some(Status::Unsure { .. }) => self
                .say("Every need is met in a usual season: what being surer takes is told above."),
            Some(status) if status.meets_all() => {
                self.say("Every need is met: there is nothing to mend.")
            }
            Some(_) | None => self.say("There is no order yet to mend."),
        }
    }

    pub(super) fn ask_without(&mut self) {
        let planted = { self.planted() }.filter(|_| self.side == Side::Bought);
        let row = planted.map(|one| one.row);
        let status = self.settled.as_ref().map(|settled| settled.status);
        match row {
            _ if !self.is_fresh() => self.say("Not solved yet: what it costs can be asked then."),
            Some(_) if matches!(status, Some(Status::Short { .. })) => {
                self.say("Not every need is met: there is no cost to compare with.")
            }
            Some(row) => self.question = Some(Question::Without { row }),
            None => self.say("Right, then a variety: what doing without it costs is asked there."),
        }
    }
}

/// Whether a search that was stopped left less in hand than the last order: none, or one that is
/// shorter of stems though none is proved to do better.
fn found_less(old: &Settled, new: &Settled) -> bool {
    let (Some(last), Some(found)) = (&old.order, &new.order) else {
        return old.order.is_some();
    };
    let unproved = matches!(new.status, Status::Short { proved: false, .. });
    unproved && share_short(last) < share_short(found)
}

/// The share of the stems needed that an order does not give.
fn share_short(order: &Order) -> f64 {
    let short: f64 = order.weekly.iter().map(|one| one.short()).sum();
    let needed: f64 = order.weekly.iter().map(|one| one.needed).sum();
    short / needed.max(f64::MIN_POSITIVE)
}

/// What a change costs, where both orders meet every need.
fn dearer(old: &Settled, new: &Settled) -> Option<String> {
    let cost = |one: &Settled| match one.status.meets_all() && !one.falls_short() {
        true => Some(one.order.as_ref()?.cost.in_hundredths()),
        false => None,
    };
    let (old, new) = (cost(old)?, cost(new)?);
    let by = Money::hundredths(new.abs_diff(old));
    Some(match new.cmp(&old) {
        Ordering::Less => format!("It costs {by} less."),
        Ordering::Equal => "It costs as much as before.".to_string(),
        Ordering::Greater => format!("It costs {by} more."),
    })
}
