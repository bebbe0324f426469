//! A page: its size and what is printed on it, the first thing lowest.

use kurbo::{Affine, BezPath, Point, Rect};

use super::drawing::Drawing;
use super::font::Style;
use super::font::{Face, POINT};
use super::printable::Printable;
use super::squares::Squares;
use crate::colour::Srgb;
use crate::geometry::Outline;

/// A page of paper. Everything is in mm from its upper left corner, x to the right, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// From the left to the right edge.
    pub width: f64,
    /// From the upper to the lower edge.
    pub height: f64,
    /// What it shows, in words, for who cannot see it; empty where its lines say it all.
    pub shows: String,
    /// What is printed; later items lie on earlier ones.
    pub items: Vec<Item>,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// One line of text.
    Text(TextLine),
    /// Lines and areas: rules, frames.
    Outline(Outline),
    /// A drawing of many outlines.
    Drawing(Drawing),
    /// A code that a machine reads.
    Squares(Squares),
}

/// One line of text in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct TextLine {
    /// What it says.
    pub text: Printable,
    /// How its letters are set.
    pub style: Style,
    /// Its colour.
    pub ink: Srgb,
    /// Where it is set on the page, in mm: its point on the base line stands at the origin.
    pub place: Affine,
    /// Whether that point is its start, middle or end.
    pub align: Align,
}

/// What of a line stands at its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Align {
    /// Its start.
    #[default]
    Left,
    /// Its middle.
    Centre,
    /// Its end.
    Right,
}

impl TextLine {
    /// Black, upright, from `at` to the right.
    pub fn new(text: Printable, style: Style, at: impl Into<Point>) -> TextLine {
        TextLine {
            text,
            style,
            ink: Srgb::BLACK,
            place: Affine::translate(at.into().to_vec2()),
            align: Align::Left,
        }
    }

    /// The same, aligned so.
    pub fn aligned(self, align: Align) -> TextLine {
        TextLine { align, ..self }
    }

    /// The same in this colour.
    pub fn inked(self, ink: Srgb) -> TextLine {
        TextLine { ink, ..self }
    }

    /// Its point on the base line, on the page.
    pub fn at(&self) -> Point {
        self.place.translation().to_point()
    }

    /// The rectangle of its letters: its width, and the height of the font with its accents.
    pub fn bounds(&self) -> Rect {
        let (above, below) = (self.style.above(), self.style.below());
        let (start, width) = (self.start(), self.text.width(self.style));
        let upright = Rect::new(start, -above, start + width, below);
        self.place.transform_rect_bbox(upright)
    }

    /// Its letters as one filled outline, for where no font can be relied on.
    pub fn outline(&self) -> Outline {
        let face = Face::of(self.style.weight);
        let size = self.style.points * POINT;
        let mut x = self.start();
        let mut path = BezPath::new();
        for glyph in self.text.as_str().chars().filter_map(|c| face.glyph(c)) {
            // A font's y runs up.
            let set = Affine::new([size, 0.0, 0.0, -size, x, 0.0]);
            path.extend(self.place * set * face.outline(glyph));
            x += glyph.advance * size;
        }
        Outline::of(path).filled(self.ink)
    }

    /// Where it starts on its base line, from its point, in mm.
    pub(super) fn start(&self) -> f64 {
        let width = self.text.width(self.style);
        match self.align {
            Align::Left => 0.0,
            Align::Centre => -width / 2.0,
            Align::Right => -width,
        }
    }
}

impl Item {
    /// The same at a place: how a label, a panel or a drawing comes onto a page.
    pub fn placed(&self, place: Affine) -> Item {
        match self {
            Item::Text(line) => Item::Text(TextLine {
                place: place * line.place,
                ..line.clone()
            }),
            Item::Outline(outline) => Item::Outline(outline.placed(place)),
            Item::Drawing(drawing) => Item::Drawing(Drawing {
                place: place * drawing.place,
                ..drawing.clone()
            }),
            Item::Squares(squares) => Item::Squares(Squares {
                place: place * squares.place,
                ..squares.clone()
            }),
        }
    }

    /// A rectangle that holds all of it; none where it is empty.
    pub fn bounds(&self) -> Option<Rect> {
        match self {
            Item::Text(line) => Some(line.bounds()),
            Item::Outline(outline) => outline.bounds(),
            Item::Drawing(drawing) => drawing.bounds(),
            Item::Squares(squares) => squares.bounds(),
        }
    }
}

impl From<TextLine> for Item {
    fn from(line: TextLine) -> Item {
        Item::Text(line)
    }
}

impl From<Outline> for Item {
    fn from(outline: Outline) -> Item {
        Item::Outline(outline)
    }
}

impl From<Drawing> for Item {
    fn from(drawing: Drawing) -> Item {
        Item::Drawing(drawing)
    }
}

impl From<Squares> for Item {
    fn from(squares: Squares) -> Item {
        Item::Squares(squares)
    }
}

impl Page {
    /// The page as a rectangle.
    pub fn area(&self) -> Rect {
        Rect::new(0.0, 0.0, self.width, self.height)
    }

    /// The items that leave the page by more than a thousandth of a millimetre; printing would cut
    /// them.
    pub fn strays(&self) -> impl Iterator<Item = &Item> {
        let area = self.area().inflate(1e-3, 1e-3);
        let inside = move |item: &&Item| {
            let bounds = item.bounds();
            bounds.is_none_or(|bounds| area.contains_rect(bounds))
        };
        self.items.iter().filter(move |item| !inside(item))
    }

    /// What its lines say, in the order of printing.
    pub fn lines(&self) -> impl Iterator<Item = &TextLine> {
        self.items.iter().filter_map(|item| match item {
            Item::Text(line) => Some(line),
            Item::Outline(_) | Item::Drawing(_) | Item::Squares(_) => None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(align: Align, turn: f64) -> TextLine {
        let text = Printable::new("Skerry").expect("printable");
        let line = TextLine::new(text, Style::regular(12.0), (0.0, 0.0));
        TextLine {
            place: Affine::translate((50.0, 40.0)) * Affine::rotate(turn.to_radians()),
            ..line.aligned(align)
        }
    }

    #[test]
    fn the_letters_lie_in_the_rectangle_of_their_line() {
        for align in [Align::Left, Align::Centre, Align::Right] {
            for turn in [0.0, 90.0, 180.0, 270.0] {
                let line = line(align, turn);
                let letters = line.outline().bounds().expect("letters");
                let bounds = line.bounds();
                assert!(
                    bounds.inflate(0.2, 0.2).contains_rect(letters),
                    "{align:?} {turn}"
                );
                let long = |area: Rect| area.width().max(area.height());
                let gap = long(bounds) - long(letters);
                assert!((0.0..1.0).contains(&gap), "{align:?} {turn}: {gap}");
            }
        }
    }

    #[test]
    fn an_item_over_the_edge_is_a_stray() {
        let mut page = Page {
            width: 60.0,
            height: 80.0,
            shows: String::new(),
            items: vec![line(Align::Centre, 0.0).into()],
        };
        assert_eq!(page.strays().count(), 0);
        page.items.push(line(Align::Left, 0.0).into());
        assert_eq!(page.strays().count(), 1);
    }
}
