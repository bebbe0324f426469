//! Where a need comes from that was worked out of an event or a round.

use jiff::civil::Date;

use crate::variety::Text;

/// The event or the round that a need is a part of.
#[derive(Debug, Clone, PartialEq)]
pub struct FromWork {
    /// Its place among the plan's work.
    pub work: usize,
    /// What the stems are in the pieces: `focal`; with their colours where a piece splits them.
    pub part: Text,
    /// The first day on which they are cut.
    pub cut: Date,
    /// So many days before they are wanted.
    pub before: u8,
    /// The vase life, in days, for which that is less than was asked; `None` where it is as asked.
    pub lasts: Option<f64>,
}
