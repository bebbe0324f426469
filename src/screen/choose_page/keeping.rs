//! Changing the list, undoing that, and what became of the save.

use super::ChoosePage;
use crate::screen::Effect;
use crate::screen::keeping::UNSAVED;
use crate::variety::{Change, Edit, QueryCache, Shortlisted, Step, Touched};

/// Records of the list that changed.
#[derive(Debug)]
pub(in crate::screen) struct Renewed {
    /// Rows with another record.
    pub(in crate::screen) rows: Vec<usize>,
    /// Whether rows came or went, so that others have another place.
    pub(in crate::screen) moved: bool,
}

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

    /// Changes a field of the variety under the cursor.
    pub(super) fn change(&mut self, change: Change) -> Option<Effect> {
        let row = self.row()?;
        self.make(Edit::Field { row, change })
    }

    /// Makes a change of the list.
    pub(super) fn make(&mut self, edit: Edit) -> Option<Effect> {
        if let Some(refusal) = self.keeper.refusal() {
            self.say(refusal);
            return None;
        }
        match edit.make(&mut self.stock.list, &mut self.history) {
            Some((touched, told)) => self.changed(touched, &told),
            None => {
                self.say("That is as it was: nothing was changed.");
                None
            }
        }
    }

    pub(super) fn undo(&mut self) -> Option<Effect> {
        let Some(step) = self.history.last() else {
            self.say("There is no change to undo.");
            return None;
        };
        let (touched, told) = (step.edit.touches(&self.stock.list), step.told.clone());
        let turn = |step: Step| step.apply(&mut self.stock.list);
        self.history.undo(turn)?;
        self.changed(
            touched,
            &format!("took back: {told} (Ctrl-R does it again)"),
        )
    }

    pub(super) fn redo(&mut self) -> Option<Effect> {
        let Some(step) = self.history.last_undone() else {
            self.say("There is nothing to do again.");
            return None;
        };
        let (touched, told) = (step.edit.touches(&self.stock.list), step.told.clone());
        let turn = |step: Step| step.apply(&mut self.stock.list);
        self.history.redo(turn)?;
        self.changed(touched, &format!("done again: {told}"))
    }

    /// Works out anew what hangs on the rows that were touched, and stands on what is there of them.
    pub(super) fn changed(&mut self, touched: Touched, told: &str) -> Option<Effect> {
        // A field that was changed by a key may take the variety out of what is narrowed to: so be it.
        let whole = !matches!(touched, Touched::Field(_));
        let row = match touched {
            Touched::Field(row) => {
                let variety = &self.stock.list.list()[row];
                if let Some(seen) = self.seen.get_mut(&row) {
                    // What is changed by a line is not what the trial row sees.
                    seen.shortlist = variety.shortlist.clone();
                    seen.notes = variety.notes.clone();
                    seen.on_hand = variety.on_hand;
                }
                self.put_record(row);
                // What is on hand by the stock book is no field of the list.
                self.see_stores([row]);
                Some(row)
            }
            Touched::Record(row) => {
                self.seen.remove(&row);
                self.put_record(row);
                self.see_stores([row]);
                self.renewed.push(row);
                Some(row)
            }
            Touched::Came(row) => {
                self.move_rows(row, 1);
                self.see_stores([row]);
                self.renewed.push(row);
                Some(row)
            }
            Touched::Went(row) => {
                self.seen.remove(&row);
                self.compared.retain(|one| *one != row);
                self.move_rows(row + 1, -1);
                None
            }
            Touched::Many(first) => {
                self.move_many(first);
                Some(first)
            }
        };
        self.ask();
        let aside = match row {
            Some(row) if whole => self.stand_on(row),
            Some(row) => {
                self.go_to(row);
                String::new()
            }
            None => String::new(),
        };
        self.say(format!("{told}{aside}"));
        self.keeper.changed().then_some(Effect::SaveVarieties)
    }

    /// The index takes the record of a row in.
    fn put_record(&mut self, row: usize) {
        if let Some(index) = &mut self.index {
            let known = self.seen.get(&row).unwrap_or(&self.stock.list.list()[row]);
            let replaced = index.put(row, known, self.stock.grounds());
            self.held.look_again(index, &replaced);
        }
    }

    /// Rows from `first` on have another place, so that all columns are worked out anew: of 100,000
    /// varieties a third of a second.
    fn move_rows(&mut self, first: usize, by: isize) {
        let moved = |row: usize| {
            if row < first {
                row
            } else {
                row.saturating_add_signed(by)
            }
        };
        let seen = std::mem::take(&mut self.seen).into_iter();
        self.seen = seen.map(|(row, record)| (moved(row), record)).collect();
        self.compared.iter_mut().for_each(|row| *row = moved(*row));
        self.renewed.iter_mut().for_each(|row| *row = moved(*row));
        self.list_moved = true;
        self.held = QueryCache::default();
        if self.index.take().is_some() {
            self.open();
        }
    }

    /// Many records are others, `first` the first of them: all is worked out anew, and what the row saw of
    /// any is told again.
    fn move_many(&mut self, first: usize) {
        let count = self.stock.list.len();
        self.compared.retain(|row| *row < count);
        self.renewed = std::iter::once(first).chain(0..count).collect();
        self.seen.clear();
        self.see_stores(0..count);
        self.held = QueryCache::default();
        if self.index.take().is_some() {
            self.open();
        }
    }

    /// The cursor on a row, without the narrowings that hide it: which those are, to be said.
    fn stand_on(&mut self, row: usize) -> String {
        let hiding = self.held.hiding(row);
        let told: Vec<String> = hiding.iter().map(|at| self.narrowing_at(*at)).collect();
        for at in hiding.into_iter().rev() {
            self.narrowings.remove(at);
        }
        if !told.is_empty() {
            self.ask();
        }
        self.go_to(row);
        match told.is_empty() {
            true => String::new(),
            false => format!("; no longer narrowed {}, which hid it", told.join(", ")),
        }
    }

    /// The rows whose records changed since this was last asked, where any did: what the trial row saw
    /// of them is to be told again, and who reads the list by name has to look again.
    pub(in crate::screen) fn take_renewed(&mut self) -> Option<Renewed> {
        let moved = std::mem::take(&mut self.list_moved);
        let rows = std::mem::take(&mut self.renewed);
        (moved || !rows.is_empty()).then_some(Renewed { rows, moved })
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
