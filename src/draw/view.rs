//! From the bloom's space to the paper.

use kurbo::Point;

/// A place in a floret's half-plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub out: f64,
    pub up: f64,
}

/// From where a bloom is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum View {
    /// Straight at the face.
    Face,
    /// From the side, stem down.
    Side,
}

impl View {
    /// A place at a turn about the stem, and so far aside of it: where it is seen, and how near.
    pub(super) fn project(self, turn: f64, (place, aside): (Place, f64)) -> (Point, f64) {
        let (sin, cos) = turn.sin_cos();
        let x = place.out * cos - aside * sin;
        let y = place.out * sin + aside * cos;
        match self {
            View::Face => (Point::new(x, y), place.up),
            View::Side => (Point::new(x, -place.up), y),
        }
    }

    /// Whether a surface with this normal (outward, upward) at a turn is seen.
    pub(super) fn faces(self, turn: f64, out: f64, up: f64) -> bool {
        match self {
            View::Face => up > 0.0,
            View::Side => out * turn.sin() > 0.0,
        }
    }
}
