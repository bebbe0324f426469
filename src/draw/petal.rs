//! What is seen of one floret: its sides, the slot of a tube, a curled edge, the second colour.

use kurbo::BezPath;

use super::bloom::{Bloom, Centre, Depth, FloretLine, Roll, Tip};
use super::curve::{Knot, through};
use super::floret::Floret;
use super::paint::mix;
use super::patch::Role;
use super::sheet::Sheet;
use crate::colour::{Lab, Pattern};

impl Sheet<'_> {
    /// Adds a ray floret or petaloid with all that is seen on it.
    pub(super) fn floret(&mut self, bloom: &Bloom, floret: &Floret) {
        if floret.petaloid {
            for stretch in floret.seen(self.view, 0.0, 1.0, |_| 1.0) {
                self.add(Role::Collar, stretch.path, 1.0);
            }
            // A crease, so that the ring stands out from smooth rays in one ink too.
            let crease = |t: f64| 0.18 * (1.0 - (2.0 * t - 1.0).powi(2)).max(0.0).sqrt();
            let fill = self.paint.crease(self.paint.fill(Role::Collar, 1.0));
            for stretch in floret.seen(self.view, 0.1, 0.85, crease) {
                self.over(Role::RayInside, stretch.path, fill);
            }
            return;
        }
        let hides_its_rise = floret.hangs_before(self.view);
        let seen = floret.seen(self.view, 0.0, 1.0, |_| 1.0).into_iter();
        for stretch in seen.filter(|stretch| stretch.face || !hides_its_rise) {
            let tube = bloom.roll == Roll::Forward;
            let role = if stretch.face && !tube {
                Role::RayFace
            } else {
                Role::RayReverse
            };
            self.add(role, stretch.path, floret.age);
        }
        match bloom.roll {
            Roll::Flat => {}
            Roll::Forward => self.tube(floret),
            Roll::Back => self.quill(floret),
        }
        if !self.paint.is_plain() {
            self.model(bloom, floret);
        }
        self.pattern(bloom, floret);
        if bloom.wavy && !bloom.narrow {
            self.curl(floret);
        }
    }

    /// The edge of a waved floret that turns over and shows its back.
    fn curl(&mut self, floret: &Floret) {
        let side = if floret.sweep > 0.0 { -1.0 } else { 1.0 };
        if !floret.shows_face(self.view, 0.7) {
            return;
        }
        let knot = |(t, share, sharp): (f64, f64, bool)| {
            let aside = side * share * floret.width(t);
            let at = self.view.project(floret.turn, floret.place(t, aside)).0;
            Knot { at, sharp }
        };
        let knots = [
            (0.45, 1.0, true),
            (0.6, 1.0, false),
            (0.75, 1.0, false),
            (0.9, 1.0, true),
            (0.75, 0.45, false),
            (0.6, 0.5, false),
        ];
        let fill = self.paint.turned_over();
        self.add_filled(Role::RayReverse, through(&knots.map(knot)), fill);
    }

    /// What is seen between edges that roll forward: a slot where they meet, the open face beyond.
    fn tube(&mut self, floret: &Floret) {
        let (margin, closes) = if floret.cut.narrow {
            (0.4, 0.3)
        } else {
            (0.12, 0.15)
        };
        let open = |t: f64| 1.0 - margin - closes * floret.is_rolled(t);
        for stretch in floret
            .seen(self.view, 0.08, 1.0, open)
            .into_iter()
            .filter(|s| s.face)
        {
            self.add(Role::RayFace, stretch.path, floret.age);
            self.patches
                .iter_mut()
                .next_back()
                .into_iter()
                .for_each(|slot| slot.on_last = true);
        }
        let until = floret.cut.rolled.clamp(0.3, 0.7);
        // In one ink the hollow alone tells a tube; in colour it would take the colour's place.
        let wide = if self.paint.is_plain() { 0.75 } else { 0.42 };
        let deep =
            |t: f64| open(t) * wide * (1.0 - (2.0 * t / until - 1.0).powi(2)).max(0.0).sqrt();
        for stretch in floret
            .seen(self.view, 0.15, until, deep)
            .into_iter()
            .filter(|s| s.face)
        {
            let fill = self.paint.fill(Role::RayInside, floret.age);
            self.over(Role::RayInside, stretch.path, fill);
        }
    }

    /// The back of a floret whose edges roll back: from where they roll it is wrapped in its own face,
    /// but for a slot where they meet.
    fn quill(&mut self, floret: &Floret) {
        if !floret.is_wrapped_in_face(1.0) {
            return;
        }
        let from = 1.0 - floret.cut.rolled;
        let back_to = |to: f64, share: &dyn Fn(f64) -> f64| -> Vec<BezPath> {
            let seen = floret.seen(self.view, from, to, share).into_iter();
            seen.filter(|s| !s.face).map(|s| s.path).collect()
        };
        let wrapped = back_to(1.0, &|_| 1.0);
        let slots = back_to(0.97, &|t| 0.6 - 0.4 * floret.is_rolled(t));
        let fill = |role: Role| self.paint.fill(role, floret.age);
        let (face, back) = (fill(Role::RayFace), fill(Role::RayReverse));
        for path in wrapped {
            self.over_lined(Role::RayFace, path, face);
        }
        for path in slots {
            self.over(Role::RayReverse, path, back);
        }
    }

    /// The second colour on the upper face.
    fn pattern(&mut self, bloom: &Bloom, floret: &Floret) {
        let Some((second, pattern)) = self.paint.second() else {
            return;
        };
        let base = self.paint.fill(Role::RayFace, floret.age);
        // From, to, share of the width, strength: places are shares of what is seen of the floret.
        let ends = ends(bloom);
        let one_row = bloom.centre != Centre::Closed && bloom.rows == 1;
        let zones: &[(f64, f64, f64, f64)] = match pattern {
            Pattern::SelfColoured => &[],
            Pattern::Tipped => &[(ends.tip, 1.0, 1.0, 1.0)],
            Pattern::Bicolour => &[(ends.half, 1.0, 1.0, 1.0)],
            Pattern::Blend if one_row && bloom.narrow => {
                &[(-1.0, 0.3, 0.9, 0.4), (-1.0, 0.12, 0.9, 0.85)]
            }
            Pattern::Blend if one_row => &[(-1.0, 0.5, 0.9, 0.4), (-1.0, 0.22, 0.9, 0.85)],
            // Rows nearer the centre have more of it.
            Pattern::Blend if bloom.centre != Centre::Closed && floret.age < 0.8 => {
                &[(-1.0, 0.6, 0.95, 0.4), (-1.0, 0.3, 0.9, 0.85)]
            }
            // Only the ends of a ball's florets are seen; and slender or rolled ones hide so little of each
            // other that a foot of another colour would be most of what is seen.
            Pattern::Blend if bloom.outline == Depth::Globe => &[],
            Pattern::Blend if bloom.narrow || bloom.roll == Roll::Back => &[],
            Pattern::Blend => &[(-1.0, 0.12, 0.7, 0.4)],
            Pattern::Flecked => return self.flecks(bloom, floret, second),
        };
        for (from, to, share, strength) in zones {
            let (from, to) = (floret.of_seen(*from).max(0.0), floret.of_seen(*to));
            for stretch in floret.seen(self.view, from, to, |_| *share) {
                // An end is coloured on both of its sides.
                if to >= 1.0 {
                    self.over_lined(Role::RayFace, stretch.path, second);
                } else if stretch.face {
                    self.over(Role::RayFace, stretch.path, mix(base, second, *strength));
                }
            }
        }
    }

    fn flecks(&mut self, bloom: &Bloom, floret: &Floret, second: Lab) {
        // On a ball only short ends are seen.
        let wide = if bloom.outline == Depth::Globe {
            0.16
        } else {
            0.1
        };
        for (from, aside) in [
            (0.2, 0.35),
            (0.36, -0.45),
            (0.5, 0.05),
            (0.64, -0.2),
            (0.7, 0.4),
        ] {
            let to = floret.of_seen(from + 0.17);
            let (from, half) = (floret.of_seen(from), wide * floret.half_width);
            if !floret.shows_face(self.view, from) {
                continue;
            }
            let knot = |(t, by): (f64, f64)| {
                let place = floret.place(t, aside * floret.width(t) + by);
                Knot::smooth(self.view.project(floret.turn, place).0)
            };
            let middle = (from + to) / 2.0;
            let knots = [(from, 0.0), (middle, half), (to, 0.0), (middle, -half)].map(knot);
            self.over(Role::RayFace, through(&knots), second);
        }
    }
}

/// Where along what is seen of a floret its end begins.
struct Ends {
    /// Of a tip.
    tip: f64,
    /// Of the outer of two colours that share the floret.
    half: f64,
}

/// A slender or pointed end must reach further in to be seen, and so must one on a ball, whose florets
/// turn away.
fn ends(bloom: &Bloom) -> Ends {
    let slender_tube = bloom.narrow && bloom.roll == Roll::Forward;
    let (tip, half) = match (bloom.outline, bloom.tip, bloom.narrow) {
        (Depth::Globe, ..) => (0.46, 0.2),
        (_, Tip::Split, _) => (0.82, 0.62),
        (_, _, true) if slender_tube || bloom.centre != Centre::Closed => (0.76, 0.56),
        (_, _, true) if bloom.line == FloretLine::Incurved => (0.42, 0.25),
        (_, Tip::Pointed, false) => (0.6, 0.46),
        (_, _, true) => (0.55, 0.38),
        (_, Tip::Rounded, false) if bloom.roll == Roll::Forward => (0.82, 0.72),
        (_, Tip::Rounded, false) => (0.76, 0.6),
    };
    Ends { tip, half }
}
