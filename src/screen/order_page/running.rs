//! A task that is being worked on.

use super::task::Question;

/// A task under way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Running {
    pub(super) id: u64,
    pub(super) question: Option<Question>,
    /// Nodes looked at, to show that it goes on.
    pub(super) nodes: usize,
    pub(super) stopped: bool,
}
