//! What is drawn: outlines of one colour on kurbo's curves. Blooms, pages and pictures share them.
//!
//! x runs to the right and y down. A unit is what its drawer says: a millimetre on a page, the
//! bloom's radius in a bloom. Points, rectangles, curves and places are kurbo's own.

use kurbo::{Affine, BezPath, Line, PathEl, Point, Rect, Shape};

use crate::colour::Srgb;

/// How far a curve that stands for an arc may be off, where the unit is a bloom's radius.
const TOLERANCE: f64 = 1e-3;

/// A line along an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: Srgb,
    /// Its width, in the unit of the outline.
    pub width: f64,
}

/// Lines and curves, filled, stroked or both. What is inside goes by the non-zero rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// The curves.
    pub path: BezPath,
    /// What fills it.
    pub fill: Option<Srgb>,
    /// The line along it, with round corners where it turns and square ends where it stops.
    pub stroke: Option<Stroke>,
}

impl Stroke {
    /// From its colour and its width.
    pub const fn new(colour: Srgb, width: f64) -> Stroke {
        Stroke { colour, width }
    }
}

impl Outline {
    /// Of any of kurbo's shapes, without colours.
    pub fn of(shape: impl Shape) -> Outline {
        Outline {
            path: shape.into_path(TOLERANCE),
            fill: None,
            stroke: None,
        }
    }

    /// A straight line.
    pub fn line(from: impl Into<Point>, to: impl Into<Point>, stroke: Stroke) -> Outline {
        Outline::of(Line::new(from, to)).stroked(stroke)
    }

    /// The same filled.
    pub fn filled(self, fill: Srgb) -> Outline {
        Outline {
            fill: Some(fill),
            ..self
        }
    }

    /// The same with a line along it.
    pub fn stroked(self, stroke: Stroke) -> Outline {
        Outline {
            stroke: Some(stroke),
            ..self
        }
    }

    /// The same at a place; its line is as much wider as all of it is larger.
    pub fn placed(&self, place: Affine) -> Outline {
        let stroke = self.stroke.map(|stroke| Stroke {
            width: stroke.width * scale(place),
            ..stroke
        });
        Outline {
            path: place * &self.path,
            fill: self.fill,
            stroke,
        }
    }

    /// A rectangle that holds all of it, its line too; none where it is empty.
    pub fn bounds(&self) -> Option<Rect> {
        let half = self.stroke.map_or(0.0, |stroke| stroke.width / 2.0);
        let bounds = || self.path.bounding_box().inflate(half, half);
        (!self.path.is_empty()).then(bounds)
    }
}

/// The smallest rectangle that holds these; none without any.
pub fn around(bounds: impl IntoIterator<Item = Rect>) -> Option<Rect> {
    bounds.into_iter().reduce(|all, one| all.union(one))
}

/// How many times as long a place makes what stands in it, whichever way that runs. Places turn and
/// scale; none shears.
pub fn scale(place: Affine) -> f64 {
    place.determinant().abs().sqrt()
}

/// Every point of a path, control points too: its curves lie within their hull.
pub fn points(path: &BezPath) -> impl Iterator<Item = Point> {
    path.elements().iter().flat_map(|element| {
        let (points, count) = match *element {
            PathEl::MoveTo(a) | PathEl::LineTo(a) => ([a; 3], 1),
            PathEl::QuadTo(a, b) => ([a, b, b], 2),
            PathEl::CurveTo(a, b, c) => ([a, b, c], 3),
            PathEl::ClosePath => ([Point::ORIGIN; 3], 0),
        };
        points.into_iter().take(count)
    })
}

/// A path with every point moved.
pub fn moved(path: &BezPath, to: impl Fn(Point) -> Point) -> BezPath {
    let element = |element: PathEl| match element {
        PathEl::MoveTo(a) => PathEl::MoveTo(to(a)),
        PathEl::LineTo(a) => PathEl::LineTo(to(a)),
        PathEl::QuadTo(a, b) => PathEl::QuadTo(to(a), to(b)),
        PathEl::CurveTo(a, b, c) => PathEl::CurveTo(to(a), to(b), to(c)),
        PathEl::ClosePath => PathEl::ClosePath,
    };
    path.iter().map(element).collect()
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use kurbo::Circle;

    use super::*;

    const RED: Srgb = Srgb { r: 200, g: 0, b: 0 };

    #[test]
    fn the_bounds_hold_the_line_and_are_no_wider_than_the_curve() {
        let circle = Outline::of(Circle::new((3.0, 4.0), 1.0)).stroked(Stroke::new(RED, 0.5));
        let found = circle.bounds().expect("a circle");
        for (found, expected) in [
            (found.x0, 1.75),
            (found.y0, 2.75),
            (found.x1, 4.25),
            (found.y1, 5.25),
        ] {
            assert!((found - expected).abs() < TOLERANCE, "{found}");
        }
        assert_eq!(Outline::of(BezPath::new()).bounds(), None);
    }

    #[test]
    fn a_place_turns_and_scales_an_outline_and_its_line() {
        let place =
            Affine::translate((10.0, 20.0)) * Affine::scale(2.0) * Affine::rotate(FRAC_PI_2);
        let part = Outline::of(Rect::new(0.0, 0.0, 3.0, 1.0)).stroked(Stroke::new(RED, 0.1));
        let placed = part.placed(place);
        let bounds = placed.path.bounding_box();
        let off = bounds - Rect::new(8.0, 20.0, 10.0, 26.0);
        assert!(
            [off.x0, off.x1, off.y0, off.y1]
                .iter()
                .all(|off| off.abs() < 1e-9)
        );
        assert!((placed.stroke.expect("a line").width - 0.2).abs() < 1e-9);
    }

    #[test]
    fn moving_every_point_by_nothing_changes_nothing() {
        let path = Circle::new((0.0, 0.0), 1.0).to_path(TOLERANCE);
        assert_eq!(moved(&path, |point| point), path);
        // Four curves of two control points and an end each, and where they start.
        assert_eq!(points(&path).count(), 13);
    }
}
