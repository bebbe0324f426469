//! Picking from a list: a facet's value, a use, varieties to compare.

use super::{ChoosePage, Entry};
use crate::screen::kit::cursor::Cursor;
use crate::variety::{Facet, Narrowing};

/// How many fit side by side.
const MOST_COMPARED: usize = 4;

impl ChoosePage {
    pub(super) fn begin_values(&mut self, facet: Facet) {
        let values = self.values(facet);
        let picked = self.picked(facet).first();
        let at = picked.and_then(|one| values.iter().position(|value| value == one));
        // Else where most would be left.
        let most = || {
            let counts = &self.shown.left[facet as usize];
            (0..counts.len()).rev().max_by_key(|at| counts[*at])
        };
        let at = at.or_else(most).unwrap_or(0);
        let at = Cursor::on(at);
        self.entry = Entry::Values { facet, at };
    }

    pub(super) fn begin_uses(&mut self) {
        self.entry = Entry::Uses {
            at: Cursor::on(self.use_at.map_or(0, |at| at + 1)),
        };
    }

    /// The values of a facet.
    pub(super) fn values(&self, facet: Facet) -> &[String] {
        self.index.as_ref().map_or(&[], |index| index.values(facet))
    }

    pub(super) fn step_facet(&mut self, by: i8) {
        if let Entry::Values { facet, .. } = self.entry {
            let count = Facet::ALL.len() as i8;
            let to = (facet as i8 + by).rem_euclid(count);
            self.begin_values(Facet::ALL[to as usize]);
        }
    }

    /// Narrows to the one value in place of what the facet was narrowed to, or drops that where it
    /// was this very value.
    pub(super) fn pick_value(&mut self, facet: Facet, at: Cursor) {
        let all = self.values(facet);
        let Some(value) = all.get(at.row(all.len())).cloned() else {
            return;
        };
        let old = self.narrowing_of(facet);
        let again = *self.picked(facet) == [value.clone()];
        self.put(old, (!again).then(|| Narrowing::facet(facet, &value)));
    }

    /// Adds the value under the cursor to those the facet is narrowed to, or takes it out.
    pub(super) fn also(&mut self) {
        let Entry::Values { facet, at } = self.entry else {
            return;
        };
        let all = self.values(facet);
        let Some(value) = all.get(at.row(all.len())).cloned() else {
            return;
        };
        let mut values = self.picked(facet).to_vec();
        match values.iter().position(|one| *one == value) {
            Some(there) => {
                values.remove(there);
            }
            None => values.push(value),
        }
        let new = (!values.is_empty()).then_some(Narrowing::Facet { facet, values });
        self.put(self.narrowing_of(facet), new);
    }

    pub(super) fn pick_use(&mut self, at: Cursor) {
        let uses = self.stock.uses.list().len() + 1;
        self.use_at = at.row(uses).checked_sub(1);
        self.by = None;
        self.ask_from_the_top();
    }

    pub(super) fn pick(&mut self) {
        let Some(row) = self.row() else { return };
        match self.compared.iter().position(|one| *one == row) {
            Some(at) => {
                self.compared.remove(at);
            }
            None if self.compared.len() == MOST_COMPARED => {
                self.say("Four are picked already: x on one of them lets it go.");
            }
            None => self.compared.push(row),
        }
    }

    /// What `v` shows: what is picked, else the shortlist where it is short enough.
    pub(super) fn to_compare(&self) -> Vec<usize> {
        if !self.compared.is_empty() {
            return self.compared.clone();
        }
        let marked = self.stock.list.list().iter().enumerate();
        let marked = marked.filter(|(_, one)| one.shortlist.is_some());
        marked.map(|(row, _)| row).take(MOST_COMPARED + 1).collect()
    }

    /// Whether there are two to four to compare; says what to do where there are not.
    pub fn can_compare(&mut self) -> bool {
        let can = (2..=MOST_COMPARED).contains(&self.to_compare().len());
        if !can {
            self.say("Pick two to four with x, then v shows them side by side.");
        }
        can
    }
}
