//! Many outlines with a measure of their own, put on a page as one: a bloom.

use std::sync::Arc;

use super::outline::{Outline, Point, Stroke};
use super::place::{Place, Rectangle};

/// Outlines drawn about an origin of their own, the lowest first.
///
/// Where the same outlines stand in many places, in whatever size, a PDF holds them once; where they
/// are copies of one `Arc`, they are also drawn once.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The outlines, points and widths of lines in units; held once however often it is placed.
    pub outlines: Arc<[Outline]>,
    /// The mm of a unit.
    pub unit: f64,
    /// Where the origin is.
    pub place: Place,
}

impl Drawing {
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
