//! The seedlings for the jump line, and arriving at one.

use super::RowPage;
use crate::screen::jump::place::{Goal, Kind, Place};
use crate::trial::{Seedling, Subject};

impl RowPage {
    /// What can be jumped to on this page.
    pub(in crate::screen) fn places(&self) -> Vec<Place> {
        let place = |seedling: &Seedling| {
            let subject = Subject::Seedling(seedling.number);
            Place::new(Kind::Seedling, subject.to_string(), Goal::Plant(subject))
                .with(seedling.description())
        };
        self.plot.trial.seedlings().iter().map(place).collect()
    }

    /// Puts the cursor on a plant. Where the words that are looked for leave it out, they are taken back,
    /// and that is said.
    pub(in crate::screen) fn point_at(&mut self, subject: &Subject) {
        self.note = None;
        self.go_to(Some(subject));
        if self.subject().as_ref() != Some(subject) {
            let words = std::mem::take(&mut self.words);
            self.show();
            self.go_to(Some(subject));
            self.say(format!(
                "{subject} was not among those with {words:?}: all are shown again."
            ));
        }
    }
}
