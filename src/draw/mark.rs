//! Where to look for a trait: outlines over a drawing.

use std::f64::consts::PI;

use kurbo::{BezPath, Point, Rect, Shape};

use super::bloom::{Bloom, Centre, Roll};
use super::curve::{circle, ellipse};
use super::floret::Floret;
use super::head::{DISC, PINCUSHION};
use super::view::View;
use crate::geometry;

/// An outline around what a trait's question asks about.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The trait's id.
    pub trait_id: &'static str,
    /// Around what to look at; inside the circle of radius 1.
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
    Across,
}

/// Each trait's feature, and the view that shows it.
const FEATURES: [(&str, Feature, View); 13] = [
    ("centre", Feature::Middle, View::Face),
    ("rows", Feature::AlongARadius, View::Face),
    ("collar", Feature::Ring, View::Face),
    ("roll", Feature::Ray, View::Face),
    ("rolled", Feature::RolledPart, View::Face),
    ("line", Feature::Ray, View::Side),
    ("tip", Feature::Tip, View::Face),
    ("set", Feature::Rim, View::Face),
    ("outline", Feature::Rim, View::Side),
    ("gradient", Feature::ShortAndLong, View::Face),
    ("width", Feature::Base, View::Face),
    ("heart", Feature::Middle, View::Face),
    ("diameter", Feature::Across, View::Face),
];

/// The view in which what a trait's question asks about is seen; the face where the trait is not
/// known here.
pub fn view_for(trait_id: &str) -> View {
    let row = FEATURES.iter().find(|(id, ..)| *id == trait_id);
    row.map_or(View::Face, |(_, _, view)| *view)
}

impl Mark {
    pub(super) fn moved(self, to: impl Fn(Point) -> Point) -> Mark {
        Mark {
            path: geometry::moved(&self.path, to),
            ..self
        }
    }
}

/// Every mark of a view, in the bloom's own measure.
pub(super) fn marks(bloom: &Bloom, florets: &[Floret], view: View) -> Vec<Mark> {
    let own = FEATURES.iter().filter(|(_, _, shown)| *shown == view);
    own.flat_map(|(trait_id, feature, _)| {
        let paths = feature.paths(bloom, florets, view);
        paths.into_iter().map(|path| Mark { trait_id, path })
    })
    .collect()
}

impl Feature {
    fn paths(self, bloom: &Bloom, florets: &[Floret], view: View) -> Vec<BezPath> {
        let stretch = |floret: Option<&Floret>, from: f64, to: f64| -> Vec<BezPath> {
            let seen = floret.map(|floret| floret.seen(view, from, to, |_| 1.0));
            let seen = seen.unwrap_or_default().into_iter();
            seen.map(|part| part.path).collect()
        };
        let sample = sample(florets, view, 1.0);
        match self {
            Feature::Middle => {
                let radius = match bloom.centre {
                    Centre::Closed => 0.22,
                    Centre::Open => DISC + 0.04,
                    Centre::Pincushion => PINCUSHION + 0.04,
                };
                vec![circle(Point::ORIGIN, radius)]
            }
            Feature::Ring => {
                let petaloids = florets.iter().filter(|floret| floret.petaloid);
                let ring = petaloids.map(Floret::reach).fold(0.0, f64::max);
                // Without a collar the place to look is just outside the middle.
                let inner = if bloom.centre == Centre::Pincushion {
                    PINCUSHION
                } else {
                    DISC
                };
                vec![circle(Point::ORIGIN, (ring + 0.02).max(inner + 0.12))]
            }
            Feature::AlongARadius => vec![ruler(0.0, -1.0)],
            Feature::Ray => stretch(sample, 0.0, 1.0),
            Feature::RolledPart => match bloom.roll {
                Roll::Back => stretch(sample, (1.0 - bloom.rolled).min(0.9), 1.0),
                Roll::Forward => stretch(sample, 0.0, bloom.rolled.max(0.1)),
                Roll::Flat => stretch(sample, 0.0, 1.0),
            },
            Feature::Tip => {
                let at = |floret: &Floret| view.project(floret.turn, floret.place(0.95, 0.0)).0;
                sample
                    .map(|floret| circle(at(floret), 0.13))
                    .into_iter()
                    .collect()
            }
            Feature::Base => stretch(sample, 0.0, 0.45),
            Feature::ShortAndLong => {
                let mut both = stretch(sample, 0.0, 1.0);
                both.extend(stretch(self::sample(florets, view, 0.3), 0.0, 1.0));
                both
            }
            Feature::Rim => match view {
                View::Face => vec![circle(Point::ORIGIN, 0.97)],
                View::Side => vec![around(florets, view)],
            },
            Feature::Across => vec![ruler(-1.0, 1.0)],
        }
    }
}

/// The ray to look at: of those about as old as `age`, the one that stands up in the face view,
/// and to the right in the side view, where its bend is seen.
fn sample(florets: &[Floret], view: View, age: f64) -> Option<&Floret> {
    let wanted = match view {
        View::Face => -PI / 2.0,
        View::Side => 0.0,
    };
    let off = |floret: &Floret| {
        let turn = (floret.turn - wanted)
            .sin()
            .atan2((floret.turn - wanted).cos());
        turn.abs() + 3.0 * (floret.age - age).abs()
    };
    let rays = florets.iter().filter(|floret| !floret.petaloid);
    rays.min_by(|a, b| off(a).total_cmp(&off(b)))
}

/// A thin bar: upward from the middle where it starts there, else across the whole bloom.
fn ruler(from: f64, to: f64) -> BezPath {
    let half = 0.03;
    let bar = match from < 0.0 {
        true => Rect::new(from, -half, to, half),
        false => Rect::new(-half, to, half, from),
    };
    // A rectangle has no curves to be off.
    bar.to_path(0.0)
}

/// The ellipse about all florets.
fn around(florets: &[Floret], view: View) -> BezPath {
    let seen = florets
        .iter()
        .flat_map(|floret| floret.seen(view, 0.0, 1.0, |_| 1.0));
    let bounds = geometry::around(seen.map(|stretch| stretch.path.control_box()));
    bounds.map(ellipse).unwrap_or_default()
}
