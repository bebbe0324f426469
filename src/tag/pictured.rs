//! The pictures of a card's answers, each drawn once.

use std::sync::Arc;

use kurbo::Affine;

use crate::colour::Srgb;
use crate::draw::answer;
use crate::form::RuleSet;
use crate::form::card::Card;
use crate::geometry::Outline;
use crate::paper::{Drawing, Item};

/// The most pictures of one answer: of three states or more words tell it in less room.
const MOST: usize = 2;
/// What stays blank between a picture and what stands beside it, as a share of its side.
const GAP: f64 = 0.08;

/// How much of its square a picture takes: it stands off the rows above and below it.
const DRAWN: f64 = 0.95;

/// One picture, shared by all the places where it stands.
type Picture = Arc<[Outline]>;

/// The pictures of a card's answers, by trait and atoms. A number has none: it is told in less room.
pub(super) struct AnswerPictures(Vec<(usize, u64, Vec<Picture>)>);

impl AnswerPictures {
    pub(super) fn of(set: &RuleSet, card: &Card) -> AnswerPictures {
        let mut all: Vec<(usize, u64, Vec<Picture>)> = Vec::new();
        for step in &card.steps {
            let (one, scale) = (set.traits.get(step.index), &set.scales()[step.index]);
            for answer in &step.answers {
                let known = all
                    .iter()
                    .any(|one| (one.0, one.1) == (step.index, answer.atoms));
                if known || one.states().is_empty() {
                    continue;
                }
                let drawn = answer::of_atoms(one, scale, answer.atoms);
                if (1..=MOST).contains(&drawn.len()) {
                    let drawn = drawn
                        .iter()
                        .map(|drawing| drawing.pointed_outlines(Srgb::BLACK));
                    all.push((step.index, answer.atoms, drawn.collect()));
                }
            }
        }
        AnswerPictures(all)
    }

    fn get(&self, index: usize, atoms: u64) -> &[Picture] {
        let own = self.0.iter().find(|one| (one.0, one.1) == (index, atoms));
        own.map_or(&[], |one| &one.2)
    }

    /// How many mm the pictures of an answer take from the left, each `side` mm wide; 0 where it
    /// has none.
    pub(super) fn width(&self, index: usize, atoms: u64, side: f64) -> f64 {
        self.get(index, atoms).len() as f64 * side * (1.0 + GAP)
    }

    /// The pictures of an answer side by side, their upper left corner at (x, y) in mm.
    pub(super) fn items(
        &self,
        (index, atoms): (usize, u64),
        side: f64,
        (x, y): (f64, f64),
    ) -> impl Iterator<Item = Item> {
        let half = side / 2.0;
        self.get(index, atoms)
            .iter()
            .enumerate()
            .map(move |(at, outlines)| {
                let middle = (x + half + at as f64 * side * (1.0 + GAP), y + half);
                let drawing = Drawing {
                    outlines: outlines.clone(),
                    place: Affine::translate(middle) * Affine::scale(half * DRAWN),
                };
                drawing.into()
            })
    }
}
