//! The only way in which the screen changes the list: one edit, which gives back what undoes it.

mod several;

pub use several::Several;

use super::list::Varieties;
use super::record::Shortlisted;
use super::text::Text;
use crate::history::History;

/// One change of one variety, or of many at once.
#[derive(Debug, Clone, PartialEq)]
pub struct Edit {
    /// The variety's place in the list.
    pub row: usize,
    /// What it has from then on.
    pub change: Change,
}

/// What of a variety is changed; `None` is unknown or not there.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Its place on the shortlist.
    Shortlist(Option<Shortlisted>),
    /// The grower's notes on it.
    Notes(Option<Text>),
    /// Tubers on hand.
    OnHand(Option<u32>),
    /// Many records at once; the row is the first of them.
    Several(Box<Several>),
}

impl Edit {
    /// Makes the change and gives back the edit that undoes it; `None`, and no change, where the
    /// list has no such row.
    pub fn apply(self, list: &mut Varieties) -> Option<Edit> {
        let row = self.row;
        if let Change::Several(several) = self.change {
            let change = Change::Several(Box::new(several.apply(list)?));
            return Some(Edit { row, change });
        }
        let variety = list.record_mut(row)?;
        let change = match self.change {
            // OK because it was applied above.
            Change::Several(_) => return None,
            Change::Shortlist(mark) => {
                Change::Shortlist(std::mem::replace(&mut variety.shortlist, mark))
            }
            Change::Notes(notes) => Change::Notes(std::mem::replace(&mut variety.notes, notes)),
            Change::OnHand(tubers) => {
                Change::OnHand(std::mem::replace(&mut variety.on_hand, tubers))
            }
        };
        Some(Edit { row, change })
    }

    /// Makes the change and remembers what undoes it. Gives the row back; `None` where it changes
    /// nothing, which is not remembered.
    pub fn make(self, list: &mut Varieties, history: &mut History<Edit>) -> Option<usize> {
        let row = self.row;
        let asked = self.change.clone();
        let back = self.apply(list)?;
        if back.change == asked {
            return None;
        }
        history.remember(back);
        Some(row)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::variety::Variety;
    use proptest::prelude::*;

    const ROWS: usize = 4;

    fn list() -> Varieties {
        let mut list = Varieties::default();
        for name in ["Haaf", "Ebb", "Oar", "Foam"] {
            let variety = Variety::named(Text::new(name).expect("a name"));
            list.insert(list.len(), variety).expect("a new name");
        }
        list
    }

    fn any_edit() -> impl Strategy<Value = Edit> {
        let text = || {
            prop::option::of("[a-z]{1,6}")
                .prop_map(|text| text.map(|text| Text::new(text).expect("letters")))
        };
        let change = prop_oneof![
            prop::option::of(text().prop_map(|note| Shortlisted { note }))
                .prop_map(Change::Shortlist),
            text().prop_map(Change::Notes),
            prop::option::of(0_u32..9).prop_map(Change::OnHand),
        ];
        (0..ROWS + 1, change).prop_map(|(row, change)| Edit { row, change })
    }

    #[test]
    fn an_edit_that_changes_nothing_is_not_remembered() {
        let (mut list, mut history) = (list(), History::default());
        let nothing = Edit {
            row: 0,
            change: Change::OnHand(None),
        };
        let nowhere = Edit {
            row: ROWS,
            change: Change::OnHand(Some(1)),
        };
        assert_eq!(nothing.make(&mut list, &mut history), None);
        assert_eq!(nowhere.make(&mut list, &mut history), None);
        assert_eq!(history, History::default());
    }

    proptest! {
        #[test]
        fn undo_of_any_edits_is_the_start_and_redo_the_end(edits in prop::collection::vec(any_edit(), 0..20)) {
            let (mut list, mut history) = (list(), History::default());
            let start = list.clone();
            let mut made = 0;
            for edit in edits {
                made += usize::from(edit.make(&mut list, &mut history).is_some());
            }
            let end = list.clone();
            for _ in 0..made {
                prop_assert!(history.undo(|edit| edit.apply(&mut list)).is_some());
            }
            prop_assert_eq!(history.undo(|edit| edit.apply(&mut list)), None);
            prop_assert_eq!(&list, &start);
            for _ in 0..made {
                prop_assert!(history.redo(|edit| edit.apply(&mut list)).is_some());
            }
            prop_assert_eq!(history.redo(|edit| edit.apply(&mut list)), None);
            prop_assert_eq!(&list, &end);
        }
    }
}
