//! How a search is going, and who may end it.

/// How a search is going.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Progress {
    /// The value of the best answer found.
    pub best: Option<f64>,
    /// What is proved of the optimum: it is no lower.
    pub bound: f64,
    /// Nodes looked at.
    pub nodes: usize,
}

/// Whether a search is to end, asked at every node.
pub type Stop<'a> = &'a mut dyn FnMut(Progress) -> bool;
