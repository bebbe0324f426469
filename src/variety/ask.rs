//! One look at the list: what is left, in which order, and what could be picked next.

use super::facet::Facet;
use super::index::Index;
use super::narrow::{Left, Mend, Narrowing};
use super::query_cache::QueryCache;
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
        self.ask_next(ask, &mut QueryCache::default())
    }

    /// The same where another question went before, of which much may still hold.
    pub fn ask_next(&self, ask: &Ask, held: &mut QueryCache) -> Reply<'_> {
        held.turn_to(self, &ask.narrowings, &ask.ranking.targets);
        let rows = held.left(self, None);
        let counts = held.counts(self, &rows).iter();
        let left = |(facet, counts): (Facet, &Vec<usize>)| Left {
            facet,
            values: self.columns[facet as usize].named(counts),
        };
        let left = Facet::ALL.into_iter().zip(counts).map(left).collect();
        Reply {
            found: rows.count(),
            ranked: held.ranked(self, &rows, &ask.ranking, 0..ask.top),
            left,
            mend: held.mend(self),
        }
    }
}
