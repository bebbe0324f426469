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

    /// The chance in seasons of a hundred. What is nearly as sure as asked is rounded to less, never to as much.
    pub fn in_hundred(&self) -> f64 {
        let chance = self.chance * 100.0;
        match self.is_met() {
            true => chance.round(),
            false => chance.floor(),
        }
    }

    /// The chance, beside what was asked where it is less: `85 %`, `62 of 80 %`.
    pub fn told(&self) -> String {
        match self.is_met() {
            true => format!("{} %", self.in_hundred()),
            false => format!("{} of {:.0} %", self.in_hundred(), self.sure * 100.0),
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_nearly_as_sure_as_asked_is_never_told_as_sure() {
        let told = |chance: f64| {
            let promise = Promise {
                need: 0,
                sure: 0.8,
                chance,
                ceiling: 1.0,
            };
            promise.told()
        };
        assert_eq!(told(0.7999), "79 of 80 %");
        assert_eq!(told(0.8), "80 %");
        assert_eq!(told(0.8488), "85 %");
        assert_eq!(told(0.625), "62 of 80 %");
    }
}
