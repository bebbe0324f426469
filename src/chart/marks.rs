//! What stands for what on a page, told apart without colour.

use kurbo::{BezPath, Circle, Rect, Shape};

use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};

/// Between two lines of a hatched piece, in mm.
const HATCH: f64 = 1.2;
/// The strokes of a broken line and the gaps between them, in mm.
const DASH: f64 = 1.1;
/// How far the arms of a cross reach, in mm, and the radius of a dot.
const ARM: f64 = 1.4;
pub(super) const DOT: f64 = 1.1;

/// What fills a bar.
pub(super) const BAR: Srgb = Srgb::new(0xb5, 0xc9, 0xa8);
/// What fills a band of limits.
pub(super) const BAND: Srgb = Srgb::new(0xe1, 0xe8, 0xd8);
const EDGE: Stroke = Stroke::new(Srgb::new(0x4d, 0x6b, 0x3c), 0.25);
const CURVE: Stroke = Stroke::new(Srgb::new(0x2f, 0x4d, 0x22), 0.7);
const WHISKER: Stroke = Stroke::new(Srgb::grey(40), 0.3);
const NEED: Stroke = Stroke::new(Srgb::BLACK, 1.0);
const SHORT: Stroke = Stroke::new(Srgb::new(0xa0, 0x20, 0x20), 0.25);
const CROSS: Stroke = Stroke::new(Srgb::BLACK, 0.35);
const LIMIT: Stroke = Stroke::new(Srgb::new(0x8a, 0x4a, 0x10), 0.35);
const PARTING: Stroke = Stroke::new(Srgb::BLACK, 0.5);
/// Lines to go by.
pub(super) const GRID: Stroke = Stroke::new(Srgb::grey(190), 0.15);
/// Axes.
pub(super) const AXIS: Stroke = Stroke::new(Srgb::grey(60), 0.25);

/// A bar up to a value.
pub(super) fn bar(area: Rect) -> Outline {
    Outline::of(area).filled(BAR).stroked(EDGE)
}

/// A thick line at what is needed.
pub(super) fn need(from: f64, to: f64, y: f64) -> Outline {
    Outline::line((from, y), (to, y), NEED)
}

/// An upright line with a short one across each end.
pub(super) fn whisker(x: f64, low: f64, high: f64) -> Outline {
    Outline::of(strokes(&[
        [(x, high), (x, low)],
        [(x - 1.0, high), (x + 1.0, high)],
        [(x - 1.0, low), (x + 1.0, low)],
    ]))
    .stroked(WHISKER)
}

/// The same lying, with a longer stroke across at a value within. An end that is not there, for it goes
/// on, is an arrow's.
pub(super) fn lying_whisker(y: f64, ends: [(f64, bool); 2], middle: f64) -> Outline {
    let [(low, _), (high, _)] = ends;
    let mut lines = vec![
        [(low, y), (high, y)],
        [(middle, y - 1.8), (middle, y + 1.8)],
    ];
    for ((x, ends), inward) in ends.into_iter().zip([1.0, -1.0]) {
        match ends {
            true => lines.push([(x, y - 1.0), (x, y + 1.0)]),
            false => lines.extend([-1.0, 1.0].map(|side| [(x, y), (x + 2.0 * inward, y + side)])),
        }
    }
    Outline::of(strokes(&lines)).stroked(Stroke {
        width: 0.45,
        ..WHISKER
    })
}

/// A piece that lacks: its edge, and lines that rise across it.
pub(super) fn short(area: Rect) -> [Outline; 2] {
    let (width, height) = (area.width(), area.height());
    let mut lines = BezPath::new();
    let count = ((width + height) / HATCH) as usize;
    for at in 1..=count {
        // Where a line meets the foot, left of the piece or in it; it is drawn within the piece.
        let foot = at as f64 * HATCH - height;
        let (from, to) = ((-foot).max(0.0), height.min(width - foot));
        lines.move_to((area.x0 + foot + from, area.y1 - from));
        lines.line_to((area.x0 + foot + to, area.y1 - to));
    }
    [Outline::of(area), Outline::of(lines)].map(|one| one.stroked(SHORT))
}

/// A line that falls in steps.
pub(super) fn curve(path: BezPath) -> Outline {
    Outline::of(path).stroked(CURVE)
}

/// A band of limits.
pub(super) fn band(path: BezPath) -> Outline {
    Outline::of(path).filled(BAND)
}

/// A cross.
pub(super) fn cross(x: f64, y: f64) -> Outline {
    Outline::of(strokes(&[
        [(x - ARM, y), (x + ARM, y)],
        [(x, y - ARM), (x, y + ARM)],
    ]))
    .stroked(CROSS)
}

/// A dot.
pub(super) fn dot(x: f64, y: f64) -> Outline {
    Outline::of(Circle::new((x, y), DOT))
        .filled(BAR)
        .stroked(EDGE)
}

/// An upright broken line at a limit.
pub(super) fn limit(x: f64, top: f64, foot: f64) -> Outline {
    Outline::of(dashes(x, top, foot, DASH)).stroked(LIMIT)
}

/// An upright broken line at a limit that decides: stronger, of longer strokes.
pub(super) fn parting(x: f64, top: f64, foot: f64) -> Outline {
    Outline::of(dashes(x, top, foot, 2.0 * DASH)).stroked(PARTING)
}

fn dashes(x: f64, top: f64, foot: f64, dash: f64) -> BezPath {
    let count = ((foot - top) / (2.0 * dash)).max(0.0) as usize;
    let one = |at: usize| {
        let from = top + at as f64 * 2.0 * dash;
        [(x, from), (x, (from + dash).min(foot))]
    };
    let all: Vec<_> = (0..=count).map(one).collect();
    strokes(&all)
}

fn strokes(ends: &[[(f64, f64); 2]]) -> BezPath {
    let mut path = BezPath::new();
    for [from, to] in ends {
        path.move_to(*from);
        path.line_to(*to);
    }
    path
}

/// A rectangle of one colour, with an edge that shows it on any ground.
pub(super) fn swatch(area: Rect, fill: Srgb) -> Outline {
    let edge = Stroke::new(Srgb::grey(90), 0.15);
    Outline::of(area.to_path(1e-3)).filled(fill).stroked(edge)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hatched_piece_stays_in_its_edge() {
        for (width, height) in [(7.0, 3.2), (2.0, 40.0), (0.5, 0.4)] {
            let area = Rect::new(10.0, 20.0, 10.0 + width, 20.0 + height);
            let [_, lines] = short(area);
            let held = area.inflate(1e-9, 1e-9);
            let points = crate::geometry::points(&lines.path);
            assert!(points.into_iter().all(|point| held.contains(point)));
        }
    }

    #[test]
    fn a_broken_line_ends_where_it_should() {
        for foot in [0.4, 5.0, 77.7] {
            let line = limit(3.0, 0.0, foot).path.bounding_box();
            assert!(
                line.y0 == 0.0 && line.y1 <= foot && foot - line.y1 <= DASH,
                "{foot}"
            );
        }
    }
}
