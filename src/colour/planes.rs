//! Between what the distance of one colour from each of many lies, in single precision and without a branch,
//! so that the compiler works out several at a time: eight times as fast as one after another.

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

    /// For each of these, between what its [`ciede2000`](super::ciede2000) from `from` lies. The two are less
    /// than a hundredth of it apart, but among blues and of nearly opposite hues, where they are more.
    ///
    /// # Panics
    /// Where there are not so many.
    pub fn between(&self, from: Lab, places: Range<usize>) -> Between {
        let from = [from.l as f32, from.a as f32, from.b as f32];
        let (l, a) = (&self.l[places.clone()], &self.a[places.clone()]);
        let mut between = Between {
            least: vec![0.0; places.len()],
            most: vec![0.0; places.len()],
        };
        let others = l.iter().zip(a).zip(&self.b[places]);
        let own = between.least.iter_mut().zip(&mut between.most);
        for (((l, a), b), (least, most)) in others.zip(own) {
            (*least, *most) = bounds(from, [*l, *a, *b]);
        }
        between
    }
}

/// Between what the distances of many colours lie, in their order.
#[derive(Debug, Clone, Default)]
pub struct Between {
    /// What each is not below.
    pub least: Vec<f32>,
    /// What each is not above.
    pub most: Vec<f32>,
}

impl Between {
    /// The same from the rim of a region that reaches so far.
    pub(super) fn less_radius(mut self, radius: f64) -> Between {
        let radius = radius as f32;
        let own = self.least.iter_mut().zip(&mut self.most);
        // Rounding the radius takes less than the shade that is allowed for.
        own.for_each(|(least, most)| {
            *least = (*least - radius).max(0.0);
            *most = (*most - radius).max(0.0);
        });
        self
    }

    /// Takes in more, behind these.
    pub fn extend(&mut self, more: Between) {
        self.least.extend(more.least);
        self.most.extend(more.most);
    }
}

/// More than single precision is off by for colours that there are: some millionths.
const SHADE: f32 = 1e-3;

/// The one as [`lower_bound`](super::lower_bound), whose docs say why it is one; the other with all that is
/// left out there counted for instead of against.
#[inline(always)]
fn bounds([l1, x1, y1]: [f32; 3], [l2, x2, y2]: [f32; 3]) -> (f32, f32) {
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
    let t = hue_weight(cosine, sine);
    let (most_t, least_t) = if has_mean {
        (t + 1e-3, t - 1e-3)
    } else {
        (1.93, 0.07)
    };
    let rotation = if has_mean {
        most_rotation(cosine, sine)
    } else {
        SINE_60
    };
    let widths = (
        1.0 + 0.015 * most_t * mean_c,
        1.0 + 0.015 * least_t * mean_c,
    );
    let (least_hue, most_hue) = (
        hue_squared / (widths.0 * widths.0),
        hue_squared / (widths.1 * widths.1),
    );
    let (turned, chroma) = (rc * rotation / 2.0, chroma * chroma);
    let lightness = lightness * lightness;
    let least = lightness + (1.0 - turned) * (chroma + least_hue);
    let most = lightness + (1.0 + turned) * (chroma + most_hue);
    ((least.sqrt() - SHADE).max(0.0), most.sqrt() + SHADE)
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
        /// And of those that are not blue they tell hardly less than what is worked out one by one.
        #[test]
        fn the_distance_lies_between_the_bounds(labs in labs(), from in labs()) {
            let mut planes = Planes::default();
            labs.iter().for_each(|lab| planes.push(*lab));
            let from = from[0];
            let between = planes.between(from, 0..labs.len());
            let bounds = between.least.iter().zip(&between.most);
            for (lab, (least, most)) in labs.iter().zip(bounds) {
                let (least, most) = (f64::from(*least), f64::from(*most));
                let distance = ciede2000(from, *lab);
                prop_assert!(least <= distance && distance <= most, "{from:?} {lab:?}: {least} {distance} {most}");
                let blue = from.b.min(lab.b) < 0.0;
                let one = lower_bound(from, *lab);
                prop_assert!(blue || least >= one * 0.99 - 0.01, "{from:?} {lab:?}: {least} {one}");
                let near = { from.a * lab.a + from.b * lab.b } > 0.0;
                prop_assert!(blue || !near || most <= distance * 1.01 + 0.01, "{from:?} {lab:?}: {most} {distance}");
            }
        }
    }
}
