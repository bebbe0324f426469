//! What is filled in on the Order page.

use crate::order::{Bed, Need, Plan, Terms, Work};
use crate::screen::filling::Filling;

/// The record that is filled in, and its place among those of its kind; `None` of a new one.
#[derive(Debug, Clone)]
pub(super) enum Slip {
    Need(Box<Filling<Need>>, Option<usize>),
    Bed(Box<Filling<Bed>>, Option<usize>),
    Terms(Box<Filling<Terms>>, Option<usize>),
    Work(Box<Filling<Work>>, Option<usize>),
    Season(Box<Filling<Plan>>),
}

impl Slip {
    /// Says that leaving the program would lose what is typed; `false` where nothing is.
    pub(super) fn warn(&mut self) -> bool {
        match self {
            Slip::Need(slip, _) => slip.warn(),
            Slip::Work(slip, _) => slip.warn(),
            Slip::Bed(slip, _) => slip.warn(),
            Slip::Terms(slip, _) => slip.warn(),
            Slip::Season(slip) => slip.warn(),
        }
    }
}

/// What can be added to a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A need.
    Need,
    /// An event.
    Event,
    /// A round.
    Round,
    /// A bed.
    Bed,
    /// A supplier's terms.
    Terms,
}
