//! Moving over the answers, changing them and taking them back.

use super::{At, Entry, KeyPage, find};
use crate::form::Answers;

impl KeyPage {
    pub(super) fn go_to(&mut self, at: At) {
        self.at = at;
        self.entry = Entry::Nothing;
    }

    pub(super) fn step(&mut self, by: isize) {
        if let Entry::Find { text, at } = &mut self.entry {
            let last = find::matches(&self.keyers[self.rules].set.traits, text)
                .len()
                .saturating_sub(1);
            *at = at.saturating_add_signed(by).min(last);
            return;
        }
        if let Entry::Browse { .. } = self.entry {
            return self.leap(by as i32);
        }
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
        self.past.push(self.answers.clone());
        self.future.clear();
    }

    pub(super) fn undo(&mut self) {
        let Some(before) = self.past.pop() else {
            return self.say("There is nothing to undo.");
        };
        let after = std::mem::replace(&mut self.answers, before);
        self.future.push(after);
        self.go_to(At::Next);
        self.refresh();
        self.say("Undone. Ctrl-R does it again.");
    }

    pub(super) fn redo(&mut self) {
        let Some(after) = self.future.pop() else {
            return self.say("There is nothing to redo.");
        };
        let before = std::mem::replace(&mut self.answers, after);
        self.past.push(before);
        self.go_to(At::Next);
        self.refresh();
    }
}
