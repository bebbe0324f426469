//! Changes of the seedlings that are on the disk, taken into the row.

use super::{Done, RowPage, Turn};
use crate::trial::{SeedlingEdit, Subject};

impl RowPage {
    /// Takes in a change that was saved, and says so.
    pub(super) fn take_seedlings(&mut self, edit: SeedlingEdit, turn: Turn, kept: &str) {
        let numbers = edit.numbers();
        let told = match turn {
            Turn::Made => edit.told(),
            Turn::TakenBack => self.told_last(self.history.last()),
            Turn::MadeAgain => self.told_last(self.history.last_undone()),
        };
        let one_more = matches!(edit, SeedlingEdit::Add(_)) && numbers.len() == 1;
        // OK because the numbers were looked up before it was saved.
        let Some(back) = self.plot.trial.edit(edit) else {
            return;
        };
        let done = Done::Seedlings(back, told.clone());
        match turn {
            Turn::Made => self.history.remember(done),
            Turn::TakenBack => {
                self.history.undo(|_| Some(done));
            }
            Turn::MadeAgain => {
                self.history.redo(|_| Some(done));
            }
        }
        self.slip = None;
        // A bloom that was keyed for it follows.
        if !self.is_placing_bloom() {
            self.line = None;
        }
        let mut there = None;
        for number in &numbers {
            let subject = Subject::Seedling(*number);
            if self.plot.trial.seedling(*number).is_some() {
                self.revise(&subject);
                there = Some(subject);
            } else {
                self.sums.retain(|sum| sum.evidence.subject != subject);
                self.compared.retain(|one| *one != subject);
            }
        }
        self.show();
        self.stand_on(there.as_ref());
        let told = match (turn, &numbers[..]) {
            (Turn::Made, [number]) if one_more => format!("{number} is in the row"),
            (Turn::Made, _) => told,
            (Turn::TakenBack, _) => format!("took back: {told}"),
            (Turn::MadeAgain, _) => format!("done again: {told}"),
        };
        self.say(format!("{told} ({kept})."));
    }

    fn told_last(&self, done: Option<&Done>) -> String {
        match done {
            Some(Done::Seedlings(_, told)) => told.clone(),
            Some(Done::Entry(_)) | None => String::new(),
        }
    }

    /// The cursor on a plant; the words that hide it are let go.
    fn stand_on(&mut self, subject: Option<&Subject>) {
        let Some(subject) = subject else { return };
        let is_it = |at: &usize| self.sums[*at].evidence.subject == *subject;
        if !self.shown.iter().any(is_it) && self.line.is_none() {
            self.words.clear();
            self.show();
        }
        self.go_to(Some(subject));
    }
}
