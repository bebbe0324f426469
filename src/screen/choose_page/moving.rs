//! The cursor, on the list and in what is picked from.

use super::{ChoosePage, Entry};

impl ChoosePage {
    pub(super) fn step(&mut self, by: i32) {
        let count = match self.entry {
            Entry::Values { facet, .. } => self.values(facet).len(),
            Entry::Uses { .. } => self.stock.uses.list().len() + 1,
            _ => self.shown.found,
        };
        let cursor = match &mut self.entry {
            Entry::Values { at, .. } | Entry::Uses { at } => at,
            _ => &mut self.cursor,
        };
        *cursor = cursor
            .saturating_add_signed(by as isize)
            .min(count.saturating_sub(1));
        self.rank_enough();
    }

    /// The cursor on a row of the list, where that is left.
    pub(super) fn go_to(&mut self, row: usize) {
        if let Some(place) = self.place_of(row) {
            self.cursor = place;
            self.rank_enough();
        }
    }
}

/// The first of `count` rows to show in `height`, so that the one at `cursor` stays in the middle.
pub(in crate::screen) fn first_shown(cursor: usize, count: usize, height: usize) -> usize {
    cursor
        .saturating_sub(height / 2)
        .min(count.saturating_sub(height))
}
