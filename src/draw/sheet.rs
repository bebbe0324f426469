//! A drawing under construction: patches in the bloom's own measure, the back first.

use kurbo::{BezPath, Shape};

use super::paint::{Paint, shown};
use super::patch::{LINE, Patch, Role};
use super::view::View;
use crate::colour::Lab;
use crate::geometry::{Outline, Stroke};

/// Patches on the way to a drawing, in the bloom's own measure.
pub(super) struct Sheet<'a> {
    pub view: View,
    pub paint: &'a Paint,
    /// The width of the lines around patches.
    pub line: f64,
    pub patches: Vec<Patch>,
}

impl<'a> Sheet<'a> {
    /// An empty one of the same kind.
    pub(super) fn begun(&self) -> Sheet<'a> {
        Sheet {
            patches: Vec::new(),
            ..*self
        }
    }
}

impl Sheet<'_> {
    /// Adds an outline, filled and with a line around it.
    pub(super) fn add(&mut self, role: Role, shape: impl Shape, age: f64) {
        self.add_filled(role, shape, self.paint.fill(role, age));
    }

    /// The same in a colour that is not the part's own.
    pub(super) fn add_filled(&mut self, role: Role, shape: impl Shape, fill: Lab) {
        let line = Stroke::new(shown(self.paint.line(fill)), self.line);
        self.patches.push(Patch {
            outline: Outline::of(shape).filled(shown(fill)).stroked(line),
            role,
            on_last: false,
        });
    }

    /// Adds an outline on the last one, without a line.
    pub(super) fn over(&mut self, role: Role, path: BezPath, fill: Lab) {
        self.lay(role, Outline::of(path).filled(shown(fill)));
    }

    /// The same with a line of its own, where it has a part of the edge.
    pub(super) fn over_lined(&mut self, role: Role, path: BezPath, fill: Lab) {
        let line = Stroke::new(shown(self.paint.line(fill)), self.line);
        self.lay(role, Outline::of(path).filled(shown(fill)).stroked(line));
    }

    fn lay(&mut self, role: Role, outline: Outline) {
        self.patches.push(Patch {
            outline,
            role,
            on_last: true,
        });
    }
}

/// The width of the lines of a drawing of so many florets: the more there are, the thinner, or lines
/// would be most of what is seen. One ink has nothing but lines, and keeps them whole.
pub(super) fn line_width(paint: &Paint, florets: usize) -> f64 {
    match paint.is_plain() {
        true => LINE,
        false => LINE * (28.0 / florets.max(1) as f64).sqrt().clamp(0.45, 0.75),
    }
}
