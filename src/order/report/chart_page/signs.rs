//! What stands for what in the chart, told apart without colour; and the legend that says so.

use kurbo::{BezPath, Rect};

use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::paper::{Align, Item, Printable, Style, TextLine};

const WORDS: Style = Style::regular(9.0);
/// A sign of the legend, in mm: its width, and its height above and below the middle of the words.
const SIGN: f64 = 7.0;
const HALF: f64 = 1.6;
/// Between two lines of a hatched piece, in mm.
const HATCH: f64 = 1.2;

const LEAF: Srgb = Srgb::new(0xb5, 0xc9, 0xa8);
const EDGE: Stroke = Stroke::new(Srgb::new(0x4d, 0x6b, 0x3c), 0.25);
const WHISKER: Stroke = Stroke::new(Srgb::grey(40), 0.3);
const NEEDED: Stroke = Stroke::new(Srgb::BLACK, 1.0);
const SHORT: Stroke = Stroke::new(Srgb::new(0xa0, 0x20, 0x20), 0.25);

/// The legend: each sign and what it says, one after the other.
pub(super) fn legend(mut x: f64, base: f64) -> Vec<Item> {
    let y = base - WORDS.capital() / 2.0;
    let mut items: Vec<Item> = Vec::new();
    for (at, says) in ["stems needed", "expected", "nine seasons in ten", "short"]
        .into_iter()
        .enumerate()
    {
        let area = Rect::new(x, y - HALF, x + SIGN, y + HALF);
        let sign = match at {
            0 => vec![needed(x, area.x1, y)],
            1 => vec![expected(area)],
            2 => vec![whisker(x + SIGN / 2.0, area.y1, area.y0)],
            _ => short(area).to_vec(),
        };
        items.extend(sign.into_iter().map(Item::from));
        let said = words(says, WORDS, (area.x1 + 2.0, base), Align::Left);
        let end = said.as_ref().and_then(Item::bounds);
        x = end.map_or(area.x1, |words| words.x1) + 6.0;
        items.extend(said);
    }
    items
}

/// A bar up to what is expected.
pub(super) fn expected(bar: Rect) -> Outline {
    Outline::of(bar).filled(LEAF).stroked(EDGE)
}

/// A thick line at what is needed.
pub(super) fn needed(from: f64, to: f64, y: f64) -> Outline {
    Outline::line((from, y), (to, y), NEEDED)
}

/// An upright line with a short one across each end.
pub(super) fn whisker(x: f64, low: f64, high: f64) -> Outline {
    let mut path = BezPath::new();
    for [from, to] in [
        [(x, high), (x, low)],
        [(x - 1.0, high), (x + 1.0, high)],
        [(x - 1.0, low), (x + 1.0, low)],
    ] {
        path.move_to(from);
        path.line_to(to);
    }
    Outline::of(path).stroked(WHISKER)
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

/// A line of our own words and figures.
pub(super) fn words(text: &str, style: Style, at: (f64, f64), align: Align) -> Option<Item> {
    // OK to leave out: the fonts have every letter of ours, and nothing is to be said by none.
    let text = Printable::new(text).ok().filter(|_| !text.is_empty())?;
    Some(TextLine::new(text, style, at).aligned(align).into())
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
}
