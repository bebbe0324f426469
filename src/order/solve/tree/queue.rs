//! The nodes not yet looked at, in the order in which they are taken up.

use std::cmp::Ordering;

/// A part of the search: bounds in which it differs from its parent.
pub(super) struct Node {
    pub(super) parent: Option<usize>,
    /// Column, whether it is the upper bound, the bound.
    pub(super) changes: Vec<(u32, bool, f64)>,
}

/// A node not yet looked at.
pub(super) struct Open {
    pub(super) bound: f64,
    pub(super) depth: usize,
    pub(super) node: usize,
}

impl Eq for Open {}

impl PartialEq for Open {
    fn eq(&self, other: &Open) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Open) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// The greatest is looked at first: of the least bound, then the deepest, then the oldest.
impl Ord for Open {
    fn cmp(&self, other: &Open) -> Ordering {
        (other.bound.total_cmp(&self.bound))
            .then(self.depth.cmp(&other.depth))
            .then(other.node.cmp(&self.node))
    }
}
