//! How many of some rows have each value of each facet, kept from one question to the next: where few
//! rows came or went, or one has another record, only they are counted.

use super::bits::Rows;
use super::index::{Index, Replaced};
use crate::cores::all_in_spans;

/// Rows that are counted before a thread has started.
const A_THREAD: usize = 2_000;

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
        let fewer = count.min(index.len() - count);
        let anew = self.by_facet.is_empty() || changes >= fewer;
        let others = (2 * count > index.len()).then(|| rows.others());
        let of_column = |at: usize| {
            let column = &index.columns[at];
            if anew {
                return column.count(rows, others.as_ref());
            }
            let [gone, come] = [&gone, &come].map(|rows| column.count(rows, None));
            let both = gone.into_iter().zip(come).zip(&self.by_facet[at]);
            both.map(|((gone, come), before)| before + come - gone)
                .collect()
        };
        let counted = if anew { fewer } else { changes };
        let columns = index.columns.len();
        let least = if counted < A_THREAD { columns } else { 1 };
        self.by_facet = all_in_spans(columns, least, |span| span.map(of_column).collect());
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
