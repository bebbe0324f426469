//! What is filled in on the Order page.

use crate::order::{Bed, Need, Plan, Terms};
use crate::screen::filling::Filling;

/// The record that is filled in, and its place among those of its kind; `None` of a new one.
#[derive(Debug, Clone)]
pub(super) enum Slip {
    Need(Filling<Need>, Option<usize>),
    Bed(Filling<Bed>, Option<usize>),
    Terms(Filling<Terms>, Option<usize>),
    Season(Box<Filling<Plan>>),
}

/// What can be added to a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A need.
    Need,
    /// A bed.
    Bed,
    /// A supplier's terms.
    Terms,
}
