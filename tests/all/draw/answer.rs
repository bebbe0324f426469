//! The pictures of answers: for every answer there is one, and whoever covers the words can tell
//! them apart, on the smallest part of the screen and on paper.

use super::{blurred, difference, grey};
use trug::draw::{Drawing, Grid, Picture, answer};
use trug::form::{RuleSet, Trait, telling_numbers};

/// 12 mm at 200 dots to the inch.
const PRINTED: u32 = 94;
/// The smallest picture of the Key page, in cells: 16 by 16 dots.
const CELLS: (u16, u16) = (8, 4);

/// The pictures of a trait's answers under a rule set, each with the answer.
fn pictures(set: &RuleSet, index: usize) -> Vec<(String, Option<Drawing>)> {
    let one: &Trait = set.traits.get(index);
    let states = one.states().iter();
    let states = states.map(|state| (state.id.clone(), answer::of_state(&one.id, &state.id)));
    let numbers = telling_numbers(one, &set.scales()[index]).into_iter();
    let numbers = numbers.map(|number| {
        let number = number.to_f64();
        (number.to_string(), answer::of_number(&one.id, number))
    });
    states.chain(numbers).collect()
}

fn in_cells(drawing: &Drawing) -> Vec<f64> {
    let grid = Grid::of_lines(drawing, CELLS.0, CELLS.1);
    let side = usize::from(CELLS.0) * 2;
    // As in the Unicode chart of Braille patterns.
    let bit = |x: usize, y: usize| [[0, 1, 2, 6], [3, 4, 5, 7]][x][y];
    let lit = |at: usize| {
        let (x, y) = (at % side, at / side);
        let symbol = grid.cells[y / 4 * usize::from(CELLS.0) + x / 2].symbol;
        u32::from(symbol).saturating_sub(0x2800) >> bit(x % 2, y % 4) & 1 == 1
    };
    let dots: Vec<bool> = (0..side * side).map(lit).collect();
    blurred(&dots, 2)
}

fn on_paper(drawing: &Drawing) -> Vec<f64> {
    let picture = Picture::of(drawing, PRINTED, 1.0);
    let dark = picture.pixels.iter().map(|pixel| grey(*pixel) < 0.5);
    blurred(&dark.collect::<Vec<_>>(), 3)
}

/// The two answers to one question whose pictures are nearest to each other, and how near.
fn nearest(see: impl Fn(&Drawing) -> Vec<f64>) -> (f64, String) {
    let mut least = (f64::INFINITY, String::new());
    for set in RuleSet::embedded() {
        for index in 0..set.traits.list().len() {
            let id = &set.traits.get(index).id;
            let seen: Vec<(String, Vec<f64>)> = pictures(&set, index)
                .into_iter()
                .map(|(name, drawing)| {
                    let drawing = drawing.unwrap_or_else(|| panic!("{id}={name} has no picture"));
                    (name, see(&drawing))
                })
                .collect();
            assert!(seen.len() > 1, "{id}");
            for (at, (one, own)) in seen.iter().enumerate() {
                for (other, its) in &seen[at + 1..] {
                    let far = difference(own, its);
                    if far < least.0 {
                        least = (far, format!("{id}: {one} and {other}"));
                    }
                }
            }
        }
    }
    least
}

#[test]
fn the_answers_to_a_question_are_told_apart_by_the_smallest_pictures_on_the_screen() {
    let least = nearest(in_cells);
    assert!(least.0 >= 0.085, "{least:?}");
}

#[test]
fn the_answers_to_a_question_are_told_apart_by_pictures_of_12_mm_on_paper() {
    let least = nearest(on_paper);
    assert!(least.0 >= 0.055, "{least:?}");
}

/// Both are the same cut turned over; which of its sides is the face must not be guessed.
#[test]
fn a_floret_that_rolls_forward_and_one_that_rolls_back_are_told_apart_at_a_glance() {
    let of = |state: &str| answer::of_state("roll", state).expect("a picture");
    let (forward, back) = (of("forward"), of("back"));
    for (way, far, floor) in [
        (
            "cells",
            difference(&in_cells(&forward), &in_cells(&back)),
            0.2,
        ),
        (
            "paper",
            difference(&on_paper(&forward), &on_paper(&back)),
            0.2,
        ),
    ] {
        assert!(far >= floor, "{way}: {far:.3}");
    }
    for state in ["flat", "forward", "back"] {
        assert_eq!(of(state).marks.len(), 1, "an arrow to the face of {state}");
    }
}

#[test]
fn what_has_no_picture_is_left_to_words() {
    assert!(answer::of_state("centre", "velvet").is_none());
    assert!(answer::of_state("scent", "none").is_none());
    assert!(answer::of_number("petals", 12.0).is_none());
    assert!(answer::shows("scent").is_none());
    // Of several states one without a picture would be hidden by the others.
    let set = &RuleSet::embedded()[0];
    let tip = set.traits.find("tip").expect("a trait");
    let (one, scale) = (set.traits.get(tip), &set.scales()[tip]);
    assert_eq!(answer::of_atoms(one, scale, 0b101).len(), 2);
    let mut strange = one.clone();
    strange.id = "scent".to_string();
    assert!(answer::of_atoms(&strange, scale, 0b101).is_empty());
}
