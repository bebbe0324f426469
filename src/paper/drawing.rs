//! Many outlines with a measure of their own, put on a page as one: a bloom, a code.

use super::outline::{Ink, Outline, Point, Step, Stroke};
use super::place::{Place, Rectangle};

/// Outlines drawn about an origin of their own, the lowest first.
///
/// Where the same outlines stand in many places, in whatever size, a PDF holds them once.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The outlines, points and widths of lines in units.
    pub outlines: Vec<Outline>,
    /// The mm of a unit.
    pub unit: f64,
    /// Where the origin is.
    pub place: Place,
}

impl Drawing {
    /// The dark squares of a grid, such as the modules of a QR code (ISO/IEC 18004), each `side` mm
    /// wide, with the upper left corner at `place`; `rows` from above, each from the left.
    ///
    /// Dark neighbours in a row are one piece, and all are one outline, so that no light seam is
    /// seen between them. The light border that a code needs is for the caller to leave.
    pub fn squares(rows: &[Vec<bool>], side: f64, place: Place, ink: Ink) -> Drawing {
        let mut steps = Vec::new();
        for (down, row) in rows.iter().enumerate() {
            let (top, bottom) = (down as f64, (down + 1) as f64);
            let mut at = 0;
            for run in row.chunk_by(|a, b| a == b) {
                let (left, right) = (at as f64, (at + run.len()) as f64);
                at += run.len();
                if run[0] {
                    // What is filled closes by itself.
                    steps.extend([
                        Step::Move(Point::new(left, top)),
                        Step::Line(Point::new(right, top)),
                        Step::Line(Point::new(right, bottom)),
                        Step::Line(Point::new(left, bottom)),
                    ]);
                }
            }
        }
        let squares = Outline {
            steps,
            fill: Some(ink),
            stroke: None,
        };
        Drawing {
            outlines: vec![squares],
            unit: side,
            place,
        }
    }

    /// The outlines on the page, in mm.
    pub fn on_page(&self) -> impl Iterator<Item = Outline> {
        self.outlines.iter().map(|outline| {
            let stroke = outline.stroke.map(|stroke| Stroke {
                width: stroke.width * self.unit,
                ..stroke
            });
            let points = outline.moved(|point| {
                let point = Point::new(point.x * self.unit, point.y * self.unit);
                self.place.point(point)
            });
            Outline { stroke, ..points }
        })
    }

    /// A rectangle that holds all of it; none where it is empty.
    pub fn bounds(&self) -> Option<Rectangle> {
        let bounds = self.on_page().filter_map(|outline| outline.bounds());
        Rectangle::around(bounds.flat_map(Rectangle::corners))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_dark_squares_are_where_the_grid_has_them() {
        let rows = [
            vec![true, true, false, true],
            vec![false, false, false, false],
            vec![false, true, true, true],
        ];
        let code = Drawing::squares(&rows, 0.5, Place::upright(10.0, 20.0), Ink::BLACK);
        let pieces = code.outlines[0].steps.chunks(4);
        let within = |x: f64, y: f64| {
            pieces.clone().any(|piece| {
                let points = piece.iter().filter_map(|step| match step {
                    Step::Move(a) | Step::Line(a) => Some(*a),
                    _ => None,
                });
                let area = Rectangle::around(points).expect("four corners");
                area.holds(Rectangle::new(x, y, 0.0, 0.0))
            })
        };
        for (down, row) in rows.iter().enumerate() {
            for (across, dark) in row.iter().enumerate() {
                let (x, y) = (across as f64 + 0.5, down as f64 + 0.5);
                assert_eq!(within(x, y), *dark, "{across} {down}");
            }
        }
        let area = Rectangle::new(10.0, 20.0, 2.0, 1.5);
        assert_eq!(code.bounds(), Some(area));
    }
}
