//! A drawn bloom as outlines on paper.

use std::sync::Arc;

use kurbo::Affine;

use crate::draw::bloom::Roll;
use crate::draw::{self, Bloom, Paint, View};
use crate::geometry::Outline;
use crate::paper::Drawing;

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
                let drawn = draw::Drawing::of(&bloom, paint, view).outlines();
                self.0.push((bloom, *paint, view, drawn.clone()));
                drawn
            }
        };
        // The radius of a bloom is 1.
        let half = side / 2.0;
        Drawing {
            outlines,
            place: Affine::translate((x + half, y + half)) * Affine::scale(half),
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
