//! Entries on their way to the disk: nothing is called saved before it is there.

use super::{Done, Of, Pending, RowPage, Turn};
use crate::screen::Effect;
use crate::screen::keeping::Keeping;
use crate::screen::kit::line::Line;
use crate::trial::{Entry, Seedling, What};

impl RowPage {
    /// The entry that is to be saved; `None` where a seedling or nothing is.
    pub fn pending_entry(&self) -> Option<&Entry> {
        match &self.pending {
            Some(Pending::Entry(entry)) => Some(entry),
            Some(Pending::Seedlings { .. }) | None => None,
        }
    }

    /// The seedlings as they are to be saved, with what is changed of them.
    pub fn pending_seedlings(&self) -> Option<Vec<Seedling>> {
        match &self.pending {
            Some(Pending::Seedlings { edit, .. }) => {
                let mut all = self.plot.trial.seedlings().to_vec();
                edit.clone().apply(&mut all)?;
                Some(all)
            }
            Some(Pending::Entry(_)) | None => None,
        }
    }

    /// Whether the grower was on the way to put a keyed bloom to a seedling.
    pub fn is_placing_bloom(&self) -> bool {
        let line = self.line.as_ref();
        line.is_some_and(|line| matches!(line.of, Of::Bloom(_)))
    }

    pub(super) fn next_id(&self) -> u32 {
        self.plot.trial.next_id().max(self.plot.least_id)
    }

    pub(super) fn ask_to_save(&mut self, entry: Entry) -> Option<Effect> {
        self.save_or_keep(Pending::Entry(Box::new(entry)))
    }

    pub(super) fn save_or_keep(&mut self, pending: Pending) -> Option<Effect> {
        let effect = match pending {
            Pending::Entry(_) => Effect::AddEntry,
            Pending::Seedlings { .. } => Effect::SaveSeedlings,
        };
        self.pending = Some(pending);
        match self.keeping {
            Keeping::Folder => Some(effect),
            Keeping::Session | Keeping::ReadOnly(_) => {
                self.entered();
                None
            }
        }
    }

    /// What was asked to be saved is on the disk; it is in the row from now on.
    pub fn entered(&mut self) {
        self.failed = None;
        let kept = match self.keeping {
            Keeping::Folder => "saved",
            Keeping::Session | Keeping::ReadOnly(_) => "kept until you quit",
        };
        match self.pending.take() {
            None => {}
            Some(Pending::Seedlings { edit, turn }) => self.take_seedlings(edit, turn, kept),
            Some(Pending::Entry(entry)) => self.take_in(*entry, kept),
        }
    }

    /// What was asked to be saved is not on the disk, and why. The line stays as it was typed.
    pub fn not_entered(&mut self, why: String) {
        self.pending = None;
        match (&mut self.slip, &self.line) {
            (Some(slip), _) => slip.filling.tell(format!("Not saved: {why}.")),
            (None, Some(_)) => self.refuse(format!("Not saved: {why}.")),
            (None, None) => self.failed = Some(why),
        }
    }

    fn take_in(&mut self, entry: Entry, kept: &str) {
        let told = match &entry.what {
            What::Withdrawn => self.withdrawn_in_words(&entry, kept),
            _ => format!("{}: {} ({kept}).", entry.of, self.noted(&entry)),
        };
        match (
            &entry.what,
            entry
                .corrects
                .map(|id| self.plot.trial.withdrawn_in_the_end(id)),
        ) {
            // A withdrawal of an entry, or of its withdrawal.
            (What::Withdrawn, Some((id, true))) => {
                self.history.undone(Done::Entry(id));
            }
            (What::Withdrawn, Some((id, false)))
                if self.history.last_undone() == Some(&Done::Entry(id)) =>
            {
                self.history.redo(Some);
            }
            (What::Withdrawn, Some((id, false))) => self.history.remember(Done::Entry(id)),
            _ => self.history.remember(Done::Entry(entry.id)),
        }
        let subject = entry.of.clone();
        self.news.push(subject.clone());
        // OK because its number and what it changes were looked up before it was saved.
        let _ = self.plot.trial.add(entry);
        self.revise(&subject);
        match self.line.as_ref().map(|line| &line.of) {
            Some(Of::Walk(_)) => self.go_on(&told),
            line => {
                let next = matches!(line, Some(Of::Cut));
                self.line = next.then(|| Line::new(Of::Cut, String::new()));
                self.show();
                self.go_to(Some(&subject));
                self.say(told);
            }
        }
    }

    fn withdrawn_in_words(&self, entry: &Entry, kept: &str) -> String {
        let of = &entry.of;
        let Some(named) = entry.corrects else {
            return String::new();
        };
        match self.plot.trial.withdrawn_in_the_end(named) {
            (id, true) if self.history.last() == Some(&Done::Entry(id)) => {
                format!("took back: {} ({kept}).", self.entry_in_words(id))
            }
            (id, true) => format!("{of}: entry {id} is withdrawn ({kept})."),
            (id, false) if self.history.last_undone() == Some(&Done::Entry(id)) => {
                format!("done again: {} ({kept}).", self.entry_in_words(id))
            }
            (id, false) => format!("{of}: entry {id} counts again ({kept})."),
        }
    }

    /// What an entry said: `26-004 kept`, `26-004: diameter=98mm`.
    fn entry_in_words(&self, id: u32) -> String {
        let Some(entry) = self.plot.trial.entry(id) else {
            return format!("entry {id}");
        };
        match &entry.what {
            What::Decided(decision) => format!("{} {}", entry.of, decision.fate.done()),
            What::Observed(_) | What::Withdrawn => format!("{}: {}", entry.of, self.noted(entry)),
        }
    }

    /// Takes back what was done last here: a change of the seedlings, or an entry, by one that
    /// withdraws it, since the book only grows.
    pub(super) fn take_back(&mut self) -> Option<Effect> {
        match self.history.last().cloned() {
            None => {
                self.say("There is no entry of this sitting to take back.");
                None
            }
            Some(Done::Entry(id)) => self.withdraw(id),
            Some(Done::Seedlings(edit, _)) => self.turn(edit, Turn::TakenBack),
        }
    }

    /// Makes again what was taken back last: its withdrawal is withdrawn.
    pub(super) fn make_again(&mut self) -> Option<Effect> {
        let by = match self.history.last_undone().cloned() {
            Some(Done::Seedlings(edit, _)) => return self.turn(edit, Turn::MadeAgain),
            Some(Done::Entry(id)) => self.plot.trial.ended_by(id),
            None => None,
        };
        let Some(by) = by.map(|by| by.id) else {
            self.say("There is nothing to make again.");
            return None;
        };
        self.withdraw(by)
    }

    fn withdraw(&mut self, id: u32) -> Option<Effect> {
        let of = self.plot.trial.entry(id)?.of.clone();
        self.ask_to_save(Entry {
            id: self.next_id(),
            corrects: Some(id),
            date: self.day,
            by: self.by.clone(),
            of,
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

    /// What an entry says, without its day: that is the same along a walk.
    fn noted(&self, entry: &Entry) -> String {
        entry.what_told(&self.plot.keyer.set.traits)
    }

    /// Why the last save failed.
    pub(super) fn failure(&self) -> Option<&str> {
        self.failed.as_deref()
    }

    /// Where entries go, in a few words for the head of the screen.
    pub fn kept(&self) -> String {
        let state = self.failed.as_ref().map_or("all saved", |_| "NOT SAVED");
        self.keeping.in_words("your row", state)
    }
}
