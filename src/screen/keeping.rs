//! What becomes of changes, alike for every page that makes some.

/// What the head of every page says in the demo.
pub(super) const DEMO: &str = "demo (F makes yours)";

/// What becomes of changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Keeping {
    /// There is no folder: they last until the program ends.
    Session,
    /// Each is saved in the folder.
    Folder,
    /// None can be made; why, as a clause: who has the folder.
    ReadOnly(String),
}

/// Where a page's changes go, and whether what is on the screen is on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Keeper {
    keeping: Keeping,
    saving: Saving,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum Saving {
    /// Nothing is unsaved.
    Done,
    /// A save was asked for.
    Asked,
    /// It failed; why, as a clause.
    Failed(String),
}

/// What is said where leaving was asked for though a change is not saved.
pub(super) const UNSAVED: &str = "Quit again to leave without the change that is not saved.";

impl Keeping {
    /// What `what` is, in a few words for the head of the screen; `state` is that of the folder's.
    pub(super) fn in_words(&self, what: &str, state: &str) -> String {
        match self {
            Keeping::Session => DEMO.to_string(),
            Keeping::ReadOnly(why) => format!("read only: {why}"),
            Keeping::Folder => format!("{what}, {state}"),
        }
    }
}

impl Keeper {
    pub(super) fn new(keeping: Keeping) -> Keeper {
        Keeper {
            keeping,
            saving: Saving::Done,
        }
    }

    /// Why nothing may be changed, as a sentence.
    pub(super) fn refusal(&self) -> Option<String> {
        match &self.keeping {
            Keeping::ReadOnly(why) => Some(format!("Read only, nothing was changed: {why}.")),
            Keeping::Session | Keeping::Folder => None,
        }
    }

    /// Notes that something was changed; whether it is to be saved.
    pub(super) fn changed(&mut self) -> bool {
        let saves = self.keeping == Keeping::Folder;
        if saves {
            self.saving = Saving::Asked;
        }
        saves
    }

    /// Whether changes are saved in a folder.
    pub(super) fn saves(&self) -> bool {
        self.keeping == Keeping::Folder
    }

    /// All is on the disk; the page's note of the change says so.
    pub(super) fn saved(&mut self, note: &mut Option<String>) {
        self.saving = Saving::Done;
        if let Some(note) = note {
            note.push_str(" (saved)");
        }
    }

    /// It could not be saved, and why. The change stays on the screen, and the next change saves it
    /// too.
    pub(super) fn not_saved(&mut self, why: String) {
        self.saving = Saving::Failed(why);
    }

    /// Whether a change would be lost if the program ended now.
    pub(super) fn is_unsaved(&self) -> bool {
        self.saving != Saving::Done
    }

    /// Why the last save failed.
    pub(super) fn failure(&self) -> Option<&str> {
        match &self.saving {
            Saving::Failed(why) => Some(why),
            Saving::Done | Saving::Asked => None,
        }
    }

    /// Where changes of `what` go, in a few words for the head of the screen.
    pub(super) fn in_words(&self, what: &str) -> String {
        let state = match &self.saving {
            Saving::Done => "all saved",
            Saving::Asked => "saving",
            Saving::Failed(_) => "NOT SAVED",
        };
        self.keeping.in_words(what, state)
    }
}
