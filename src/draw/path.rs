//! Closed outlines: what every renderer draws, and nothing else.

/// A point of a drawing: x to the right, y down, the bloom in the circle of radius 1 about (0, 0).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// One step of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    /// Starts an outline.
    Move(Point),
    /// A straight line.
    Line(Point),
    /// A cubic Bézier curve: its two control points and its end.
    Cubic(Point, Point, Point),
    /// Back to the start.
    Close,
}

/// A closed outline.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    /// `Move`, then lines and curves, then `Close`.
    pub steps: Vec<Step>,
}

/// A corner of an outline under construction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Knot {
    pub at: Point,
    /// Whether the outline turns here; elsewhere it passes smoothly.
    pub sharp: bool,
}

/// The part of a circle's radius that makes a cubic a good quarter of it.
const QUARTER: f64 = 0.552_284_749_831;

impl Point {
    /// From its coordinates.
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    /// How far from the middle of the drawing.
    pub fn distance(self) -> f64 {
        self.x.hypot(self.y)
    }

    pub(super) fn toward(self, other: Point, share: f64) -> Point {
        Point::new(
            self.x + (other.x - self.x) * share,
            self.y + (other.y - self.y) * share,
        )
    }
}

impl Outline {
    /// Through all knots and back to the first: a Catmull-Rom spline as cubics, broken at corners.
    pub(super) fn through(knots: &[Knot]) -> Outline {
        let Some(first) = knots.first() else {
            return Outline::default();
        };
        let count = knots.len();
        let knot = |at: usize| knots[at % count];
        // The curve leaves a smooth knot along the line between its neighbours.
        let slope = |at: usize| {
            let (before, after) = (knot(at + count - 1).at, knot(at + 1).at);
            Point::new((after.x - before.x) / 6.0, (after.y - before.y) / 6.0)
        };
        let mut steps = vec![Step::Move(first.at)];
        for at in 0..count {
            let (from, to) = (knot(at), knot(at + 1));
            if from.sharp && to.sharp {
                steps.push(Step::Line(to.at));
                continue;
            }
            let (out, back) = (slope(at), slope(at + 1));
            let leaves = match from.sharp {
                true => from.at.toward(to.at, 1.0 / 3.0),
                false => Point::new(from.at.x + out.x, from.at.y + out.y),
            };
            let arrives = match to.sharp {
                true => to.at.toward(from.at, 1.0 / 3.0),
                false => Point::new(to.at.x - back.x, to.at.y - back.y),
            };
            steps.push(Step::Cubic(leaves, arrives, to.at));
        }
        steps.push(Step::Close);
        Outline { steps }
    }

    /// An ellipse with its axes along x and y.
    pub(super) fn ellipse(middle: Point, across: f64, down: f64) -> Outline {
        let at = |x: f64, y: f64| Point::new(middle.x + x * across, middle.y + y * down);
        let q = QUARTER;
        Outline {
            steps: vec![
                Step::Move(at(1.0, 0.0)),
                Step::Cubic(at(1.0, q), at(q, 1.0), at(0.0, 1.0)),
                Step::Cubic(at(-q, 1.0), at(-1.0, q), at(-1.0, 0.0)),
                Step::Cubic(at(-1.0, -q), at(-q, -1.0), at(0.0, -1.0)),
                Step::Cubic(at(q, -1.0), at(1.0, -q), at(1.0, 0.0)),
                Step::Close,
            ],
        }
    }

    /// A circle.
    pub(super) fn circle(middle: Point, radius: f64) -> Outline {
        Outline::ellipse(middle, radius, radius)
    }

    /// Straight from corner to corner.
    pub(super) fn polygon(corners: &[Point]) -> Outline {
        let knots: Vec<Knot> = corners
            .iter()
            .map(|at| Knot {
                at: *at,
                sharp: true,
            })
            .collect();
        Outline::through(&knots)
    }

    /// Every point, control points too: the curve lies within their hull.
    pub fn points(&self) -> impl Iterator<Item = Point> {
        self.steps.iter().flat_map(|step| {
            let (points, count) = match *step {
                Step::Move(a) | Step::Line(a) => ([a, a, a], 1),
                Step::Cubic(a, b, c) => ([a, b, c], 3),
                Step::Close => ([Point::new(0.0, 0.0); 3], 0),
            };
            points.into_iter().take(count)
        })
    }

    /// With every point moved.
    pub(super) fn moved(&self, to: impl Fn(Point) -> Point) -> Outline {
        let step = |step: &Step| match *step {
            Step::Move(a) => Step::Move(to(a)),
            Step::Line(a) => Step::Line(to(a)),
            Step::Cubic(a, b, c) => Step::Cubic(to(a), to(b), to(c)),
            Step::Close => Step::Close,
        };
        Outline {
            steps: self.steps.iter().map(step).collect(),
        }
    }
}
