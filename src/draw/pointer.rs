//! Arrows and dimension lines, as in an engineer's drawing: closed outlines that a page fills.

use kurbo::{Affine, BezPath, Line, ParamCurve, Point, Vec2};

use super::curve::polygon;

/// A line's width, where the radius of a drawing is 1.
pub(super) const WIDTH: f64 = 0.022;
const HALF: f64 = WIDTH / 2.0;
/// How long a head is, and how far it reaches to each side of its line.
const HEAD: f64 = 0.16;
const HEAD_HALF: f64 = 0.06;
/// How far an end tick reaches to each side of a dimension line.
const TICK: f64 = 0.08;

/// A line that says where to look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Pointer {
    /// From outside to what is meant, with a head there.
    Arrow(Line),
    /// Between two ends, with a head and a tick at each.
    Across(Line),
    /// A thin line alone: to what a dimension line beside the drawing belongs.
    Thin(Line),
}

impl Pointer {
    pub(super) fn arrow(from: impl Into<Point>, to: impl Into<Point>) -> Pointer {
        Pointer::Arrow(Line::new(from, to))
    }

    pub(super) fn across(from: impl Into<Point>, to: impl Into<Point>) -> Pointer {
        Pointer::Across(Line::new(from, to))
    }

    pub(super) fn thin(from: impl Into<Point>, to: impl Into<Point>) -> Pointer {
        Pointer::Thin(Line::new(from, to))
    }

    /// The same between other ends; heads and widths stay.
    pub(super) fn placed(self, place: Affine) -> Pointer {
        match self {
            Pointer::Arrow(line) => Pointer::Arrow(place * line),
            Pointer::Across(line) => Pointer::Across(place * line),
            Pointer::Thin(line) => Pointer::Thin(place * line),
        }
    }

    /// Closed outlines to be filled; empty where both ends are one.
    pub(super) fn outline(self) -> BezPath {
        let (Pointer::Arrow(line) | Pointer::Across(line) | Pointer::Thin(line)) = self;
        let length = line.p0.distance(line.p1);
        let mut path = BezPath::new();
        if length < 1e-6 {
            return path;
        }
        // Two heads leave some line between them.
        let head = HEAD.min(length * 0.35);
        let at = |from_end: f64| line.eval(1.0 - from_end / length);
        match self {
            Pointer::Arrow(_) => {
                bar(&mut path, line.p0, at(head / 2.0), HALF);
                self::head(&mut path, at(head), line.p1);
            }
            Pointer::Across(_) => {
                bar(&mut path, at(length - head / 2.0), at(head / 2.0), HALF);
                self::head(&mut path, at(head), line.p1);
                self::head(&mut path, at(length - head), line.p0);
                let aside = aside(line.p0, line.p1) * TICK;
                for end in [line.p0, line.p1] {
                    bar(&mut path, end - aside, end + aside, HALF);
                }
            }
            Pointer::Thin(_) => bar(&mut path, line.p0, line.p1, HALF / 2.0),
        }
        path
    }
}

/// The direction to the left of a line, of length 1.
fn aside(from: Point, to: Point) -> Vec2 {
    let along = (to - from) / from.distance(to).max(1e-9);
    Vec2::new(along.y, -along.x)
}

fn bar(path: &mut BezPath, from: Point, to: Point, half: f64) {
    let aside = aside(from, to) * half;
    path.extend(polygon([
        from - aside,
        to - aside,
        to + aside,
        from + aside,
    ]));
}

fn head(path: &mut BezPath, foot: Point, tip: Point) {
    let aside = aside(foot, tip) * HEAD_HALF * (foot.distance(tip) / HEAD).max(0.4);
    path.extend(polygon([foot - aside, tip, foot + aside]));
}
