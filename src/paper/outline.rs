//! Outlines on a page: what is drawn that is not text.

use super::place::{Place, Rectangle};

/// A point of a page, in mm: x to the right of the left edge, y below the upper edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// To the right, in mm.
    pub x: f64,
    /// Down, in mm.
    pub y: f64,
}

/// One step of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    /// Starts a part.
    Move(Point),
    /// A straight line.
    Line(Point),
    /// A cubic Bézier curve: its two control points and its end.
    Cubic(Point, Point, Point),
    /// Back to the start of the part.
    Close,
}

/// What is printed with: sRGB (IEC 61966-2-1), eight bits a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ink {
    /// Red.
    pub r: u8,
    /// Green.
    pub g: u8,
    /// Blue.
    pub b: u8,
}

/// A line along an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub ink: Ink,
    /// Its width in mm.
    pub width: f64,
}

/// Lines and curves, filled, stroked or both. What is inside goes by the non-zero rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// The parts one after the other, each from a `Move` on.
    pub steps: Vec<Step>,
    /// What fills it.
    pub fill: Option<Ink>,
    /// The line along it, with round corners where it turns and square ends where it stops.
    pub stroke: Option<Stroke>,
}

impl Point {
    /// From its coordinates in mm.
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }
}

impl Ink {
    /// Black.
    pub const BLACK: Ink = Ink::grey(0);
    /// White.
    pub const WHITE: Ink = Ink::grey(255);

    /// From its channels.
    pub const fn new(r: u8, g: u8, b: u8) -> Ink {
        Ink { r, g, b }
    }

    /// A grey, 0 black and 255 white. Over 110 a photocopy loses it in thin lines.
    pub const fn grey(level: u8) -> Ink {
        Ink::new(level, level, level)
    }
}

impl Stroke {
    /// From its colour and its width in mm.
    pub const fn new(ink: Ink, width: f64) -> Stroke {
        Stroke { ink, width }
    }
}

impl Outline {
    /// A straight line.
    pub fn line(from: Point, to: Point, stroke: Stroke) -> Outline {
        Outline {
            steps: vec![Step::Move(from), Step::Line(to)],
            fill: None,
            stroke: Some(stroke),
        }
    }

    /// A rectangle.
    pub fn rectangle(around: Rectangle, fill: Option<Ink>, stroke: Option<Stroke>) -> Outline {
        let mut steps = Vec::new();
        push_rectangle(&mut steps, around);
        Outline {
            steps,
            fill,
            stroke,
        }
    }

    /// The same at a place.
    pub fn placed(&self, place: Place) -> Outline {
        self.moved(|point| place.point(point))
    }

    /// The same with every point moved.
    pub(super) fn moved(&self, to: impl Fn(Point) -> Point) -> Outline {
        let step = |step: &Step| match *step {
            Step::Move(a) => Step::Move(to(a)),
            Step::Line(a) => Step::Line(to(a)),
            Step::Cubic(a, b, c) => Step::Cubic(to(a), to(b), to(c)),
            Step::Close => Step::Close,
        };
        Outline {
            steps: self.steps.iter().map(step).collect(),
            ..*self
        }
    }

    /// Every point, control points too.
    pub fn points(&self) -> impl Iterator<Item = Point> {
        self.steps.iter().flat_map(|step| {
            let (points, count) = match *step {
                Step::Move(a) | Step::Line(a) => ([a; 3], 1),
                Step::Cubic(a, b, c) => ([a, b, c], 3),
                Step::Close => ([Point::new(0.0, 0.0); 3], 0),
            };
            points.into_iter().take(count)
        })
    }

    /// A rectangle that holds all of it, its line too; none where it is empty.
    pub fn bounds(&self) -> Option<Rectangle> {
        let half = self.stroke.map_or(0.0, |stroke| stroke.width / 2.0);
        // A curve lies within the hull of its control points.
        Rectangle::around(self.points()).map(|bounds| bounds.grown(half))
    }
}

fn push_rectangle(steps: &mut Vec<Step>, around: Rectangle) {
    let [a, b, c, d] = around.corners();
    steps.extend([
        Step::Move(a),
        Step::Line(b),
        Step::Line(c),
        Step::Line(d),
        Step::Close,
    ]);
}
