//! Entries on their way to the disk: nothing is called saved before it is there.

use super::{Of, StockPage};
use crate::screen::Effect;
use crate::screen::keeping::Keeping;
use crate::stock::{Entry, What};

impl StockPage {
    /// The entry that is to be saved.
    pub fn pending(&self) -> Option<&Entry> {
        self.pending.as_deref()
    }

    pub(super) fn next_id(&self) -> u32 {
        let next = self.shelf.stock.book().next_id();
        next.max(self.shelf.least_id)
    }

    pub(super) fn ask_to_save(&mut self, entry: Entry) -> Option<Effect> {
        self.pending = Some(Box::new(entry));
        match self.keeping {
            Keeping::Folder => Some(Effect::AddStock),
            Keeping::Session | Keeping::ReadOnly(_) => {
                self.entered();
                None
            }
        }
    }

    /// What was asked to be saved is on the disk; it is in the book from now on.
    pub(in crate::screen) fn entered(&mut self) {
        self.failed = None;
        let kept = match self.keeping {
            Keeping::Folder => "saved",
            Keeping::Session | Keeping::ReadOnly(_) => "kept until you quit",
        };
        if let Some(entry) = self.pending.take() {
            self.take_in(*entry, kept);
        }
    }

    /// What was asked to be saved is not on the disk, and why. The line stays as it was typed.
    pub(in crate::screen) fn not_entered(&mut self, why: String) {
        self.pending = None;
        match &self.line {
            Some(_) => self.refuse(format!("Not saved: {why}.")),
            None => self.failed = Some(why),
        }
    }

    fn take_in(&mut self, entry: Entry, kept: &str) {
        let named = entry.corrects.filter(|_| entry.what == What::Withdrawn);
        let told = match named.map(|id| self.shelf.stock.book().withdrawn_in_the_end(id)) {
            None => {
                self.history.remember(entry.id);
                format!("{}: {} ({kept}).", entry.of, entry.what_told())
            }
            Some((id, true)) if self.history.last() == Some(&id) => {
                self.history.undone(id);
                format!("took back: {} ({kept}).", self.entry_in_words(id))
            }
            Some((id, true)) => {
                self.history.undone(id);
                format!("{}: entry {id} is withdrawn ({kept}).", entry.of)
            }
            Some((id, false)) => {
                if self.history.last_undone() == Some(&id) {
                    self.history.redo(Some);
                } else {
                    self.history.remember(id);
                }
                format!("done again: {} ({kept}).", self.entry_in_words(id))
            }
        };
        let subject = entry.of.clone();
        self.named.retain(|named| *named != subject);
        // OK because its number and what it changes were looked up before it was saved.
        let _ = self.shelf.stock.add(entry);
        self.changed = true;
        self.revise(&subject);
        match self.line.as_ref().map(|line| &line.of) {
            Some(Of::Walk(_)) => self.go_on(&told),
            _ => {
                self.line = None;
                self.show();
                self.go_to(Some(&subject));
                self.say(told);
            }
        }
    }

    fn entry_in_words(&self, id: u32) -> String {
        match self.shelf.stock.book().entry(id) {
            Some(entry) => format!("{}: {}", entry.of, entry.what_told()),
            None => format!("entry {id}"),
        }
    }

    /// Takes back the entry that was made last here, by one that withdraws it: the book only grows.
    pub(super) fn take_back(&mut self) -> Option<Effect> {
        match self.history.last().copied() {
            Some(id) => self.withdraw(id),
            None => {
                self.say("There is no entry of this sitting to take back.");
                None
            }
        }
    }

    /// Makes again what was taken back last: its withdrawal is withdrawn.
    pub(super) fn make_again(&mut self) -> Option<Effect> {
        let last = self.history.last_undone().copied();
        let by = last.and_then(|id| self.shelf.stock.book().ended_by(id));
        match by.map(|by| by.id) {
            Some(by) => self.withdraw(by),
            None => {
                self.say("There is nothing to make again.");
                None
            }
        }
    }

    fn withdraw(&mut self, id: u32) -> Option<Effect> {
        let of = self.shelf.stock.book().entry(id)?.of.clone();
        self.ask_to_save(Entry {
            id: self.next_id(),
            corrects: Some(id),
            date: self.day,
            by: self.by.clone(),
            of,
            year: None,
            place: None,
            what: What::Withdrawn,
        })
    }

    /// How many changes made here can be undone, and how many done again.
    pub(in crate::screen) fn depth(&self) -> (usize, usize) {
        self.history.depth()
    }

    /// Why nothing may be added.
    pub(super) fn refusal(&self) -> Option<String> {
        match &self.keeping {
            Keeping::ReadOnly(why) => Some(format!("Read only, nothing can be noted: {why}.")),
            Keeping::Session | Keeping::Folder => None,
        }
    }

    /// Why the last save failed.
    pub(super) fn failure(&self) -> Option<&str> {
        self.failed.as_deref()
    }

    /// Where entries go, in a few words for the head of the screen.
    pub(in crate::screen) fn kept(&self) -> String {
        let state = self.failed.as_ref().map_or("all saved", |_| "NOT SAVED");
        self.keeping.in_words("your stock book", state)
    }
}
