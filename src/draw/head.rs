//! How florets are set on a head: where each one stands, how long it is and how it bends.

use std::f64::consts::PI;

use super::bloom::{Bloom, Centre, Depth, FloretLine, Roll, Tip};
use super::floret::{Cut, Floret};
use super::view::{Place, View};

/// The golden angle in degrees: the turn from each floret of a head to the next.
pub const GOLDEN_ANGLE: f64 = 137.507_764;
/// The most rows that are drawn: more could not be told apart at 20 mm.
const MOST_ROWS: u32 = 8;
/// Ray florets in one row around an open centre.
const IN_A_ROW: usize = 8;

/// How far down a ball florets stand, in degrees from the middle of its face.
const MOST_DOWN: f64 = 130.0;
/// The same where the stem is seen.
const TO_THE_STEM: f64 = 164.0;
/// How many florets close a bloom about its stem, where others fall back over it.
const SKIRT: usize = 24;
/// At least this much of a floret is taken to be seen, or its tip would be too short to show anything.
const MOST_HIDDEN: f64 = 0.82;

/// The radii of the centre, where the bloom's is 1.
pub(super) const DISC: f64 = 0.2;
pub(super) const PINCUSHION: f64 = 0.46;
const COLLAR: f64 = 0.55;

/// Every ray floret and petaloid of a bloom, the outermost first.
///
/// A closed head is set as a Vogel spiral (H. Vogel, Mathematical Biosciences 44:179-189, 1979,
/// from memory): floret k at k golden angles and at the square root of its share of the head. An
/// open one has its rays in rows, each standing in the gaps of the one before.
pub(super) fn florets(bloom: &Bloom, view: View) -> Vec<Floret> {
    let mut all = match bloom.centre {
        Centre::Closed => spiral(bloom, view),
        Centre::Open | Centre::Pincushion => rows(bloom),
    };
    if bloom.has_collar() {
        all.extend(collar(bloom));
    }
    if view == View::Side && hangs(bloom) {
        all.extend(skirt(&all));
    }
    all
}

/// Whether its outer florets fall back over the stem, so that one looks between them under the bloom.
fn hangs(bloom: &Bloom) -> bool {
    bloom.line == FloretLine::Reflexed
        && bloom.centre == Centre::Closed
        && bloom.outline != Depth::Globe
}

/// The rows behind the outermost, which close about the stem: the outermost florets drawn in, and set
/// between those before them.
fn skirt(all: &[Floret]) -> Vec<Floret> {
    let closer = |(at, floret): (usize, &Floret)| {
        let near = 0.85 - 0.35 * at as f64 / SKIRT as f64;
        let [base, bend, tip] = floret.midrib;
        let drawn_in = |place: Place| Place {
            out: place.out * near,
            ..place
        };
        Floret {
            turn: floret.turn + GOLDEN_ANGLE.to_radians() / 2.0,
            midrib: [base, drawn_in(bend), drawn_in(tip)],
            ..*floret
        }
    };
    all.iter().take(SKIRT).enumerate().map(closer).collect()
}

/// How far apart the florets of a closed head are, and how many it has.
pub(super) fn spacing(bloom: &Bloom) -> (f64, usize) {
    // A ball shows a part of its florets to each side, and only their ends.
    let in_a_row = match (bloom.outline, bloom.tip) {
        (Depth::Globe, _) => 14,
        (_, Tip::Split) => 6,
        // Florets that are long at the centre too leave room for fewer.
        _ if !bloom.graded => 6,
        _ => 8,
    };
    let rows = bloom.rows.clamp(1, MOST_ROWS) as usize;
    let count = rows * in_a_row;
    ((PI / count as f64).sqrt(), count)
}

/// How long a ray floret is at this share of the way from the centre to the rim, where the
/// outermost is 1.
pub(super) fn length(bloom: &Bloom, share: f64) -> f64 {
    let least = if bloom.graded { 0.35 } else { 0.95 };
    least + (1.0 - least) * share
}

fn spiral(bloom: &Bloom, view: View) -> Vec<Floret> {
    let (spacing, count) = spacing(bloom);
    // From the side a ball is seen down to its stem, where its lowest florets close: as many more.
    let down = match view {
        View::Face => MOST_DOWN,
        View::Side => TO_THE_STEM,
    };
    let more = match bloom.outline {
        Depth::Globe => area_of_ball(down) / area_of_ball(MOST_DOWN),
        Depth::Deep | Depth::Saucer => 1.0,
    };
    let one = |k: usize| {
        let share = (k as f64 + 0.7) / count as f64;
        let least = match (bloom.outline, bloom.graded) {
            (Depth::Globe, _) => 0.8,
            (_, true) => 0.3,
            (_, false) => 0.6,
        };
        let size = least + (1.0 - least) * share.sqrt();
        let ray = Ray {
            turn: (k as f64 * GOLDEN_ANGLE).to_radians(),
            share,
            half_width: spacing
                * size
                * match (bloom.narrow, bloom.outline, bloom.tip) {
                    (true, _, Tip::Split) => 0.8,
                    (true, ..) => 0.47,
                    (false, Depth::Globe, _) => 1.2,
                    (false, ..) => 1.0,
                },
            index: k,
        };
        let floret = ray.set(bloom, closed_midrib(bloom, share, spacing));
        let hidden = match bloom.outline {
            // The tips around it reach to its middle.
            Depth::Globe => 0.5,
            Depth::Deep | Depth::Saucer => {
                // Those over it stand some 8 and 13 florets before it in the spiral: next to it on
                // either side. Narrow and pointed ones leave more of it to be seen.
                let before = match (bloom.narrow, bloom.tip) {
                    (true, _) | (_, Tip::Pointed) => 26,
                    (false, _) if bloom.graded => 10,
                    (false, _) => 7,
                };
                let nearer = k.saturating_sub(before) as f64 / count as f64;
                floret.within(nearer.sqrt())
            }
        };
        Floret {
            hidden: hidden.min(MOST_HIDDEN),
            age: seen_share(bloom, share),
            ..floret
        }
    };
    let all = (count as f64 * more).round() as usize;
    (0..all).rev().map(one).collect()
}

/// The share of the face, from its centre on, at which a floret lies that is so far of all florets.
fn seen_share(bloom: &Bloom, share: f64) -> f64 {
    match bloom.outline {
        // What lies behind the widest part of a ball is its rim.
        Depth::Globe if ball_angle(share) < PI / 2.0 => ball_angle(share).sin().powi(2),
        Depth::Globe => 1.0,
        Depth::Deep | Depth::Saucer => share,
    }
}

/// How far down a ball from its face a floret stands, in radians.
fn ball_angle(share: f64) -> f64 {
    (1.0 - share * area_of_ball(MOST_DOWN)).acos()
}

/// The area of a ball from its face down to this angle, in degrees, where half of it is 1.
fn area_of_ball(down: f64) -> f64 {
    1.0 - down.to_radians().cos()
}

/// Base, bend and tip of a floret of a closed head, `share` of the way from centre to rim.
fn closed_midrib(bloom: &Bloom, share: f64, spacing: f64) -> [Place; 3] {
    let reach = share.sqrt();
    match bloom.outline {
        // Scales on a ball: each shows its end only.
        Depth::Globe => {
            let angle = ball_angle(share);
            let (before, after) = (angle - 1.2 * spacing, angle + 0.8 * spacing);
            let on = |angle: f64, radius: f64| Place {
                out: radius * angle.sin(),
                up: radius * angle.cos(),
            };
            [
                on(before, 0.86),
                on((before + 2.0 * after) / 3.0, 1.0),
                on(after, 0.98),
            ]
        }
        Depth::Deep => {
            let tip = Place {
                out: reach,
                up: 0.6 * (1.0 - share) - 0.1 * share,
            };
            [
                Place {
                    out: 0.03 * reach,
                    up: -0.1,
                },
                between(tip, 0.55, 0.08),
                tip,
            ]
        }
        Depth::Saucer => {
            let tip = Place {
                out: reach,
                up: 0.34 * (1.0 - share) + 0.1,
            };
            [
                Place {
                    out: 0.03 * reach,
                    up: -0.05,
                },
                between(tip, 0.55, -0.06),
                tip,
            ]
        }
    }
}

fn between(tip: Place, share: f64, raised: f64) -> Place {
    Place {
        out: tip.out * share,
        up: tip.up * share + raised,
    }
}

fn rows(bloom: &Bloom) -> Vec<Floret> {
    let inner = if bloom.centre == Centre::Pincushion {
        PINCUSHION
    } else {
        DISC
    };
    let rows = bloom.rows.clamp(1, MOST_ROWS);
    let mut all = Vec::new();
    for row in 0..rows {
        // Rows fall back toward the disc, and less so where they are alike in length.
        let back_of = |row: u32| f64::from(row) / f64::from(rows.max(3));
        let reach_of =
            |row: u32| 1.0 - back_of(row) * (1.0 - inner) * if bloom.graded { 0.85 } else { 0.7 };
        let (back, reach) = (back_of(row), reach_of(row));
        let covered = match row + 1 < rows {
            true => reach_of(row + 1) * if bloom.narrow { 0.7 } else { 0.85 },
            false if bloom.has_collar() => collar_reach(inner) * 0.9,
            false => inner,
        };
        let width = PI / IN_A_ROW as f64 * (0.35 + 0.45 * reach);
        for at in 0..IN_A_ROW {
            let step = at as f64 + f64::from(row) * 0.5 + 0.25;
            let ray = Ray {
                turn: step * 2.0 * PI / IN_A_ROW as f64 - PI / 2.0,
                share: 1.0 - back,
                half_width: width * if bloom.narrow { 0.65 } else { 0.92 },
                index: all.len(),
            };
            let rise = match bloom.outline {
                Depth::Saucer => 0.16,
                Depth::Deep => 0.2,
                Depth::Globe => 0.3,
            };
            let tip = Place {
                out: reach,
                up: rise + 0.35 * back,
            };
            let base = Place {
                out: inner * 0.55,
                up: 0.0,
            };
            let floret = ray.set(bloom, [base, between(tip, 0.6, -0.03), tip]);
            all.push(Floret {
                hidden: floret.within(covered).min(MOST_HIDDEN),
                ..floret
            });
        }
    }
    all
}

/// How far the collar reaches around a centre of this radius.
fn collar_reach(inner: f64) -> f64 {
    COLLAR.max(inner + 0.14)
}

fn collar(bloom: &Bloom) -> Vec<Floret> {
    let inner = if bloom.centre == Centre::Pincushion {
        PINCUSHION
    } else {
        DISC
    };
    let reach = collar_reach(inner);
    let count = IN_A_ROW * 2;
    let one = |at: usize| {
        let long = if at.is_multiple_of(2) { 1.0 } else { 0.88 };
        let tip = Place {
            out: reach * long,
            up: 0.14,
        };
        Floret {
            turn: (at as f64 + 0.5) * 2.0 * PI / count as f64 - PI / 2.0,
            midrib: [
                Place {
                    out: inner * 0.7,
                    up: 0.02,
                },
                between(tip, 0.6, 0.03),
                tip,
            ],
            sweep: 0.0,
            wave: (0.0, 0.0),
            ruffle: 0.0,
            half_width: 0.75 * PI * reach / count as f64,
            cut: Cut {
                tip: Tip::Rounded,
                roll: Roll::Flat,
                rolled: 0.0,
                narrow: false,
            },
            age: 0.5,
            hidden: 0.3,
            petaloid: true,
        }
    };
    (0..count).map(one).collect()
}

/// A ray floret before it bends.
struct Ray {
    turn: f64,
    share: f64,
    half_width: f64,
    index: usize,
}

impl Ray {
    fn set(&self, bloom: &Bloom, [base, bend, tip]: [Place; 3]) -> Floret {
        let length = (tip.out - base.out).hypot(tip.up - base.up);
        // A scale on a ball bends by its own length, a long ray by how far it reaches.
        let shift = match bloom.outline {
            Depth::Globe => 0.6 * length,
            Depth::Deep | Depth::Saucer => tip.out,
        };
        let strays = spread(self.index, 0);
        let (mut bend, mut tip) = (bend, tip);
        let mut sweep = 0.0;
        match bloom.line {
            FloretLine::Straight => {}
            FloretLine::Incurved => {
                bend.out += 0.48 * shift;
                bend.up -= 0.05 * length;
                tip.out -= 0.14 * shift;
                tip.up += 0.4 * length;
                // A slender floret that bends does not keep to its own plane.
                if bloom.narrow {
                    sweep = 0.28 * length * if strays > 0.0 { 1.0 } else { -1.0 };
                }
            }
            FloretLine::Reflexed => {
                bend.up += 0.3 * length;
                bend.out += 0.2 * shift;
                tip.up -= 0.3 * length * self.share;
            }
        }
        let mut wave = (0.0, 0.0);
        let mut turn = self.turn;
        if bloom.wavy {
            turn += 0.08 * strays;
            sweep += 0.14 * length * spread(self.index, 1);
            wave = (0.045 * length, PI * spread(self.index, 2));
            tip.out *= 1.0 + 0.14 * spread(self.index, 3);
        }
        Floret {
            turn,
            midrib: [base, bend, tip],
            sweep,
            wave,
            ruffle: if bloom.wavy { 0.14 } else { 0.0 },
            half_width: self.half_width,
            cut: Cut {
                tip: bloom.tip,
                roll: bloom.roll,
                rolled: bloom.rolled,
                narrow: bloom.narrow,
            },
            age: self.share,
            hidden: 0.0,
            petaloid: false,
        }
    }
}

/// A number from -1 to 1 that is spread evenly over the florets, the same at every drawing.
fn spread(index: usize, salt: usize) -> f64 {
    // Multiples of an irrational number leave evenly spread fractions.
    let turns =
        (index + 1) as f64 * [0.754_877_67, 0.569_840_29, 0.819_172_51, 0.671_043_60][salt % 4];
    2.0 * turns.fract() - 1.0
}
