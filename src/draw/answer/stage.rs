//! A picture under construction: outlines in a measure of their own, and the window on them.

use kurbo::{Affine, Point, Shape};

use crate::draw::curve::polygon;
use crate::draw::drawing::Drawing;
use crate::draw::floret::Floret;
use crate::draw::mark::{self, Mark};
use crate::draw::paint::{Paint, shown};
use crate::draw::patch::{Patch, Role};
use crate::draw::pointer::Pointer;
use crate::draw::sheet::Sheet;
use crate::draw::view::View;
use crate::geometry::{self, Outline, Stroke};

/// The width of every line, where the picture's radius is 1: it is seen at 12 mm.
const LINE: f64 = 0.05;

/// A line is never a greater part than this of what it goes around.
const MOST_OF: f64 = 7.0;

/// A picture under construction.
pub(super) struct Stage<'a> {
    /// What is drawn, the back first.
    pub(super) sheet: Sheet<'a>,
    /// Dimension lines and arrows, in the same measure.
    pub(super) pointers: Vec<Pointer>,
    /// What is seen: the circle about a point. It is the same for every state of a trait, so that
    /// their pictures differ by the trait alone.
    pub(super) window: (Point, f64),
    /// Whether a part is seen as by a lens: what is outside of the circle is cut off. Else it is
    /// outside of the square about it.
    pub(super) lens: bool,
}

impl<'a> Stage<'a> {
    pub(super) fn new(view: View, paint: &'a Paint) -> Stage<'a> {
        Stage {
            sheet: Sheet {
                view,
                paint,
                line: LINE,
                patches: Vec::new(),
            },
            pointers: Vec::new(),
            window: (Point::ORIGIN, 1.0),
            lens: false,
        }
    }

    /// The circle about this point.
    pub(super) fn seen_about(&mut self, middle: impl Into<Point>, radius: f64) {
        self.window = (middle.into(), radius);
    }

    /// A part of a floret, as the view shows it.
    pub(super) fn part(&mut self, floret: &Floret, from: f64, to: f64) {
        for stretch in floret.seen(self.sheet.view, from, to, |_| 1.0) {
            let role = if stretch.face {
                Role::RayFace
            } else {
                Role::RayReverse
            };
            self.add(role, stretch.path);
        }
    }

    /// An outline, filled as its role is.
    pub(super) fn add(&mut self, role: Role, shape: impl Shape) {
        self.sheet.add(role, shape, 1.0);
    }

    /// A line of the drawing itself.
    pub(super) fn line(&mut self, points: impl IntoIterator<Item = Point>) {
        let colour = shown(
            self.sheet
                .paint
                .line(self.sheet.paint.fill(Role::RayFace, 1.0)),
        );
        let points: Vec<Point> = points.into_iter().collect();
        // There and back, since every outline is closed.
        let path = polygon(points.iter().chain(points.iter().rev().skip(1)).copied());
        self.sheet.patches.push(Patch {
            outline: Outline::of(path).stroked(Stroke::new(colour, LINE)),
            role: Role::RayFace,
            on_last: true,
        });
    }

    /// The picture in the circle of radius 1. What is outside of the window is drawn at its edge.
    pub(super) fn drawing(self, trait_id: &'static str) -> Drawing {
        let (middle, radius) = self.window;
        // Half a line's width stays outside the outlines.
        let scale = (1.0 - LINE / 2.0 - 1e-9) / radius;
        let place = Affine::scale(scale) * Affine::translate(-middle.to_vec2());
        let inside = |point: Point| match self.lens {
            true => {
                let out = point.to_vec2();
                (out / (out.hypot() + 1e-9).max(1.0)).to_point()
            }
            false => Point::new(point.x.clamp(-1.0, 1.0), point.y.clamp(-1.0, 1.0)),
        };
        let mut patches = self.sheet.patches;
        for patch in &mut patches {
            let moved = |point: Point| inside(place * point);
            patch.outline.path = geometry::moved(&patch.outline.path, moved);
            let room = patch.outline.path.bounding_box();
            if patch.outline.fill.is_none() {
                continue;
            }
            if let Some(stroke) = &mut patch.outline.stroke {
                // What is small would be all line.
                stroke.width = LINE.min(room.width().max(room.height()) / MOST_OF);
            }
        }
        let mark = |pointer: Pointer| {
            let path = mark::inside(&pointer.placed(place).outline());
            // Of what is too small to be measured there is no line.
            (!path.elements().is_empty()).then_some(Mark { trait_id, path })
        };
        Drawing {
            view: self.sheet.view,
            patches,
            marks: self.pointers.into_iter().filter_map(mark).collect(),
        }
    }
}
