//! The space of all complete observations, cut into atoms, and blocks of it.
//!
//! An ordered trait is cut at every number that any rule names, so that no rule can tell two
//! values of one atom apart: the space is finite, and sets of atoms are bit masks. A block is a
//! product of one mask a trait. Where a trait does not apply (`collar` on a closed centre) its
//! value is the atom `Absent`, so a complete observation has exactly one atom in every trait.

use crate::measure::Exact;

/// The most traits that a table may have; a block has one mask for each.
pub const MOST_TRAITS: usize = 16;
/// The most atoms of one trait: the bits of a mask.
pub const MOST_ATOMS: usize = 64;

/// A span of numbers, each end included or not. Empty spans are never built.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// Least value.
    pub low: Exact,
    /// Greatest value.
    pub high: Exact,
    /// Whether `low` itself belongs.
    pub low_in: bool,
    /// Whether `high` itself belongs.
    pub high_in: bool,
}

impl Span {
    /// From `low` to `high`, both included.
    pub fn closed(low: Exact, high: Exact) -> Span {
        Span {
            low,
            high,
            low_in: true,
            high_in: true,
        }
    }

    /// The one value.
    pub fn point(value: Exact) -> Span {
        Span::closed(value, value)
    }

    /// Where both spans are, or `None`.
    pub fn meet(self, other: Span) -> Option<Span> {
        let (low, low_in) = match self.low.cmp(&other.low) {
            std::cmp::Ordering::Less => (other.low, other.low_in),
            std::cmp::Ordering::Greater => (self.low, self.low_in),
            std::cmp::Ordering::Equal => (self.low, self.low_in && other.low_in),
        };
        let (high, high_in) = match self.high.cmp(&other.high) {
            std::cmp::Ordering::Less => (self.high, self.high_in),
            std::cmp::Ordering::Greater => (other.high, other.high_in),
            std::cmp::Ordering::Equal => (self.high, self.high_in && other.high_in),
        };
        let some = low < high || (low == high && low_in && high_in);
        some.then_some(Span {
            low,
            high,
            low_in,
            high_in,
        })
    }

    /// Whether `value` belongs.
    pub fn holds(self, value: Exact) -> bool {
        self.meet(Span::point(value)).is_some()
    }

    /// The whole numbers of the span as a closed span, or `None` where it has none.
    pub fn wholes(self) -> Option<Span> {
        let one = Exact::whole(1);
        let mut low = self.low.ceil();
        if low == self.low && !self.low_in {
            low = low + one;
        }
        let mut high = self.high.floor();
        if high == self.high && !self.high_in {
            high = high - one;
        }
        (low <= high).then_some(Span::closed(low, high))
    }

    /// A value inside: an end that belongs, else the middle.
    pub fn sample(self) -> Exact {
        if self.low_in {
            self.low
        } else if self.high_in {
            self.high
        } else {
            (self.low + self.high) / Exact::whole(2)
        }
    }
}

/// What no rule of the set can tell apart in one trait.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Atom {
    /// The state with this index in the trait's list.
    State(usize),
    /// Any number of the span.
    Span(Span),
    /// The trait does not apply.
    Absent,
}

/// One trait's atoms in order; `Absent` last where there is one.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    atoms: Vec<Atom>,
}

impl Scale {
    /// `states` states, and `Absent` where the trait does not always apply.
    pub fn of_states(states: usize, may_be_absent: bool) -> Scale {
        Scale::closed_by((0..states).map(Atom::State).collect(), may_be_absent)
    }

    /// The numbers of `domain`, cut at `cuts`; only whole numbers where `whole`.
    pub fn of_numbers(domain: Span, cuts: &[Exact], whole: bool, may_be_absent: bool) -> Scale {
        let mut ends: Vec<Exact> = cuts.iter().copied().filter(|c| domain.holds(*c)).collect();
        ends.push(domain.low);
        ends.push(domain.high);
        ends.sort();
        ends.dedup();
        let between = |pair: &[Exact]| Span {
            low: pair[0],
            high: pair[1],
            low_in: false,
            high_in: false,
        };
        let mut spans = vec![Span::point(ends[0])];
        for pair in ends.windows(2) {
            spans.push(between(pair));
            spans.push(Span::point(pair[1]));
        }
        let atoms = spans
            .into_iter()
            .filter_map(|span| span.meet(domain))
            .filter_map(|span| if whole { span.wholes() } else { Some(span) })
            .map(Atom::Span)
            .collect();
        Scale::closed_by(atoms, may_be_absent)
    }

    fn closed_by(mut atoms: Vec<Atom>, may_be_absent: bool) -> Scale {
        if may_be_absent {
            atoms.push(Atom::Absent);
        }
        Scale { atoms }
    }

    /// The atoms in order.
    pub fn atoms(&self) -> &[Atom] {
        &self.atoms
    }

    /// The mask of every atom.
    pub fn full(&self) -> u64 {
        ones(self.atoms.len())
    }

    /// The mask of `Absent`: 0 where the trait always applies.
    pub fn absent(&self) -> u64 {
        self.mask_where(|atom| matches!(atom, Atom::Absent))
    }

    /// The mask of the atoms that share a value with `span`.
    pub fn touched(&self, span: Span) -> u64 {
        // Spans stand in order: what lies apart is left out before any is met.
        let below = |atom: &Atom| matches!(atom, Atom::Span(own) if own.high < span.low);
        let first = self.atoms.partition_point(below);
        let reached = |atom: &&Atom| matches!(atom, Atom::Span(own) if own.low <= span.high);
        let near = self.atoms[first..].iter().take_while(reached).enumerate();
        let met =
            near.filter(|(_, atom)| matches!(atom, Atom::Span(own) if own.meet(span).is_some()));
        met.map(|(at, _)| 1_u64 << (first + at)).sum()
    }

    /// The mask of the states in `states`.
    pub fn states(&self, states: u64) -> u64 {
        self.mask_where(|atom| matches!(atom, Atom::State(index) if states >> index & 1 == 1))
    }

    fn mask_where(&self, wanted: impl Fn(&Atom) -> bool) -> u64 {
        let bit = |(index, atom)| if wanted(atom) { 1_u64 << index } else { 0 };
        self.atoms.iter().enumerate().map(bit).sum()
    }
}

/// A mask of the first `count` bits.
fn ones(count: usize) -> u64 {
    u64::MAX.checked_shr(64 - count as u32).unwrap_or(0)
}

/// The indices of a mask's bits, rising.
pub fn bits(mask: u64) -> impl Iterator<Item = usize> {
    let some = |mask: u64| (mask != 0).then_some(mask);
    // Each step clears the lowest bit.
    let masks = std::iter::successors(some(mask), move |mask| some(mask & (mask - 1)));
    masks.map(|mask| mask.trailing_zeros() as usize)
}

/// A product of one set of atoms a trait. Traits that the table lacks have the mask 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Block(pub [u64; MOST_TRAITS]);

impl Block {
    /// Every combination of the scales' atoms.
    pub fn whole(scales: &[Scale]) -> Block {
        let mut masks = [1; MOST_TRAITS];
        for (mask, scale) in masks.iter_mut().zip(scales) {
            *mask = scale.full();
        }
        Block(masks)
    }

    /// Where both blocks are, or `None`.
    pub fn meet(&self, other: &Block) -> Option<Block> {
        let mut masks = self.0;
        for (mask, other) in masks.iter_mut().zip(other.0) {
            *mask &= other;
            if *mask == 0 {
                return None;
            }
        }
        Some(Block(masks))
    }

    /// Whether the blocks share an observation.
    pub fn meets(&self, other: &Block) -> bool {
        self.0
            .iter()
            .zip(other.0)
            .all(|(mask, other)| mask & other != 0)
    }

    /// The block with one trait narrowed to `mask`, or `None` where nothing is left.
    pub fn narrowed(&self, index: usize, mask: u64) -> Option<Block> {
        let mut narrowed = *self;
        narrowed.0[index] &= mask;
        (narrowed.0[index] != 0).then_some(narrowed)
    }

    /// How many complete observations (a product of atoms) it holds.
    pub fn volume(&self) -> u128 {
        self.0
            .iter()
            .map(|mask| u128::from(mask.count_ones()))
            .product()
    }

    /// The one observation with the first atom of every trait.
    pub fn first(&self) -> Block {
        Block(self.0.map(|mask| mask & mask.wrapping_neg()))
    }
}

/// Fewer blocks for the same disjoint set: blocks that differ in one trait only become one.
pub fn merged(mut blocks: Vec<Block>) -> Vec<Block> {
    loop {
        let before = blocks.len();
        for index in 0..MOST_TRAITS {
            let rest = |block: &Block| {
                let mut masks = block.0;
                masks[index] = 0;
                masks
            };
            blocks.sort_unstable_by_key(rest);
            blocks.dedup_by(|later, kept| {
                let alike = rest(later) == rest(kept);
                if alike {
                    kept.0[index] |= later.0[index];
                }
                alike
            });
        }
        if blocks.len() == before {
            blocks.sort_unstable();
            return blocks;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole(n: i64) -> Exact {
        Exact::whole(n)
    }

    #[test]
    fn a_scale_is_cut_at_every_number_and_holds_each_value_once() {
        let domain = Span::closed(whole(0), whole(100));
        let scale = Scale::of_numbers(domain, &[whole(25), whole(50), whole(200)], false, true);
        // 0, between, 25, between, 50, between, 100, absent.
        assert_eq!(scale.atoms().len(), 8);
        for value in [0, 1, 25, 26, 50, 99, 100] {
            assert_eq!(
                scale.touched(Span::point(whole(value))).count_ones(),
                1,
                "{value}"
            );
        }
        assert_eq!(scale.touched(Span::closed(whole(25), whole(50))), 0b11100);
        assert_eq!(scale.absent(), 1 << 7);
    }

    #[test]
    fn every_span_touches_the_atoms_that_it_meets() {
        let domain = Span::closed(whole(0), whole(12));
        let scales = [
            Scale::of_numbers(domain, &[whole(3), whole(4), whole(9)], false, true),
            Scale::of_numbers(domain, &[whole(3), whole(4), whole(9)], true, false),
            Scale::of_states(3, true),
        ];
        let halves = || (-2..28).map(|half| Exact::ratio(half, 2));
        let ends = [(true, true), (true, false), (false, true), (false, false)];
        for (low, high) in halves().flat_map(|low| halves().map(move |high| (low, high))) {
            for (low_in, high_in) in ends {
                let span = Span {
                    low,
                    high,
                    low_in,
                    high_in,
                };
                if low > high || low == high && !(low_in && high_in) {
                    continue;
                }
                for scale in &scales {
                    let met = scale.mask_where(
                        |atom| matches!(atom, Atom::Span(own) if own.meet(span).is_some()),
                    );
                    assert_eq!(scale.touched(span), met, "{span:?}");
                }
            }
        }
    }

    #[test]
    fn a_count_has_no_atom_between_neighbouring_whole_numbers() {
        let domain = Span::closed(whole(1), whole(40));
        let scale = Scale::of_numbers(domain, &[whole(1), whole(2), whole(5)], true, false);
        // 1, 2, 3 to 4, 5, 6 to 39, 40.
        assert_eq!(scale.atoms().len(), 6);
        assert_eq!(
            scale.atoms()[2],
            Atom::Span(Span::closed(whole(3), whole(4)))
        );
    }

    #[test]
    fn merging_keeps_the_volume() {
        let scales = [Scale::of_states(3, false), Scale::of_states(2, false)];
        let all = Block::whole(&scales);
        let parts: Vec<Block> = (0..3)
            .flat_map(|a| (0..2).map(move |b| (a, b)))
            .filter_map(|(a, b)| all.narrowed(0, 1 << a)?.narrowed(1, 1 << b))
            .collect();
        assert_eq!(merged(parts), vec![all]);
        assert_eq!(all.volume(), 6);
    }
}
