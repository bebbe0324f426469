//! A drawing: closed outlines from the back to the front, with their parts and colours.

use super::bloom::Bloom;
use super::centre;
use super::floret::Floret;
use super::head;
use super::mark::{self, Mark};
use super::paint::{Paint, shown};
use super::path::{Outline, Point};
use super::view::View;
use crate::colour::Srgb;

/// The width of every line, where the radius of the bloom is 1.
pub(super) const LINE: f64 = 0.016;

/// A drawn bloom: its parts from the back to the front.
///
/// The points are in the circle of radius 1 about (0, 0), x to the right, y down; all of them,
/// control points too, are finite and inside it. The same bloom, paint and view give the same
/// drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// From where the bloom is looked at.
    pub view: View,
    /// What is drawn, the back first.
    pub patches: Vec<Patch>,
    /// Where to look, trait by trait.
    pub marks: Vec<Mark>,
    /// The millimetres of one unit, where the diameter is known.
    pub millimetres: Option<f64>,
}

/// One outline with its colours.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// The outline.
    pub outline: Outline,
    /// The part of the bloom.
    pub role: Role,
    /// What it is filled with.
    pub fill: Option<Srgb>,
    /// The line around it: colour, and width where the bloom's radius is 1.
    pub line: Option<(Srgb, f64)>,
    /// Whether it lies on the patch before, as a slot does on its floret, rather than standing
    /// off what is behind it.
    pub on_last: bool,
}

/// A part of the bloom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// The upper face of a ray floret.
    RayFace,
    /// The inside of a ray floret whose edges roll forward.
    RayInside,
    /// The under face of a ray floret.
    RayReverse,
    /// A petaloid of the collar.
    Collar,
    /// The flat disc.
    Disc,
    /// A floret of the disc.
    DiscFloret,
    /// A tube of the pincushion.
    Pincushion,
    /// Stem and bracts.
    Stem,
}

/// Patches on the way to a drawing, in the bloom's own measure.
pub(super) struct Sheet<'a> {
    pub view: View,
    pub paint: &'a Paint,
    pub patches: Vec<Patch>,
}

impl Drawing {
    /// Draws a bloom. A share over 1 is drawn as 1, and what is no number as if it were not known.
    pub fn of(bloom: &Bloom, paint: &Paint, view: View) -> Drawing {
        let bloom = &bloom.drawable();
        let mut florets = head::florets(bloom);
        let mut sheet = Sheet {
            view,
            paint,
            patches: Vec::with_capacity(florets.len() * 2),
        };
        match view {
            View::Face => {
                florets
                    .iter()
                    .for_each(|floret| sheet.floret(bloom, floret));
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
        let marks = mark::marks(bloom, &florets, view);
        let radius = florets.iter().map(Floret::reach).fold(0.1, f64::max);
        let millimetres = bloom.diameter.map(|across| across / 2.0 / radius);
        sheet.fitted(marks, millimetres)
    }

    /// The outlines to mark where the question about a trait is asked; none where this view does
    /// not show what it asks about.
    pub fn marked(&self, trait_id: &str) -> impl Iterator<Item = &Outline> {
        let own = self
            .marks
            .iter()
            .filter(move |mark| mark.trait_id == trait_id);
        own.map(|mark| &mark.outline)
    }
}

impl Sheet<'_> {
    /// Adds an outline, filled and with a line around it.
    pub(super) fn add(&mut self, role: Role, outline: Outline, age: f64) {
        let fill = self.paint.fill(role, age);
        let line = Some((shown(self.paint.line(fill)), LINE));
        self.patches.push(Patch {
            outline,
            role,
            fill: Some(shown(fill)),
            line,
            on_last: false,
        });
    }

    /// Moves and scales everything into the circle.
    fn fitted(self, marks: Vec<Mark>, millimetres: Option<f64>) -> Drawing {
        let points = || self.patches.iter().flat_map(|patch| patch.outline.points());
        let rise = match self.view {
            View::Face => 0.0,
            View::Side => {
                let top = points().map(|p| p.y).fold(f64::INFINITY, f64::min);
                let foot = points().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
                if top < foot { (top + foot) / 2.0 } else { 0.0 }
            }
        };
        let up = |p: Point| Point::new(p.x, p.y - rise);
        let most = points().map(|p| up(p).distance()).fold(1e-6, f64::max);
        // Half a line's width stays outside the outlines, and rounding never passes the circle.
        let scale = (1.0 - LINE / 2.0 - 1e-9) / most;
        let fit = |p: Point| Point::new(p.x * scale, (p.y - rise) * scale);
        let inside = |p: Point| {
            let p = fit(p);
            let over = (p.distance() + 1e-9).max(1.0);
            Point::new(p.x / over, p.y / over)
        };
        let patches = self.patches.iter().map(|patch| Patch {
            outline: patch.outline.moved(fit),
            ..*patch
        });
        Drawing {
            view: self.view,
            patches: patches.collect(),
            marks: marks.into_iter().map(|mark| mark.moved(inside)).collect(),
            millimetres: millimetres.map(|unit| unit / scale),
        }
    }
}
