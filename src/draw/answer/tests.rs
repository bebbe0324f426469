//! Laws of the pictures of answers.

use kurbo::{PathEl, Point};

use super::*;
use crate::form::Traits;
use crate::geometry;

/// What the pictures of a trait are drawn from.
fn blooms(subject: &Subject, traits: &Traits) -> Vec<Bloom> {
    let index = traits.find(subject.trait_id).expect("a trait");
    let states = traits.get(index).states().iter();
    let states = states.filter_map(|state| subject.neutral.with_state(subject.trait_id, &state.id));
    let numbers = [1.0, 8.0, 40.0, 100.0].into_iter();
    let numbers =
        numbers.filter_map(|number| subject.neutral.with_number(subject.trait_id, number));
    states.chain(numbers).collect()
}

#[test]
fn every_trait_that_ships_is_shown_and_nothing_else_is() {
    let traits = Traits::embedded();
    let ids: Vec<&str> = traits.list().iter().map(|one| one.id.as_str()).collect();
    assert_eq!(ids, SUBJECTS.map(|subject| subject.trait_id));
}

/// Whatever answer was set, setting another gives the very bloom that has it alone.
#[test]
fn two_pictures_of_a_question_differ_in_their_answers_alone() {
    let traits = Traits::embedded();
    for subject in &SUBJECTS {
        let id = subject.trait_id;
        let index = traits.find(id).expect("a trait");
        let blooms = blooms(subject, &traits);
        for bloom in &blooms {
            for state in traits.get(index).states() {
                let alone = subject.neutral.with_state(id, &state.id);
                assert_eq!(bloom.with_state(id, &state.id), alone, "{id}");
            }
            let number = bloom.with_number(id, 7.0);
            assert_eq!(number, subject.neutral.with_number(id, 7.0), "{id}");
        }
    }
}

#[test]
fn every_outline_is_closed_finite_and_in_the_square() {
    let traits = Traits::embedded();
    for subject in &SUBJECTS {
        let numbers = [f64::NAN, -1.0, 0.0, 1e-9, 1e12, f64::INFINITY].into_iter();
        let odd =
            numbers.filter_map(|number| subject.neutral.with_number(subject.trait_id, number));
        for bloom in blooms(subject, &traits).into_iter().chain(odd) {
            let drawing = subject.drawn(&bloom);
            let patches = drawing.patches.iter().map(|patch| &patch.outline.path);
            for path in patches.chain(drawing.marks.iter().map(|mark| &mark.path)) {
                let elements = path.elements();
                assert!(matches!(elements.first(), Some(PathEl::MoveTo(_))));
                assert!(matches!(elements.last(), Some(PathEl::ClosePath)));
                for point in geometry::points(path) {
                    let far = (point - Point::ORIGIN).x.abs().max(point.y.abs());
                    assert!(far <= 1.0, "{}: {point:?}", subject.trait_id);
                }
            }
        }
    }
}
