//! From the front: the centre, rings, the collar, the order of florets, the heart, the size.

use std::f64::consts::PI;

use kurbo::{Affine, Point, Rect, Shape};

use super::stage::Stage;
use crate::draw::bloom::Bloom;
use crate::draw::centre;
use crate::draw::curve::{Knot, circle, through};
use crate::draw::floret::Floret;
use crate::draw::head;
use crate::draw::patch::Role;
use crate::draw::pointer::Pointer;
use crate::draw::view::View;

/// Florets and middle, whole.
pub(super) fn whole(bloom: &Bloom, stage: &mut Stage<'_>) {
    for floret in head::florets(bloom, View::Face) {
        stage.part(&floret, 0.0, 1.0);
    }
    centre::face(bloom, &mut stage.sheet);
}

/// Some of what stands about the disc, large: the rays are cut off.
pub(super) fn collar(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, -0.34), 0.42);
    stage.lens = true;
    for floret in head::florets(bloom, View::Face) {
        stage.part(&floret, 0.0, if floret.petaloid { 1.0 } else { 0.75 });
    }
    centre::face(bloom, &mut stage.sheet);
}

/// Three florets of a ring, the middle one up.
pub(super) fn set(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, -0.56), 0.62);
    let regular = Bloom {
        wavy: false,
        ..*bloom
    };
    let in_order = head::florets(&regular, View::Face);
    let Some(up) = in_order.first().map(|floret| -PI / 2.0 - floret.turn) else {
        return;
    };
    let florets = head::florets(bloom, View::Face);
    let next = [florets.len().saturating_sub(1), 1, 0];
    for floret in next.into_iter().filter_map(|at| florets.get(at)) {
        let turned = Floret {
            turn: floret.turn + up,
            ..*floret
        };
        stage.sheet.floret(bloom, &turned);
    }
}

/// The unopened middle alone.
pub(super) fn heart(bloom: &Bloom, stage: &mut Stage<'_>) {
    centre::face(bloom, &mut stage.sheet);
    let outer = stage.sheet.patches.first();
    let bounds = outer.map(|patch| patch.outline.path.bounding_box());
    let bounds = bounds.unwrap_or(Rect::from_center_size(Point::ORIGIN, (1.0, 1.0)));
    stage.seen_about(bounds.center(), bounds.width().max(bounds.height()) * 0.6);
}

/// How many mm half of a picture's side is.
const HALF: f64 = 160.0;
/// The largest radius that leaves room for the line: a bloom of 256 mm.
const MOST: f64 = 0.8;

/// The outline of a bloom as wide as it is, its disc, and a line across below it.
pub(super) fn diameter(bloom: &Bloom, stage: &mut Stage<'_>) {
    let radius = (bloom.diameter.unwrap_or(HALF) / 2.0 / HALF).min(MOST);
    let rays = head::florets(bloom, View::Face);
    let half_way = PI / rays.len().max(1) as f64;
    let around = rays.iter().flat_map(|ray| {
        let at = |turn: f64, t: f64| View::Face.project(turn, ray.place(t, 0.0)).0;
        [
            (ray.turn - 0.4 * half_way, 0.96, false),
            (ray.turn + 0.4 * half_way, 0.96, false),
            (ray.turn + half_way, 0.66, true),
        ]
        .map(|(turn, t, sharp)| Knot {
            at: at(turn, t),
            sharp,
        })
    });
    let place = Affine::translate((0.0, -0.18)) * Affine::scale(radius);
    stage.add(Role::RayFace, place * through(&around.collect::<Vec<_>>()));
    stage.add(Role::Disc, place * circle(Point::ORIGIN, head::DISC));
    stage
        .pointers
        .push(Pointer::across((-radius, 0.82), (radius, 0.82)));
}
