//! Looking for some of what can be tagged, and picking.

use super::TagsPage;
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::trial::Subject;
use crate::variety::folded;

/// The most tags that are printed at once.
const MOST: usize = 1000;

impl TagsPage {
    /// Shows what holds the words, the cursor on this one where it is among them.
    pub(super) fn show(&mut self, subject: Option<&Subject>) {
        let words = folded(&self.words);
        let words: Vec<&str> = words.split_whitespace().collect();
        let holds = |at: &usize| {
            let one = &self.all[*at];
            let text = || folded(&format!("{} {} {}", one.subject, one.stands, one.form));
            words.is_empty() || {
                let text = text();
                words.iter().all(|word| text.contains(word))
            }
        };
        self.shown = (0..self.all.len()).filter(holds).collect();
        let is = |at: &usize| Some(&self.all[*at].subject) == subject;
        let at = self.shown.iter().position(is);
        self.cursor = Cursor::on(at.unwrap_or(0));
    }

    pub(super) fn pick(&mut self) {
        let Some(subject) = self.subject().cloned() else {
            return;
        };
        self.by_hand = true;
        if !self.picked.remove(&subject) {
            if self.picked.len() >= MOST {
                return self.say(format!("{MOST} are picked: print those first."));
            }
            self.picked.insert(subject);
        }
        self.cursor.go(Movement::Down, self.shown.len(), 0);
    }

    /// Picks all that are shown; where all are picked already, lets them go.
    pub(super) fn pick_shown(&mut self) {
        let shown = self.shown.iter().map(|at| self.all[*at].subject.clone());
        let new: Vec<Subject> = shown.filter(|one| !self.picked.contains(one)).collect();
        if self.picked.len() + new.len() > MOST {
            let count = self.shown.len();
            return self.say(format!(
                "That would be {count}, and at most {MOST} are printed at once: / narrows what is shown."
            ));
        }
        self.by_hand = true;
        match new.is_empty() {
            true => {
                let shown = self.shown.iter().map(|at| &self.all[*at].subject);
                for subject in shown {
                    self.picked.remove(subject);
                }
            }
            false => self.picked.extend(new),
        }
    }
}
