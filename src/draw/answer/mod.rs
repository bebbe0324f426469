//! What an answer looks like: for every state of a trait, and for any of its numbers, the feature
//! alone and large.
//!
//! A picture is of a neutral bloom, one a trait, in which that trait alone was set: two pictures of
//! a trait differ in nothing else. Its florets, its middle and its stem are those of whole blooms.
//! A trait or a state that is not known here has no picture: words tell it.

mod face;
mod floret;
mod numbers;
mod section;
mod side;
mod stage;

use super::bloom::{Bloom, Centre, Roll, Tip};
use super::drawing::Drawing;
use super::paint::Paint;
use super::view::View;
use crate::form::Trait;
use crate::form::space::{Scale, bits};
use stage::Stage;

/// How a trait is shown.
struct Subject {
    trait_id: &'static str,
    /// What its pictures show, for the words beside them.
    shows: &'static str,
    view: View,
    /// The bloom in which the trait alone is set: one that shows it well.
    neutral: Bloom,
    draw: fn(&Bloom, &mut Stage<'_>),
}

/// The ordinary bloom, as a starting point: closed, flat, straight, rounded, even.
const ORDINARY: Bloom = Bloom::ORDINARY;
/// A bloom whose rays can be told one by one.
const OPEN: Bloom = Bloom {
    centre: Centre::Open,
    rows: 1,
    ..ORDINARY
};

const SUBJECTS: [Subject; 13] = [
    Subject {
        trait_id: "centre",
        shows: "the face",
        view: View::Face,
        neutral: Bloom {
            rows: 1,
            ..ORDINARY
        },
        draw: face::whole,
    },
    Subject {
        trait_id: "rows",
        shows: "the face: rings of florets about the disc",
        view: View::Face,
        neutral: OPEN,
        draw: face::whole,
    },
    Subject {
        trait_id: "collar",
        shows: "the disc and what stands about it",
        view: View::Face,
        neutral: OPEN,
        draw: face::collar,
    },
    Subject {
        trait_id: "roll",
        shows: "a floret cut across: arrow to its face, under side dark",
        view: View::Face,
        neutral: ORDINARY,
        draw: section::roll,
    },
    Subject {
        trait_id: "rolled",
        shows: "one floret, and how far it is rolled",
        view: View::Face,
        neutral: Bloom {
            roll: Roll::Back,
            tip: Tip::Pointed,
            rows: 5,
            ..ORDINARY
        },
        draw: floret::rolled,
    },
    Subject {
        trait_id: "line",
        shows: "a floret on its stem, the face up",
        view: View::Side,
        neutral: ORDINARY,
        draw: side::line,
    },
    Subject {
        trait_id: "tip",
        shows: "the end of one floret",
        view: View::Face,
        neutral: Bloom {
            rows: 5,
            ..ORDINARY
        },
        draw: floret::tip,
    },
    Subject {
        trait_id: "set",
        shows: "neighbouring florets, from the front",
        view: View::Face,
        neutral: Bloom {
            narrow: true,
            ..OPEN
        },
        draw: face::set,
    },
    Subject {
        trait_id: "outline",
        shows: "the bloom from the side",
        view: View::Side,
        neutral: ORDINARY,
        draw: side::outline,
    },
    Subject {
        trait_id: "gradient",
        shows: "florets laid side by side, from the centre to the back",
        view: View::Face,
        neutral: ORDINARY,
        draw: floret::gradient,
    },
    Subject {
        trait_id: "width",
        shows: "one floret, and a third of its length",
        view: View::Face,
        neutral: ORDINARY,
        draw: floret::width,
    },
    Subject {
        trait_id: "heart",
        shows: "the middle",
        view: View::Face,
        neutral: ORDINARY,
        draw: face::heart,
    },
    Subject {
        trait_id: "diameter",
        shows: "blooms at one scale",
        view: View::Face,
        neutral: OPEN,
        draw: face::diameter,
    },
];

/// What a trait's pictures show, in a few words; `None` where it has none.
pub fn shows(trait_id: &str) -> Option<&'static str> {
    subject(trait_id).map(|subject| subject.shows)
}

/// The picture of a state in black lines; `None` where there is none of it.
pub fn of_state(trait_id: &str, state_id: &str) -> Option<Drawing> {
    let subject = subject(trait_id)?;
    let bloom = subject.neutral.with_state(trait_id, state_id)?;
    Some(subject.drawn(&bloom))
}

/// The picture of a number as files have it: a count, per cent, millimetres.
pub fn of_number(trait_id: &str, number: f64) -> Option<Drawing> {
    let subject = subject(trait_id)?;
    let bloom = subject.neutral.with_number(trait_id, number)?;
    Some(subject.drawn(&bloom))
}

/// The pictures of any of these atoms of a trait: one for each state, or one for all the numbers.
/// None where one of the states has no picture, since the rest would tell less than all.
pub fn of_atoms(one: &Trait, scale: &Scale, atoms: u64) -> Vec<Drawing> {
    if one.states().is_empty() {
        let middle = numbers::middle(scale, atoms);
        return middle
            .and_then(|number| of_number(&one.id, number))
            .into_iter()
            .collect();
    }
    let states = bits(atoms).filter_map(|at| one.states().get(at));
    let drawn: Option<Vec<Drawing>> = states.map(|state| of_state(&one.id, &state.id)).collect();
    drawn.unwrap_or_default()
}

fn subject(trait_id: &str) -> Option<&'static Subject> {
    SUBJECTS.iter().find(|subject| subject.trait_id == trait_id)
}

impl Subject {
    fn drawn(&self, bloom: &Bloom) -> Drawing {
        let paint = Paint::plain();
        let mut stage = Stage::new(self.view, &paint);
        (self.draw)(&bloom.drawable(), &mut stage);
        stage.drawing(self.trait_id)
    }
}

#[cfg(test)]
mod tests;
