//! What an order promises a need, and what it would take to keep it.

use serde::{Deserialize, Serialize};

use crate::variety::Money;

/// What an order promises a need.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Promise {
    /// Place of the need.
    pub need: usize,
    /// How sure it is to be, 0 to 1.
    pub sure: f64,
    /// The chance that it has all its stems in all of its weeks.
    pub chance: f64,
    /// No order has a greater chance, whatever it costs: its frosts and first cuts, and what the beds hold.
    pub ceiling: f64,
}

impl Promise {
    /// Whether it is as sure as was asked.
    pub fn is_met(&self) -> bool {
        self.chance >= self.sure
    }

    /// Whether no order could be as sure.
    pub fn is_beyond(&self) -> bool {
        self.ceiling < self.sure
    }

    /// What the order is to reach: what was asked; of what cannot be so sure, the share asked of the seasons
    /// in which it can be met.
    pub(super) fn aim(&self) -> f64 {
        match self.is_beyond() {
            true => self.sure * self.ceiling,
            false => self.sure,
        }
    }

    /// Whether it is as sure as it can be asked to be.
    pub fn is_as_aimed(&self) -> bool {
        self.chance >= self.aim()
    }
}

/// What it would take to be as sure as asked, where money or beds are too small for that.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Takes {
    /// The least cost that was found.
    pub cost: Money,
    /// Places in the beds.
    pub places: u64,
}
