//! Ranking: by fitness, colour, both, price or name; the same order every time.

use std::borrow::Cow;
use std::cmp::{Ordering, Reverse};
use std::ops::Range;

use super::bits::Rows;
use super::index::Index;
use super::shades::Distances;
use crate::colour::Target;
use crate::matching::{Query, Rank};

/// Fitness counts half as much for each of these steps (CIEDE2000) away from the colour, in the
/// ranking by both. Our own choice: about where a colour stops passing for the one asked for.
const HALVES_EVERY: f64 = 8.0;

/// What to rank by. Equal rows follow in the order of their names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum By {
    /// Name; where words are given, those that they find best come first.
    #[default]
    Name,
    /// Fitness for the use, best first; unknown last.
    Fitness,
    /// Distance from the colour, nearest first; unknown last.
    Colour,
    /// Fitness for the use, halved for each step away from the colour.
    Both,
    /// Price a stem, least first; not offered last.
    Price,
}

/// How to rank.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ranking {
    /// What to rank by. What it needs and is not given counts as equal.
    pub by: By,
    /// The index of the use asked about.
    pub use_at: Option<usize>,
    /// The colours asked about: the nearest of them counts. Empty where none is.
    pub targets: Vec<Target>,
    /// The words asked about.
    pub words: Option<Query>,
}

/// A row in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranked {
    /// Its place in the list.
    pub row: usize,
    /// Fitness for the use asked about, 0 to 1; `None` where unknown or not asked.
    pub fitness: Option<f64>,
    /// CIEDE2000 from the colour asked about; `None` where unknown or not asked.
    pub distance: Option<f64>,
}

/// A ranking with what it looks up of a row.
pub(super) struct Sorting<'a> {
    pub(super) ranking: &'a Ranking,
    /// From the colours asked about.
    pub(super) distances: Distances<'a>,
    /// By row: how well the words asked about find it, where that is sorted by.
    pub(super) found: Option<Cow<'a, [Rank]>>,
}

/// What is sorted by: less is better; names break ties.
#[derive(Debug, Clone, Copy, PartialEq)]
struct SortKey {
    cost: f64,
    name: u32,
    row: u32,
}

impl Index {
    /// The first `top` of `rows` under the ranking.
    pub fn ranked(&self, rows: &Rows, ranking: &Ranking, top: usize) -> Vec<Ranked> {
        let words = ranking.words.as_ref().filter(|_| ranking.by == By::Name);
        let sorting = Sorting {
            ranking,
            distances: self.distances(&ranking.targets),
            found: words.map(|words| Cow::Owned(self.search(words, rows).ranks)),
        };
        self.ranked_by(rows, &sorting, 0..top)
    }

    /// Those of `rows` that are at these places under the ranking.
    pub(super) fn ranked_by(
        &self,
        rows: &Rows,
        sorting: &Sorting<'_>,
        places: Range<usize>,
    ) -> Vec<Ranked> {
        let keys = Keys {
            least: |row| self.sort_key(row, sorting, |between| between.0),
            most: |row| self.sort_key(row, sorting, |between| between.1),
            exact: |row| self.exact_key(row, sorting),
        };
        let asked = at_places(rows.iter(), rows.count(), places, &keys);
        let told = |place: &SortKey| {
            let row = place.row as usize;
            let distance = sorting.distances.of(row);
            Ranked {
                row,
                fitness: (sorting.ranking.use_at).and_then(|use_at| self.fitness(row, use_at)),
                distance: Some(distance).filter(|distance| distance.is_finite()),
            }
        };
        asked.iter().map(told).collect()
    }

    /// How many of `rows` come before `row` under the ranking.
    pub(super) fn place_of(&self, rows: &Rows, sorting: &Sorting<'_>, row: usize) -> usize {
        let own = self.exact_key(row, sorting);
        let comes_before = |row: &usize| {
            self.sort_key(*row, sorting, |between| between.0) < own
                && (self.sort_key(*row, sorting, |between| between.1) < own
                    || self.exact_key(*row, sorting) < own)
        };
        rows.iter().filter(comes_before).count()
    }

    /// What the row is sorted by.
    fn exact_key(&self, row: usize, sorting: &Sorting<'_>) -> SortKey {
        self.key_at(row, sorting, || sorting.distances.of(row))
    }

    /// The same where it is as near or as far as may be: what that is never before, or never after.
    fn sort_key(
        &self,
        row: usize,
        sorting: &Sorting<'_>,
        end: impl Fn((f64, f64)) -> f64,
    ) -> SortKey {
        self.key_at(row, sorting, || end(sorting.distances.between(row)))
    }

    fn key_at(&self, row: usize, sorting: &Sorting<'_>, distance: impl Fn() -> f64) -> SortKey {
        SortKey {
            cost: self.cost(row, sorting, distance),
            name: self.by_name[row],
            row: row as u32,
        }
    }

    /// Never less for a row that is farther.
    fn cost(&self, row: usize, sorting: &Sorting<'_>, distance: impl Fn() -> f64) -> f64 {
        let ranking = sorting.ranking;
        let unfit = || match ranking.use_at {
            None => 0.0,
            Some(use_at) => -self.fitness(row, use_at).unwrap_or(f64::NEG_INFINITY),
        };
        let distance = || match ranking.targets[..] {
            [] => 0.0,
            _ => distance(),
        };
        match ranking.by {
            By::Name => sorting
                .found
                .as_ref()
                .map_or(0.0, |found| found[row].cost()),
            By::Fitness => unfit(),
            By::Colour => distance(),
            By::Both => match unfit() {
                unfit if ranking.use_at.is_none() || unfit.is_infinite() => unfit + distance(),
                unfit => closeness(unfit, distance()),
            },
            By::Price => self.price(row).unwrap_or(f64::INFINITY),
        }
    }
}

/// What rows are sorted by, and between what that lies where it takes measuring.
struct Keys<Least, Most, Exact> {
    least: Least,
    most: Most,
    exact: Exact,
}

/// Those of `count` rows that are at these places once they are in order. Only they are put in order: the
/// rest is before them or after them.
fn at_places<Row: Copy>(
    rows: impl Iterator<Item = Row>,
    count: usize,
    places: Range<usize>,
    keys: &Keys<impl Fn(Row) -> SortKey, impl Fn(Row) -> SortKey, impl Fn(Row) -> SortKey>,
) -> Vec<SortKey> {
    let end = places.end.min(count);
    let start = places.start.min(end);
    let (from_first, from_last) = (end, count - start);
    let mut asked = if from_first.min(from_last) > count / 4 {
        let mut all: Vec<SortKey> = rows.map(&keys.exact).collect();
        if end < all.len() {
            all.select_nth_unstable(end);
        }
        if start < end {
            all[..end].select_nth_unstable(start);
        }
        all[start..end].to_vec()
    } else if from_first <= from_last {
        let mut first = least(rows, from_first, &keys.least, &keys.exact);
        first.sort_unstable();
        first.split_off(start.min(first.len()))
    } else {
        let exact = |row| Reverse((keys.exact)(row));
        let mut last = least(rows, from_last, |row| Reverse((keys.most)(row)), exact);
        last.sort_unstable();
        last.split_off(count - end)
            .into_iter()
            .map(|one| one.0)
            .collect()
    };
    asked.sort_unstable();
    asked
}

/// The least `count`, in no order. Most are not looked at a second time: a long list is passed once, and
/// only what may be less than the least so far is measured and kept.
fn least<Row: Copy, T: Ord + Copy>(
    rows: impl Iterator<Item = Row>,
    count: usize,
    never_below: impl Fn(Row) -> T,
    exact: impl Fn(Row) -> T,
) -> Vec<T> {
    let Some(last) = count.checked_sub(1) else {
        return Vec::new();
    };
    let most = 2 * count + 64;
    let mut kept: Vec<T> = Vec::with_capacity(most);
    let mut bound = None;
    for row in rows {
        if bound.is_some_and(|bound| never_below(row) >= bound) {
            continue;
        }
        let one = exact(row);
        if bound.is_some_and(|bound| one >= bound) {
            continue;
        }
        kept.push(one);
        if kept.len() == most {
            bound = Some(*kept.select_nth_unstable(last).1);
            kept.truncate(count);
        }
    }
    if kept.len() > count {
        kept.select_nth_unstable(last);
        kept.truncate(count);
    }
    kept
}

/// What a fitness counts so far (CIEDE2000) from the colour asked for, in the ranking by both.
pub fn closeness(fitness: f64, distance: f64) -> f64 {
    fitness * (-distance / HALVES_EVERY).exp2()
}

impl Eq for SortKey {}

impl PartialOrd for SortKey {
    fn partial_cmp(&self, other: &SortKey) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for SortKey {
    fn cmp(&self, other: &SortKey) -> Ordering {
        self.cost
            .total_cmp(&other.cost)
            .then(self.name.cmp(&other.name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Wherever the places are, they are those of the whole list put in order, however little is known
        /// of a row before it is measured.
        #[test]
        fn places_are_those_of_the_whole_in_order(costs in prop::collection::vec((0_u8..40, 0_u8..9, 0_u8..9), 0..900), start in 0_usize..900, length in 0_usize..200) {
            let place = |row: usize, off: f64| SortKey {
                cost: f64::from(costs[row].0) + off - 20.0,
                name: (row * 7919 % 1009) as u32,
                row: row as u32,
            };
            let keys = Keys {
                least: |row: usize| place(row, -f64::from(costs[row].1)),
                most: |row: usize| place(row, f64::from(costs[row].2)),
                exact: |row: usize| place(row, 0.0),
            };
            let mut sorted: Vec<SortKey> = (0..costs.len()).map(keys.exact).collect();
            sorted.sort();
            let end = (start + length).min(sorted.len());
            let expected = sorted[start.min(end)..end].to_vec();
            let found = at_places(0..costs.len(), costs.len(), start..start + length, &keys);
            prop_assert_eq!(found, expected);
        }
    }
}
