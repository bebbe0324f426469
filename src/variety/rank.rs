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
        let keys = rows.iter().map(|row| self.sort_key(row, sorting));
        let asked = at_places(keys, rows.count(), places);
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
        let own = self.sort_key(row, sorting);
        let keys = rows.iter().map(|row| self.sort_key(row, sorting));
        keys.filter(|key| *key < own).count()
    }

    fn sort_key(&self, row: usize, sorting: &Sorting<'_>) -> SortKey {
        SortKey {
            cost: self.cost(row, sorting),
            name: self.by_name[row],
            row: row as u32,
        }
    }

    fn cost(&self, row: usize, sorting: &Sorting<'_>) -> f64 {
        let ranking = sorting.ranking;
        let unfit = || match ranking.use_at {
            None => 0.0,
            Some(use_at) => -self.fitness(row, use_at).unwrap_or(f64::NEG_INFINITY),
        };
        let distance = || match ranking.targets[..] {
            [] => 0.0,
            _ => sorting.distances.of(row),
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

/// Those of `count` that are at these places once they are in order. Only they are put in order: the
/// rest is before them or after them.
fn at_places(
    all: impl Iterator<Item = SortKey>,
    count: usize,
    places: Range<usize>,
) -> Vec<SortKey> {
    let end = places.end.min(count);
    let start = places.start.min(end);
    let (from_first, from_last) = (end, count - start);
    let mut asked = if from_first.min(from_last) > count / 4 {
        let mut all: Vec<SortKey> = all.collect();
        if end < all.len() {
            all.select_nth_unstable(end);
        }
        if start < end {
            all[..end].select_nth_unstable(start);
        }
        all[start..end].to_vec()
    } else if from_first <= from_last {
        let mut first = least(all, from_first);
        first.sort_unstable();
        first.split_off(start.min(first.len()))
    } else {
        let mut last = least(all.map(Reverse), from_last);
        last.sort_unstable();
        last.split_off(count - end)
            .into_iter()
            .map(|one| one.0)
            .collect()
    };
    asked.sort_unstable();
    asked
}

/// The least `count`, in no order. Most are not looked at a second time: a long list is passed once,
/// and only what is less than the least so far is kept.
fn least<T: Ord + Copy>(all: impl Iterator<Item = T>, count: usize) -> Vec<T> {
    let Some(last) = count.checked_sub(1) else {
        return Vec::new();
    };
    let most = 2 * count + 64;
    let mut kept: Vec<T> = Vec::with_capacity(most);
    let mut bound = None;
    for one in all {
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
        /// Wherever the places are, they are those of the whole list put in order.
        #[test]
        fn places_are_those_of_the_whole_in_order(costs in prop::collection::vec(0_u8..40, 0..900), start in 0_usize..900, length in 0_usize..200) {
            let place = |(row, cost): (usize, &u8)| SortKey {
                cost: f64::from(*cost) - 20.0,
                name: (row * 7919 % 1009) as u32,
                row: row as u32,
            };
            let all = || costs.iter().enumerate().map(place);
            let mut sorted: Vec<SortKey> = all().collect();
            sorted.sort();
            let end = (start + length).min(sorted.len());
            let expected = sorted[start.min(end)..end].to_vec();
            prop_assert_eq!(at_places(all(), costs.len(), start..start + length), expected);
        }
    }
}
