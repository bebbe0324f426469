//! The dark squares of a grid: a code that a machine reads.

use std::sync::Arc;

use kurbo::{Affine, BezPath, Rect, Shape};

use crate::colour::Srgb;
use crate::geometry::{self, Outline};

/// A grid of squares, some of them dark, such as the modules of a QR code (ISO/IEC 18004).
///
/// The light border that a code needs is for the caller to leave.
#[derive(Debug, Clone, PartialEq)]
pub struct Squares {
    /// The rows from above, each from the left; dark where `true`. Held once however often they are
    /// placed, and then written once into a PDF.
    pub rows: Arc<[Vec<bool>]>,
    /// From squares to the page's millimetres: where the upper left corner is, how large a square.
    pub place: Affine,
    /// The colour of the dark ones.
    pub ink: Srgb,
}

impl Squares {
    /// The dark squares as one filled outline on the page: neighbours in a row are one piece, and
    /// all are one, so that no light seam is seen between them.
    pub fn outline(&self) -> Outline {
        let mut path = BezPath::new();
        for (down, row) in self.rows.iter().enumerate() {
            let (top, bottom) = (down as f64, (down + 1) as f64);
            for (start, end) in dark_runs(row) {
                let piece = Rect::new(start as f64, top, end as f64, bottom);
                // A rectangle has no curves to be off.
                path.extend(piece.path_elements(0.0));
            }
        }
        Outline::of(self.place * path).filled(self.ink)
    }

    /// The side of a square in mm.
    pub fn side(&self) -> f64 {
        geometry::scale(self.place)
    }

    /// A rectangle that holds the dark ones; none where there are none.
    pub fn bounds(&self) -> Option<Rect> {
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
    use kurbo::Point;

    use super::*;

    #[test]
    fn the_dark_squares_are_where_the_grid_has_them() {
        let rows = [
            vec![true, true, false, true],
            vec![false, false, false, false],
            vec![false, true, true, true],
        ];
        let code = Squares {
            rows: Arc::from(rows.to_vec()),
            place: Affine::translate((10.0, 20.0)) * Affine::scale(0.5),
            ink: Srgb::BLACK,
        };
        let dark = code.outline().path;
        for (down, row) in rows.iter().enumerate() {
            for (across, expected) in row.iter().enumerate() {
                let x = 10.0 + (across as f64 + 0.5) * 0.5;
                let y = 20.0 + (down as f64 + 0.5) * 0.5;
                assert_eq!(
                    dark.contains(Point::new(x, y)),
                    *expected,
                    "{across} {down}"
                );
            }
        }
        let area = Rect::new(10.0, 20.0, 12.0, 21.5);
        assert_eq!(code.bounds(), Some(area));
    }
}
