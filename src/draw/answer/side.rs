//! From the side: how florets bend, and the outline of the whole.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use super::stage::Stage;
use crate::draw::bloom::{Bloom, Depth};
use crate::draw::centre;
use crate::draw::curve::{Knot, through};
use crate::draw::floret::Floret;
use crate::draw::head;
use crate::draw::patch::Role;
use crate::draw::view::View;
use crate::geometry;

/// The directions in which the outline is drawn: the fewer, the rounder its corners.
const DIRECTIONS: usize = 18;
/// How far the floret is turned out of the page, so that its breadth is seen.
const TURNED: f64 = -0.5;

/// The outermost floret to the right, on its stem.
pub(super) fn line(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.45, 0.0), 0.55);
    centre::stem(bloom, &mut stage.sheet);
    if let Some(floret) = head::florets(bloom, View::Side).first() {
        let floret = Floret {
            turn: TURNED,
            ..*floret
        };
        stage.part(&floret, 0.0, 1.0);
    }
}

/// The outline about all florets, without them, over the stem. It is as deep as the words say,
/// whatever room the florets of a drawing take.
pub(super) fn outline(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, 0.15), 1.12);
    let seen = head::florets(bloom, View::Side);
    let seen = seen
        .iter()
        .flat_map(|floret| floret.seen(View::Side, 0.0, 1.0, |_| 1.0));
    let around = hull(
        seen.flat_map(|part| geometry::points(&part.path).collect::<Vec<_>>())
            .collect(),
    );
    let around = rounded(&around);
    let room = around.bounding_box();
    let deep = depth(bloom.outline);
    let place = Affine::scale_non_uniform(2.0 / room.width(), 2.0 * deep / room.height())
        * Affine::translate(-room.center().to_vec2());
    stage.add(Role::Stem, Rect::new(-0.04, deep - 0.1, 0.04, 1.3));
    stage.add(Role::RayFace, place * around);
}

/// A smooth curve near the corners.
fn rounded(corners: &[Point]) -> BezPath {
    let room = Rect::from_points(Point::ORIGIN, Point::ORIGIN);
    let room = corners
        .iter()
        .fold(room, |room, corner| room.union_pt(*corner));
    let middle = room.center();
    let edges = || corners.iter().zip(corners.iter().cycle().skip(1));
    let knot = |at: usize| {
        let along = Vec2::from_angle(at as f64 * 2.0 * PI / DIRECTIONS as f64);
        let far = edges().filter_map(|(from, to)| {
            let (side, base) = (*to - *from, *from - middle);
            let turn = along.cross(side);
            let (far, share) = (base.cross(side) / turn, base.cross(along) / turn);
            (turn.abs() > 1e-9 && (-1e-9..=1.0 + 1e-9).contains(&share)).then_some(far)
        });
        Knot::smooth(middle + along * far.fold(0.0, f64::max))
    };
    through(&(0..DIRECTIONS).map(knot).collect::<Vec<_>>())
}

/// How deep a bloom is, as a share of its width: in the middle of what the answer says.
fn depth(outline: Depth) -> f64 {
    match outline {
        Depth::Globe => 0.92,
        Depth::Deep => 0.68,
        Depth::Saucer => 0.33,
    }
}

/// The corners of the least convex outline about these points, in order: by Andrew's chains.
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let chain = |points: &mut dyn Iterator<Item = &Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = chain[..] {
                if (last - before).cross(*point - last) > 1e-9 {
                    break;
                }
                chain.pop();
            }
            chain.push(*point);
        }
        chain.pop();
        chain
    };
    let mut around = chain(&mut points.iter());
    around.extend(chain(&mut points.iter().rev()));
    around
}
