//! What was done and can be undone, what was undone and can be done again: one for every undo.

/// Two piles, the latest last in each. What `T` is, is the owner's: a state as it was before a
/// change, or a change that takes another back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct History<T> {
    past: Vec<T>,
    future: Vec<T>,
}

impl<T> Default for History<T> {
    fn default() -> History<T> {
        History {
            past: Vec::new(),
            future: Vec::new(),
        }
    }
}

impl<T> History<T> {
    /// Remembers a change; what was undone before can then no longer be done again.
    pub fn remember(&mut self, one: T) {
        self.past.push(one);
        self.future.clear();
    }

    /// How many changes can be undone, and how many done again.
    pub fn depth(&self) -> (usize, usize) {
        (self.past.len(), self.future.len())
    }

    /// The change that would be undone next.
    pub fn last(&self) -> Option<&T> {
        self.past.last()
    }

    /// The change that would be done again next.
    pub fn last_undone(&self) -> Option<&T> {
        self.future.last()
    }

    /// Undoes the last change. `turn` takes it and gives back what does it again, which is given
    /// to the caller too; `None` where there is nothing to undo or `turn` could not.
    pub fn undo(&mut self, turn: impl FnOnce(T) -> Option<T>) -> Option<&T> {
        let again = turn(self.past.pop()?)?;
        self.future.push(again);
        self.future.last()
    }

    /// Does again what was undone last, by a `turn` as for [`History::undo`].
    pub fn redo(&mut self, turn: impl FnOnce(T) -> Option<T>) -> Option<&T> {
        let back = turn(self.future.pop()?)?;
        self.past.push(back);
        self.past.last()
    }
}

impl<T: PartialEq> History<T> {
    /// Notes that this one was undone out of turn: it is the next to be done again.
    pub fn undone(&mut self, one: T) {
        self.past.retain(|other| *other != one);
        self.future.push(one);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A number that is changed, its states before each change remembered.
    fn turn<'a>(now: &'a mut u32) -> impl FnOnce(u32) -> Option<u32> + 'a {
        |then| Some(std::mem::replace(now, then))
    }

    #[test]
    fn a_new_change_ends_what_could_be_done_again() {
        let mut history = History::default();
        let mut now = 0;
        for next in [1, 2, 3] {
            history.remember(std::mem::replace(&mut now, next));
        }
        assert_eq!(history.undo(turn(&mut now)), Some(&3));
        assert_eq!(
            (now, history.last(), history.last_undone()),
            (2, Some(&1), Some(&3))
        );
        history.remember(std::mem::replace(&mut now, 9));
        assert_eq!(history.redo(turn(&mut now)), None);
        assert_eq!(history.undo(turn(&mut now)), Some(&9));
        assert_eq!(now, 2);
    }

    #[test]
    fn what_is_undone_out_of_turn_is_the_next_to_be_done_again() {
        let mut history = History::default();
        for one in [1, 2, 3] {
            history.remember(one);
        }
        history.undone(1);
        assert_eq!(
            (history.last(), history.last_undone()),
            (Some(&3), Some(&1))
        );
        assert_eq!(history.redo(Some), Some(&1));
        assert_eq!(history.last(), Some(&1));
    }

    proptest! {
        #[test]
        fn undo_of_all_is_the_start_and_redo_of_all_the_end(steps in prop::collection::vec(0_u32..9, 0..20)) {
            let (mut history, mut now) = (History::default(), 0);
            for next in &steps {
                history.remember(std::mem::replace(&mut now, *next));
            }
            let end = now;
            for _ in &steps {
                prop_assert!(history.undo(turn(&mut now)).is_some());
            }
            prop_assert_eq!((now, history.undo(turn(&mut now))), (0, None));
            for _ in &steps {
                prop_assert!(history.redo(turn(&mut now)).is_some());
            }
            prop_assert_eq!((now, history.redo(turn(&mut now))), (end, None));
        }
    }
}
