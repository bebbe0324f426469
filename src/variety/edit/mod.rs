//! The only way in which the screen changes the list: one edit, which gives back what undoes it.

mod change;
mod named;
mod several;
mod step;

pub use change::Change;
pub use named::named_by;
pub use several::Several;
pub use step::Step;

use super::list::Varieties;
use super::record::Variety;

/// One change of the list.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// One field of the variety at a row.
    Field {
        /// Its place in the list.
        row: usize,
        /// What it has from then on.
        change: Change,
    },
    /// Another record in the place of the one at a row.
    Put {
        /// Its place in the list.
        row: usize,
        /// The record from then on.
        record: Box<Variety>,
    },
    /// A record more, at a row: what stood there and behind it stands one farther on.
    Insert {
        /// Its place in the list; the end where it is past it.
        row: usize,
        /// The record.
        record: Box<Variety>,
    },
    /// One record less: what stood behind it stands one nearer.
    Remove {
        /// Its place in the list.
        row: usize,
    },
    /// Many records at once.
    Several(Box<Several>),
}

/// Which rows an edit touched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touched {
    /// A field of this one that no evidence hangs on.
    Field(usize),
    /// All of this one, perhaps its name.
    Record(usize),
    /// This one is new.
    Came(usize),
    /// This one is gone.
    Went(usize),
    /// Many, this one the first of them.
    Many(usize),
}

impl Edit {
    /// Makes the edit and gives back the one that undoes it; `None`, and no change, where the list has
    /// no such row or has the name already.
    pub fn apply(self, list: &mut Varieties) -> Option<Edit> {
        match self {
            Edit::Field { row, change } => {
                let change = change.apply(list.record_mut(row)?);
                Some(Edit::Field { row, change })
            }
            Edit::Put { row, record } => {
                let before = list.replace(row, *record).ok()??;
                let record = Box::new(before);
                Some(Edit::Put { row, record })
            }
            Edit::Insert { row, record } => {
                let row = row.min(list.len());
                list.insert(row, *record).ok()?;
                Some(Edit::Remove { row })
            }
            Edit::Remove { row } => {
                let record = Box::new(list.remove(row)?);
                Some(Edit::Insert { row, record })
            }
            Edit::Several(several) => Some(Edit::Several(Box::new(several.apply(list)?))),
        }
    }

    /// Which rows of a list it touches.
    pub fn touches(&self, list: &Varieties) -> Touched {
        match self {
            Edit::Field { row, .. } => Touched::Field(*row),
            Edit::Put { row, .. } => Touched::Record(*row),
            Edit::Insert { row, .. } => Touched::Came((*row).min(list.len())),
            Edit::Remove { row } => Touched::Went(*row),
            Edit::Several(several) => Touched::Many(several.first()),
        }
    }

    /// What it does to a list, as a clause: `Haaf Kettle changed`, `Ebb Drift added`.
    pub fn told(&self, list: &Varieties) -> String {
        let name = |row: usize| {
            let record = list.list().get(row);
            record.map_or(String::new(), |one| one.name.to_string())
        };
        match self {
            Edit::Field { row, change } => format!("{}: {}", name(*row), change.told()),
            Edit::Put { row, record } if name(*row) != record.name.as_str() => {
                format!("{} is {} from now on", name(*row), record.name)
            }
            Edit::Put { record, .. } => format!("{} changed", record.name),
            Edit::Insert { record, .. } => format!("{} added", record.name),
            Edit::Remove { row } => format!("{} dropped", name(*row)),
            Edit::Several(several) => several.told.clone(),
        }
    }

    /// Whether all would be as it is.
    fn changes_nothing(&self, list: &Varieties) -> bool {
        match self {
            Edit::Field { row, change } => {
                let mut now = list.list().get(*row).cloned();
                let back = now.as_mut().map(|now| change.clone().apply(now));
                back.as_ref() == Some(change)
            }
            Edit::Put { row, record } => list.list().get(*row) == Some(record.as_ref()),
            Edit::Insert { .. } | Edit::Remove { .. } => false,
            Edit::Several(several) => several.changes_nothing(list),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::History;
    use crate::variety::{Shortlisted, Text};
    use proptest::prelude::*;

    const ROWS: usize = 4;
    const NAMES: [&str; 7] = ["Haaf", "Ebb", "Oar", "Foam", "Kist", "Byre", "ebb"];

    fn list() -> Varieties {
        let mut list = Varieties::default();
        for name in NAMES.into_iter().take(ROWS) {
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
        let record = || {
            (prop::sample::select(&NAMES[..]), text()).prop_map(|(name, notes)| {
                let name = Text::new(name).expect("a name");
                Box::new(Variety {
                    notes,
                    ..Variety::named(name)
                })
            })
        };
        prop_oneof![
            (0..ROWS + 1, change).prop_map(|(row, change)| Edit::Field { row, change }),
            (0..ROWS + 1, record()).prop_map(|(row, record)| Edit::Put { row, record }),
            (0..ROWS + 1, record()).prop_map(|(row, record)| Edit::Insert { row, record }),
            (0..ROWS + 1).prop_map(|row| Edit::Remove { row }),
        ]
    }

    #[test]
    fn an_edit_that_changes_nothing_is_not_remembered() {
        let (mut list, mut history) = (list(), History::default());
        let record = |name: &str| {
            let name = Text::new(name).expect("a name");
            Box::new(Variety::named(name))
        };
        let (row, change) = (ROWS, Change::OnHand(Some(1)));
        for edit in [
            Edit::Field {
                row: 0,
                change: Change::OnHand(None),
            },
            Edit::Field { row, change },
            Edit::Put {
                row: 0,
                record: record("Haaf"),
            },
            Edit::Put {
                row: 0,
                record: record("EBB"),
            },
            Edit::Insert {
                row: 0,
                record: record("oar"),
            },
            Edit::Remove { row },
        ] {
            assert_eq!(edit.make(&mut list, &mut history), None);
        }
        assert_eq!(history, History::default());
    }

    #[test]
    fn what_was_done_is_told_when_it_is_taken_back() {
        let (mut list, mut history) = (list(), History::default());
        let record = |name: &str, notes: &str| {
            Box::new(Variety {
                notes: Text::new(notes).ok(),
                ..Variety::named(Text::new(name).expect("a name"))
            })
        };
        let row = 1;
        for (edit, told) in [
            (
                Edit::Put {
                    row,
                    record: record("Ebb", "late"),
                },
                "Ebb changed",
            ),
            (
                Edit::Put {
                    row,
                    record: record("Ebb Drift", "late"),
                },
                "Ebb is Ebb Drift from now on",
            ),
            (
                Edit::Insert {
                    row,
                    record: record("Kist", ""),
                },
                "Kist added",
            ),
            (Edit::Remove { row: 0 }, "Haaf dropped"),
        ] {
            let made = edit.make(&mut list, &mut history);
            assert_eq!(made.map(|made| made.1).as_deref(), Some(told));
            let last = history.last().map(|step| step.told.as_str());
            assert_eq!(last, Some(told));
        }
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
                prop_assert!(history.undo(|step| step.apply(&mut list)).is_some());
            }
            prop_assert_eq!(history.undo(|step| step.apply(&mut list)), None);
            prop_assert_eq!(&list, &start);
            for _ in 0..made {
                prop_assert!(history.redo(|step| step.apply(&mut list)).is_some());
            }
            prop_assert_eq!(history.redo(|step| step.apply(&mut list)), None);
            prop_assert_eq!(&list, &end);
        }
    }
}
