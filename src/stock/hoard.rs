//! What lies at each place: tubers divided, tubers in store, plants in pots.

use std::collections::BTreeMap;

use crate::measure::Money;
use crate::variety::Text;

/// What lies at one place, and what became of what lay there.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Hoard {
    /// Clumps lifted.
    pub clumps: u64,
    /// Tubers with an eye that came of them.
    pub divided: u64,
    /// Tubers divided and not put in store.
    pub bench: u64,
    /// Tubers in store.
    pub store: u64,
    /// Tubers potted up, and rooted cuttings.
    pub pots: u64,
    /// Lost of all that.
    pub lost: u64,
    /// Given away.
    pub given: u64,
    /// Sold.
    pub sold: u64,
    /// What those brought.
    pub takings: Money,
    /// Planted.
    pub planted: u64,
}

/// A pile that something is taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pile {
    /// Tubers in store, then those divided and not put there.
    Tubers,
    /// Plants in pots.
    Pots,
}

impl Pile {
    /// What goes, is sold or is lost: tubers first.
    pub(super) const GOING: [Pile; 2] = [Pile::Tubers, Pile::Pots];
    /// What is planted: pots first.
    pub(super) const PLANTED: [Pile; 2] = [Pile::Pots, Pile::Tubers];
}

impl Hoard {
    /// Tubers, in store or on the bench.
    pub fn tubers(&self) -> u64 {
        self.bench + self.store
    }

    /// All that is here.
    pub fn here(&self) -> u64 {
        self.tubers() + self.pots
    }

    /// Takes up to so many of a pile, and answers how many.
    fn take(&mut self, pile: Pile, most: u64) -> u64 {
        match pile {
            Pile::Pots => take(&mut self.pots, most),
            Pile::Tubers => {
                let stored = take(&mut self.store, most);
                stored + take(&mut self.bench, most - stored)
            }
        }
    }

    pub(super) fn add(&mut self, other: &Hoard) {
        for (own, other) in [
            (&mut self.clumps, other.clumps),
            (&mut self.divided, other.divided),
            (&mut self.bench, other.bench),
            (&mut self.store, other.store),
            (&mut self.pots, other.pots),
            (&mut self.lost, other.lost),
            (&mut self.given, other.given),
            (&mut self.sold, other.sold),
            (&mut self.planted, other.planted),
        ] {
            *own += other;
        }
        self.takings = sum(self.takings, other.takings);
    }
}

/// The hoards of all places; what lies at no place comes first.
pub(super) type Places = BTreeMap<Option<Text>, Hoard>;

/// So many taken of a pile at a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Taken {
    pub(super) place: Option<Text>,
    pub(super) pile: Pile,
    pub(super) count: u64,
}

/// Takes up to so many, pile by pile; of one place, or of all where none is named.
pub(super) fn taken(
    places: &mut Places,
    from: Option<&Text>,
    piles: &[Pile],
    count: u64,
) -> Vec<Taken> {
    let mut left = count;
    let mut all = Vec::new();
    for pile in piles {
        let own = places.iter_mut();
        let own = own.filter(|(place, _)| from.is_none() || place.as_ref() == from);
        for (place, hoard) in own {
            let count = hoard.take(*pile, left);
            left -= count;
            if count > 0 {
                let (place, pile) = (place.clone(), *pile);
                all.push(Taken { place, pile, count });
            }
        }
    }
    all
}

/// Both amounts together; beyond what can be held it stays at the most.
pub(super) fn sum(one: Money, other: Money) -> Money {
    Money::hundredths(one.in_hundredths().saturating_add(other.in_hundredths()))
}

fn take(from: &mut u64, most: u64) -> u64 {
    let taken = (*from).min(most);
    *from -= taken;
    taken
}
