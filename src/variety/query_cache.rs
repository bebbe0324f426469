//! What was looked up for one question, kept for the next: a keystroke changes one narrowing of
//! several, and seldom the colours that are measured against.

use std::borrow::Cow;
use std::ops::Range;

use super::bits::Rows;
use super::counted::Counted;
use super::facet::Facet;
use super::index::{Index, Replaced};
use super::narrow::{Mend, Narrowing};
use super::rank::{By, Ranked, Ranking, Sorting};
use super::search::Found;
use super::shades::Measured;
use crate::colour::Target;
use crate::matching::{Query, Rank};

/// The rows of one list for which each narrowing of a question holds, the distances that were measured
/// for it, and the facets as they were counted for it.
#[derive(Debug, Clone, Default)]
pub struct QueryCache {
    kept: Vec<Kept>,
    measured: Measured,
    counted: Counted,
}

/// One narrowing of a question.
#[derive(Debug, Clone)]
struct Kept {
    narrowing: Narrowing,
    /// The rows for which it holds.
    rows: Rows,
    /// Of words: what they are, and by row how well they find it.
    words: Option<(Query, Vec<Rank>)>,
}

impl Kept {
    fn look_up(index: &Index, narrowing: &Narrowing, mut rows: Rows, measured: &Measured) -> Kept {
        let narrowing = narrowing.clone();
        if let Narrowing::Words(text) = &narrowing {
            let query = Query::new(text);
            let Found { rows, ranks } = index.search(&query, &rows);
            return Kept {
                narrowing,
                rows,
                words: Some((query, ranks)),
            };
        }
        index.keep(&mut rows, &narrowing, measured);
        Kept {
            narrowing,
            rows,
            words: None,
        }
    }
}

impl QueryCache {
    /// Turns to these narrowings and to a ranking by these colours; only what is new among them is
    /// looked up.
    pub fn turn_to(&mut self, index: &Index, narrowings: &[Narrowing], targets: &[Target]) {
        let within = narrowings.iter().filter_map(|one| match one {
            Narrowing::Colour {
                targets: own,
                within,
                ..
            } if own == targets => Some(*within),
            _ => None,
        });
        // Where no narrowing by these colours says how near, all are ranked by them.
        let reach = within.reduce(f64::min).unwrap_or(f64::INFINITY);
        index.turn_to(&mut self.measured, targets, reach);
        let mut before = std::mem::take(&mut self.kept);
        for one in narrowings {
            let kept = before.iter().position(|kept| kept.narrowing == *one);
            self.kept.push(match kept {
                Some(at) => before.swap_remove(at),
                None => Kept::look_up(index, one, Rows::all(index.len()), &self.measured),
            });
        }
    }

    /// Looks a row up again of which another record was [put](Index::put) in the index.
    pub fn look_again(&mut self, index: &Index, replaced: &Replaced) {
        let row = replaced.row;
        self.counted.look_again(index, replaced);
        index.measure_again(&mut self.measured, row);
        for kept in &mut self.kept {
            if replaced.others_fit && kept.narrowing.is_of(Facet::Use) {
                let all = Rows::all(index.len());
                *kept = Kept::look_up(index, &kept.narrowing, all, &self.measured);
                continue;
            }
            let own = Rows::only(index.len(), row);
            let own = Kept::look_up(index, &kept.narrowing, own, &self.measured);
            kept.rows.put(row, own.rows.has(row));
            if let (Some((_, kept)), Some((_, own))) = (&mut kept.words, &own.words) {
                kept[row] = own[row];
            }
        }
    }

    /// The rows for which every narrowing holds, the one at `but` left aside.
    pub fn left(&self, index: &Index, but: Option<usize>) -> Rows {
        let mut rows = Rows::all(index.len());
        for (at, kept) in self.kept.iter().enumerate() {
            if Some(at) != but {
                rows.keep(&kept.rows);
            }
        }
        rows
    }

    /// The places of the narrowings that do not hold for a row.
    pub fn hiding(&self, row: usize) -> Vec<usize> {
        let kept = self.kept.iter().enumerate();
        let hides = kept.filter(|(_, kept)| !kept.rows.has(row));
        hides.map(|(at, _)| at).collect()
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
        let drops = (0..self.kept.len()).map(|drop| Mend {
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
        index.ranked_by(rows, &self.sorting(index, rows, ranking), places)
    }

    /// The place of a row among `rows` under the ranking; `None` where it is not among them.
    pub fn place_of(
        &self,
        index: &Index,
        rows: &Rows,
        ranking: &Ranking,
        row: usize,
    ) -> Option<usize> {
        rows.has(row)
            .then(|| index.place_of(rows, &self.sorting(index, rows, ranking), row))
    }

    /// The ranking with what it looks up in a row.
    fn sorting<'a>(&'a self, index: &'a Index, rows: &Rows, ranking: &'a Ranking) -> Sorting<'a> {
        let words = ranking.words.as_ref().filter(|_| ranking.by == By::Name);
        let found = words.map(|words| {
            let mut kept = self.kept.iter().filter_map(|kept| kept.words.as_ref());
            match kept.find(|(query, _)| query == words) {
                Some((_, ranks)) => Cow::Borrowed(ranks.as_slice()),
                None => Cow::Owned(index.search(words, rows).ranks),
            }
        });
        Sorting {
            ranking,
            distances: index.measured(&self.measured),
            found,
        }
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
