//! What a page must be before it is written, and why one cannot be.

use std::fmt;

use kurbo::Point;

use super::page::{Item, Page};
use crate::geometry::{Outline, points};

/// Why pages cannot be written, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum Unwritable {
    /// There are none.
    NoPages,
    /// A page has no size.
    Size {
        /// Which, from 1.
        page: usize,
        /// Its width in mm.
        width: f64,
        /// Its height in mm.
        height: f64,
    },
    /// A length or a place on a page is no finite number, or a line has no width.
    Number {
        /// Which page, from 1.
        page: usize,
    },
    /// The PDF could not be put together; what its writer says.
    Pdf(String),
}

/// The longest side of a page in mm: 14,400 points, the limit of PDF (ISO 32000-1, annex C).
const LONGEST: f64 = 5080.0;

/// Whether every page can be written.
pub(super) fn check(pages: &[Page]) -> Result<(), Unwritable> {
    if pages.is_empty() {
        return Err(Unwritable::NoPages);
    }
    for (at, page) in pages.iter().enumerate() {
        let Page { width, height, .. } = *page;
        let fits = |side: f64| side > 0.0 && side <= LONGEST;
        if !fits(width) || !fits(height) {
            return Err(Unwritable::Size {
                page: at + 1,
                width,
                height,
            });
        }
        if !page.items.iter().all(is_finite) {
            return Err(Unwritable::Number { page: at + 1 });
        }
    }
    Ok(())
}

/// Beyond this many mm a place is no place.
const FARTHEST: f64 = 1e6;

fn is_finite(item: &Item) -> bool {
    let place = |point: Point| point.x.abs() < FARTHEST && point.y.abs() < FARTHEST;
    let size = |size: f64| size > 0.0 && size < FARTHEST;
    let outline = |outline: &Outline| {
        points(&outline.path).all(place) && outline.stroke.is_none_or(|stroke| size(stroke.width))
    };
    match item {
        Item::Text(line) => line.place.is_finite() && place(line.at()) && size(line.style.points),
        Item::Outline(one) => outline(one),
        Item::Drawing(drawing) => drawing.on_page().all(|one| outline(&one)),
        Item::Squares(squares) => outline(&squares.outline()),
    }
}

impl fmt::Display for Unwritable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unwritable::NoPages => write!(f, "found no pages, expected one or more"),
            Unwritable::Size {
                page,
                width,
                height,
            } => write!(
                f,
                "page {page}: found {width} by {height} mm, expected sides over 0 and up to \
                 {LONGEST} mm"
            ),
            Unwritable::Number { page } => write!(
                f,
                "page {page}: found a length that is no number, expected millimetres"
            ),
            Unwritable::Pdf(message) => write!(f, "the PDF cannot be put together: {message}"),
        }
    }
}

impl std::error::Error for Unwritable {}
