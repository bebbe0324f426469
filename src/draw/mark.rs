//! Where to look for a trait: arrows and dimension lines over a drawing, as an engineer draws them.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use kurbo::{Affine, BezPath, Point, Rect};

use super::bloom::{Bloom, Centre, Roll};
use super::floret::Floret;
use super::head::{DISC, PINCUSHION};
use super::pointer::Pointer;
use super::view::View;
use crate::geometry;

/// How far out, across and down, an arrow begins: in a corner, which no bloom fills.
const CORNER: f64 = 0.96;
/// How far a line along the radius stands from it: on it, it would lie between two dots of cells.
const ASIDE: f64 = 0.02;
/// Where a dimension line beside the bloom runs.
const BESIDE: f64 = 0.94;

/// An arrow or a dimension line to what a trait's question asks about.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The trait's id.
    pub trait_id: &'static str,
    /// Closed outlines to be filled, in the square about the circle of radius 1.
    pub path: BezPath,
}

/// What to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Feature {
    Middle,
    Ring,
    AlongARadius,
    Ray,
    RolledPart,
    Tip,
    Base,
    ShortAndLong,
    Rim,
    DepthAndWidth,
    Across,
}

/// Each trait's feature, the view that shows it, and in words what is drawn there.
const FEATURES: [(&str, Feature, View, &str); 13] = [
    ("centre", Feature::Middle, View::Face, "arrow to the middle"),
    (
        "rows",
        Feature::AlongARadius,
        View::Face,
        "line along the rows",
    ),
    ("collar", Feature::Ring, View::Face, "arrow about the disc"),
    ("roll", Feature::Ray, View::Face, "arrow to an edge"),
    (
        "rolled",
        Feature::RolledPart,
        View::Face,
        "line along the roll",
    ),
    ("line", Feature::Ray, View::Side, "arrow to a floret"),
    ("tip", Feature::Tip, View::Face, "arrow to a tip"),
    ("set", Feature::Rim, View::Face, "arrows to florets"),
    (
        "outline",
        Feature::DepthAndWidth,
        View::Side,
        "depth and width",
    ),
    (
        "gradient",
        Feature::ShortAndLong,
        View::Face,
        "arrows: inner, outer",
    ),
    ("width", Feature::Base, View::Face, "arrow to the base"),
    ("heart", Feature::Middle, View::Face, "arrow to the heart"),
    ("diameter", Feature::Across, View::Face, "line across"),
];

fn row(trait_id: &str) -> Option<&'static (&'static str, Feature, View, &'static str)> {
    FEATURES.iter().find(|row| row.0 == trait_id)
}

/// The view in which what a trait's question asks about is seen; the face where the trait is not
/// known here.
pub fn view_for(trait_id: &str) -> View {
    row(trait_id).map_or(View::Face, |row| row.2)
}

/// What a trait's mark points to, in words that fit below a small drawing; `None` where the trait
/// has no mark.
pub fn points_to(trait_id: &str) -> Option<&'static str> {
    row(trait_id).map(|row| row.3)
}

/// Every mark of a view over the drawing that `fit` brings into the circle.
pub(super) fn marks(bloom: &Bloom, florets: &[Floret], view: View, fit: Affine) -> Vec<Mark> {
    let place = Place {
        bloom,
        florets,
        view,
        fit,
    };
    let own = FEATURES.iter().filter(|row| row.2 == view);
    own.flat_map(|(trait_id, feature, ..)| {
        let pointers = place.pointers(*feature).into_iter();
        let paths = pointers.map(|pointer| inside(&pointer.outline()));
        // Of what is too small to be measured there is no line.
        let paths = paths.filter(|path| !path.elements().is_empty());
        paths.map(|path| Mark { trait_id, path })
    })
    .collect()
}

/// Within the square of the drawing.
pub(super) fn inside(path: &BezPath) -> BezPath {
    geometry::moved(path, |at| {
        Point::new(at.x.clamp(-1.0, 1.0), at.y.clamp(-1.0, 1.0))
    })
}

/// The drawing that is marked.
struct Place<'a> {
    bloom: &'a Bloom,
    florets: &'a [Floret],
    view: View,
    fit: Affine,
}

impl Place<'_> {
    fn pointers(&self, feature: Feature) -> Vec<Pointer> {
        let bloom = self.bloom;
        let inner = match bloom.centre {
            Centre::Closed => 0.0,
            Centre::Open => DISC,
            Centre::Pincushion => PINCUSHION,
        };
        let on_circle = |radius: f64| {
            let aside = radius * FRAC_1_SQRT_2;
            vec![arrow(self.fit * Point::new(aside, -aside))]
        };
        let outer = self.sample(1.0);
        let to = |floret: Option<&Floret>, t: f64, share: f64| -> Vec<Pointer> {
            let at = floret.map(|floret| self.at(floret, t, share * floret.width(t)));
            at.into_iter().map(arrow).collect()
        };
        match feature {
            Feature::Middle if bloom.centre == Centre::Closed => on_circle(0.16),
            Feature::Middle => on_circle(inner * 0.9),
            Feature::Ring => {
                let petaloids = self.florets.iter().filter(|floret| floret.petaloid);
                let ring = petaloids.map(Floret::reach).fold(0.0, f64::max);
                // Without a collar the place to look is just outside the middle.
                on_circle((ring - 0.08).max(inner + 0.06))
            }
            Feature::AlongARadius => vec![self.along((ASIDE, -inner), (ASIDE, -1.0))],
            Feature::Ray if self.view == View::Side => to(outer, 0.7, 0.0),
            Feature::Ray => to(outer, 0.6, 0.8),
            Feature::RolledPart => outer
                .map(|floret| self.rolled(floret))
                .into_iter()
                .collect(),
            Feature::Tip => to(outer, 0.98, 0.0),
            Feature::Base => to(outer, 0.35, 0.9),
            Feature::ShortAndLong => {
                let mut both = to(outer, 0.9, 0.0);
                both.extend(to(self.sample(0.3), 0.9, 0.0));
                both
            }
            Feature::Rim => {
                let neighbours = self
                    .florets
                    .iter()
                    .filter(|floret| floret.age > 0.9)
                    .take(3);
                neighbours
                    .flat_map(|floret| to(Some(floret), 0.95, 0.0))
                    .collect()
            }
            Feature::DepthAndWidth => self.depth_and_width(),
            Feature::Across => {
                let rim = |x: f64| [Pointer::thin((x, 0.3), (x, 1.0))];
                let across = Pointer::across((-BESIDE, BESIDE), (BESIDE, BESIDE));
                rim(-BESIDE)
                    .into_iter()
                    .chain([across])
                    .chain(rim(BESIDE))
                    .collect()
            }
        }
    }

    /// Where a floret's midrib is seen, so far aside of it.
    fn at(&self, floret: &Floret, t: f64, aside: f64) -> Point {
        self.fit * self.view.project(floret.turn, floret.place(t, aside)).0
    }

    fn along(&self, from: impl Into<Point>, to: impl Into<Point>) -> Pointer {
        Pointer::across(self.fit * from.into(), self.fit * to.into())
    }

    /// Along the rolled part of a floret, beside it.
    fn rolled(&self, floret: &Floret) -> Pointer {
        let rolled = self.bloom.rolled.max(0.15);
        let (from, to) = match self.bloom.roll {
            Roll::Back => (1.0 - rolled, 1.0),
            Roll::Forward => (0.0, rolled),
            Roll::Flat => (0.0, 1.0),
        };
        let aside = floret.half_width + 0.05;
        Pointer::across(self.at(floret, from, aside), self.at(floret, to, aside))
    }

    /// Left of all florets, and over them.
    fn depth_and_width(&self) -> Vec<Pointer> {
        let seen = self.florets.iter();
        let seen = seen.flat_map(|floret| floret.seen(self.view, 0.0, 1.0, |_| 1.0));
        let bounds = seen.map(|stretch| (self.fit * stretch.path).control_box());
        let room = geometry::around(bounds).unwrap_or(Rect::ZERO);
        let over = (room.y0 - 0.12).max(-BESIDE);
        vec![
            Pointer::across((-BESIDE, room.y0), (-BESIDE, room.y1)),
            Pointer::across((room.x0, over), (room.x1, over)),
        ]
    }

    /// The ray to look at: of those about as old as `age`, the one that stands up in the face
    /// view, and to the right in the side view, where its bend is seen.
    fn sample(&self, age: f64) -> Option<&Floret> {
        let wanted = match self.view {
            View::Face => -PI / 2.0,
            View::Side => 0.0,
        };
        let off = |floret: &Floret| {
            let turn = (floret.turn - wanted)
                .sin()
                .atan2((floret.turn - wanted).cos());
            turn.abs() + 3.0 * (floret.age - age).abs()
        };
        let rays = self.florets.iter().filter(|floret| !floret.petaloid);
        rays.min_by(|a, b| off(a).total_cmp(&off(b)))
    }
}

/// An arrow from the nearest corner, the upper right one where two are as near.
fn arrow(to: Point) -> Pointer {
    let x = if to.x < -0.1 { -CORNER } else { CORNER };
    let y = if to.y > 0.1 { CORNER } else { -CORNER };
    Pointer::arrow((x, y), to)
}
