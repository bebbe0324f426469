//! A slip: one record filled in on the screen, field by field.
//!
//! The line of the field under the cursor is open at once. What is wrong stays as it was typed, told
//! in its field, and nothing else is lost. The page that opened the slip is given the record when it
//! is saved, and may refuse it.

mod view;

use crate::record::{Field, Fields, Key};
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::screen::kit::line::{Edit, Line};

/// A record that is being filled in.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Filling<R> {
    /// What is filled in, such as `A new variety`.
    title: String,
    /// The record as it was; `None` of a new one, which may be saved as it is offered.
    before: Option<R>,
    draft: R,
    /// The record as the slip began with it.
    offered_first: R,
    fields: Vec<Field>,
    at: Cursor,
    line: Line<()>,
    /// What was typed and refused, by field.
    wrong: Vec<Refused>,
    offered: Vec<String>,
    /// Which of the values offered stands on the line.
    taken: Option<usize>,
    note: Option<String>,
    /// What is known of a field from elsewhere, and not saved with the record.
    beside: Vec<(Key, String)>,
    /// The record as it was when it was asked whether it is meant.
    asked: Option<R>,
}

/// A text that was refused.
#[derive(Debug, Clone)]
struct Refused {
    key: Key,
    typed: String,
    why: String,
}

/// What can be done to a slip beside moving and typing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FillingMessage {
    /// Give the field and go to the next.
    Give,
    /// Put the next value that is offered on the line; else as `Give`.
    Offered,
    /// Save the record.
    Save,
    /// Close without saving: asked where something was typed.
    Close,
}

/// What became of a slip.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::screen) enum Filled<R> {
    /// It is still open.
    Open,
    /// The record is to be saved.
    Save(R),
    /// It was closed, nothing saved.
    Closed,
}

const LOST: &str = "Quit again to leave without what was typed here; Ctrl-S saves it.";
const AT_THE_END: &str = "That was the last field: Ctrl-S saves.";
const ASKED: &str = "Esc again drops what was typed here; Ctrl-S saves it.";
const AS_IT_WAS: &str = "Nothing is changed yet; Esc leaves.";

impl<R: Fields> Filling<R> {
    /// A slip of a new record, which may be saved as it is offered.
    pub(in crate::screen) fn of_new(
        title: impl Into<String>,
        record: R,
        ground: R::Ground<'_>,
    ) -> Filling<R> {
        Filling {
            before: None,
            offered_first: record.clone(),
            ..Filling::new(title, record, ground)
        }
    }

    /// A slip of this record as it stands: there is something to save where it was changed.
    pub(in crate::screen) fn new(
        title: impl Into<String>,
        record: R,
        ground: R::Ground<'_>,
    ) -> Filling<R> {
        let mut slip = Filling {
            title: title.into(),
            before: Some(record.clone()),
            offered_first: record.clone(),
            draft: record,
            fields: Vec::new(),
            at: Cursor::default(),
            line: Line::new((), ""),
            wrong: Vec::new(),
            offered: Vec::new(),
            taken: None,
            note: None,
            beside: Vec::new(),
            asked: None,
        };
        slip.fields = slip.draft.fields(ground);
        slip.open_line(ground);
        slip
    }

    /// The same with the cursor on a field.
    pub(in crate::screen) fn on(mut self, key: Key, ground: R::Ground<'_>) -> Filling<R> {
        self.go_to(key);
        self.open_line(ground);
        self
    }

    /// The same with what is known of fields from elsewhere, to be told beside them.
    pub(in crate::screen) fn beside(mut self, known: Vec<(Key, String)>) -> Filling<R> {
        self.beside = known;
        self
    }

    /// Says something on the slip, until the next key.
    pub(in crate::screen) fn tell(&mut self, told: String) {
        self.note = Some(told);
    }

    /// Asks once whether the record is meant as it is, in the field that it is about; answers whether
    /// this very record was asked after before.
    pub(in crate::screen) fn ask(&mut self, key: Key, why: &str, ground: R::Ground<'_>) -> bool {
        if self.asked.as_ref() == Some(&self.draft) {
            return true;
        }
        self.asked = Some(self.draft.clone());
        self.go_to(key);
        self.open_line(ground);
        self.note = Some(format!("{why} Ctrl-S again saves it so."));
        false
    }

    /// Says that leaving the program would lose what is typed; `false` where nothing is.
    pub(in crate::screen) fn warn(&mut self) -> bool {
        if self.is_changed() {
            self.note = Some(LOST.to_string());
        }
        self.is_changed()
    }

    /// Types on the line of the field under the cursor.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit, ground: R::Ground<'_>) {
        self.note = None;
        if self.line.edit(edit) {
            self.offer(ground);
        }
    }

    /// Goes to another field; what was typed is given first.
    pub(in crate::screen) fn go(
        &mut self,
        movement: Movement,
        window: usize,
        ground: R::Ground<'_>,
    ) {
        self.note = None;
        self.take_in(ground);
        self.at.go(movement, self.fields.len(), window);
        self.open_line(ground);
    }

    /// Does what was asked.
    pub(in crate::screen) fn update(
        &mut self,
        message: FillingMessage,
        ground: R::Ground<'_>,
    ) -> Filled<R> {
        let asked = self.note.take().as_deref() == Some(ASKED);
        match message {
            FillingMessage::Give => self.give(ground),
            FillingMessage::Offered if self.offered.is_empty() => self.give(ground),
            FillingMessage::Offered => self.take_offered(),
            FillingMessage::Save => return self.save(ground),
            FillingMessage::Close if asked || !self.is_changed() => return Filled::Closed,
            FillingMessage::Close => self.note = Some(ASKED.to_string()),
        }
        Filled::Open
    }

    /// The page could not take the record: why, told in a field.
    pub(in crate::screen) fn refuse(&mut self, key: Key, why: String, ground: R::Ground<'_>) {
        let typed = self
            .field(key)
            .map_or(String::new(), |one| one.text.clone());
        self.wrong.retain(|one| one.key != key);
        self.wrong.push(Refused { key, typed, why });
        self.go_to(key);
        self.open_line(ground);
    }

    /// The same, told in the field under the cursor.
    pub(in crate::screen) fn refuse_here(&mut self, why: String, ground: R::Ground<'_>) {
        if let Some(key) = self.here().map(|field| field.key) {
            self.refuse(key, why, ground);
        }
    }

    fn give(&mut self, ground: R::Ground<'_>) {
        if !self.take_in(ground) {
            return self.open_line(ground);
        }
        let last = self.fields.len().saturating_sub(1);
        if self.at.row(self.fields.len()) == last {
            self.note = Some(AT_THE_END.to_string());
        }
        self.at.go(Movement::Down, self.fields.len(), 1);
        self.open_line(ground);
    }

    /// Gives the record where every field is right; else goes to the first that is not.
    fn save(&mut self, ground: R::Ground<'_>) -> Filled<R> {
        self.take_in(ground);
        let first = self.fields.iter().map(|field| field.key);
        let first = first
            .into_iter()
            .find(|key| self.wrong.iter().any(|one| one.key == *key));
        if let Some(key) = first {
            self.go_to(key);
            self.open_line(ground);
            return Filled::Open;
        }
        if let Some((key, why)) = self.draft.wrong(ground) {
            self.refuse(key, why, ground);
            return Filled::Open;
        }
        if self.before.as_ref() == Some(&self.draft) {
            self.open_line(ground);
            self.note = Some(AS_IT_WAS.to_string());
            return Filled::Open;
        }
        Filled::Save(self.draft.clone())
    }

    /// Takes in what stands on the line, where it is another text than before; whether it was right.
    fn take_in(&mut self, ground: R::Ground<'_>) -> bool {
        let Some(field) = self.fields.get(self.at.row(self.fields.len())) else {
            return true;
        };
        let (key, typed) = (field.key, self.line.text().trim().to_string());
        let refused = self.wrong.iter().position(|one| one.key == key);
        match refused {
            Some(at) if self.wrong[at].typed == typed => return false,
            None if field.text == typed => return true,
            Some(_) | None => {}
        }
        self.wrong.retain(|one| one.key != key);
        match self.draft.set(key, &typed, ground) {
            Ok(()) => {
                self.fields = self.draft.fields(ground);
                self.go_to(key);
                true
            }
            Err(why) => {
                self.wrong.push(Refused { key, typed, why });
                false
            }
        }
    }

    /// Opens the line of the field under the cursor, with what was refused there, else what it holds.
    fn open_line(&mut self, ground: R::Ground<'_>) {
        let Some(field) = self.fields.get(self.at.row(self.fields.len())) else {
            return;
        };
        self.line = match self.wrong.iter().find(|one| one.key == field.key) {
            None => Line::offering((), field.text.as_str()),
            Some(refused) => {
                let mut line = Line::new((), refused.typed.as_str());
                line.refuse(refused.why.as_str());
                line
            }
        };
        self.offer(ground);
        // All that may stand in a field that is filled already: it is changed oftener than kept.
        if let (false, Some(field)) = (self.line.text().is_empty(), self.here()) {
            self.offered = self.draft.offered(field.key, "", ground);
        }
    }

    /// Looks for values that go with what is typed.
    fn offer(&mut self, ground: R::Ground<'_>) {
        self.taken = None;
        let key = self.here().map(|field| field.key);
        let offered = key.map(|key| self.draft.offered(key, self.line.text(), ground));
        self.offered = offered.unwrap_or_default();
    }

    fn take_offered(&mut self) {
        let next = self.taken.map_or(0, |at| (at + 1) % self.offered.len());
        self.line.set(self.offered[next].as_str());
        self.taken = Some(next);
    }

    /// Whether something would be lost with the slip.
    fn is_changed(&self) -> bool {
        let here = self.here().map(|field| field.text.as_str());
        let typed = here.is_some_and(|text| text != self.line.text().trim());
        typed || !self.wrong.is_empty() || self.draft != self.offered_first
    }

    fn here(&self) -> Option<&Field> {
        self.fields.get(self.at.row(self.fields.len()))
    }

    fn field(&self, key: Key) -> Option<&Field> {
        self.fields.iter().find(|field| field.key == key)
    }

    fn go_to(&mut self, key: Key) {
        let place = self.fields.iter().position(|field| field.key == key);
        self.at = place.map_or(self.at, Cursor::on);
    }
}

#[cfg(test)]
mod tests;
