//! A drawing: closed outlines from the back to the front, with their parts and colours.

use std::sync::Arc;

use kurbo::{Affine, BezPath, Point};

use super::bloom::Bloom;
use super::centre;
use super::floret::Floret;
use super::head;
use super::mark::{self, Mark};
use super::paint::Paint;
use super::patch::{LINE, Patch};
use super::sheet::{self, Sheet};
use super::view::View;
use crate::colour::Srgb;
use crate::cores::all_in_spans;
use crate::geometry::{self, Outline};

/// Florets that are drawn before a thread has started.
const A_THREAD: usize = 30;

/// A drawn bloom: its parts from the back to the front.
///
/// The points are in the circle of radius 1 about (0, 0), x to the right, y down; all of them,
/// control points too, are finite and inside it. Marks, and pictures of an answer, keep to the
/// square about it. The same bloom, paint and view give the same
/// drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// From where the bloom is looked at.
    pub view: View,
    /// What is drawn, the back first.
    pub patches: Vec<Patch>,
    /// Where to look, trait by trait.
    pub marks: Vec<Mark>,
}

impl Drawing {
    /// Draws a bloom. A share over 1 is drawn as 1, and what is no number as if it were not known.
    pub fn of(bloom: &Bloom, paint: &Paint, view: View) -> Drawing {
        Drawing::drawn(bloom, paint, view, true)
    }

    /// The same without its marks, for who shows none of them: that takes less time.
    pub fn unmarked(bloom: &Bloom, paint: &Paint, view: View) -> Drawing {
        Drawing::drawn(bloom, paint, view, false)
    }

    fn drawn(bloom: &Bloom, paint: &Paint, view: View, marked: bool) -> Drawing {
        let bloom = &bloom.drawable();
        let mut florets = head::florets(bloom, view);
        let mut sheet = Sheet {
            view,
            paint,
            line: sheet::line_width(paint, florets.len()),
            patches: Vec::with_capacity(florets.len() * 2),
        };
        centre::core(bloom, &mut sheet);
        match view {
            View::Face => {
                let patches = all_in_spans(florets.len(), A_THREAD, |span| {
                    let mut part = sheet.begun();
                    { florets[span].iter() }.for_each(|floret| part.floret(bloom, floret));
                    part.patches
                });
                sheet.patches.extend(patches);
                centre::face(bloom, &mut sheet);
            }
            View::Side => {
                let near = |floret: &Floret| view.project(floret.turn, floret.place(0.6, 0.0)).1;
                florets.sort_by(|a, b| near(a).total_cmp(&near(b)));
                let (back, front) = florets.split_at(florets.partition_point(|f| near(f) < 0.0));
                centre::stem(bloom, &mut sheet);
                back.iter().for_each(|floret| sheet.floret(bloom, floret));
                centre::side(bloom, &mut sheet);
                front.iter().for_each(|floret| sheet.floret(bloom, floret));
            }
        }
        let fit = fit(&sheet.patches, view);
        for patch in &mut sheet.patches {
            // Its line is as wide whatever the measure of the bloom.
            patch.outline.path.apply_affine(fit);
        }
        Drawing {
            view,
            patches: sheet.patches,
            marks: match marked {
                true => mark::marks(bloom, &florets, view, fit),
                false => Vec::new(),
            },
        }
    }

    /// What is drawn, for a page to hold.
    pub fn outlines(&self) -> Arc<[Outline]> {
        let outlines = self.patches.iter().map(|patch| &patch.outline);
        outlines.cloned().collect()
    }

    /// The same with its arrows and dimension lines over it, in this ink.
    pub fn pointed_outlines(&self, ink: Srgb) -> Arc<[Outline]> {
        let own = self.patches.iter().map(|patch| patch.outline.clone());
        let marks = self.marks.iter().map(|mark| &mark.path);
        let marks = marks.map(|path| Outline::of(path).filled(ink));
        own.chain(marks).collect()
    }

    /// The outlines to mark where the question about a trait is asked; none where this view does
    /// not show what it asks about.
    pub fn marked(&self, trait_id: &str) -> impl Iterator<Item = &BezPath> {
        let own = self
            .marks
            .iter()
            .filter(move |mark| mark.trait_id == trait_id);
        own.map(|mark| &mark.path)
    }
}

/// What moves and scales all patches into the circle.
fn fit(patches: &[Patch], view: View) -> Affine {
    let paths = || patches.iter().map(|patch| &patch.outline.path);
    let points = || paths().flat_map(geometry::points);
    let rise = match view {
        View::Face => 0.0,
        View::Side => {
            let top = points().map(|p| p.y).fold(f64::INFINITY, f64::min);
            let foot = points().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
            if top < foot { (top + foot) / 2.0 } else { 0.0 }
        }
    };
    let middle = Point::new(0.0, rise);
    let most = points().map(|p| p.distance(middle)).fold(1e-6, f64::max);
    // Half a line's width stays outside the outlines, and rounding never passes the circle.
    let scale = (1.0 - LINE / 2.0 - 1e-9) / most;
    Affine::scale(scale) * Affine::translate((0.0, -rise))
}
