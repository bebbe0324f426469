//! The pictures of the answers: what each state looks like, or a low, a middle and a high number.

use ratatui::layout::Rect;

use super::layout::Parts;
use super::pictures::{Arranged, Place, Told};
use super::words::below;
use super::{Entry, KeyPage, middle};
use crate::draw::{Grid, answer};
use crate::form::words::number_words;
use crate::form::{Answer, telling_numbers};
use crate::screen::bloom::in_ink;
use crate::screen::kit::area;
use crate::screen::kit::text::{Row, cut};
use crate::screen::theme::{Role, Theme};

/// The rows of a picture, the most first: with fewer than the last its lines run together. A
/// picture has twice as many columns.
const SIZES: [u16; 3] = [6, 5, 4];
/// Columns between two pictures of a line.
const BETWEEN: usize = 2;

impl KeyPage {
    /// Draws the pictures of the question that is asked, where they have room.
    pub(super) fn picture_answers(&mut self, parts: &Parts, theme: Theme) {
        let asked = self
            .asked()
            .filter(|_| !matches!(self.entry, Entry::Find(..)));
        let asked = asked.filter(|_| theme.has_dots());
        let arranged = asked.and_then(|index| self.arrange(index, parts));
        self.pictures.arranged = arranged;
        let of = asked
            .zip(arranged)
            .map(|(index, arranged)| (index, self.rules, arranged.rows));
        if self.pictures.of != of {
            self.pictures.of = of;
            self.pictures.drawn = of.map_or(Vec::new(), |(index, _, rows)| {
                self.draw_answers(index, rows)
            });
        }
    }

    fn draw_answers(&self, index: usize, rows: u16) -> Vec<Vec<Row>> {
        let one = self.trait_at(index);
        let states = one.states().iter();
        let states = states.map(|state| answer::of_state(&one.id, &state.id));
        let numbers = telling_numbers(one, &self.keyer().set.scales()[index]).into_iter();
        let numbers = numbers.map(|number| answer::of_number(&one.id, number.to_f64()));
        let drawn = states.chain(numbers).map(|drawing| {
            let grid = drawing.map(|drawing| Grid::of_lines(&drawing, rows * 2, rows));
            grid.map_or(Vec::new(), |grid| in_ink(&grid))
        });
        drawn.collect()
    }

    /// The first place that has room: beside the answers, below them, below what is said; larger
    /// pictures before smaller ones, and what they show is told where there is room for it, too.
    fn arrange(&self, index: usize, parts: &Parts) -> Option<Arranged> {
        answer::shows(&self.trait_at(index).id)?;
        let middle = area::size(area::below_head(parts.middle)[1]);
        let below = area::size(parts.below);
        let said = below_rows(self, parts.below);
        let tried = |place: Place| {
            let said = [Told::Caption, Told::Answers].into_iter();
            let large = SIZES.into_iter();
            let large = large.flat_map(move |rows| said.clone().map(move |told| (rows, told)));
            let least = (SIZES[SIZES.len() - 1], Told::Keys);
            let all = large.chain([least]);
            all.map(move |(rows, told)| Arranged { place, rows, told })
        };
        let fits = |arranged: &Arranged| {
            let line = line_rows(*arranged);
            let labels = self.labels(index, arranged.told);
            let wide = |columns: usize| line_columns(*arranged, &labels) <= columns;
            match arranged.place {
                // The key is beside each anyway.
                Place::Beside if arranged.told == Told::Keys => false,
                Place::Beside => middle::fits_beside(self, index, middle, *arranged),
                Place::BelowQuestion => {
                    wide(middle.0) && middle::tight_rows(self, index, middle.0) + line <= middle.1
                }
                Place::BelowVerdict => wide(below.0) && said + line <= below.1,
            }
        };
        let places = [Place::Beside, Place::BelowQuestion, Place::BelowVerdict];
        places.into_iter().flat_map(tried).find(fits)
    }

    /// What stands at each picture of a line: the key, and the state where there is room, or the
    /// number.
    fn labels(&self, index: usize, told: Told) -> Vec<Row> {
        let one = self.trait_at(index);
        let marked = match (&self.entry, self.answers.get(index)) {
            (Entry::Marks(mask), _) => *mask,
            (_, Some(Answer::States(mask))) => *mask,
            _ => 0,
        };
        let states = one.states().iter().enumerate().map(|(at, state)| {
            let mark = if marked >> at & 1 == 1 { "*" } else { "" };
            let key = Row::of(format!("{mark}{}", at + 1), Role::Key);
            match told {
                Told::Keys => key,
                _ => key.with(" ", Role::Plain).with(&state.id, Role::Plain),
            }
        });
        let numbers = telling_numbers(one, &self.keyer().set.scales()[index]).into_iter();
        let numbers =
            numbers.map(|number| Row::of(number_words(one, number, self.units), Role::Strong));
        states.chain(numbers).collect()
    }

    /// The line of pictures, in so many columns, and what is told of them.
    pub(super) fn line_of_pictures(&self, arranged: Arranged, columns: usize) -> Vec<Row> {
        let Some(index) = self.asked() else {
            return Vec::new();
        };
        let labels = self.labels(index, arranged.told);
        let widest = labels.iter().map(Row::width).max().unwrap_or(0);
        let aside = if arranged.told == Told::Keys {
            widest + 1
        } else {
            0
        };
        let most = aside + arranged.columns() + 2 * BETWEEN + 4;
        let slot = (columns / labels.len().max(1)).min(most);
        let mut rows = Vec::new();
        rows.extend((arranged.told == Told::Caption).then(|| self.caption(columns)));
        if aside == 0 {
            let over = |row: Row, label: &Row| row.and(label.clone().cut(slot - 1).fit(slot));
            rows.push(labels.iter().fold(Row::default(), over));
        }
        for at in 0..usize::from(arranged.rows) {
            let piece = |row: Row, (picture, label): (usize, &Row)| {
                let label = if at == 0 {
                    label.clone()
                } else {
                    Row::default()
                };
                let lead = if aside == 0 {
                    Row::default()
                } else {
                    label.fit(aside)
                };
                let own = self.pictures.rows(picture).get(at).cloned();
                row.and(lead.and(own.unwrap_or_default()).fit(slot))
            };
            rows.push(labels.iter().enumerate().fold(Row::default(), piece));
        }
        rows
    }

    /// What the pictures show.
    pub(super) fn caption(&self, columns: usize) -> Row {
        let one = self.asked().map(|index| self.trait_at(index));
        let shows = one
            .and_then(|one| answer::shows(&one.id))
            .unwrap_or_default();
        Row::of(cut(&format!("Drawn: {shows}"), columns), Role::Quiet)
    }
}

/// Rows of what is said where pictures stand below it: without a tip on keys.
fn below_rows(page: &KeyPage, area: Rect) -> usize {
    below(page, area.width.into(), false).len()
}

fn line_rows(arranged: Arranged) -> usize {
    let over = match arranged.told {
        Told::Caption => 2,
        Told::Answers => 1,
        Told::Keys => 0,
    };
    over + usize::from(arranged.rows)
}

fn line_columns(arranged: Arranged, labels: &[Row]) -> usize {
    let widest = labels.iter().map(Row::width).max().unwrap_or(0);
    match arranged.told {
        // The labels between them keep pictures apart.
        Told::Keys => labels.len() * (widest + 1 + arranged.columns()),
        _ => labels.len() * (arranged.columns().max(widest) + BETWEEN),
    }
}

#[cfg(test)]
mod tests;
