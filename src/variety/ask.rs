//! One look at the list: what is left, in which order, and what could be picked next.

use super::index::Index;
use super::narrow::{Left, Mend, Narrowing};
use super::rank::{Ranked, Ranking};

/// What is asked of the list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ask {
    /// Conditions that all hold; taking the last back is a `pop`.
    pub narrowings: Vec<Narrowing>,
    /// The order.
    pub ranking: Ranking,
    /// How many of the first to give.
    pub top: usize,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Reply<'a> {
    /// How many varieties are left.
    pub found: usize,
    /// The first of them in order.
    pub ranked: Vec<Ranked>,
    /// What each value of each facet would leave.
    pub left: Vec<Left<'a>>,
    /// Where nothing is left: the one narrowing to drop, if one is enough.
    pub mend: Option<Mend>,
}

impl Index {
    /// Narrows, ranks and counts in one go.
    pub fn ask(&self, ask: &Ask) -> Reply<'_> {
        let rows = self.narrowed(&ask.narrowings);
        let found = rows.count();
        Reply {
            found,
            ranked: self.ranked(&rows, &ask.ranking, ask.top),
            left: self.left(&rows),
            mend: if found == 0 {
                self.mend(&ask.narrowings)
            } else {
                None
            },
        }
    }
}
