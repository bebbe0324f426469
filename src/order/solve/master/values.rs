//! The values that a column may have: whole numbers; the column of what fills an order up only the sums
//! that packs come to. Every bound that is put on a column is such a value.

use super::Master;
use crate::order::model::Choice;

/// How far from such a value a column may be.
const AWAY: f64 = 1e-6;

impl Master<'_> {
    /// The value that a column has all but exactly, if it may have it.
    pub(in crate::order::solve) fn exact(&self, column: usize, value: f64) -> Option<f64> {
        let near = value.round();
        let sum = |sums: &[u64]| near >= 0.0 && sums.binary_search(&(near as u64)).is_ok();
        let may = self.sums(column).is_none_or(sum);
        (may && (value - near).abs() <= AWAY).then_some(near)
    }

    /// The greatest value that a column may have at or below.
    pub(in crate::order::solve) fn below(&self, column: usize, value: f64) -> f64 {
        let sum = |sums: &[u64]| {
            let over = sums.partition_point(|sum| *sum as f64 <= value);
            sums.get(over.checked_sub(1)?).map(|sum| *sum as f64)
        };
        self.sums(column).and_then(sum).unwrap_or(value.floor())
    }

    /// The least value that a column may have at or above.
    pub(in crate::order::solve) fn above(&self, column: usize, value: f64) -> f64 {
        let sum = |sums: &[u64]| {
            let at = sums.partition_point(|sum| (*sum as f64) < value);
            sums.get(at).map(|sum| *sum as f64)
        };
        self.sums(column).and_then(sum).unwrap_or(value.ceil())
    }

    /// Whether an answer has only sums that packs come to.
    pub(super) fn comes_to_sums(&self, choice: &Choice) -> bool {
        let fills = &self.reduced.fills;
        let packs = &choice.packs[self.model.offers.len() - fills.len()..];
        let reached = |(fill, packs): (&crate::order::solve::reduce::Fill, &u64)| {
            fill.sums.binary_search(packs).is_ok()
        };
        fills.iter().zip(packs).all(reached)
    }

    /// The sums that a column may have, where it may not have every whole number.
    pub(super) fn sums(&self, column: usize) -> Option<&[u64]> {
        let fills = &self.reduced.fills;
        let offers = self.model.offers.len();
        let at = column.checked_sub(offers - fills.len())?;
        fills.get(at).map(|fill| &fill.sums[..])
    }
}
