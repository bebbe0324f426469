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
    pub patches: Vec<Patch>,
}

impl Sheet<'_> {
    /// Adds an outline, filled and with a line around it.
    pub(super) fn add(&mut self, role: Role, shape: impl Shape, age: f64) {
        let fill = self.paint.fill(role, age);
        let line = Stroke::new(shown(self.paint.line(fill)), LINE);
        self.patches.push(Patch {
            outline: Outline::of(shape).filled(shown(fill)).stroked(line),
            role,
            on_last: false,
        });
    }

    /// Adds an outline on the last one, without a line.
    pub(super) fn over(&mut self, role: Role, path: BezPath, fill: Lab) {
        self.patches.push(Patch {
            outline: Outline::of(path).filled(shown(fill)),
            role,
            on_last: true,
        });
    }
}
