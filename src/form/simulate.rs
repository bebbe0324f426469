//! Blooms drawn by a keyer's own weights, and growers who make its own mistakes: for measuring
//! how well the questions serve.

use super::answer::Answer;
use super::belief::Keyer;
use super::space::{Atom, Block, bits};

impl Keyer {
    /// A complete observation of a form, drawn by the keyer's weights; `chance` gives numbers
    /// from 0 to 1.
    pub fn draw(&self, form: usize, chance: &mut impl FnMut() -> f64) -> Block {
        let own: Vec<_> = self
            .blocks
            .iter()
            .filter(|block| block.form == form)
            .collect();
        let masses: Vec<f64> = own
            .iter()
            .map(|block| block.traits.iter().product())
            .collect();
        let block = own[pick(&masses, chance())];
        let mut bloom = block.block;
        for (index, mask) in bloom.0.iter_mut().enumerate().take(block.traits.len()) {
            let atoms: Vec<usize> = bits(*mask).collect();
            let weights: Vec<f64> = atoms
                .iter()
                .map(|at| self.weights[block.shape][index][*at])
                .collect();
            *mask = 1 << atoms[pick(&weights, chance())];
        }
        bloom
    }

    /// What a grower who errs with the chance `mistake` reports of one trait of a bloom.
    pub fn report(
        &self,
        bloom: &Block,
        index: usize,
        mistake: f64,
        chance: &mut impl FnMut() -> f64,
    ) -> Answer {
        let atoms = self.set.scales()[index].atoms();
        let truth = bloom.0[index].trailing_zeros() as usize;
        let mut told = truth;
        if chance() < mistake || atoms[truth] == Atom::Absent {
            let mut others = self.reports[index][truth].clone();
            others[truth] = 0.0;
            told = pick(&others, chance());
        }
        match atoms[told] {
            Atom::State(state) => Answer::States(1 << state),
            Atom::Span(span) => Answer::Range(span),
            Atom::Absent => Answer::CannotTell,
        }
    }
}

/// An index drawn by weights, where `at` runs from 0 to 1.
fn pick(weights: &[f64], at: f64) -> usize {
    let mut left = at * weights.iter().sum::<f64>();
    for (index, weight) in weights.iter().enumerate() {
        left -= weight;
        if left < 0.0 {
            return index;
        }
    }
    weights
        .iter()
        .rposition(|weight| *weight > 0.0)
        .unwrap_or(0)
}
