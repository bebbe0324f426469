//! The jump line: one line over any page that finds whatever has a name, and goes there.

pub(in crate::screen) mod place;
mod view;

use super::kit::cursor::{Cursor, Movement};
use super::kit::line::{Edit, Line};
use crate::matching::{Finder, Query, Rank, without_needless_slips};
use place::{Goal, Kind, Place};

/// No more are listed: who sees so many types another letter.
const MOST: usize = 100;

/// What can happen with the jump line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JumpMessage {
    /// Open the line.
    Open,
    /// Go to the one under the cursor.
    Give,
    /// Close the line.
    Drop,
}

/// The line, what can be found, and what is found.
#[derive(Debug, Clone)]
pub(super) struct Jump {
    line: Line<()>,
    /// All but the varieties, which the list itself finds.
    places: Vec<Place>,
    found: Vec<Place>,
    /// How many are found in all.
    count: usize,
    cursor: Cursor,
}

impl Jump {
    /// A line with nothing typed: pages and commands are listed, those first that come first.
    pub(super) fn new(places: Vec<Place>) -> Jump {
        let mut jump = Jump {
            line: Line::new((), ""),
            places,
            found: Vec::new(),
            count: 0,
            cursor: Cursor::default(),
        };
        jump.find(|_, _| (Vec::new(), 0));
        jump
    }

    /// Edits the line; what is found follows. `varieties` gives those of the list that a query finds
    /// best, at most so many, and how many it finds in all.
    pub(super) fn edit(
        &mut self,
        edit: &Edit,
        varieties: impl FnOnce(&Query, usize) -> (Vec<(Rank, Place)>, usize),
    ) {
        if self.line.edit(edit) {
            self.cursor = Cursor::default();
            self.find(varieties);
        }
    }

    /// Moves the cursor, in a window of so many rows.
    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        self.cursor.go(movement, self.found.len(), window);
    }

    /// Where the one under the cursor is; `None` where nothing is found.
    pub(super) fn goal(&self) -> Option<&Goal> {
        let at = self.cursor.row(self.found.len());
        self.found.get(at).map(|place| &place.goal)
    }

    fn query(&self) -> Query {
        Query::new(self.line.text())
    }

    fn find(&mut self, varieties: impl FnOnce(&Query, usize) -> (Vec<(Rank, Place)>, usize)) {
        let query = self.query();
        if query.words().is_empty() {
            let shown = |place: &&Place| matches!(place.kind, Kind::Page | Kind::Command);
            self.found = self.places.iter().filter(shown).cloned().collect();
            self.count = self.found.len();
            return;
        }
        let own = Finder::of(&query).ranked(self.places.iter().map(Place::searched));
        let own = own.into_iter();
        let own = own.map(|(rank, at)| (rank, self.places[at].clone()));
        let (of_list, in_list) = varieties(&query, MOST);
        let not_listed = in_list - of_list.len();
        let mut all = without_needless_slips(own.chain(of_list).collect());
        all.sort_by_key(|(rank, place)| (*rank, place.kind));
        self.count = all.len() + not_listed;
        self.found = all.into_iter().take(MOST).map(|(_, place)| place).collect();
    }
}

#[cfg(test)]
mod tests;
