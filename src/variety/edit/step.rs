//! An edit as it is remembered: with what was done, in words, so that an undo can name it.

use super::{Edit, Touched};
use crate::history::History;
use crate::variety::list::Varieties;

/// What takes an edit back or makes it again, and what that edit did: `Haaf Kettle changed`.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The edit.
    pub edit: Edit,
    /// What was done, as a clause.
    pub told: String,
}

impl Step {
    /// Turns the step: gives back the one that turns it again; `None`, and no change, where it cannot
    /// be made.
    pub fn apply(self, list: &mut Varieties) -> Option<Step> {
        let edit = self.edit.apply(list)?;
        Some(Step { edit, ..self })
    }
}

impl Edit {
    /// Makes the edit and remembers what undoes it. Gives back which rows it touched, and what was
    /// done; `None` where it changes nothing, which is not remembered, or cannot be made.
    pub fn make(
        self,
        list: &mut Varieties,
        history: &mut History<Step>,
    ) -> Option<(Touched, String)> {
        if self.changes_nothing(list) {
            return None;
        }
        let (touched, told) = (self.touches(list), self.told(list));
        let edit = self.apply(list)?;
        let step = Step {
            edit,
            told: told.clone(),
        };
        history.remember(step);
        Some((touched, told))
    }
}
