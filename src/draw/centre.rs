//! The middle of a bloom: disc, pincushion or closed heart, and the stem behind it.

use kurbo::{Point, Rect};

use super::bloom::{Bloom, Centre, Depth};
use super::curve::{Knot, circle, ellipse, through};
use super::head::{self, DISC, GOLDEN_ANGLE, PINCUSHION};
use super::patch::Role;
use super::sheet::Sheet;

/// Florets that are drawn on a disc and on a pincushion.
const DISC_FLORETS: usize = 19;
const TUBES: usize = 44;
const MIDDLE: Point = Point::ORIGIN;

/// The middle as it is seen from the front, over the rays.
pub(super) fn face(bloom: &Bloom, sheet: &mut Sheet<'_>) {
    match bloom.centre {
        Centre::Open => {
            sheet.add(Role::Disc, circle(MIDDLE, DISC), 1.0);
            for (at, _) in seeds(DISC_FLORETS, DISC * 0.86) {
                let dot = circle(at, DISC * 0.09);
                sheet.add(Role::DiscFloret, dot, 1.0);
            }
        }
        Centre::Pincushion => {
            sheet.add(Role::Pincushion, circle(MIDDLE, PINCUSHION), 1.0);
            for (at, share) in seeds(TUBES, PINCUSHION * 0.95) {
                let mouth = 0.042 + 0.018 * share;
                sheet.add(Role::Pincushion, circle(at, mouth), 1.0);
                sheet.add(Role::DiscFloret, circle(at, mouth * 0.3), 1.0);
            }
        }
        Centre::Closed => heart(bloom, sheet),
    }
}

/// The unopened middle of a closed bloom: a few nested scales, or a three-cornered bud.
fn heart(bloom: &Bloom, sheet: &mut Sheet<'_>) {
    let (corners, sizes): (usize, &[f64]) = match bloom.three_cornered {
        true => (3, &[0.17, 0.1, 0.05]),
        false => (8, &[0.34, 0.2]),
    };
    // It hides where the innermost florets start.
    let unit = if bloom.three_cornered {
        1.0
    } else {
        head::spacing(bloom).0
    };
    let sizes = sizes.iter().map(|size| size * unit);
    for (ring, size) in sizes.enumerate() {
        let aside = if bloom.three_cornered {
            0.0
        } else {
            0.2 * size * ring as f64
        };
        let knot = |at: usize| {
            let turn = (at as f64 / corners as f64 + ring as f64 * 0.03).mul_add(360.0, -90.0);
            let (sin, cos) = turn.to_radians().sin_cos();
            // A round bud closes to one side.
            Knot::smooth(Point::new(size * cos + aside, size * sin - aside))
        };
        let knots: Vec<Knot> = (0..corners).map(knot).collect();
        sheet.add(Role::RayFace, through(&knots), 0.0);
    }
}

/// The middle as it is seen from the side, between the rays behind it and those before it.
pub(super) fn side(bloom: &Bloom, sheet: &mut Sheet<'_>) {
    match bloom.centre {
        Centre::Open => {
            let flat = ellipse(Rect::new(-DISC, -0.13, DISC, 0.01));
            sheet.add(Role::Disc, flat, 1.0);
        }
        Centre::Pincushion => {
            // The near half of the dome: what stands behind its crest is hidden.
            let place = |at: Point| {
                let rise = (1.0 - (at.distance(MIDDLE) / PINCUSHION).powi(2))
                    .max(0.0)
                    .sqrt();
                Point::new(at.x, -0.1 - 0.3 * rise)
            };
            let crest = (0..=12).map(|step| {
                let (sin, cos) = (f64::from(step) * 15.0).to_radians().sin_cos();
                Knot {
                    at: Point::new(-PINCUSHION * cos, -0.1 - 0.32 * sin),
                    sharp: step % 12 == 0,
                }
            });
            let crest: Vec<Knot> = crest.collect();
            sheet.add(Role::Pincushion, through(&crest), 1.0);
            let mut near: Vec<(Point, f64)> = seeds(TUBES, PINCUSHION * 0.95).collect();
            near.retain(|(at, _)| at.y > -0.05);
            near.sort_by(|a, b| a.0.y.total_cmp(&b.0.y));
            for (at, share) in near {
                let mouth = circle(place(at), 0.03 + 0.015 * share);
                sheet.add(Role::Pincushion, mouth, 1.0);
            }
        }
        Centre::Closed => {}
    }
}

/// The dark between the florets of a ball, so that no paper is seen through it.
pub(super) fn core(bloom: &Bloom, sheet: &mut Sheet<'_>) {
    if bloom.outline == Depth::Globe && bloom.centre == Centre::Closed && !sheet.paint.is_plain() {
        sheet.add(Role::RayInside, circle(MIDDLE, 0.8), 1.0);
    }
}

/// The stem and the bracts, behind everything.
pub(super) fn stem(bloom: &Bloom, sheet: &mut Sheet<'_>) {
    // Where bracts hold the bloom, and how far down the stem is drawn.
    let (held, foot) = match bloom.outline {
        Depth::Globe if bloom.centre == Centre::Closed => (0.9, 1.45),
        Depth::Globe => (0.0, 1.05),
        Depth::Deep | Depth::Saucer => (0.0, 0.75),
    };
    sheet.add(Role::Stem, Rect::new(-0.035, held, 0.035, foot), 1.0);
    let bracts = ellipse(Rect::new(-0.17, held - 0.03, 0.17, held + 0.17));
    sheet.add(Role::Stem, bracts, 1.0);
}

/// Points of a Vogel spiral within a radius, the outermost first, each with its share of it.
fn seeds(count: usize, radius: f64) -> impl Iterator<Item = (Point, f64)> {
    (0..count).rev().map(move |k| {
        let share = ((k as f64 + 0.5) / count as f64).sqrt();
        let (sin, cos) = (k as f64 * GOLDEN_ANGLE).to_radians().sin_cos();
        (
            Point::new(radius * share * cos, radius * share * sin),
            share,
        )
    })
}
