//! What is asked of the list, and what is kept of the answer to be shown.

use std::ops::Range;

use super::ChoosePage;
use super::shown::Shown;
use crate::colour::{Target, several};
use crate::screen::kit::cursor::Cursor;
use crate::variety::{By, Facet, Index, Narrowing, Query, QueryCache, Ranking, Rows, Text};

/// How far from the colour is still near at first; our own choice.
const FIRST_WITHIN: f64 = 10.0;
/// The most that `+` goes to: farther apart no two flowers are alike.
const MOST_WITHIN: f64 = 60.0;

impl ChoosePage {
    /// Asks anew, the cursor at the top.
    pub(super) fn ask_from_the_top(&mut self) {
        self.cursor = Cursor::default();
        self.ask();
    }

    /// Asks anew; the cursor stays where it is as far as the list goes.
    pub(super) fn ask(&mut self) {
        let Some(index) = &self.index else { return };
        let ranking = self.ranking();
        self.held.turn_to(index, &self.narrowings, &ranking.targets);
        let rows = self.held.left(index, None);
        let found = rows.count();
        self.cursor = Cursor::on(self.cursor.row(found));
        self.shown = Shown {
            found,
            left: counted(index, &self.narrowings, &mut self.held, &rows),
            mend: self.held.mend(index),
            rows,
            ..Shown::default()
        };
        self.rank();
    }

    /// Ranks anew where the cursor has come to the end of what is ranked.
    pub(super) fn rank_enough(&mut self) {
        let ranked = self.shown.first..self.shown.first + self.shown.ranked.len();
        let Range { start, end } = self.about_the_cursor(1);
        if start < ranked.start || ranked.end < end {
            self.rank();
        }
    }

    /// Ranks what is about the cursor: more than is seen, so that most steps find it ranked.
    fn rank(&mut self) {
        let Some(index) = &self.index else { return };
        let places = self.about_the_cursor(4);
        self.shown.first = places.start;
        let ranking = self.ranking();
        self.shown.ranked = self.held.ranked(index, &self.shown.rows, &ranking, places);
    }

    /// The places up to so many windows before the cursor and after it.
    fn about_the_cursor(&self, windows: usize) -> Range<usize> {
        let around = windows * self.rows;
        let at = self.cursor.row(self.shown.found);
        at.saturating_sub(around)..(at + around).min(self.shown.found)
    }

    /// The place of a row of the list among what is left.
    pub(super) fn place_of(&self, row: usize) -> Option<usize> {
        let index = self.index.as_ref()?;
        self.held
            .place_of(index, &self.shown.rows, &self.ranking(), row)
    }

    /// The place of the narrowing by a facet.
    pub(super) fn narrowing_of(&self, facet: Facet) -> Option<usize> {
        narrowing_of(&self.narrowings, facet)
    }

    /// The values of a facet that are picked.
    pub(super) fn picked(&self, facet: Facet) -> &[String] {
        match self.narrowing_of(facet).map(|at| &self.narrowings[at]) {
            Some(Narrowing::Facet { values, .. }) => values,
            _ => &[],
        }
    }

    fn ranking(&self) -> Ranking {
        let words = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Words(text) => Some(Query::new(text)),
            _ => None,
        });
        Ranking {
            by: self.order(),
            use_at: self.use_at,
            targets: self.targets().to_vec(),
            words,
        }
    }

    /// The colours asked for.
    pub(super) fn targets(&self) -> &[Target] {
        let targets = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Colour { targets, .. } => Some(targets.as_slice()),
            _ => None,
        });
        targets.unwrap_or_default()
    }

    /// The colours asked for, as they were typed, each by itself.
    pub(in crate::screen) fn palette(&self) -> Vec<Text> {
        let asked = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Colour { asked, .. } => Some(asked.as_str()),
            _ => None,
        });
        let is_colour = |text: &str| self.stock.words.one(text).is_ok();
        let colours = several(asked.unwrap_or_default(), &is_colour).unwrap_or_default();
        let colours = colours.iter();
        colours
            .filter_map(|one| Text::cleaned(&one.colour))
            .collect()
    }

    /// The orders that mean something now, the one by all that was asked first.
    fn orders(&self) -> Vec<By> {
        let mut orders = match (self.use_at.is_some(), !self.targets().is_empty()) {
            (true, true) => vec![By::Both, By::Fitness, By::Colour],
            (true, false) => vec![By::Fitness],
            (false, true) => vec![By::Colour],
            (false, false) => Vec::new(),
        };
        orders.extend([By::Name, By::Price]);
        orders
    }

    /// What is sorted by.
    pub(super) fn order(&self) -> By {
        let orders = self.orders();
        self.by
            .filter(|by| orders.contains(by))
            .unwrap_or(orders[0])
    }

    pub(super) fn next_order(&mut self) {
        let orders = self.orders();
        let at = orders
            .iter()
            .position(|by| *by == self.order())
            .unwrap_or(0);
        self.by = Some(orders[(at + 1) % orders.len()]);
        self.ask_from_the_top();
    }

    pub(super) fn take_back(&mut self) {
        if self.narrowings.pop().is_none() && self.use_at.take().is_none() {
            return self.say("Nothing is narrowed: this is the whole list.");
        }
        self.ask_from_the_top();
    }

    pub(super) fn mend(&mut self) {
        match self.shown.mend {
            Some(mend) => {
                self.narrowings.remove(mend.drop);
                self.ask_from_the_top();
            }
            None if self.shown.found > 0 => self.say("Something is left: nothing needs dropping."),
            None => self.say("No one narrowing is to blame: Backspace takes back the last."),
        }
    }

    /// Puts the words in place of those there were; none where there are no words.
    pub(super) fn set_words(&mut self, text: &str) {
        let old = self
            .narrowings
            .iter()
            .position(|one| matches!(one, Narrowing::Words(_)));
        let new = (!text.trim().is_empty()).then(|| Narrowing::Words(text.trim().to_string()));
        self.put(old, new);
    }

    /// Puts a colour in place of the one there was, at the same distance; none for an empty text.
    pub(super) fn set_colour(&mut self, text: &str) -> Result<(), String> {
        let old = self
            .narrowings
            .iter()
            .position(|one| matches!(one, Narrowing::Colour { .. }));
        let within = match old.map(|at| &self.narrowings[at]) {
            Some(Narrowing::Colour { within, .. }) => *within,
            _ => FIRST_WITHIN,
        };
        let new = if text.trim().is_empty() {
            None
        } else {
            Some(Narrowing::Colour {
                asked: text.trim().to_string(),
                targets: self.stock.words.asked(text)?,
                within,
            })
        };
        self.put(old, new);
        Ok(())
    }

    pub(super) fn put(&mut self, old: Option<usize>, new: Option<Narrowing>) {
        match (old, new) {
            (Some(at), Some(new)) => self.narrowings[at] = new,
            (Some(at), None) => {
                self.narrowings.remove(at);
            }
            (None, Some(new)) => self.narrowings.push(new),
            (None, None) => {}
        }
        self.ask_from_the_top();
    }

    pub(super) fn farther(&mut self, by: i8) {
        let colour = self.narrowings.iter_mut().find_map(|one| match one {
            Narrowing::Colour { within, .. } => Some(within),
            _ => None,
        });
        match colour {
            Some(within) => {
                *within = (*within + f64::from(by)).clamp(0.0, MOST_WITHIN);
                self.ask_from_the_top();
            }
            None => self.say("No colour is asked for yet: press c and type one."),
        }
    }
}

/// What each value would leave, by facet. A facet that is narrowed already is counted without that: to
/// pick a value is to pick it in place of the others.
fn counted(
    index: &Index,
    narrowings: &[Narrowing],
    held: &mut QueryCache,
    rows: &Rows,
) -> Vec<Vec<usize>> {
    let mut all = held.counts(index, rows).to_vec();
    for facet in Facet::ALL {
        if let Some(at) = narrowing_of(narrowings, facet) {
            let left = index.left_of(facet, &held.left(index, Some(at)));
            all[facet as usize] = left.values.iter().map(|value| value.1).collect();
        }
    }
    all
}

/// The place of the narrowing by a facet.
fn narrowing_of(narrowings: &[Narrowing], facet: Facet) -> Option<usize> {
    let is_it =
        |one: &Narrowing| matches!(one, Narrowing::Facet { facet: own, .. } if *own == facet);
    narrowings.iter().position(is_it)
}
