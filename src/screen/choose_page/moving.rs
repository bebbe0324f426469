//! The cursor, on the list and in what is picked from.

use super::{ChoosePage, Entry};
use crate::screen::kit::cursor::{Cursor, Movement};

impl ChoosePage {
    /// Moves in what is picked from, else in the list, in a window of so many rows.
    pub(in crate::screen) fn go(&mut self, movement: Movement, window: usize) {
        self.note = None;
        self.dropping = None;
        if let Entry::Import = self.entry {
            return self.import.go(movement, window);
        }
        let count = match self.entry {
            Entry::Values { facet, .. } => self.values(facet).len(),
            Entry::Uses { .. } => self.stock.uses.list().len() + 1,
            Entry::Slip(_) => return self.move_in_slip(movement, window),
            Entry::Nothing | Entry::Line(_) | Entry::Import => self.shown.found,
        };
        let cursor = match &mut self.entry {
            Entry::Values { at, .. } | Entry::Uses { at } => at,
            Entry::Nothing | Entry::Line(_) | Entry::Slip(_) | Entry::Import => &mut self.cursor,
        };
        cursor.go(movement, count, window);
        self.rank_enough();
    }

    /// The cursor on a row of the list, where that is left.
    pub(in crate::screen) fn go_to(&mut self, row: usize) {
        if let Some(place) = self.place_of(row) {
            self.cursor = Cursor::on(place);
            self.rank_enough();
        }
    }
}
