//! One field of a variety, changed by a quick line or a key.

use crate::variety::record::{Shortlisted, Variety};
use crate::variety::text::Text;

/// What of a variety is changed; `None` is unknown or not there. What the trial row sees hangs on none
/// of these.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Its place on the shortlist.
    Shortlist(Option<Shortlisted>),
    /// The grower's notes on it.
    Notes(Option<Text>),
    /// Tubers on hand.
    OnHand(Option<u32>),
}

impl Change {
    /// Makes the change and gives back the one that undoes it.
    pub(super) fn apply(self, variety: &mut Variety) -> Change {
        match self {
            Change::Shortlist(mark) => {
                Change::Shortlist(std::mem::replace(&mut variety.shortlist, mark))
            }
            Change::Notes(notes) => Change::Notes(std::mem::replace(&mut variety.notes, notes)),
            Change::OnHand(tubers) => {
                Change::OnHand(std::mem::replace(&mut variety.on_hand, tubers))
            }
        }
    }

    /// What it does, behind the variety's name.
    pub(super) fn told(&self) -> &'static str {
        match self {
            Change::Shortlist(None) => "off the shortlist",
            Change::Shortlist(Some(Shortlisted { note: None })) => "on the shortlist",
            Change::Shortlist(Some(_)) => "on the shortlist with your note",
            Change::Notes(_) => "notes changed",
            Change::OnHand(_) => "tubers on hand changed",
        }
    }
}
