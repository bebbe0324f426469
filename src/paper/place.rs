//! Where things stand: rectangles, and quarter turns for stakes and folded pages.

use super::outline::Point;

/// A rectangle with its sides along the page's, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// The left side.
    pub x: f64,
    /// The upper side.
    pub y: f64,
    /// From the left to the right side.
    pub width: f64,
    /// From the upper to the lower side.
    pub height: f64,
}

/// A turn, clockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Turn {
    /// Upright.
    #[default]
    None,
    /// A quarter: text runs down.
    Right,
    /// A half: upside down.
    Over,
    /// Three quarters: text runs up.
    Left,
}

/// Where the origin of a part of a page, drawn on its own, stands on the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// The part's origin on the page.
    pub at: Point,
    /// How the part is turned about it.
    pub turn: Turn,
}

impl Turn {
    /// This turn and then another.
    pub fn then(self, other: Turn) -> Turn {
        match (self.quarters() + other.quarters()) % 4 {
            0 => Turn::None,
            1 => Turn::Right,
            2 => Turn::Over,
            _ => Turn::Left,
        }
    }

    /// Degrees clockwise.
    pub fn degrees(self) -> u16 {
        u16::from(self.quarters()) * 90
    }

    fn quarters(self) -> u8 {
        match self {
            Turn::None => 0,
            Turn::Right => 1,
            Turn::Over => 2,
            Turn::Left => 3,
        }
    }

    /// A vector, turned.
    pub(super) fn of(self, x: f64, y: f64) -> (f64, f64) {
        match self {
            Turn::None => (x, y),
            Turn::Right => (-y, x),
            Turn::Over => (-x, -y),
            Turn::Left => (y, -x),
        }
    }
}

impl Place {
    /// Moved, not turned.
    pub const fn upright(x: f64, y: f64) -> Place {
        Place {
            at: Point::new(x, y),
            turn: Turn::None,
        }
    }

    /// A part `width` wide and `height` high, turned, so that it fills the rectangle whose upper
    /// left corner is at `corner`. A quarter turn makes the rectangle `height` wide.
    pub fn turned(corner: Point, width: f64, height: f64, turn: Turn) -> Place {
        let (x, y) = match turn {
            Turn::None => (0.0, 0.0),
            Turn::Right => (height, 0.0),
            Turn::Over => (width, height),
            Turn::Left => (0.0, width),
        };
        Place {
            at: Point::new(corner.x + x, corner.y + y),
            turn,
        }
    }

    /// The place on the page of a place in a part that is itself at `other`.
    pub fn then(self, other: Place) -> Place {
        Place {
            at: other.point(self.at),
            turn: self.turn.then(other.turn),
        }
    }

    /// A point of the part, on the page.
    pub fn point(self, point: Point) -> Point {
        let (x, y) = self.turn.of(point.x, point.y);
        Point::new(self.at.x + x, self.at.y + y)
    }
}

impl Rectangle {
    /// From its upper left corner, its width and its height, in mm.
    pub const fn new(x: f64, y: f64, width: f64, height: f64) -> Rectangle {
        Rectangle {
            x,
            y,
            width,
            height,
        }
    }

    /// The right side.
    pub fn right(self) -> f64 {
        self.x + self.width
    }

    /// The lower side.
    pub fn bottom(self) -> f64 {
        self.y + self.height
    }

    /// The corners: upper left, then clockwise.
    pub fn corners(self) -> [Point; 4] {
        let (right, bottom) = (self.right(), self.bottom());
        [
            Point::new(self.x, self.y),
            Point::new(right, self.y),
            Point::new(right, bottom),
            Point::new(self.x, bottom),
        ]
    }

    /// The smallest that holds these points; none without points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Rectangle> {
        let mut points = points.into_iter();
        let first = points.next()?;
        let (mut low, mut high) = (first, first);
        for point in points {
            low = Point::new(low.x.min(point.x), low.y.min(point.y));
            high = Point::new(high.x.max(point.x), high.y.max(point.y));
        }
        Some(Rectangle::new(low.x, low.y, high.x - low.x, high.y - low.y))
    }

    /// Larger by `by` mm on every side; smaller where it is negative.
    pub fn grown(self, by: f64) -> Rectangle {
        Rectangle::new(
            self.x - by,
            self.y - by,
            self.width + 2.0 * by,
            self.height + 2.0 * by,
        )
    }

    /// Whether another lies within, but for a thousandth of a millimetre.
    pub fn holds(self, other: Rectangle) -> bool {
        let room = self.grown(1e-3);
        other.x >= room.x
            && other.y >= room.y
            && other.right() <= room.right()
            && other.bottom() <= room.bottom()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_part_fills_its_rectangle_whatever_the_turn() {
        let part = Rectangle::new(0.0, 0.0, 30.0, 10.0);
        for turn in [Turn::None, Turn::Right, Turn::Over, Turn::Left] {
            let place = Place::turned(Point::new(5.0, 7.0), 30.0, 10.0, turn);
            let found = Rectangle::around(part.corners().map(|corner| place.point(corner)));
            let expected = match turn {
                Turn::None | Turn::Over => Rectangle::new(5.0, 7.0, 30.0, 10.0),
                Turn::Right | Turn::Left => Rectangle::new(5.0, 7.0, 10.0, 30.0),
            };
            assert_eq!(found, Some(expected), "{turn:?}");
        }
    }

    #[test]
    fn a_place_in_a_place_is_a_place() {
        let inner = Place::turned(Point::new(3.0, 4.0), 5.0, 6.0, Turn::Left);
        let outer = Place::turned(Point::new(7.0, 8.0), 20.0, 30.0, Turn::Right);
        let point = Point::new(1.0, 2.0);
        assert_eq!(
            inner.then(outer).point(point),
            outer.point(inner.point(point))
        );
    }

    #[test]
    fn four_quarters_are_no_turn() {
        let quarter = Turn::Right;
        let turned = quarter.then(quarter).then(quarter);
        assert_eq!(turned, Turn::Left);
        assert_eq!(turned.then(quarter), Turn::None);
        assert_eq!(Turn::Over.then(Turn::Over), Turn::None);
    }
}
