//! Closed curves: smooth ones through knots, as everything that grows is drawn, and ellipses.

use kurbo::{BezPath, Ellipse, Point, Rect, Shape};

/// How far a curve that stands for an arc may be off.
const TOLERANCE: f64 = 1e-3;

/// A corner of a curve under construction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Knot {
    pub at: Point,
    /// Whether the curve turns here; elsewhere it passes smoothly.
    pub sharp: bool,
}

impl Knot {
    /// Where the curve passes smoothly.
    pub(super) fn smooth(at: Point) -> Knot {
        Knot { at, sharp: false }
    }
}

/// Through all knots and back to the first: a Catmull-Rom spline as cubics, broken at corners.
pub(super) fn through(knots: &[Knot]) -> BezPath {
    let mut path = BezPath::new();
    let Some(first) = knots.first() else {
        return path;
    };
    let count = knots.len();
    let knot = |at: usize| knots[at % count];
    // The curve leaves a smooth knot along the line between its neighbours.
    let slope = |at: usize| (knot(at + 1).at - knot(at + count - 1).at) / 6.0;
    path.move_to(first.at);
    for at in 0..count {
        let (from, to) = (knot(at), knot(at + 1));
        if from.sharp && to.sharp {
            path.line_to(to.at);
            continue;
        }
        let leaves = match from.sharp {
            true => from.at.lerp(to.at, 1.0 / 3.0),
            false => from.at + slope(at),
        };
        let arrives = match to.sharp {
            true => to.at.lerp(from.at, 1.0 / 3.0),
            false => to.at - slope(at + 1),
        };
        path.curve_to(leaves, arrives, to.at);
    }
    path.close_path();
    path
}

/// Straight from each point to the next, and back to the first.
pub(super) fn polygon(points: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    for point in points {
        match path.elements().is_empty() {
            true => path.move_to(point),
            false => path.line_to(point),
        }
    }
    path.close_path();
    path
}

/// The ellipse that fills a rectangle.
pub(super) fn ellipse(within: Rect) -> BezPath {
    let mut path = Ellipse::from_rect(within).to_path(TOLERANCE);
    // Kurbo's ends where it began, but leaves it open.
    path.close_path();
    path
}

/// A circle about a point.
pub(super) fn circle(middle: Point, radius: f64) -> BezPath {
    ellipse(Rect::from_center_size(middle, (2.0 * radius, 2.0 * radius)))
}

#[cfg(test)]
mod tests {
    use kurbo::Shape;

    use super::*;

    #[test]
    fn a_curve_goes_straight_between_corners_and_bows_between_smooth_knots() {
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        let knots = |sharp| {
            square.map(|at| Knot {
                at: at.into(),
                sharp,
            })
        };
        let straight = through(&knots(true));
        assert!((straight.area() - 1.0).abs() < 1e-9);
        let round = through(&knots(false));
        assert!(round.area() > 1.1, "{}", round.area());
        assert!(through(&[]).is_empty());
    }
}
