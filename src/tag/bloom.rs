//! A drawn bloom as outlines on paper.

use std::sync::Arc;

use crate::draw::bloom::Roll;
use crate::draw::{self, Bloom, Paint, View};
use crate::paper::{Drawing, Ink, Outline, Place, Point, Step, Stroke};

/// Drawings made so far: many tags show the same bloom.
#[derive(Debug, Default)]
pub(super) struct Blooms(Vec<(Bloom, Paint, View, Arc<[Outline]>)>);

impl Blooms {
    /// A bloom in the square of `side` mm whose upper left corner is at (x, y).
    pub(super) fn drawing(
        &mut self,
        bloom: &Bloom,
        paint: &Paint,
        view: View,
        side: f64,
        (x, y): (f64, f64),
    ) -> Drawing {
        let bloom = as_printed(bloom);
        let same = |one: &&(Bloom, Paint, View, Arc<[Outline]>)| {
            one.0 == bloom && one.1 == *paint && one.2 == view
        };
        let outlines = match self.0.iter().find(same) {
            Some(known) => known.3.clone(),
            None => {
                let drawn: Arc<[Outline]> =
                    outlines(&draw::Drawing::of(&bloom, paint, view)).into();
                self.0.push((bloom, *paint, view, drawn.clone()));
                drawn
            }
        };
        Drawing {
            outlines,
            unit: side / 2.0,
            place: Place::upright(x + side / 2.0, y + side / 2.0),
        }
    }
}

/// The bloom as a small drawing can tell it from another: without its size, its rolled part to a
/// fifth, many rows to the nearest four. So that plants alike share a drawing.
fn as_printed(bloom: &Bloom) -> Bloom {
    let fifth = (bloom.rolled * 5.0).round() / 5.0;
    Bloom {
        diameter: None,
        rolled: match bloom.roll {
            Roll::Flat => 0.0,
            Roll::Forward | Roll::Back => fifth.clamp(0.2, 1.0),
        },
        rows: match bloom.rows {
            few @ ..=6 => few,
            many => many.saturating_add(2) / 4 * 4,
        },
        ..*bloom
    }
}

/// Every patch, points and widths as in the drawing: the radius is 1.
pub(super) fn outlines(drawing: &draw::Drawing) -> Vec<Outline> {
    let ink = |colour: crate::colour::Srgb| Ink::new(colour.r, colour.g, colour.b);
    let patches = drawing.patches.iter().map(|patch| Outline {
        steps: patch.outline.steps.iter().map(step).collect(),
        fill: patch.fill.map(ink),
        stroke: patch
            .line
            .map(|(colour, width)| Stroke::new(ink(colour), width)),
    });
    patches.collect()
}

fn step(step: &draw::Step) -> Step {
    let at = |point: draw::Point| Point::new(point.x, point.y);
    match *step {
        draw::Step::Move(a) => Step::Move(at(a)),
        draw::Step::Line(a) => Step::Line(at(a)),
        draw::Step::Cubic(a, b, c) => Step::Cubic(at(a), at(b), at(c)),
        draw::Step::Close => Step::Close,
    }
}
