//! What a linear program is made of, and how a solve of it ends.

/// A row, sparse.
#[derive(Debug, Clone, PartialEq, Default)]
pub(in crate::order::solve) struct Row {
    /// Columns, rising, and their coefficients.
    pub(in crate::order::solve) cells: Vec<(usize, f64)>,
    /// The least activity; may be infinite.
    pub(in crate::order::solve) least: f64,
    /// The most activity; may be infinite.
    pub(in crate::order::solve) most: f64,
}

/// How a solve ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::order::solve) enum Ended {
    /// At the optimum.
    Optimal,
    /// No point is within the bounds.
    Infeasible,
    /// The optimum is over the cutoff.
    OverCutoff,
    /// Out of pivots, or the figures went wrong.
    Unsettled,
}
