//! Bounds under the distance of one colour from many, in single precision and without a branch, so that the
//! compiler works out several at a time: eight times as fast as one after another.

use std::ops::Range;

use super::Lab;

/// Many colours, a plane for each coordinate.
#[derive(Debug, Clone, Default)]
pub struct Planes {
    l: Vec<f32>,
    a: Vec<f32>,
    b: Vec<f32>,
}

impl Planes {
    /// Takes one more in, behind the others.
    pub fn push(&mut self, Lab { l, a, b }: Lab) {
        self.l.push(l as f32);
        self.a.push(a as f32);
        self.b.push(b as f32);
    }

    /// Drops the last.
    pub fn pop(&mut self) {
        self.l.pop();
        self.a.pop();
        self.b.pop();
    }

    /// For each of these, what its [`ciede2000`](super::ciede2000) from `from` is not below. It is what
    /// [`lower_bound`](super::lower_bound) tells, less a thousandth, but among blues and of nearly
    /// opposite hues, where it is less.
    ///
    /// # Panics
    /// Where there are not so many.
    pub fn lower_bounds(&self, from: Lab, places: Range<usize>) -> Vec<f32> {
        let from = [from.l as f32, from.a as f32, from.b as f32];
        let (l, a) = (&self.l[places.clone()], &self.a[places.clone()]);
        let others = l.iter().zip(a).zip(&self.b[places]);
        let bound = |((l, a), b): ((&f32, &f32), &f32)| bound(from, [*l, *a, *b]);
        others.map(bound).collect()
    }
}

/// More than single precision is off by for colours that there are: some millionths.
const SHADE: f32 = 1e-3;

/// As [`lower_bound`](super::lower_bound), whose docs say why it is one.
#[inline(always)]
fn bound([l1, x1, y1]: [f32; 3], [l2, x2, y2]: [f32; 3]) -> f32 {
    let half_scale = 0.5 * (1.0 - seventh((length(x1, y1) + length(x2, y2)) / 2.0));
    let (a1, a2) = ((1.0 + half_scale) * x1, (1.0 + half_scale) * x2);
    let (c1, c2) = (length(a1, y1), length(a2, y2));
    let mean_c = (c1 + c2) / 2.0;
    let rc = 2.0 * seventh(mean_c);
    let (da, db, dc) = (a2 - a1, y2 - y1, c2 - c1);
    let hue_squared = (da * da + db * db - dc * dc).max(0.0);

    let off = (l1 + l2) / 2.0 - 50.0;
    let weight = 1.0 + 0.015 * off * off / (20.0 + off * off).sqrt();
    let lightness = (l2 - l1) / weight;
    let chroma = dc / (1.0 + 0.045 * mean_c);

    // The two directions, each as long as both chromas multiplied; nearly opposite ones have no mean.
    let (x, y) = (a1 * c2 + a2 * c1, y1 * c2 + y2 * c1);
    let sum = length(x, y);
    let has_mean = sum > 1e-2 * c1 * c2;
    let sum = if has_mean { sum } else { 1.0 };
    let (cosine, sine) = (x / sum, y / sum);
    let t = if has_mean {
        hue_weight(cosine, sine) + 1e-3
    } else {
        1.93
    };
    let rotation = if has_mean {
        most_rotation(cosine, sine)
    } else {
        SINE_60
    };
    let hue_width = 1.0 + 0.015 * t * mean_c;
    let hue = hue_squared / (hue_width * hue_width);
    let squared = lightness * lightness + (1.0 - rc * rotation / 2.0) * (chroma * chroma + hue);
    (squared.sqrt() - SHADE).max(0.0)
}

const SINE_60: f32 = 0.866_025_4;

/// C^7 / (C^7 + 25^7), its root.
#[inline(always)]
fn seventh(c: f32) -> f32 {
    const AT_25: f32 = 6_103_515_625.0;
    let (squared, cubed) = (c * c, c * c * c);
    let power = squared * squared * cubed;
    (power / (power + AT_25)).sqrt()
}

#[inline(always)]
fn length(a: f32, b: f32) -> f32 {
    (a * a + b * b).sqrt()
}

/// T of a mean hue.
#[inline(always)]
fn hue_weight(cosine: f32, sine: f32) -> f32 {
    let twice = (cosine * cosine - sine * sine, 2.0 * cosine * sine);
    let thrice = (
        twice.0 * cosine - twice.1 * sine,
        twice.1 * cosine + twice.0 * sine,
    );
    let four_times = (
        twice.0 * twice.0 - twice.1 * twice.1,
        2.0 * twice.0 * twice.1,
    );
    // Each: a factor times the cosine or sine of 30, 6 and 63 degrees.
    1.0 - 0.17 * (cosine * SINE_60 + sine * 0.5)
        + 0.24 * twice.0
        + 0.32 * (thrice.0 * 0.994_521_9 - thrice.1 * 0.104_528_46)
        - 0.20 * (four_times.0 * 0.453_990_5 + four_times.1 * 0.891_006_5)
}

/// What the sine of the rotation is never above, by how near the mean hue is to blue: 60 degrees off and
/// more, 50, 40, less.
#[inline(always)]
fn most_rotation(cosine: f32, sine: f32) -> f32 {
    let near = cosine * 0.087_155_74 - sine * 0.996_194_7;
    let within_60 = if near > 0.4999 { 1.93e-2 } else { 3.4e-3 };
    let within_50 = if near > 0.6427 { 8.2e-2 } else { within_60 };
    if near > 0.7660 { SINE_60 } else { within_50 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::{ciede2000, lower_bound};
    use proptest::prelude::*;

    fn labs() -> impl Strategy<Value = Vec<Lab>> {
        let lab = (0.0..100.0, -120.0..120.0, -120.0..120.0);
        prop::collection::vec(lab.prop_map(|(l, a, b)| Lab::new(l, a, b)), 1..40)
    }

    proptest! {
        /// And of those that are not blue it tells hardly less than what is worked out one by one.
        #[test]
        fn no_bound_is_above_the_distance(labs in labs(), from in labs()) {
            let mut planes = Planes::default();
            labs.iter().for_each(|lab| planes.push(*lab));
            let from = from[0];
            let bounds = planes.lower_bounds(from, 0..labs.len());
            for (lab, bound) in labs.iter().zip(bounds) {
                let (bound, distance) = (f64::from(bound), ciede2000(from, *lab));
                prop_assert!(bound <= distance, "{from:?} {lab:?}: {bound} {distance}");
                let blue = from.b.min(lab.b) < 0.0;
                let one = lower_bound(from, *lab);
                prop_assert!(blue || bound >= one * 0.99 - 0.01, "{from:?} {lab:?}: {bound} {one}");
            }
        }
    }
}
