//! How many of some rows have each value of each facet, kept from one question to the next: where few
//! rows came or went, or one has another record, only they are counted.

use super::bits::Rows;
use super::index::{Index, Replaced};

/// What was counted last, and of which rows.
#[derive(Debug, Clone, Default)]
pub(super) struct Counted {
    rows: Rows,
    /// By facet, then value; empty where nothing is counted.
    by_facet: Vec<Vec<usize>>,
}

impl Counted {
    /// The counts of these rows.
    pub(super) fn of(&mut self, index: &Index, rows: &Rows) -> &[Vec<usize>] {
        let (gone, come) = (self.rows.without(rows), rows.without(&self.rows));
        let (changes, count) = (gone.count() + come.count(), rows.count());
        if self.by_facet.is_empty() || changes >= count.min(index.len() - count) {
            let left = index.left(rows).into_iter();
            let counts = left.map(|left| left.values.iter().map(|value| value.1).collect());
            self.by_facet = counts.collect();
        } else {
            for (column, counts) in index.columns.iter().zip(&mut self.by_facet) {
                let values = |row: usize| column.of(row).iter().map(|value| *value as usize);
                gone.iter()
                    .flat_map(values)
                    .for_each(|value| counts[value] -= 1);
                come.iter()
                    .flat_map(values)
                    .for_each(|value| counts[value] += 1);
            }
        }
        self.rows = rows.clone();
        &self.by_facet
    }

    /// Counts a row again that has another record now.
    pub(super) fn look_again(&mut self, index: &Index, replaced: &Replaced) {
        let Some(before) = &replaced.values else {
            self.by_facet.clear();
            return;
        };
        if !self.rows.has(replaced.row) {
            return;
        }
        let columns = index.columns.iter().zip(before);
        for ((column, before), counts) in columns.zip(&mut self.by_facet) {
            for value in before {
                counts[*value as usize] -= 1;
            }
            for value in column.of(replaced.row) {
                counts[*value as usize] += 1;
            }
        }
    }
}
