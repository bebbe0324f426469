//! Looking for some of what can be tagged, and picking.

use super::TagsPage;
use super::candidates::Candidate;
use crate::matching::{Finder, Folded, Query, Rank, folded, without_needless_slips};
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::trial::Subject;

/// The most tags that are printed at once.
const MOST: usize = 1000;

impl TagsPage {
    /// Shows what the words find, the best first, the cursor on this one where it is among them.
    pub(super) fn show(&mut self, subject: Option<&Subject>) {
        let query = Query::new(&self.words);
        self.shown = match query.words() {
            [] => (0..self.all.len()).collect(),
            _ => self.found(&query),
        };
        let is = |at: &usize| Some(&self.all[*at].subject) == subject;
        let at = self.shown.iter().position(is);
        self.cursor = Cursor::on(at.unwrap_or(0));
    }

    /// The places of those that the words find, the best first.
    fn found(&self, query: &Query) -> Vec<usize> {
        let finder = Finder::of(query);
        let rank = |one: &Candidate| {
            let name = Folded::of(&one.subject.to_string());
            finder.rank(&name, &folded(&format!("{} {}", one.stands, one.form)))
        };
        let ranked = self.all.iter().enumerate();
        let ranked = ranked.filter_map(|(at, one)| Some((rank(one)?, at)));
        let mut found: Vec<(Rank, usize)> = without_needless_slips(ranked.collect());
        found.sort_unstable();
        found.into_iter().map(|(_, at)| at).collect()
    }

    pub(super) fn pick(&mut self) {
        let Some(subject) = self.subject().cloned() else {
            return;
        };
        self.by_hand = true;
        if !self.picked.remove(&subject) {
            if self.picked.len() >= MOST {
                return self.say(format!("{MOST} are picked: print those first."));
            }
            self.picked.insert(subject);
        }
        self.cursor.go(Movement::Down, self.shown.len(), 0);
    }

    /// Picks all that are shown; where all are picked already, lets them go.
    pub(super) fn pick_shown(&mut self) {
        let shown = self.shown.iter().map(|at| self.all[*at].subject.clone());
        let new: Vec<Subject> = shown.filter(|one| !self.picked.contains(one)).collect();
        if self.picked.len() + new.len() > MOST {
            let count = self.shown.len();
            return self.say(format!(
                "That would be {count}, and at most {MOST} are printed at once: / narrows what is shown."
            ));
        }
        self.by_hand = true;
        match new.is_empty() {
            true => {
                let shown = self.shown.iter().map(|at| &self.all[*at].subject);
                for subject in shown {
                    self.picked.remove(subject);
                }
            }
            false => self.picked.extend(new),
        }
    }
}
