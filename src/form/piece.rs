//! What the search for a field key works on: the forms cut into pieces, and the atoms of each
//! trait gathered into letters that no piece tells apart.

use super::belief::{Keyer, WeighedBlock};
use super::space::{Scale, bits};

/// The most pieces that a search holds.
const MOST_PIECES: usize = 256;
/// The most letters over all traits: the bits of a `u128`.
const MOST_LETTERS: usize = 128;
/// Shares that differ by less than this are taken as alike.
const ALIKE: f64 = 1e-12;

/// A set of pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Left([u64; MOST_PIECES / 64]);

/// A part of one goal (a form or a shape) that is a product of traits, and so are its weights.
#[derive(Debug)]
pub(super) struct Piece {
    pub goal: usize,
    /// How often a bloom lies in the piece.
    pub mass: f64,
    /// `[trait][atom]`: how the piece's blooms fall on the atoms; each trait's shares sum to 1.
    shares: Vec<Vec<f64>>,
}

/// What no piece tells apart in one trait.
#[derive(Debug)]
pub(super) struct Letter {
    /// The atoms.
    pub atoms: u64,
    /// The pieces that reach into the letter.
    pub held_by: Left,
    /// How much of each piece does.
    pub shares: Vec<f64>,
}

/// One trait as the search sees it.
#[derive(Debug)]
pub(super) struct Asked {
    pub letters: Vec<Letter>,
    /// How many letters the traits before it have.
    offset: usize,
    /// The letter where the trait does not apply, as a mask; 0 where it always does.
    pub absent: u64,
    /// The pieces that reach into that letter: while one of them is left, the trait is not asked.
    pub absent_in: Left,
}

/// Pieces and letters.
#[derive(Debug)]
pub(super) struct Pieces {
    pub pieces: Vec<Piece>,
    pub traits: Vec<Asked>,
    /// Each piece's letters over all traits.
    pub letters: Vec<u128>,
    pub goals: usize,
}

impl Left {
    pub(super) const NONE: Left = Left([0; MOST_PIECES / 64]);

    /// Pieces past what a set holds are left out.
    pub(super) fn of(pieces: impl Iterator<Item = usize>) -> Left {
        let mut left = Left::NONE;
        for piece in pieces.take_while(|piece| *piece < MOST_PIECES) {
            left.0[piece / 64] |= 1 << (piece % 64);
        }
        left
    }

    pub(super) fn has(&self, piece: usize) -> bool {
        self.0[piece / 64] >> (piece % 64) & 1 == 1
    }

    pub(super) fn meets(&self, other: &Left) -> bool {
        self.and(other) != Left::NONE
    }

    pub(super) fn and(&self, other: &Left) -> Left {
        let mut both = *self;
        both.0.iter_mut().zip(other.0).for_each(|(a, b)| *a &= b);
        both
    }

    /// The pieces, rising.
    pub(super) fn iter(self) -> impl Iterator<Item = usize> {
        let words = self.0.into_iter().enumerate();
        words.flat_map(|(at, word)| bits(word).map(move |bit| at * 64 + bit))
    }
}

impl Asked {
    /// A mask over the trait's own letters as one over those of all traits.
    pub(super) fn placed(&self, letters: u64) -> u128 {
        u128::from(letters) << self.offset
    }

    /// All its letters.
    pub(super) fn full(&self) -> u128 {
        self.placed((0..self.letters.len()).map(|at| 1 << at).sum())
    }

    /// How much of a piece lies in some letters.
    pub(super) fn share(&self, letters: u64, piece: usize) -> f64 {
        bits(letters).map(|at| self.letters[at].shares[piece]).sum()
    }
}

impl Pieces {
    /// The pieces of a keyer's forms, or of its shapes; `None` where there are more pieces or
    /// letters than a search holds.
    pub(super) fn of(keyer: &Keyer, by_size: bool) -> Option<Pieces> {
        let all = keyer.blocks.iter();
        let pieces = merged(all.map(|block| piece(keyer, block, by_size)).collect());
        let mut traits: Vec<Asked> = Vec::new();
        let mut offset = 0;
        for (index, scale) in keyer.set.scales().iter().enumerate() {
            traits.push(asked(&pieces, index, scale, offset));
            offset += traits[index].letters.len();
        }
        if pieces.len() > MOST_PIECES || offset > MOST_LETTERS {
            return None;
        }
        let letters = |piece| {
            let own = |asked: &Asked| {
                let held = asked
                    .letters
                    .iter()
                    .enumerate()
                    .filter(|(_, letter)| letter.held_by.has(piece));
                asked.placed(held.map(|(at, _)| 1 << at).sum())
            };
            traits.iter().map(own).sum()
        };
        Some(Pieces {
            letters: (0..pieces.len()).map(letters).collect(),
            goals: if by_size {
                keyer.set.forms.len()
            } else {
                keyer.set.shapes.len()
            },
            pieces,
            traits,
        })
    }
}

fn piece(keyer: &Keyer, own: &WeighedBlock, by_size: bool) -> Piece {
    let weights = &keyer.weights[own.shape];
    let shares = |(index, all): (usize, &f64)| {
        let held = own.block.0[index];
        let share = |(at, weight): (usize, &f64)| (held >> at & 1) as f64 * weight / all;
        weights[index].iter().enumerate().map(share).collect()
    };
    Piece {
        goal: if by_size { own.form } else { own.shape },
        mass: own.scale * own.traits.iter().product::<f64>(),
        shares: own.traits.iter().enumerate().map(shares).collect(),
    }
}

/// Fewer pieces for the same: two of one goal that differ in one trait only become one.
fn merged(mut pieces: Vec<Piece>) -> Vec<Piece> {
    let mut at = 0;
    while at < pieces.len() {
        let found = (at + 1..pieces.len())
            .find_map(|other| Some((other, pieces[at].differs_only_in(&pieces[other])?)));
        let Some((other, index)) = found else {
            at += 1;
            continue;
        };
        let other = pieces.swap_remove(other);
        let one = &mut pieces[at];
        let mass = one.mass + other.mass;
        for (share, more) in one.shares[index].iter_mut().zip(&other.shares[index]) {
            *share = (*share * one.mass + more * other.mass) / mass;
        }
        one.mass = mass;
        at = 0;
    }
    pieces
}

impl Piece {
    fn differs_only_in(&self, other: &Piece) -> Option<usize> {
        if self.goal != other.goal {
            return None;
        }
        let differs = |index: &usize| {
            let pairs = self.shares[*index].iter().zip(&other.shares[*index]);
            pairs.into_iter().any(|(a, b)| (a - b).abs() > ALIKE)
        };
        let mut differing = (0..self.shares.len()).filter(differs);
        let index = differing.next()?;
        differing.next().is_none().then_some(index)
    }
}

/// A trait's letters; `offset` of them belong to the traits before it.
fn asked(pieces: &[Piece], index: usize, scale: &Scale, offset: usize) -> Asked {
    let shares =
        |at: usize| -> Vec<f64> { pieces.iter().map(|piece| piece.shares[index][at]).collect() };
    let mut one = Asked {
        letters: Vec::new(),
        offset,
        absent: 0,
        absent_in: Left::NONE,
    };
    for at in bits(scale.full()) {
        let shares = shares(at);
        let held_by = Left::of((0..pieces.len()).filter(|piece| shares[*piece] > 0.0));
        if scale.absent() >> at & 1 == 1 {
            one.absent = 1 << one.letters.len();
            one.absent_in = held_by;
        } else if let Some(letter) = one
            .letters
            .iter_mut()
            .find(|letter| letter.held_by == held_by)
        {
            letter.atoms |= 1 << at;
            letter
                .shares
                .iter_mut()
                .zip(shares)
                .for_each(|(own, more)| *own += more);
            continue;
        }
        one.letters.push(Letter {
            atoms: 1 << at,
            held_by,
            shares,
        });
    }
    one
}
