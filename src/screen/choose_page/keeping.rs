//! Changing the list, undoing that, and what became of the save.

use super::ChoosePage;
use crate::screen::Effect;
use crate::screen::keeping::UNSAVED;
use crate::variety::{Change, Edit, Shortlisted};

impl ChoosePage {
    /// Marks the variety under the cursor, or takes its mark with the note away.
    pub(super) fn mark(&mut self) -> Option<Effect> {
        let Some(row) = self.row() else {
            self.say("Nothing is left to mark.");
            return None;
        };
        let mark = match self.stock.list.list()[row].shortlist {
            Some(_) => None,
            None => Some(Shortlisted::default()),
        };
        self.change(Change::Shortlist(mark))
    }

    /// Changes the variety under the cursor.
    pub(super) fn change(&mut self, change: Change) -> Option<Effect> {
        let row = self.row()?;
        if let Some(refusal) = self.keeper.refusal() {
            self.say(refusal);
            return None;
        }
        let told = change_in_words(&change);
        let edit = Edit { row, change };
        match edit.make(&mut self.stock.list, &mut self.history) {
            Some(row) => self.changed(row, told),
            None => {
                self.say("That is as it was: nothing was changed.");
                None
            }
        }
    }

    pub(super) fn undo(&mut self) -> Option<Effect> {
        let turn = |edit: Edit| edit.apply(&mut self.stock.list);
        match self.history.undo(turn).map(|edit| edit.row) {
            Some(row) => self.changed(row, "undone, Ctrl-R does it again"),
            None => {
                self.say("There is no change to undo.");
                None
            }
        }
    }

    pub(super) fn redo(&mut self) -> Option<Effect> {
        let turn = |edit: Edit| edit.apply(&mut self.stock.list);
        match self.history.redo(turn).map(|edit| edit.row) {
            Some(row) => self.changed(row, "done again"),
            None => {
                self.say("There is nothing to do again.");
                None
            }
        }
    }

    fn changed(&mut self, row: usize, told: &str) -> Option<Effect> {
        let variety = &self.stock.list.list()[row];
        let name = variety.name.to_string();
        if let Some(seen) = self.seen.get_mut(&row) {
            // What can be edited here is not what the trial row sees.
            seen.shortlist = variety.shortlist.clone();
            seen.notes = variety.notes.clone();
            seen.on_hand = variety.on_hand;
        }
        if let Some(index) = &mut self.index {
            let known = self.seen.get(&row).unwrap_or(variety);
            let replaced = index.put(row, known, self.stock.grounds());
            self.held.look_again(index, &replaced);
        }
        self.ask();
        self.go_to(row);
        self.say(format!("{name}: {told}"));
        self.keeper.changed().then_some(Effect::SaveVarieties)
    }

    /// How many changes made here can be undone, and how many done again.
    pub(in crate::screen) fn depth(&self) -> (usize, usize) {
        self.history.depth()
    }

    /// The list is on the disk.
    pub fn saved(&mut self) {
        self.keeper.saved(&mut self.note);
    }

    /// The list could not be saved, and why. The change stays on the screen, and the next change
    /// saves it too.
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
        self.keeper.in_words("your list")
    }
}

fn change_in_words(change: &Change) -> &'static str {
    match change {
        Change::Shortlist(None) => "off the shortlist",
        Change::Shortlist(Some(Shortlisted { note: None })) => "on the shortlist",
        Change::Shortlist(Some(_)) => "on the shortlist with your note",
        Change::Notes(_) => "notes changed",
        Change::OnHand(_) => "tubers on hand changed",
    }
}
