//! What a page must be before it is written, and why one cannot be.

use std::collections::HashMap;
use std::fmt;

use kurbo::{Affine, Point};

use super::page::{Item, Page};
use crate::geometry::{Outline, points, scale};

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
    let mut farthest = Farthest::default();
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
        if !page.items.iter().all(|item| farthest.is_finite(item)) {
            return Err(Unwritable::Number { page: at + 1 });
        }
    }
    Ok(())
}

/// Beyond this many mm a place is no place.
const FARTHEST: f64 = 1e6;

/// How far from its origin each drawing reaches, in its own unit: worked out once however often it is
/// placed. Found again by where its outlines are held.
#[derive(Default)]
struct Farthest(HashMap<*const Outline, f64>);

impl Farthest {
    fn is_finite(&mut self, item: &Item) -> bool {
        let size = |size: f64| size > 0.0 && size < FARTHEST;
        match item {
            Item::Text(line) => {
                line.place.is_finite() && is_place(line.at()) && size(line.style.points)
            }
            Item::Outline(one) => reach(one) < FARTHEST,
            Item::Drawing(drawing) => {
                // OK because the pages, and so their outlines, are held meanwhile.
                let own = self.0.entry(drawing.outlines.as_ptr());
                let own = own.or_insert_with(|| {
                    let reaches = drawing.outlines.iter().map(reach);
                    reaches.fold(0.0, f64::max)
                });
                lies_within(drawing.place, *own)
            }
            Item::Squares(squares) => {
                let across = squares.rows.first().map_or(0, Vec::len);
                let most = squares.rows.len().max(across) as f64;
                lies_within(squares.place, most)
            }
        }
    }
}

fn is_place(point: Point) -> bool {
    point.x.abs() < FARTHEST && point.y.abs() < FARTHEST
}

/// How far any point of an outline, or the width of its line, is from nothing; infinite where one is no
/// number or a line has no width.
fn reach(outline: &Outline) -> f64 {
    let own = points(&outline.path).flat_map(|point| [point.x.abs(), point.y.abs()]);
    let width = outline.stroke.map(|stroke| match stroke.width > 0.0 {
        true => stroke.width,
        false => f64::INFINITY,
    });
    // What is no number is not under the farthest either.
    let within = |one: f64| if one < FARTHEST { one } else { f64::INFINITY };
    own.chain(width).map(within).fold(0.0, f64::max)
}

/// Whether all that reaches so far from its own origin is on no page too far away where it is placed.
fn lies_within(place: Affine, reach: f64) -> bool {
    let [a, b, c, d, x, y] = place.as_coeffs();
    let farthest =
        [(a, c, x), (b, d, y)].map(|(i, j, far)| (i.abs() + j.abs()) * reach + far.abs());
    farthest.iter().all(|far| *far < FARTHEST) && scale(place) > 0.0
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
