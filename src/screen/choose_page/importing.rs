//! Reading a file into the list: what the steps ask for is passed on, and what they come to is one change.

use super::{ChoosePage, Entry};
use crate::screen::Effect;
use crate::screen::import::{Asked, Found, ImportMessage, Importing, Next};
use crate::screen::kit::line::Edit as LineEdit;
use crate::variety::exchange::{Over, OwnWords};

impl ChoosePage {
    /// Takes the grower's own words for headings and values, or why they could not be read.
    pub(in crate::screen) fn remember(&mut self, words: Result<OwnWords, String>) {
        self.remembered.words = words;
    }

    /// The grower's own words, to be saved.
    pub fn own_words(&self) -> Option<&OwnWords> {
        self.remembered.words.as_ref().ok()
    }

    /// What is to be looked at on the disk.
    pub fn asks(&self) -> Option<Asked<'_>> {
        self.import.asks()
    }

    /// Opens the import where it was left.
    pub(super) fn begin_import(&mut self) -> Option<Effect> {
        if let Some(refusal) = self.keeper.refusal() {
            self.say(refusal);
            return None;
        }
        if let Err(why) = &self.remembered.words {
            let why = why.clone();
            self.say(why);
            return None;
        }
        self.entry = Entry::Import;
        let next = self.import.open();
        self.follow(next)
    }

    pub(super) fn update_import(&mut self, message: ImportMessage) -> Option<Effect> {
        let (import, over) = self.over()?;
        let next = import.update(message, over);
        self.follow(next)
    }

    pub(super) fn edit_import(&mut self, edit: &LineEdit) -> Option<Effect> {
        let next = self.import.edit(edit);
        self.follow(next)
    }

    /// Takes in what was found on the disk.
    pub(in crate::screen) fn found(&mut self, found: Found) {
        if let Some((import, over)) = self.over() {
            import.found(found, over);
        }
    }

    /// What was learnt is on the disk, or why not: the list is saved next.
    pub(in crate::screen) fn words_saved(&mut self, saved: Result<(), String>) -> Option<Effect> {
        match saved {
            Ok(()) => self.remembered.unsaved = false,
            Err(why) => {
                let note = self.note.take().unwrap_or_default();
                self.say(format!(
                    "{note}; your answers could not be remembered: {why}"
                ));
            }
        }
        self.keeper.is_unsaved().then_some(Effect::SaveVarieties)
    }

    /// The import, and what it reads over.
    fn over(&mut self) -> Option<(&mut Importing, Over<'_>)> {
        let own = self.remembered.words.as_ref().ok()?;
        let over = Over {
            list: &self.stock.list,
            rules: &self.stock.rules,
            colours: &self.stock.words,
            own,
        };
        Some((&mut self.import, over))
    }

    fn follow(&mut self, next: Option<Next>) -> Option<Effect> {
        match next? {
            Next::Look => Some(Effect::Look),
            Next::Close => {
                self.entry = Entry::Nothing;
                None
            }
            Next::TakeIn => self.take_in(),
        }
    }

    /// Makes all of it one change of the list, and remembers what was answered.
    fn take_in(&mut self) -> Option<Effect> {
        let reading = self.import.reading()?;
        let import = reading.import()?;
        let own = self.remembered.words.as_ref().ok()?;
        let (words, new) = reading.learnt(own);
        self.remembered.unsaved |= !new.is_empty();
        let told = format!("{}; u takes them back", reading.told());
        let edit = import.edit(&self.stock.list, reading.told());
        self.remembered.words = Ok(words);
        self.import.done();
        self.entry = Entry::Nothing;
        let saves_list = match edit.make(&mut self.stock.list, &mut self.history) {
            Some((touched, _)) => self.changed(touched, &told).is_some(),
            None => {
                self.say("Nothing was changed: the list has all of it.");
                false
            }
        };
        match (self.keeper.saves() && self.remembered.unsaved, saves_list) {
            (true, _) => Some(Effect::SaveWords),
            (false, true) => Some(Effect::SaveVarieties),
            (false, false) => None,
        }
    }
}
