//! A cursor over a list: how it moves, and which rows are seen about it.

use std::ops::Range;

/// A way to move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Movement {
    /// A row up.
    Up,
    /// A row down.
    Down,
    /// Half a window up.
    PageUp,
    /// Half a window down.
    PageDown,
    /// To the first row.
    First,
    /// To the last row.
    Last,
}

/// The place of one row of a list, from 0. The list may have grown shorter since it was set: what
/// asks for the row says how long the list is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(in crate::screen) struct Cursor {
    at: usize,
}

impl Cursor {
    /// On this row.
    pub(in crate::screen) fn on(at: usize) -> Cursor {
        Cursor { at }
    }

    /// The row in a list of so many: the last one where the list is shorter, 0 where it is empty.
    pub(in crate::screen) fn row(self, len: usize) -> usize {
        self.at.min(len.saturating_sub(1))
    }

    /// Moves in a list of `len` rows, seen in a window of `window` rows; it stays in the list.
    pub(in crate::screen) fn go(&mut self, movement: Movement, len: usize, window: usize) {
        let (at, half) = (self.row(len), (window / 2).max(1));
        let to = match movement {
            Movement::Up => at.saturating_sub(1),
            Movement::Down => at + 1,
            Movement::PageUp => at.saturating_sub(half),
            Movement::PageDown => at + half,
            Movement::First => 0,
            Movement::Last => len,
        };
        self.at = Cursor::on(to).row(len);
    }

    /// The rows of a list of `len` that are seen in `height`, the cursor in the middle of them as
    /// far as the ends of the list allow.
    pub(in crate::screen) fn seen(self, len: usize, height: usize) -> Range<usize> {
        let first = self.row(len).saturating_sub(height / 2);
        let first = first.min(len.saturating_sub(height));
        first..(first + height).min(len)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const ALL: [Movement; 6] = [
        Movement::Up,
        Movement::Down,
        Movement::PageUp,
        Movement::PageDown,
        Movement::First,
        Movement::Last,
    ];

    #[test]
    fn a_page_is_half_a_window_and_the_ends_hold() {
        let mut cursor = Cursor::default();
        let mut gone = |movement| {
            cursor.go(movement, 20, 10);
            cursor.row(20)
        };
        let steps = [
            (Movement::Up, 0),
            (Movement::PageDown, 5),
            (Movement::Down, 6),
            (Movement::PageUp, 1),
            (Movement::Last, 19),
            (Movement::PageDown, 19),
            (Movement::First, 0),
        ];
        for (movement, at) in steps {
            assert_eq!(gone(movement), at, "{movement:?}");
        }
        assert_eq!(Cursor::on(7).seen(20, 6), 4..10);
        assert_eq!(Cursor::on(7).seen(8, 6), 2..8);
        assert_eq!(Cursor::on(7).seen(0, 6), 0..0);
    }

    proptest! {
        #[test]
        fn the_cursor_stays_in_the_list_and_is_always_seen(
            start in 0_usize..60,
            moves in prop::collection::vec((prop::sample::select(ALL.to_vec()), 0_usize..50), 0..30),
            window in 0_usize..40,
            height in 1_usize..40,
        ) {
            let mut cursor = Cursor::on(start);
            for (movement, len) in moves {
                cursor.go(movement, len, window);
                prop_assert!(cursor.row(len) < len.max(1));
                let seen = cursor.seen(len, height);
                prop_assert_eq!(seen.len(), len.min(height));
                prop_assert!(len == 0 || seen.contains(&cursor.row(len)));
            }
        }

        #[test]
        fn down_is_undone_by_up_away_from_the_ends(at in 0_usize..50, window in 0_usize..40) {
            let len = at + 2;
            let mut cursor = Cursor::on(at);
            cursor.go(Movement::Down, len, window);
            cursor.go(Movement::Up, len, window);
            prop_assert_eq!(cursor.row(len), at);
        }
    }
}
