//! What was looked up for one question, kept for the next: a keystroke changes one narrowing of
//! several, and seldom the colours that are measured against.

use std::ops::Range;

use super::bits::Rows;
use super::counted::Counted;
use super::index::{Index, Replaced};
use super::narrow::{Mend, Narrowing};
use super::rank::{Ranked, Ranking};
use super::shades::Measured;
use crate::colour::Target;

/// The rows of one list for which each narrowing of a question holds, the distances that were measured
/// for it, and the facets as they were counted for it.
#[derive(Debug, Clone, Default)]
pub struct QueryCache {
    rows: Vec<(Narrowing, Rows)>,
    measured: Measured,
    counted: Counted,
}

impl QueryCache {
    /// Turns to these narrowings and to a ranking by these colours; only what is new among them is
    /// looked up.
    pub fn turn_to(&mut self, index: &Index, narrowings: &[Narrowing], targets: &[Target]) {
        index.turn_to(&mut self.measured, targets);
        let mut before = std::mem::take(&mut self.rows);
        for one in narrowings {
            let held = before.iter().position(|(held, _)| held == one);
            self.rows.push(match held {
                Some(at) => before.swap_remove(at),
                None => {
                    let mut rows = Rows::all(index.len());
                    index.keep(&mut rows, one, &self.measured);
                    (one.clone(), rows)
                }
            });
        }
    }

    /// Looks a row up again of which another record was [put](Index::put) in the index.
    pub fn look_again(&mut self, index: &Index, replaced: &Replaced) {
        let row = replaced.row;
        self.counted.look_again(index, replaced);
        index.measure_again(&mut self.measured, row);
        for (narrowing, rows) in &mut self.rows {
            let mut own = Rows::only(index.len(), row);
            index.keep(&mut own, narrowing, &self.measured);
            rows.put(row, own.has(row));
        }
    }

    /// The rows for which every narrowing holds, the one at `but` left aside.
    pub fn left(&self, index: &Index, but: Option<usize>) -> Rows {
        let mut rows = Rows::all(index.len());
        for (at, (_, held)) in self.rows.iter().enumerate() {
            if Some(at) != but {
                rows.keep(held);
            }
        }
        rows
    }

    /// How many of `rows` have each value: by facet, then value, in the order of [`Index::values`].
    pub fn counts(&mut self, index: &Index, rows: &Rows) -> &[Vec<usize>] {
        self.counted.of(index, rows)
    }

    /// Which one narrowing to drop so that most come back, the last of equals; `None` where no one
    /// of them is enough, or where something is left as it is.
    pub fn mend(&self, index: &Index) -> Option<Mend> {
        if self.left(index, None).count() > 0 {
            return None;
        }
        let drops = (0..self.rows.len()).map(|drop| Mend {
            drop,
            brings: self.left(index, Some(drop)).count(),
        });
        drops
            .filter(|mend| mend.brings > 0)
            .max_by_key(|mend| mend.brings)
    }

    /// Those of `rows` that are at these places under the ranking, by the colours turned to.
    pub fn ranked(
        &self,
        index: &Index,
        rows: &Rows,
        ranking: &Ranking,
        places: Range<usize>,
    ) -> Vec<Ranked> {
        index.ranked_by(rows, ranking, &index.measured(&self.measured), places)
    }

    /// The place of a row among `rows` under the ranking; `None` where it is not among them.
    pub fn place_of(
        &self,
        index: &Index,
        rows: &Rows,
        ranking: &Ranking,
        row: usize,
    ) -> Option<usize> {
        let distances = index.measured(&self.measured);
        rows.has(row)
            .then(|| index.place_of(rows, ranking, &distances, row))
    }
}

impl Index {
    /// What [`QueryCache::mend`] says of these narrowings.
    pub fn mend(&self, narrowings: &[Narrowing]) -> Option<Mend> {
        let mut held = QueryCache::default();
        held.turn_to(self, narrowings, &[]);
        held.mend(self)
    }
}
