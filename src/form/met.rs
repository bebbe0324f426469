//! Which forms' blocks a bloom meets, looked up in place of going through the blocks.
//!
//! For each atom of each trait there is the set of blocks that hold it, as bits. A block meets a
//! bloom where it holds one of the bloom's atoms in every trait: the bloom's sets, joined within a
//! trait and cut between traits, are the blocks it meets. A set of 64 blocks is one word, and most
//! words are empty after two or three traits.

use super::space::{Block, Scale, bits};

/// The blocks of one word.
const WORD: usize = u64::BITS as usize;

/// Every form's blocks, by the atoms that they hold.
#[derive(Debug, Clone, Default)]
pub(super) struct MetTable {
    /// Each block's form, rising.
    forms: Vec<usize>,
    /// Of each trait the mask of all its atoms and the place of its first in `holders`.
    traits: Vec<(u64, usize)>,
    /// Word by word of the blocks: for each atom of each trait the blocks that hold it.
    holders: Vec<u64>,
    /// Atoms of all traits together.
    atoms: usize,
}

impl MetTable {
    /// The table of each form's blocks, in the order of the forms.
    pub(super) fn of<'a>(
        scales: &[Scale],
        forms: impl Iterator<Item = &'a Vec<Block>>,
    ) -> MetTable {
        let numbered = forms.enumerate();
        let blocks: Vec<(usize, &Block)> = numbered
            .flat_map(|(form, blocks)| blocks.iter().map(move |block| (form, block)))
            .collect();
        let mut traits = Vec::new();
        let mut atoms = 0;
        for scale in scales {
            traits.push((scale.full(), atoms));
            atoms += scale.atoms().len();
        }
        let mut holders = vec![0; blocks.len().div_ceil(WORD) * atoms];
        for (at, (_, block)) in blocks.iter().enumerate() {
            for ((full, first), mask) in traits.iter().zip(block.0) {
                for atom in bits(mask & full) {
                    holders[at / WORD * atoms + first + atom] |= 1 << (at % WORD);
                }
            }
        }
        MetTable {
            forms: blocks.into_iter().map(|(form, _)| form).collect(),
            traits,
            holders,
            atoms,
        }
    }

    /// The first and the last form that `block` meets; `None` where it meets none.
    pub(super) fn ends(&self, block: &Block) -> Option<(usize, usize)> {
        let mut ends = None;
        for (word, met) in self.words(block).enumerate().filter(|(_, met)| *met != 0) {
            let (low, high) = (met.trailing_zeros(), WORD as u32 - 1 - met.leading_zeros());
            let form = |bit: u32| self.forms[word * WORD + bit as usize];
            let (first, _) = ends.unwrap_or((form(low), 0));
            ends = Some((first, form(high)));
        }
        ends
    }

    /// Every form that `block` meets, rising.
    pub(super) fn forms(&self, block: &Block) -> Vec<usize> {
        let words = self.words(block).enumerate();
        let met = words.flat_map(|(word, met)| bits(met).map(move |bit| word * WORD + bit));
        let mut forms: Vec<usize> = met.map(|at| self.forms[at]).collect();
        forms.dedup();
        forms
    }

    /// The blocks that `block` meets.
    fn words(&self, block: &Block) -> impl Iterator<Item = u64> {
        let words = self.holders.chunks_exact(self.atoms.max(1));
        let left = self.forms.len();
        words.enumerate().map(move |(word, holders)| {
            let own = (left - word * WORD).min(WORD);
            let mut met = u64::MAX >> (WORD - own);
            for ((full, first), mask) in self.traits.iter().zip(&block.0) {
                let mask = mask & full;
                if mask == *full {
                    continue;
                }
                let held = match mask.is_power_of_two() {
                    true => holders[first + mask.trailing_zeros() as usize],
                    false => bits(mask).fold(0, |held, atom| held | holders[first + atom]),
                };
                met &= held;
                if met == 0 {
                    break;
                }
            }
            met
        })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::form::{RuleSet, Status};

    proptest! {
        /// As if every block of every form were held against the bloom.
        #[test]
        fn what_is_looked_up_is_what_meets(masks in prop::array::uniform16(any::<u64>()), more in prop::array::uniform16(any::<u64>()), known in prop::array::uniform16(0..4_u8), at in 0..2_usize) {
            let set = &RuleSet::embedded()[at];
            let mut block = Block::whole(set.scales());
            for (index, scale) in set.scales().iter().enumerate() {
                block.0[index] &= match known[index] {
                    0 => u64::MAX,
                    1 => masks[index] | more[index],
                    2 => masks[index],
                    _ => 1 << (masks[index] % scale.atoms().len() as u64),
                };
            }
            let allowed = |form: &usize| set.forms[*form].blocks.iter().any(|own| own.meets(&block));
            let possible: Vec<usize> = (0..set.forms.len()).filter(allowed).collect();
            let status = match possible[..] {
                [] => Status::None,
                [one] => Status::Settled(one),
                _ => Status::Open,
            };
            prop_assert_eq!(set.verdict_in(&block).possible, possible);
            prop_assert_eq!(set.status_in(&block), status);
        }
    }

    #[test]
    fn a_set_of_no_forms_meets_nothing() {
        let set = &RuleSet::embedded()[0];
        let none = MetTable::of(set.scales(), std::iter::empty());
        let whole = Block::whole(set.scales());
        assert_eq!((none.ends(&whole), none.forms(&whole)), (None, Vec::new()));
    }
}
