//! The dark squares of a grid: a code that a machine reads.

use super::outline::{Ink, Outline, Point, Step};
use super::place::{Place, Rectangle};

/// A grid of squares, some of them dark, such as the modules of a QR code (ISO/IEC 18004).
///
/// The light border that a code needs is for the caller to leave.
#[derive(Debug, Clone, PartialEq)]
pub struct Squares {
    /// The rows from above, each from the left; dark where `true`.
    pub rows: Vec<Vec<bool>>,
    /// The side of a square in mm.
    pub side: f64,
    /// Where the upper left corner is.
    pub place: Place,
    /// The colour of the dark ones.
    pub ink: Ink,
}

impl Squares {
    /// The dark squares as one filled outline on the page: neighbours in a row are one piece, and
    /// all are one, so that no light seam is seen between them.
    pub fn outline(&self) -> Outline {
        let mut steps = Vec::new();
        for (down, row) in self.rows.iter().enumerate() {
            let (top, bottom) = (down as f64 * self.side, (down + 1) as f64 * self.side);
            for (start, end) in dark_runs(row) {
                let (left, right) = (start as f64 * self.side, end as f64 * self.side);
                // What is filled closes by itself.
                steps.extend([
                    Step::Move(self.place.point(Point::new(left, top))),
                    Step::Line(self.place.point(Point::new(right, top))),
                    Step::Line(self.place.point(Point::new(right, bottom))),
                    Step::Line(self.place.point(Point::new(left, bottom))),
                ]);
            }
        }
        Outline {
            steps,
            fill: Some(self.ink),
            stroke: None,
        }
    }

    /// A rectangle that holds the dark ones; none where there are none.
    pub fn bounds(&self) -> Option<Rectangle> {
        self.outline().bounds()
    }
}

/// Where dark squares that touch begin, and the place after the last of them.
pub(super) fn dark_runs(row: &[bool]) -> impl Iterator<Item = (usize, usize)> {
    let mut at = 0;
    row.chunk_by(|a, b| a == b).filter_map(move |run| {
        let start = at;
        at += run.len();
        run[0].then_some((start, at))
    })
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
        let code = Squares {
            rows: rows.to_vec(),
            side: 0.5,
            place: Place::upright(10.0, 20.0),
            ink: Ink::BLACK,
        };
        let outline = code.outline();
        let pieces = outline.steps.chunks(4);
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
                let x = 10.0 + (across as f64 + 0.5) * 0.5;
                let y = 20.0 + (down as f64 + 0.5) * 0.5;
                assert_eq!(within(x, y), *dark, "{across} {down}");
            }
        }
        let area = Rectangle::new(10.0, 20.0, 2.0, 1.5);
        assert_eq!(code.bounds(), Some(area));
    }
}
