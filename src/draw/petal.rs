//! What is seen of one floret: its sides, the slot of a tube, a curled edge, the second colour.

use super::bloom::{Bloom, Roll};
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
            let fill = self.paint.line(self.paint.fill(Role::Collar, 1.0));
            for stretch in floret.seen(self.view, 0.1, 0.85, crease) {
                self.over(Role::RayInside, stretch.path, fill);
            }
            return;
        }
        for stretch in floret.seen(self.view, 0.0, 1.0, |_| 1.0) {
            let tube = bloom.roll == Roll::Forward;
            let role = if stretch.face && !tube {
                Role::RayFace
            } else {
                Role::RayReverse
            };
            self.add(role, stretch.path, floret.age);
        }
        if bloom.roll == Roll::Forward {
            self.tube(floret);
        }
        self.pattern(floret);
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
        self.add(Role::RayReverse, through(&knots.map(knot)), floret.age);
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
        let deep =
            |t: f64| open(t) * 0.75 * (1.0 - (2.0 * t / until - 1.0).powi(2)).max(0.0).sqrt();
        for stretch in floret
            .seen(self.view, 0.15, until, deep)
            .into_iter()
            .filter(|s| s.face)
        {
            let fill = self.paint.fill(Role::RayInside, floret.age);
            self.over(Role::RayInside, stretch.path, fill);
        }
    }

    /// The second colour on the upper face.
    fn pattern(&mut self, floret: &Floret) {
        let Some((second, pattern)) = self.paint.second() else {
            return;
        };
        let base = self.paint.fill(Role::RayFace, floret.age);
        let zones: &[(f64, f64, f64, f64)] = match pattern {
            Pattern::SelfColoured => &[],
            Pattern::Tipped => &[(0.76, 1.0, 0.9, 1.0)],
            Pattern::Bicolour => &[(0.55, 1.0, 0.92, 1.0)],
            Pattern::Blend => &[(0.0, 0.6, 0.9, 0.4), (0.0, 0.4, 0.9, 0.9)],
            Pattern::Flecked => return self.flecks(floret, second),
        };
        for (from, to, share, strength) in zones {
            let seen = floret.seen(self.view, *from, *to, |_| *share);
            for stretch in seen.into_iter().filter(|stretch| stretch.face) {
                self.over(Role::RayFace, stretch.path, mix(base, second, *strength));
            }
        }
    }

    fn flecks(&mut self, floret: &Floret, second: Lab) {
        for (from, aside) in [
            (0.4, 0.35),
            (0.52, -0.45),
            (0.62, 0.05),
            (0.74, -0.2),
            (0.78, 0.4),
        ] {
            let (to, half) = (from + 0.12, 0.1 * floret.half_width);
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
