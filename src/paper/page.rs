//! A page: its size and what is printed on it, the first thing lowest.

use super::drawing::Drawing;
use super::font::Style;
use super::font::{Face, POINT};
use super::outline::{Ink, Outline, Point, Step};
use super::place::{Place, Rectangle, Turn};
use super::printable::Printable;
use super::squares::Squares;

/// A page of paper. Everything is in mm from its upper left corner, x to the right, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// From the left to the right edge.
    pub width: f64,
    /// From the upper to the lower edge.
    pub height: f64,
    /// What is printed; later items lie on earlier ones.
    pub items: Vec<Item>,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// One line of text.
    Text(Line),
    /// Lines and areas: rules, frames.
    Outline(Outline),
    /// A drawing of many outlines.
    Drawing(Drawing),
    /// A code that a machine reads.
    Squares(Squares),
}

/// One line of text in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it says.
    pub text: Printable,
    /// How its letters are set.
    pub style: Style,
    /// Its colour.
    pub ink: Ink,
    /// Its point on the base line: its start, middle or end.
    pub at: Point,
    /// Which of the three.
    pub align: Align,
    /// How it is turned about that point.
    pub turn: Turn,
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

impl Line {
    /// Black, upright, from `at` to the right.
    pub fn new(text: Printable, style: Style, at: Point) -> Line {
        Line {
            text,
            style,
            ink: Ink::BLACK,
            at,
            align: Align::Left,
            turn: Turn::None,
        }
    }

    /// The same, aligned so.
    pub fn aligned(self, align: Align) -> Line {
        Line { align, ..self }
    }

    /// The same in this colour.
    pub fn inked(self, ink: Ink) -> Line {
        Line { ink, ..self }
    }

    /// The rectangle of its letters: its width, and the height of the font with its accents.
    pub fn bounds(&self) -> Rectangle {
        let (above, below) = (self.style.above(), self.style.below());
        let start = self.start();
        let place = Place {
            at: self.at,
            turn: self.turn,
        };
        let upright = Rectangle::new(start, -above, self.text.width(self.style), above + below);
        let corners = upright.corners().map(|corner| place.point(corner));
        // OK because four corners have a rectangle around them.
        Rectangle::around(corners).unwrap_or(upright)
    }

    /// Its letters as one filled outline, for where no font can be relied on.
    pub fn outline(&self) -> Outline {
        let face = Face::of(self.style.weight);
        let size = self.style.points * POINT;
        let mut x = self.start();
        let mut steps: Vec<Step> = Vec::new();
        for glyph in self.text.as_str().chars().filter_map(|c| face.glyph(c)) {
            steps.extend(face.outline(glyph, size, x, 0.0));
            x += glyph.advance * size;
        }
        let upright = Outline {
            steps,
            fill: Some(self.ink),
            stroke: None,
        };
        upright.placed(Place {
            at: self.at,
            turn: self.turn,
        })
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
    pub fn placed(&self, place: Place) -> Item {
        match self {
            Item::Text(line) => Item::Text(Line {
                at: place.point(line.at),
                turn: line.turn.then(place.turn),
                ..line.clone()
            }),
            Item::Outline(outline) => Item::Outline(outline.placed(place)),
            Item::Drawing(drawing) => Item::Drawing(Drawing {
                place: drawing.place.then(place),
                ..drawing.clone()
            }),
            Item::Squares(squares) => Item::Squares(Squares {
                place: squares.place.then(place),
                ..squares.clone()
            }),
        }
    }

    /// A rectangle that holds all of it; none where it is empty.
    pub fn bounds(&self) -> Option<Rectangle> {
        match self {
            Item::Text(line) => Some(line.bounds()),
            Item::Outline(outline) => outline.bounds(),
            Item::Drawing(drawing) => drawing.bounds(),
            Item::Squares(squares) => squares.bounds(),
        }
    }
}

impl From<Line> for Item {
    fn from(line: Line) -> Item {
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
    pub fn area(&self) -> Rectangle {
        Rectangle::new(0.0, 0.0, self.width, self.height)
    }

    /// The items that leave the page; printing would cut them.
    pub fn strays(&self) -> impl Iterator<Item = &Item> {
        let area = self.area();
        let inside = move |item: &&Item| item.bounds().is_none_or(|bounds| area.holds(bounds));
        self.items.iter().filter(move |item| !inside(item))
    }

    /// What its lines say, in the order of printing.
    pub fn lines(&self) -> impl Iterator<Item = &Line> {
        self.items.iter().filter_map(|item| match item {
            Item::Text(line) => Some(line),
            Item::Outline(_) | Item::Drawing(_) | Item::Squares(_) => None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(align: Align, turn: Turn) -> Line {
        let text = Printable::new("Skerry").expect("printable");
        let line = Line::new(text, Style::regular(12.0), Point::new(50.0, 40.0));
        Line {
            turn,
            ..line.aligned(align)
        }
    }

    #[test]
    fn the_letters_lie_in_the_rectangle_of_their_line() {
        for align in [Align::Left, Align::Centre, Align::Right] {
            for turn in [Turn::None, Turn::Right, Turn::Over, Turn::Left] {
                let line = line(align, turn);
                let letters = line.outline().bounds().expect("letters");
                assert!(
                    line.bounds().grown(0.2).holds(letters),
                    "{align:?} {turn:?}"
                );
                let gap = line.bounds().width.max(line.bounds().height)
                    - letters.width.max(letters.height);
                assert!((0.0..1.0).contains(&gap), "{align:?} {turn:?}: {gap}");
            }
        }
    }

    #[test]
    fn an_item_over_the_edge_is_a_stray() {
        let mut page = Page {
            width: 60.0,
            height: 80.0,
            items: vec![line(Align::Centre, Turn::None).into()],
        };
        assert_eq!(page.strays().count(), 0);
        page.items.push(line(Align::Left, Turn::None).into());
        assert_eq!(page.strays().count(), 1);
    }
}
