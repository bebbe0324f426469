//! A seedling decided on, as the effects of parents are reckoned from it.

/// A seedling that was decided on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Decided {
    /// The places of its parents among all, in either order; `None`: not noted, or open pollen.
    /// Twice the same where it is selfed.
    pub parents: [Option<usize>; 2],
    /// Whether it stays.
    pub stays: bool,
}
