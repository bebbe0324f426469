//! What becomes of changes, alike for every page that makes some.

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

/// Whether what is on the screen is on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Saving {
    /// Nothing is unsaved.
    Done,
    /// A save was asked for.
    Asked,
    /// It failed; why, as a sentence.
    Failed(String),
}

impl Keeping {
    /// Where changes of `what` go, in a few words for the head of the screen.
    pub(super) fn told(&self, what: &str, saving: &Saving) -> String {
        let state = match (self, saving) {
            (Keeping::Session, _) => return "demo, not kept: trug start DIR".to_string(),
            (Keeping::ReadOnly(why), _) => return format!("read only: {why}"),
            (Keeping::Folder, Saving::Done) => "all saved",
            (Keeping::Folder, Saving::Asked) => "saving",
            (Keeping::Folder, Saving::Failed(_)) => "NOT SAVED",
        };
        format!("{what}, {state}")
    }
}

impl Saving {
    /// Why the last save failed.
    pub(super) fn failure(&self) -> Option<&str> {
        match self {
            Saving::Failed(why) => Some(why),
            Saving::Done | Saving::Asked => None,
        }
    }
}
