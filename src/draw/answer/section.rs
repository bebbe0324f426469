//! A floret cut across half way along: how its edges roll. The under side is dark, and an arrow comes
//! down on the face, so that nobody takes the one for the other.

use std::f64::consts::PI;

use kurbo::{BezPath, Point, Rect, Vec2};

use super::stage::Stage;
use crate::colour::Lab;
use crate::draw::bloom::{Bloom, Roll};
use crate::draw::curve::polygon;
use crate::draw::patch::Role;
use crate::draw::pointer::Pointer;

/// Steps from the midrib to an edge.
const STEPS: usize = 24;
/// How far a rolled edge turns, and a flat one.
const ROLLED: f64 = PI;
const FLAT: f64 = 0.12 * PI;
/// How much of the way from the midrib to an edge that rolls stays flat.
const STAYS_FLAT: f64 = 0.3;
/// How thick it is drawn, where from its midrib to its edge it is 1.
const THICK: f64 = 0.09;
/// The under side: dark enough to be told from white on the smallest part of the screen.
const UNDER_SIDE: Lab = Lab::new(58.0, 0.0, 0.0);
/// Where the arrow begins and ends, over the midrib.
const ARROW: (Point, Point) = (Point::new(0.0, -1.1), Point::new(0.0, -0.09));

/// The cut from the left edge to the right one, its upper side up (y down).
fn cut(bloom: &Bloom) -> Vec<Point> {
    let turn = match bloom.roll {
        Roll::Flat => FLAT,
        Roll::Forward => ROLLED,
        Roll::Back => -ROLLED,
    };
    let mut at = Point::ORIGIN;
    let mut half = vec![at];
    for step in 0..STEPS {
        let share = (step as f64 + 0.5) / STEPS as f64;
        // The middle stays flat: only the edges turn.
        let bent = match bloom.roll {
            Roll::Flat => share,
            _ => ((share - STAYS_FLAT) / (1.0 - STAYS_FLAT)).max(0.0),
        };
        let (sin, cos) = (turn * bent).sin_cos();
        at += Vec2::new(cos, -sin) / STEPS as f64;
        half.push(at);
    }
    let left = half.iter().skip(1).rev().map(|p| Point::new(-p.x, p.y));
    left.chain(half.iter().copied()).collect()
}

/// The floret runs away from the eye, up and to the right.
const AWAY: Vec2 = Vec2::new(0.34, -0.42);

pub(super) fn roll(bloom: &Bloom, stage: &mut Stage<'_>) {
    let cut = cut(bloom);
    // A rolled floret is narrower: it is shown larger.
    let ends = cut.iter().flat_map(|at| [*at, *at + AWAY]).chain([ARROW.0]);
    let room = ends
        .map(|at| Rect::from_points(at, at))
        .reduce(|all, one| all.union(one));
    let room = room.unwrap_or(Rect::ZERO).inflate(THICK, THICK);
    stage.seen_about(room.center(), room.width().max(room.height()) / 2.0);
    let face = stage.sheet.paint.fill(Role::RayFace, 1.0);
    let line = stage.sheet.paint.line(face);
    for (at, run) in strips(&cut) {
        let far: Vec<Point> = run.iter().map(|near| *near + AWAY).collect();
        let strip = polygon(run.iter().chain(far.iter().rev()).copied());
        let fill = if is_upper(run) { face } else { UNDER_SIDE };
        stage.sheet.over(Role::RayFace, strip, fill);
        stage.line(far.iter().copied());
        // Where it turns out of sight, and its edges.
        stage.line([run[0], far[0]]);
        if at + run.len() == cut.len() {
            stage.line([run[run.len() - 1], far[far.len() - 1]]);
        }
    }
    stage.sheet.over(Role::RayInside, band(&cut), line);
    stage.line(cut.iter().copied());
    stage.pointers.push(Pointer::arrow(ARROW.0, ARROW.1));
}

/// Whether the upper side of a strip is seen, by its first step.
fn is_upper(strip: &[Point]) -> bool {
    strip.len() > 1 && (strip[1] - strip[0]).cross(AWAY) < 0.0
}

/// The cut in strips that show one side each, with where they begin in it; the farthest first:
/// what lies further along the way that the floret runs.
fn strips(cut: &[Point]) -> Vec<(usize, &[Point])> {
    let mut strips = Vec::new();
    let mut start = 0;
    for at in 1..cut.len() {
        let turns = at + 1 < cut.len() && is_upper(&cut[at..]) != is_upper(&cut[start..]);
        if turns || at + 1 == cut.len() {
            strips.push((start, &cut[start..=at]));
            start = at;
        }
    }
    let depth = |strip: &[Point]| {
        let along = strip.iter().map(|at| at.to_vec2().dot(AWAY)).sum::<f64>();
        along / strip.len() as f64
    };
    strips.sort_by(|a, b| depth(a.1).total_cmp(&depth(b.1)));
    strips
}

/// The cut as a band.
fn band(cut: &[Point]) -> BezPath {
    let normal = |at: usize| {
        let (before, after) = (cut[at.saturating_sub(1)], cut[(at + 1).min(cut.len() - 1)]);
        let along = (after - before) / (after - before).hypot().max(1e-9);
        Vec2::new(along.y, -along.x) * THICK / 2.0
    };
    let side = |sign: f64| (0..cut.len()).map(move |at| cut[at] + normal(at) * sign);
    polygon(side(1.0).chain(side(-1.0).collect::<Vec<_>>().into_iter().rev()))
}
