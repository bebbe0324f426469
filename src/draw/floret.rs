//! One ray floret or petaloid as a ribbon in space, and how it looks from one side.
//!
//! Space is the bloom's own: the stem along -z, the face toward +z. A floret stands in the
//! half-plane of its turn about that axis; `out` is the distance from the axis in it.

use std::f64::consts::PI;

use kurbo::{BezPath, Point};

use super::bloom::{Roll, Tip};
use super::curve::{Knot, through};
use super::view::{Place, View};

/// Where along its length a ribbon is measured: 0 at the base, 1 at the tip.
const STATIONS: [f64; 10] = [0.0, 0.16, 0.32, 0.48, 0.63, 0.76, 0.86, 0.93, 0.98, 1.0];
/// How far the end of a part of a floret bows out.
const BOW: f64 = 0.05;
/// How far the crest of a floret that falls back arches from side to side, as a share of its half width.
const ARCH: f64 = 0.45;
/// What a rolled floret keeps of its width: back to a quill, forward to
/// a tube, or to a cup where it is broad.
const QUILL: f64 = 0.36;
const TUBE: f64 = 0.52;
const CUP: f64 = 0.85;
const FRINGED: f64 = 0.6;
/// Where the notch of a split tip is.
const NOTCH: f64 = 0.7;

/// How a floret is cut and rolled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cut {
    pub tip: Tip,
    pub roll: Roll,
    pub rolled: f64,
    pub narrow: bool,
}

/// A floret.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Floret {
    /// Its turn about the stem, in radians.
    pub turn: f64,
    /// Base, bend and tip of its midrib: a quadratic Bézier curve.
    pub midrib: [Place; 3],
    /// How far the tip strays sideways.
    pub sweep: f64,
    /// How far the midrib waves sideways, and where in the wave it starts.
    pub wave: (f64, f64),
    /// How much the width waves, as a share of it.
    pub ruffle: f64,
    /// Half of its greatest width.
    pub half_width: f64,
    pub cut: Cut,
    /// 0 at the centre of the bloom to 1 at its rim.
    pub age: f64,
    /// How much of its length lies hidden under what is nearer the centre, from its base on.
    pub hidden: f64,
    /// Whether it is a petaloid of the collar.
    pub petaloid: bool,
}

/// Where a stretch of a floret ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    /// At the floret's own base or tip.
    Own,
    /// In a bow, where only a part of the floret is wanted.
    Cut,
    /// Where the floret turns its other side to the eye.
    Fold,
}

/// A stretch of a floret that shows one of its sides.
pub(super) struct Stretch {
    pub path: BezPath,
    /// Whether the upper face is seen.
    pub face: bool,
    /// The greater, the nearer.
    pub nearness: f64,
}

impl Floret {
    /// The stretch of the midrib from `from` to `to`, each side of it that the view shows, with
    /// `share` of the width at each place; tipped where it ends at 1. The nearest comes last.
    pub(super) fn seen(
        &self,
        view: View,
        from: f64,
        to: f64,
        share: impl Fn(f64) -> f64,
    ) -> Vec<Stretch> {
        let inside = STATIONS
            .iter()
            .copied()
            .filter(|t| *t > from + 0.01 && *t < to - 0.01);
        let stations: Vec<f64> = [from].into_iter().chain(inside).chain([to]).collect();
        let side = |pair: &[f64]| self.shows_face(view, (pair[0] + pair[1]) / 2.0);
        let sides: Vec<bool> = stations.windows(2).map(side).collect();
        let mut found = Vec::new();
        let mut start = 0;
        for end in 1..=sides.len() {
            if end == sides.len() || sides[end] != sides[start] {
                let first = match (start, from > 0.0) {
                    (0, false) => End::Own,
                    (0, true) => End::Cut,
                    _ => End::Fold,
                };
                let last = match (end == sides.len(), to < 1.0) {
                    (true, false) => End::Own,
                    (true, true) => End::Cut,
                    _ => End::Fold,
                };
                let stations = &stations[start..=end];
                found.push(self.stretch(view, stations, &share, sides[start], [first, last]));
                start = end;
            }
        }
        found.sort_by(|a, b| a.nearness.total_cmp(&b.nearness));
        found
    }

    fn stretch(
        &self,
        view: View,
        stations: &[f64],
        share: impl Fn(f64) -> f64,
        face: bool,
        ends_in: [End; 2],
    ) -> Stretch {
        let knot = |(t, aside, sharp): (f64, f64, bool)| Knot {
            at: view.project(self.turn, self.place(t, aside * share(t))).0,
            sharp,
        };
        let last = stations.len() - 1;
        let ends = |at: usize| at == 0 || at == last;
        let tipped = stations[last] >= 1.0;
        let mut left: Vec<(f64, f64, bool)> = Vec::new();
        for (at, t) in stations.iter().enumerate() {
            left.push((*t, self.width(*t), ends(at)));
        }
        if tipped {
            left.pop();
            self.end_with_tip(&mut left);
        }
        let right = left
            .iter()
            .rev()
            .map(|(t, aside, sharp)| (*t, -aside, *sharp));
        let middle = |end: End, t: f64, by: f64| match end {
            End::Own => None,
            End::Cut => Some(knot((t + by, 0.0, false))),
            End::Fold => self.crest(view, t, share(t)),
        };
        let end = match (tipped, self.cut.tip) {
            (false, _) => middle(ends_in[1], stations[last], BOW),
            (true, Tip::Split) => Some(knot((NOTCH, 0.0, true))),
            (true, tip) => Some(knot((1.0, 0.0, tip == Tip::Pointed))),
        };
        let start = middle(ends_in[0], stations[0], -BOW);
        let (left, right) = (left.iter().copied().map(knot), right.map(knot));
        let knots: Vec<Knot> = left.chain(end).chain(right).chain(start).collect();
        let halfway = (stations[0] + stations[last]) / 2.0;
        Stretch {
            path: through(&knots),
            face,
            nearness: view.project(self.turn, self.place(halfway, 0.0)).1,
        }
    }

    /// The middle of the crest over which a floret falls back, from the side: its edges hang lower.
    fn crest(&self, view: View, t: f64, share: f64) -> Option<Knot> {
        let [base, bend, tip] = self.midrib;
        let falls = base.up + tip.up < 2.0 * bend.up;
        (view == View::Side && falls).then(|| {
            let (at, _) = view.project(self.turn, self.place(t, 0.0));
            let arch = ARCH * self.width(t) * share * self.turn.sin().abs();
            Knot::smooth(Point::new(at.x, at.y - arch))
        })
    }

    /// The left half of the tip, the very end of the midrib left out.
    fn end_with_tip(&self, left: &mut Vec<(f64, f64, bool)>) {
        if self.cut.tip == Tip::Split {
            left.retain(|(t, _, _)| *t < NOTCH - 0.05);
            let wide = self.width(NOTCH);
            left.push((NOTCH, wide, false));
            left.push((1.0, wide * 1.3, true));
            left.push((NOTCH + 0.05, wide * 0.12, false));
        }
    }

    /// Where the ribbon is at `t` of its length and `aside` of its midrib.
    pub(super) fn place(&self, t: f64, aside: f64) -> (Place, f64) {
        let middle = self.along(t);
        let (slope, cup) = (self.slope(t), self.cup(t));
        let length = slope.out.hypot(slope.up).max(1e-9);
        // The upper face's normal in the half-plane; rolled edges are lifted along it.
        let lift = cup * aside.abs();
        let place = Place {
            out: middle.out - lift * slope.up / length,
            up: middle.up + lift * slope.out / length,
        };
        let waved = self.wave.0 * (t * 2.0 * PI + self.wave.1).sin() * t;
        (place, aside + self.sweep * t * t + waved)
    }

    /// Where along its length a share of what is not hidden is passed.
    pub(super) fn of_seen(&self, share: f64) -> f64 {
        self.hidden + (1.0 - self.hidden) * share
    }

    /// How much of its length lies within this distance of the stem's axis.
    pub(super) fn within(&self, out: f64) -> f64 {
        const STEPS: u32 = 40;
        let steps = (0..STEPS).map(|step| f64::from(step) / f64::from(STEPS));
        let inside = steps.take_while(|t| self.along(*t).out < out);
        inside.last().unwrap_or(0.0)
    }

    /// From its base straight to its tip.
    fn length(&self) -> f64 {
        let [base, _, tip] = self.midrib;
        (tip.out - base.out).hypot(tip.up - base.up).max(1e-9)
    }

    fn along(&self, t: f64) -> Place {
        let [a, b, c] = self.midrib;
        let (p, q, r) = ((1.0 - t) * (1.0 - t), 2.0 * t * (1.0 - t), t * t);
        Place {
            out: p * a.out + q * b.out + r * c.out,
            up: p * a.up + q * b.up + r * c.up,
        }
    }

    fn slope(&self, t: f64) -> Place {
        let [a, b, c] = self.midrib;
        Place {
            out: 2.0 * ((1.0 - t) * (b.out - a.out) + t * (c.out - b.out)),
            up: 2.0 * ((1.0 - t) * (b.up - a.up) + t * (c.up - b.up)),
        }
    }

    /// How far from the stem's axis it reaches.
    pub(super) fn reach(&self) -> f64 {
        let far = |t: &f64| {
            let (place, aside) = self.place(*t, self.width(*t));
            place.out.hypot(aside)
        };
        STATIONS.iter().map(far).fold(0.0, f64::max)
    }

    pub(super) fn shows_face(&self, view: View, t: f64) -> bool {
        let slope = self.slope(t);
        view.faces(self.turn, -slope.up, slope.out)
    }

    /// Whether its back is hidden there by edges that roll back, so that its face is seen from behind
    /// too. A fringe opens a rolled floret again.
    pub(super) fn is_wrapped_in_face(&self, t: f64) -> bool {
        let rolls = self.cut.roll == Roll::Back && self.cut.tip != Tip::Split;
        rolls && t > 1.0 - self.cut.rolled
    }

    /// Whether it hangs lower than its base and before it: the florets around it hide all but its fall.
    pub(super) fn hangs_before(&self, view: View) -> bool {
        let [base, _, tip] = self.midrib;
        view == View::Side && self.turn.sin() > 0.0 && tip.up < base.up
    }

    /// How far the edges stand off the midrib, as a share of the half width: up is positive.
    fn cup(&self, t: f64) -> f64 {
        match self.cut.roll {
            Roll::Flat => 0.2 * t,
            Roll::Forward if self.cut.narrow => 0.6,
            Roll::Forward => 0.2,
            Roll::Back => -0.5 * self.is_rolled(t),
        }
    }

    /// Half of the width at `t`.
    pub(super) fn width(&self, t: f64) -> f64 {
        let (base, full) = match (self.cut.narrow, self.cut.roll) {
            (false, Roll::Forward) => (0.6, 0.35),
            (false, _) => (0.55, 0.55),
            (true, _) => (0.7, 0.55),
        };
        let swell = base + (1.0 - base) * smooth(t / full);
        let end = match self.cut.tip {
            Tip::Rounded => {
                // As long as it is wide, so that it is round.
                let end = (1.1 * self.half_width / self.length()).clamp(0.45, 0.75);
                let over = ((t - 1.0 + end) / end).max(0.0);
                (1.0 - over.powf(2.2)).max(0.0).sqrt()
            }
            Tip::Pointed => 1.0 - ((t - 0.4) / 0.6).max(0.0).powf(1.5),
            Tip::Split => 1.0,
        };
        let least = match (self.cut.roll, self.cut.narrow, self.cut.tip) {
            (Roll::Forward, false, _) => CUP,
            (Roll::Forward, true, _) => TUBE,
            // The fringe opens a rolled floret again.
            (_, _, Tip::Split) => FRINGED,
            _ => QUILL,
        };
        let kept = 1.0 - (1.0 - least) * self.is_rolled(t);
        // The edges of a waved floret are ruffled.
        let ruffle = 1.0 + self.ruffle * (t * 4.0 * PI + self.wave.1).sin();
        self.half_width * swell * end.max(0.0) * kept * ruffle
    }

    /// How far the edges are rolled in at `t`, 0 to 1: back from the tip, forward from the base.
    pub(super) fn is_rolled(&self, t: f64) -> f64 {
        match self.cut.roll {
            Roll::Flat => 0.0,
            Roll::Back => smooth((t - (1.0 - self.cut.rolled)) / 0.35 + 0.5),
            Roll::Forward => smooth((self.cut.rolled - t) / 0.2 + 0.5),
        }
    }
}

/// From 0 at 0 to 1 at 1, level at both ends.
pub(super) fn smooth(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
