//! The varieties of the list for the jump line, and arriving at one.

use super::{ChoosePage, Entry};
use crate::matching::{Query, Rank};
use crate::screen::jump::place::{Goal, Kind, Place};
use crate::screen::kit::cursor::Cursor;
use crate::variety::{Index, Names};

impl ChoosePage {
    /// Folds the names where the page was not opened yet.
    pub(in crate::screen) fn open_names(&mut self) {
        if self.index.is_none() && self.names.as_ref().map(Names::len) != Some(self.list().len()) {
            self.names = Some(Names::of(self.list()));
        }
    }

    /// The varieties that a query finds best, at most so many, and how many it finds in all.
    pub(in crate::screen) fn found_by(
        &self,
        query: &Query,
        most: usize,
    ) -> (Vec<(Rank, Place)>, usize) {
        let names = self.index.as_ref().map(Index::names);
        let Some(names) = names.or(self.names.as_ref()) else {
            return (Vec::new(), 0);
        };
        let (best, count) = names.best(query, most);
        let place = |(rank, row)| (rank, self.place(row));
        (best.into_iter().map(place).collect(), count)
    }

    fn place(&self, row: usize) -> Place {
        let (variety, rules) = (self.known(row), &self.stock.rules);
        let form = variety.form_under(rules);
        let form = form.map_or("", |form| rules.forms[form].name.as_str());
        Place::new(Kind::Variety, variety.name.as_str(), Goal::Variety(row)).with(form)
    }

    /// Puts the cursor on a row of the list. Where it is not among what is left, all narrowings are taken
    /// back, and that is said.
    pub(in crate::screen) fn point_at(&mut self, row: usize) {
        self.entry = Entry::Nothing;
        self.note = None;
        if self.place_of(row).is_none() {
            self.narrowings.clear();
            self.ask();
            let name = &self.stock.list.list()[row].name;
            self.note = Some(format!(
                "{name} was not among what was left: the narrowings are taken back."
            ));
        }
        self.cursor = Cursor::on(self.place_of(row).unwrap_or(0));
        self.rank_enough();
    }
}
