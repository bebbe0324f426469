//! What is kept of an answer to be shown.

use crate::variety::{Mend, Ranked, Rows};

/// The answer, as far as the page shows it.
#[derive(Debug, Clone, Default)]
pub(super) struct Shown {
    /// What is left, and how many that is.
    pub(super) rows: Rows,
    pub(super) found: usize,
    /// Those about the cursor in order, and the place of the first of them.
    pub(super) ranked: Vec<Ranked>,
    pub(super) first: usize,
    /// By facet, then value: how many picking the value would leave.
    pub(super) left: Vec<Vec<usize>>,
    /// Where nothing is left: the one narrowing to drop.
    pub(super) mend: Option<Mend>,
}
