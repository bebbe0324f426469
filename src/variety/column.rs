//! A facet of a whole list as a column: the values that there are, and those of each row.

use hashbrown::HashMap;

use super::bits::Rows;
use super::facet::{Facet, UNKNOWN, Value};
use super::uses::Uses;
use crate::form::RuleSet;

/// The column of one facet.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// Those that are listed in any case, then the others that rows have in the order of the alphabet,
    /// then that it is unknown, where it can be.
    values: Vec<String>,
    /// How many are listed in any case.
    fixed: usize,
    /// Where each row's values begin in `of`, and where the last one's end.
    starts: Vec<u32>,
    of: Vec<u32>,
    /// Of a facet of which a row has many values, and the same as many others: every set of values once.
    /// A row then has one, by its place here. Empty for other facets.
    sets: Vec<Vec<u32>>,
    /// How many rows have each value.
    totals: Vec<usize>,
}

/// Builds one facet's column row by row.
pub(super) struct ColumnBuilder {
    facet: Facet,
    column: Column,
    by_value: HashMap<String, u32>,
    by_set: HashMap<Vec<u32>, u32>,
    /// The value of a row that has none.
    unknown: Option<u32>,
}

impl ColumnBuilder {
    pub(super) fn new(facet: Facet, rules: &RuleSet, uses: &Uses) -> ColumnBuilder {
        let mut values = facet.fixed_values(rules, uses);
        let fixed = values.len();
        // A variety that fits no use is not unknown, and a mark is there or not.
        let unknown = (!matches!(facet, Facet::Use | Facet::Shortlist)).then_some(fixed);
        values.extend(unknown.map(|_| UNKNOWN.to_string()));
        let by_value = values.iter().cloned().zip(0..).collect();
        let column = Column {
            values,
            fixed,
            starts: vec![0],
            of: Vec::new(),
            sets: Vec::new(),
            totals: Vec::new(),
        };
        ColumnBuilder {
            facet,
            column,
            by_value,
            by_set: HashMap::new(),
            unknown: unknown.map(|at| at as u32),
        }
    }

    /// Adds a row; `give` hands over its values.
    pub(super) fn push(&mut self, give: impl FnOnce(Facet, &mut dyn FnMut(Value<'_>))) {
        let (column, by_value) = (&mut self.column, &mut self.by_value);
        let start = column.of.len();
        give(self.facet, &mut |value| {
            let id = match value {
                Value::Fixed(at) => at as u32,
                Value::Word(word) => by_value.get(word).copied().unwrap_or_else(|| {
                    let id = column.values.len() as u32;
                    column.values.push(word.to_string());
                    by_value.insert(word.to_string(), id);
                    id
                }),
            };
            if !column.of[start..].contains(&id) {
                column.of.push(id);
            }
        });
        if column.of.len() == start {
            column.of.extend(self.unknown);
        }
        if self.facet.has_sets() {
            let own: Vec<u32> = column.of.drain(start..).collect();
            let next = column.sets.len() as u32;
            let at = *self.by_set.entry(own).or_insert_with_key(|own| {
                column.sets.push(own.clone());
                next
            });
            column.of.push(at);
        }
        column.starts.push(column.of.len() as u32);
    }

    /// The column; values that are not fixed are put in the order of the alphabet.
    pub(super) fn finish(self) -> Column {
        let mut column = self.column;
        let fixed = column.fixed;
        let mut order: Vec<usize> = (fixed..column.values.len()).collect();
        order.sort_by_key(|at| (column.values[*at] == UNKNOWN, column.values[*at].clone()));
        let mut moved: Vec<u32> = (0..column.values.len() as u32).collect();
        for (to, from) in order.iter().enumerate() {
            moved[*from] = (fixed + to) as u32;
        }
        let sorted = order
            .iter()
            .map(|at| column.values[*at].clone())
            .collect::<Vec<_>>();
        column.values.truncate(fixed);
        column.values.extend(sorted);
        // A facet with sets has no values but the fixed ones, which stay.
        if column.sets.is_empty() {
            let all = column.of.iter_mut();
            all.for_each(|id| *id = moved[*id as usize]);
        }
        let rows = 0..column.starts.len() - 1;
        let mut totals = vec![0; column.values.len()];
        rows.for_each(|row| { column.of(row).iter() }.for_each(|id| totals[*id as usize] += 1));
        column.totals = totals;
        column
    }
}

impl Column {
    /// The row's values, by their place among [`values`](Column::values).
    pub(super) fn of(&self, row: usize) -> &[u32] {
        let own = &self.of[self.starts[row] as usize..self.starts[row + 1] as usize];
        match own {
            [set] if !self.sets.is_empty() => &self.sets[*set as usize],
            own => own,
        }
    }

    /// Gives a row other values; the column is then as if it had been built with them. Answers whether
    /// a value came or went, by which others have another place.
    pub(super) fn put(&mut self, row: usize, give: impl FnOnce(&mut dyn FnMut(Value<'_>))) -> bool {
        let mut came = false;
        let mut own: Vec<u32> = Vec::new();
        give(&mut |value| {
            let id = match value {
                Value::Fixed(at) => at as u32,
                Value::Word(word) => match self.values.iter().position(|one| one == word) {
                    Some(at) => at as u32,
                    None => {
                        came = true;
                        let at = self.insert(word);
                        own.iter_mut().for_each(|id| *id += u32::from(*id >= at));
                        at
                    }
                },
            };
            if !own.contains(&id) {
                own.push(id);
            }
        });
        if own.is_empty() && self.values.last().is_some_and(|last| last == UNKNOWN) {
            own.push(self.values.len() as u32 - 1);
        }
        let (start, end) = (self.starts[row] as usize, self.starts[row + 1] as usize);
        let before: Vec<u32> = self.of(row).to_vec();
        if before == own {
            return came;
        }
        before.iter().for_each(|id| self.totals[*id as usize] -= 1);
        own.iter().for_each(|id| self.totals[*id as usize] += 1);
        if !self.sets.is_empty() {
            self.of[start] = self.set(own);
            return came;
        }
        let (fewer, more) = (before.len() as u32, own.len() as u32);
        self.of.splice(start..end, own);
        if fewer != more {
            let after = self.starts[row + 1..].iter_mut();
            after.for_each(|start| *start = *start - fewer + more);
        }
        self.drop_unused(&before) || came
    }

    /// The place of a set of values.
    fn set(&mut self, own: Vec<u32>) -> u32 {
        let known = self.sets.iter().position(|set| *set == own);
        let at = known.unwrap_or_else(|| {
            self.sets.push(own);
            self.sets.len() - 1
        });
        at as u32
    }

    /// Puts a value that is not fixed in its place in the order of the alphabet.
    fn insert(&mut self, word: &str) -> u32 {
        let others = &self.values[self.fixed..];
        let at = self.fixed + others.partition_point(|one| one != UNKNOWN && one.as_str() < word);
        self.values.insert(at, word.to_string());
        self.totals.insert(at, 0);
        let at = at as u32;
        self.of
            .iter_mut()
            .for_each(|id| *id += u32::from(*id >= at));
        at
    }

    /// Drops those of these values that are not fixed and that no row has any more; answers whether
    /// any was.
    fn drop_unused(&mut self, values: &[u32]) -> bool {
        let before = self.values.len();
        let mut values = values.to_vec();
        values.sort_unstable_by(|a, b| b.cmp(a));
        for id in values {
            let at = id as usize;
            if at >= self.fixed && self.totals[at] == 0 && self.values[at] != UNKNOWN {
                self.values.remove(at);
                self.totals.remove(at);
                self.of
                    .iter_mut()
                    .for_each(|own| *own -= u32::from(*own > id));
            }
        }
        self.values.len() < before
    }

    /// Keeps the rows that have any of the values.
    pub(super) fn keep(&self, rows: &mut Rows, values: &[String]) {
        let picked: Vec<bool> = self
            .values
            .iter()
            .map(|value| values.contains(value))
            .collect();
        rows.retain(|row| self.of(row).iter().any(|id| picked[*id as usize]));
    }

    /// How many of `rows` have each value. Where the rows that are not among them are given, as is
    /// wise where these are fewer, those are counted and taken from the totals.
    pub(super) fn counts(&self, rows: &Rows, others: Option<&Rows>) -> Vec<(&str, usize)> {
        self.named(&self.count(rows, others))
    }

    /// The same without the names of the values.
    pub(super) fn count(&self, rows: &Rows, others: Option<&Rows>) -> Vec<usize> {
        let mut counts = vec![0_usize; self.values.len()];
        let counted = others.unwrap_or(rows).iter();
        if !self.sets.is_empty() {
            let mut by_set = vec![0_usize; self.sets.len()];
            counted.for_each(|row| by_set[self.of[row] as usize] += 1);
            for (set, count) in self.sets.iter().zip(by_set) {
                set.iter().for_each(|id| counts[*id as usize] += count);
            }
        } else if self.has_one_each() {
            counted.for_each(|row| counts[self.of[row] as usize] += 1);
        } else {
            counted.for_each(|row| {
                let own = self.of(row).iter();
                own.for_each(|id| counts[*id as usize] += 1);
            });
        }
        if others.is_some() {
            let totals = self.totals.iter().zip(&mut counts);
            totals.for_each(|(total, count)| *count = total - *count);
        }
        counts
    }

    /// Counts with the values that they are of.
    pub(super) fn named(&self, counts: &[usize]) -> Vec<(&str, usize)> {
        let values = self.values.iter().map(String::as_str);
        values.zip(counts.iter().copied()).collect()
    }

    /// Whether every row has one value: none has fewer where it can be unknown.
    fn has_one_each(&self) -> bool {
        let never_none = self.values.last().is_some_and(|last| last == UNKNOWN);
        never_none && self.of.len() + 1 == self.starts.len()
    }

    /// How many of all rows have a value, by its place among [`values`](Column::values).
    pub(super) fn total(&self, at: usize) -> usize {
        self.totals.get(at).copied().unwrap_or(0)
    }

    /// The values that can be picked, in the order shown.
    pub(super) fn values(&self) -> &[String] {
        &self.values
    }
}

/// Two are equal where the rows have the same values, in whatever order their sets came.
impl PartialEq for Column {
    fn eq(&self, other: &Column) -> bool {
        let rows = |column: &Column| column.starts.len() - 1;
        self.values == other.values
            && self.totals == other.totals
            && rows(self) == rows(other)
            && (0..rows(self)).all(|row| self.of(row) == other.of(row))
    }
}
