//! The field key: of all orders in which the questions can be asked, one with the fewest expected.
//!
//! Exact: a search over the states that answers can lead to, by branch and bound with each state
//! remembered. Letters that no piece left can tell apart are one branch. A state costs nothing
//! where one goal is left, else one question and what its branches cost.
//!
//! Once asked, a trait tells nothing more, since the pieces left all hold the whole branch: no
//! path asks it twice. That is what bounds a state's cost from below, and what lets a piece's mass
//! be carried along, one factor a question.

mod search;
mod step;

use super::belief::Keyer;
use super::piece::Pieces;
use search::Search;

pub use step::{Branch, Step};

/// After so many states the search takes each state's most promising question unproved.
const MOST_STATES: usize = 1_000_000;

/// A shortest key.
#[derive(Debug, Clone)]
pub struct FieldKey {
    /// Where to begin.
    pub first: Step,
    /// The mean number of questions to the form.
    pub mean: f64,
    /// Whether its leaves are forms; else they are shapes.
    pub by_size: bool,
    /// Whether no key is shorter. The rules of a tangled set can take too long to prove that.
    pub proved: bool,
    /// How many states the search went through.
    pub states: usize,
}

impl Keyer {
    /// The key with the fewest questions on average, over blooms as the keyer weighs them, to the
    /// form where `by_size`, else to the shape. `None` where the rules fall into too many pieces
    /// to be searched, or where they leave blooms that no question tells apart.
    pub fn shortest_key(&self, by_size: bool) -> Option<FieldKey> {
        self.key_within(MOST_STATES, by_size)
    }

    fn key_within(&self, patience: usize, by_size: bool) -> Option<FieldKey> {
        let pieces = Pieces::of(self, by_size)?;
        let mut search = Search::of(&pieces, patience);
        let first = search.first();
        let total = search.mass(&first);
        let cost = search.cost(&first, f64::INFINITY);
        let first = search.step(&first, total)?;
        Some(FieldKey {
            first,
            mean: cost / total,
            by_size,
            proved: search.visited < patience,
            states: search.visited,
        })
    }
}

#[cfg(test)]
mod tests;
