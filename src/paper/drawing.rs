//! Many outlines with a measure of their own, put on a page as one: a bloom.

use std::sync::Arc;

use kurbo::{Affine, Rect};

use crate::geometry::{Outline, around};

/// Outlines drawn about an origin of their own, the lowest first.
///
/// Where the same outlines stand in many places, in whatever size, a PDF holds them once; where they
/// are copies of one `Arc`, they are also drawn once.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The outlines, points and widths of lines in units; held once however often it is placed.
    pub outlines: Arc<[Outline]>,
    /// From units to the page's millimetres: where the origin is, how large a unit, which way up.
    pub place: Affine,
}

impl Drawing {
    /// The outlines on the page, in mm.
    pub fn on_page(&self) -> impl Iterator<Item = Outline> {
        let placed = |outline: &Outline| outline.placed(self.place);
        self.outlines.iter().map(placed)
    }

    /// A rectangle that holds all of it; none where it is empty.
    pub fn bounds(&self) -> Option<Rect> {
        around(self.on_page().filter_map(|outline| outline.bounds()))
    }
}
