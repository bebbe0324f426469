//! Proof that a rule set gives every bloom one form, or a bloom to which it gives none or two.
//!
//! Every form is a list of disjoint blocks. Two forms share a bloom exactly where two of their
//! blocks meet. Where no two meet, the volumes sum to the space's if and only if there is no gap;
//! where they fall short, trait after trait is fixed to an atom whose slice is not full. Nothing is
//! enumerated but blocks.

use super::rules::RuleSet;
use super::space::{Block, bits};

/// What a proof found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proof {
    /// Every bloom has at least one form; where not, `gap` is a bloom that has none.
    pub total: bool,
    /// No bloom has two forms; where not, `overlap` is a bloom that has.
    pub disjoint: bool,
    /// A bloom without a form.
    pub gap: Option<Block>,
    /// A bloom with two forms, and those.
    pub overlap: Option<(Block, usize, usize)>,
    /// Forms that no bloom can have.
    pub never: Vec<usize>,
    /// How many complete observations, cut at the set's own limits, the proof covers.
    pub cells: u128,
    /// In how many blocks the forms are written.
    pub blocks: usize,
}

impl RuleSet {
    /// Proves the set over all complete observations.
    pub fn prove(&self) -> Proof {
        let overlap = self.overlap();
        let gap = self.gap(overlap.is_none());
        let is_never = |form: &usize| self.forms[*form].blocks.is_empty();
        Proof {
            total: gap.is_none(),
            disjoint: overlap.is_none(),
            gap,
            overlap,
            never: (0..self.forms.len()).filter(is_never).collect(),
            cells: self.valid.iter().map(Block::volume).sum(),
            blocks: self.forms.iter().map(|form| form.blocks.len()).sum(),
        }
    }

    fn overlap(&self) -> Option<(Block, usize, usize)> {
        for (first, form) in self.forms.iter().enumerate() {
            for (second, other) in self.forms.iter().enumerate().skip(first + 1) {
                let mut pairs = form
                    .blocks
                    .iter()
                    .flat_map(|a| other.blocks.iter().map(move |b| (a, b)));
                if let Some(shared) = pairs.find_map(|(a, b)| a.meet(b)) {
                    return Some((shared.first(), first, second));
                }
            }
        }
        None
    }

    fn gap(&self, disjoint: bool) -> Option<Block> {
        let covered: Vec<Block> = if disjoint {
            self.forms
                .iter()
                .flat_map(|form| form.blocks.iter().copied())
                .collect()
        } else {
            self.disjoint_cover()
        };
        uncovered(&self.valid, &covered)
    }

    /// All forms' blocks, each without what an earlier one holds.
    fn disjoint_cover(&self) -> Vec<Block> {
        let mut cover: Vec<Block> = Vec::new();
        for block in self.forms.iter().flat_map(|form| &form.blocks) {
            let mut left = vec![*block];
            for before in cover.iter().filter(|before| before.meets(block)) {
                left = left
                    .iter()
                    .flat_map(|piece| without(piece, before))
                    .collect();
            }
            cover.extend(left);
        }
        cover
    }
}

/// `block` without `taken`, as disjoint blocks.
fn without(block: &Block, taken: &Block) -> Vec<Block> {
    if !block.meets(taken) {
        return vec![*block];
    }
    let mut pieces = Vec::new();
    let mut rest = *block;
    for (index, mask) in taken.0.iter().enumerate() {
        pieces.extend(rest.narrowed(index, !mask));
        rest.0[index] &= mask;
    }
    pieces
}

/// One observation of `space` outside `covered`; both are lists of disjoint blocks and `covered`
/// lies within `space`.
fn uncovered(space: &[Block], covered: &[Block]) -> Option<Block> {
    let volume = |blocks: &[Block]| blocks.iter().map(Block::volume).sum::<u128>();
    if volume(space) == volume(covered) {
        return None;
    }
    let (mut space, mut covered) = (space.to_vec(), covered.to_vec());
    let traits = space.first()?.0.len();
    for index in 0..traits {
        let slice = |blocks: &[Block], atom: usize| -> Vec<Block> {
            blocks
                .iter()
                .filter_map(|block| block.narrowed(index, 1 << atom))
                .collect()
        };
        let atoms = space.iter().fold(0, |all, block| all | block.0[index]);
        // OK because slices partition both volumes: where the whole falls short, one slice does.
        let short = bits(atoms)
            .find(|atom| volume(&slice(&space, *atom)) > volume(&slice(&covered, *atom)))?;
        space = slice(&space, short);
        covered = slice(&covered, short);
    }
    space.first().copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_embedded_sets_are_proved() {
        for set in RuleSet::embedded() {
            let proof = set.prove();
            assert!(
                proof.total && proof.disjoint && proof.never.is_empty(),
                "{}: {proof:?}",
                set.id
            );
            assert!(proof.cells > 3_000_000);
        }
    }

    #[test]
    fn taking_a_block_away_leaves_disjoint_pieces_of_the_right_volume() {
        let all = Block([0b111; super::super::space::MOST_TRAITS]);
        let mut taken = all;
        taken.0[0] = 0b001;
        taken.0[3] = 0b110;
        let pieces = without(&all, &taken);
        let volume: u128 = pieces.iter().map(Block::volume).sum();
        assert_eq!(volume, all.volume() - taken.volume());
        for (at, piece) in pieces.iter().enumerate() {
            assert!(
                !piece.meets(&taken) && pieces[at + 1..].iter().all(|other| !other.meets(piece))
            );
        }
    }
}
