//! How well a word, or a whole query, is found.

use std::ops::Add;

/// How a word of a query is found in a name, or all words together: the least is the best.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Rank(u16);

/// The steps between letters in order that stand close together and far apart.
const STEPS: u16 = 8;

impl Rank {
    /// It is one of the words.
    pub const WHOLE: Rank = Rank(0);
    /// One of the words begins with it.
    pub const BEGINS: Rank = Rank(1);
    /// It is the first letters of the words, in order.
    pub const INITIALS: Rank = Rank(2);
    /// It is a part of one of the words.
    pub const WITHIN: Rank = Rank(3);
    /// One slip of the keyboard was forgiven.
    ///
    /// Further than any words of a query that are found without one.
    pub const SLIP: Rank = Rank(1000);

    /// Its letters stand in order with others between, so far apart (from 0, near, to 1).
    pub(super) fn in_order(apart: f64) -> Rank {
        // OK because what is clamped has room in a step.
        let step = (apart.clamp(0.0, 1.0) * f64::from(STEPS)) as u16;
        Rank(4 + step.min(STEPS - 1))
    }

    /// The same where it is found in what is told of a name, and not in the name.
    pub(super) fn told(self) -> Rank {
        Rank(self.0 + 1)
    }

    /// Whether a slip was forgiven in any word.
    fn forgives(self) -> bool {
        self >= Rank::SLIP
    }

    /// As a number to sort by, least first.
    pub fn cost(self) -> f64 {
        self.0.into()
    }
}

/// What was found, in whatever order, without that in which a slip was forgiven where anything is found
/// without one.
pub fn without_needless_slips<T>(mut found: Vec<(Rank, T)>) -> Vec<(Rank, T)> {
    if found.iter().any(|(rank, _)| !rank.forgives()) {
        found.retain(|(rank, _)| !rank.forgives());
    }
    found
}

/// Of two words, both found.
impl Add for Rank {
    type Output = Rank;
    fn add(self, other: Rank) -> Rank {
        Rank(self.0.saturating_add(other.0))
    }
}
