//! Moving over the answers, changing them and taking them back.

use super::{At, Entry, KeyPage, find};
use crate::form::Answers;
use crate::screen::kit::cursor::Movement;

/// Half of this is a page of the forms.
const WINDOW: usize = 10;

impl KeyPage {
    pub(super) fn go_to(&mut self, at: At) {
        self.at = at;
        self.entry = Entry::Nothing;
    }

    /// Moves in the list that is open, else over the answers.
    pub(in crate::screen) fn go(&mut self, movement: Movement) {
        self.note = None;
        let set = &self.keyers[self.rules].set;
        match &mut self.entry {
            Entry::Find(line, at) => {
                let found = find::matches(&set.traits, line.text()).len();
                at.go(movement, found, WINDOW);
            }
            Entry::Browse(at) => at.go(movement, set.forms.len(), WINDOW),
            Entry::Nothing | Entry::Marks(_) | Entry::Line(_) => match movement {
                Movement::Up => self.step(-1),
                Movement::Down => self.step(1),
                Movement::PageUp | Movement::PageDown | Movement::First | Movement::Last => {}
            },
        }
    }

    fn step(&mut self, by: isize) {
        let given: Vec<usize> = self.answers.iter().map(|(index, _)| index).collect();
        let here = match self.at {
            At::Chosen { index, .. } => given.iter().position(|one| *one == index),
            At::Next => None,
        };
        let there = here.unwrap_or(given.len()).saturating_add_signed(by);
        self.go_to(match given.get(there) {
            Some(index) => At::Chosen {
                index: *index,
                again: false,
            },
            None => At::Next,
        });
    }

    pub(super) fn take_back(&mut self) {
        if matches!(self.entry, Entry::Marks(_)) {
            return self.entry = Entry::Nothing;
        }
        let under = match self.at {
            At::Chosen { index, .. } => self.answers.get(index).map(|_| index),
            At::Next => self.answers.iter().next_back().map(|(index, _)| index),
        };
        let Some(index) = under else {
            self.at = At::Next;
            return self.say("There is no answer here to take back.");
        };
        self.remember();
        self.answers.take_back(index);
        self.note = Some(format!(
            "Took back: {}. u brings it back.",
            self.trait_at(index).id
        ));
        self.go_to(At::Next);
        self.refresh();
    }

    pub(super) fn measure(&mut self) {
        match self.keyer().set.traits.find("diameter") {
            Some(index) => self.go_to(At::Chosen {
                index,
                again: false,
            }),
            None => self.say("This table of traits has no diameter."),
        }
    }

    pub(super) fn look_again(&mut self) {
        let answered = match self.at {
            At::Chosen {
                index,
                again: false,
            } => self.answers.get(index).map(|_| index),
            _ => None,
        };
        let check = self.reading.check.map(|question| question.index);
        match answered.or(check) {
            _ if self.answers.is_empty() => self.say("There is no answer yet to look at again."),
            Some(index) => self.go_to(At::Chosen {
                index,
                again: self.answers.get(index).is_some(),
            }),
            None => self.say("No second look would tell more."),
        }
    }

    pub(super) fn next_rules(&mut self) {
        if self.keyers.len() == 1 {
            return self.say("There is only this one rule set.");
        }
        self.rules = (self.rules + 1) % self.keyers.len();
        self.refresh();
        // A question that the other rules would not ask next is not kept half entered.
        self.entry = Entry::Nothing;
        self.note = Some(format!("The same answers by {}.", self.rules_name()));
    }

    pub(super) fn new_bloom(&mut self) {
        if self.answers.is_empty() {
            return self.say("This is a new bloom already.");
        }
        self.remember();
        self.answers = Answers::default();
        self.go_to(At::Next);
        self.refresh();
        self.say("A new bloom. u brings the last one back.");
    }

    pub(super) fn remember(&mut self) {
        self.history.remember(self.answers.clone());
    }

    pub(super) fn undo(&mut self) {
        let turn = |before| Some(std::mem::replace(&mut self.answers, before));
        if self.history.undo(turn).is_none() {
            return self.say("There is nothing to undo.");
        }
        self.go_to(At::Next);
        self.refresh();
        self.say("Undone. Ctrl-R does it again.");
    }

    pub(super) fn redo(&mut self) {
        let turn = |after| Some(std::mem::replace(&mut self.answers, after));
        if self.history.redo(turn).is_none() {
            return self.say("There is nothing to redo.");
        }
        self.go_to(At::Next);
        self.refresh();
    }
}
