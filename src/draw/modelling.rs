//! Light and shade on a floret: slivers along its foot and its edges, which leave its colour be.

use super::bloom::{Bloom, Roll, Tip};
use super::curve::{Knot, through};
use super::floret::Floret;
use super::patch::Role;
use super::sheet::Sheet;
use super::tone;
use super::view::View;
use crate::colour::Lab;

impl Sheet<'_> {
    /// Lays light and shade on a ray floret that is drawn already.
    pub(super) fn model(&mut self, bloom: &Bloom, floret: &Floret) {
        let fill = self
            .paint
            .fill(side_seen(bloom, floret, self.view), floret.age);
        match (bloom.narrow, bloom.roll) {
            // A tube has its slot and its hollow.
            (true, Roll::Forward) => {}
            (true, _) => self.sliver(floret, Edge::Shaded, 0.6, tone::shaded(fill)),
            (false, Roll::Forward) => self.sliver(floret, Edge::Lit, 0.74, tone::lit(fill)),
            (false, _) => {
                let long = if bloom.tip == Tip::Pointed { 0.08 } else { 0.2 };
                // From the side feet are seen through the gaps, and no floret lies over them.
                if self.view == View::Face {
                    self.foot(floret, long, tone::shaded(fill));
                }
                self.sliver(floret, Edge::Lit, 0.74, tone::lit(fill));
            }
        }
    }

    /// The shade that the florets over it throw on its foot: a tongue along the midrib.
    fn foot(&mut self, floret: &Floret, long: f64, shade: Lab) {
        let end = floret.of_seen(long);
        let tongue = |t: f64| 0.6 * (1.0 - 0.6 * (t / end).powi(3));
        let seen = floret.seen(self.view, 0.0, end, tongue);
        for stretch in seen {
            self.over(Role::RayFace, stretch.path, shade);
        }
    }

    /// A sliver along an edge, from this share of the width to the edge itself.
    fn sliver(&mut self, floret: &Floret, edge: Edge, inner: f64, fill: Lab) {
        let (from, to) = (floret.of_seen(0.12), floret.of_seen(0.94));
        let at = |t: f64, aside: f64| self.view.project(floret.turn, floret.place(t, aside)).0;
        let middle = floret.of_seen(0.5);
        // Light comes from the upper left.
        let toward_light = |aside: f64| -{
            let at = at(middle, aside);
            at.x + at.y
        };
        let half = floret.width(middle);
        let lit = if toward_light(half) > toward_light(-half) {
            1.0
        } else {
            -1.0
        };
        let side = match edge {
            Edge::Lit => lit,
            Edge::Shaded => -lit,
        };
        let knot = |(share, inward): (f64, f64)| {
            let t = from + (to - from) * share;
            Knot {
                at: at(t, side * inward * floret.width(t)),
                sharp: share == 0.0 || share == 1.0,
            }
        };
        let knots = [
            (0.0, 1.0),
            (0.3, 1.0),
            (0.55, 1.0),
            (0.8, 1.0),
            (1.0, 1.0),
            (0.75, inner),
            (0.4, inner),
        ];
        let path = through(&knots.map(knot));
        self.over(Role::RayFace, path, fill);
    }
}

/// An edge of a floret.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Edge {
    Lit,
    Shaded,
}

/// Which of its sides most of a floret shows.
pub(super) fn side_seen(bloom: &Bloom, floret: &Floret, view: View) -> Role {
    let middle = floret.of_seen(0.5);
    let behind = !floret.shows_face(view, middle) && !floret.is_wrapped_in_face(middle);
    if bloom.roll == Roll::Forward || behind {
        Role::RayReverse
    } else {
        Role::RayFace
    }
}
