//! CIEDE2000, and a bound under it that needs no trigonometry.
//!
//! Source: G. Sharma, W. Wu and E. N. Dalal, "The CIEDE2000 Color-Difference Formula", Color
//! Research & Application 30(1):21-30, 2005, whose symbols the names follow; kL = kC = kH = 1.

use super::lab::Lab;

/// The CIEDE2000 distance: about 1 is a just visible step, 5 a near neighbour, 20 another colour.
///
/// Hues are directions here and not degrees: the mean hue is the direction between the two, and the
/// sines and cosines of what it is multiplied by follow from its own, which saves most trigonometry.
pub fn ciede2000(x: Lab, y: Lab) -> f64 {
    let Common { a1, a2, c1, c2, rc } = Common::of(x, y);
    let mean_c = (c1 + c2) / 2.0;
    let lightness = (y.l - x.l) / lightness_weight(x, y);
    let chroma = (c2 - c1) / (1.0 + 0.045 * mean_c);
    let (hue, rotation) = match c1 * c2 == 0.0 {
        true => (0.0, 0.0),
        false => {
            let Hues { half_turn, mean } = Hues::of((a1 / c1, x.b / c1), (a2 / c2, y.b / c2));
            let t = hue_weight(mean);
            let hue = 2.0 * (c1 * c2).sqrt() * half_turn / (1.0 + 0.015 * mean_c * t);
            (hue, -rc * rotation_sine(mean))
        }
    };
    // OK because the form is positive definite (|RT| < 2): only rounding goes under 0.
    (lightness.powi(2) + chroma.powi(2) + hue.powi(2) + rotation * chroma * hue)
        .max(0.0)
        .sqrt()
}

/// The cosine and the sine of an angle.
type Direction = (f64, f64);

/// Two hues.
struct Hues {
    /// The sine of half the turn from the one to the other, the shorter way.
    half_turn: f64,
    /// The mean hue.
    mean: Direction,
}

impl Hues {
    fn of(one: Direction, other: Direction) -> Hues {
        let sum = (one.0 + other.0, one.1 + other.1);
        let length = length(sum.0, sum.1);
        // Opposite hues have no direction between them: there the paper takes the mean of degrees.
        if length < 1e-6 {
            let (h1, h2) = (hue_angle(one), hue_angle(other));
            let turn = match h2 - h1 {
                turn if turn > 180.0 => turn - 360.0,
                turn if turn < -180.0 => turn + 360.0,
                turn => turn,
            };
            let mean = match h1 + h2 {
                sum if (h1 - h2).abs() <= 180.0 => sum / 2.0,
                sum if sum < 360.0 => (sum + 360.0) / 2.0,
                sum => (sum - 360.0) / 2.0,
            };
            let (sine, cosine) = mean.to_radians().sin_cos();
            return Hues {
                half_turn: (turn / 2.0).to_radians().sin(),
                mean: (cosine, sine),
            };
        }
        Hues {
            half_turn: (one.0 * other.1 - one.1 * other.0) / length,
            mean: (sum.0 / length, sum.1 / length),
        }
    }
}

/// T of a mean hue: 1 - 0.17 cos(h - 30) + 0.24 cos 2h + 0.32 cos(3h + 6) - 0.20 cos(4h - 63).
fn hue_weight((cosine, sine): Direction) -> f64 {
    const COSINE_6: f64 = 0.994_521_895_368_273_3;
    const SINE_6: f64 = 0.104_528_463_267_653_47;
    const COSINE_30: f64 = 0.866_025_403_784_438_6;
    const COSINE_63: f64 = 0.453_990_499_739_546_8;
    const SINE_63: f64 = 0.891_006_524_188_367_9;
    let twice = (cosine * cosine - sine * sine, 2.0 * cosine * sine);
    let thrice = (
        twice.0 * cosine - twice.1 * sine,
        twice.1 * cosine + twice.0 * sine,
    );
    let four_times = (
        twice.0 * twice.0 - twice.1 * twice.1,
        2.0 * twice.0 * twice.1,
    );
    1.0 - 0.17 * (cosine * COSINE_30 + sine * 0.5)
        + 0.24 * twice.0
        + 0.32 * (thrice.0 * COSINE_6 - thrice.1 * SINE_6)
        - 0.20 * (four_times.0 * COSINE_63 + four_times.1 * SINE_63)
}

/// The sine of 2 Δθ, with Δθ = 30 exp(-((h - 275) / 25)²), of a mean hue h. Up to 125 degrees, from yellow green
/// over red to pink, Δθ is less than the rounding of a double, 30 exp(-36), and is not worked out.
fn rotation_sine(mean: Direction) -> f64 {
    const COSINE_125: f64 = -0.573_576_436_351_046;
    if mean.0 > COSINE_125 && mean.1 > 0.0 {
        return 0.0;
    }
    let theta = 30.0 * (-((hue_angle(mean) - 275.0) / 25.0).powi(2)).exp();
    (2.0 * theta).to_radians().sin()
}

/// Never above [`ciede2000`] and hardly below it but among blues, and several times cheaper: no sine, cosine
/// or arc tangent.
///
/// The rotation, RT x y, is at least -|RT| (x² + y²) / 2, and |RT| is at most RC times the most that
/// `most_rotation` tells of the mean hue. Opposite hues have no direction between them: there T takes
/// its largest, 1 + 0.17 + 0.24 + 0.32 + 0.20.
pub fn lower_bound(x: Lab, y: Lab) -> f64 {
    const LARGEST_T: f64 = 1.93;
    // More than the rounding of either formula.
    const SHADE: f64 = 1e-9;

    let Common { a1, a2, c1, c2, rc } = Common::of(x, y);
    let mean_c = (c1 + c2) / 2.0;
    let hue_squared = ((a2 - a1).powi(2) + (y.b - x.b).powi(2) - (c2 - c1).powi(2)).max(0.0);
    let lightness = ((y.l - x.l) / lightness_weight(x, y)).powi(2);
    let chroma = ((c2 - c1) / (1.0 + 0.045 * mean_c)).powi(2);
    // The two directions, each as long as both chromas multiplied.
    let sum = (a1 * c2 + a2 * c1, x.b * c2 + y.b * c1);
    let length = length(sum.0, sum.1);
    let (t, rotation) = match length > 1e-3 * c1 * c2 {
        true => {
            let mean = (sum.0 / length, sum.1 / length);
            // More than what rounding makes of a mean of nearly opposite hues.
            (hue_weight(mean) + 1e-6, most_rotation(mean))
        }
        false => (LARGEST_T, SINE_60),
    };
    let hue = hue_squared / (1.0 + 0.015 * t * mean_c).powi(2);
    ((lightness + (1.0 - rc * rotation / 2.0) * (chroma + hue)).sqrt() - SHADE).max(0.0)
}

const SINE_60: f64 = 0.866_025_403_784_438_6;

/// What the sine of 2 Δθ, with Δθ = 30 exp(-((h - 275) / 25)²), is never above for a mean hue h: 1 / 333
/// of its most at 60 degrees from 275.
fn most_rotation(mean: Direction) -> f64 {
    // The direction of 275 degrees.
    const BLUE: Direction = (0.087_155_742_747_658_17, -0.996_194_698_091_745_5);
    // The cosine of so many degrees, and a little over the sine at that hue.
    const STEPS: [(f64, f64); 4] = [
        (0.0, 3e-6),          // 90
        (0.499_999, 3.4e-3),  // 60
        (0.642_787, 1.93e-2), // 50
        (0.766_044, 8.2e-2),  // 40
    ];
    let near = mean.0 * BLUE.0 + mean.1 * BLUE.1;
    let step = STEPS.iter().find(|(cosine, _)| near <= *cosine);
    step.map_or(SINE_60, |(_, most)| *most)
}

/// Never above [`ciede2000`], and the cheapest of all: by lightness alone. The darker the one is beside
/// the other, or the lighter, the more.
pub fn lightness_bound(x: Lab, y: Lab) -> f64 {
    // OK because the terms other than lightness never sum to less than 0: |RT| < 2.
    ((y.l - x.l) / lightness_weight(x, y)).abs() - 1e-9
}

/// What the distance and its bound both need: a' and C' of the two colours, and RC.
struct Common {
    a1: f64,
    a2: f64,
    c1: f64,
    c2: f64,
    rc: f64,
}

impl Common {
    fn of(x: Lab, y: Lab) -> Common {
        let seventh = |c: f64| (c.powi(7) / (c.powi(7) + 25_f64.powi(7))).sqrt();
        let g = 0.5 * (1.0 - seventh((length(x.a, x.b) + length(y.a, y.b)) / 2.0));
        let (a1, a2) = ((1.0 + g) * x.a, (1.0 + g) * y.a);
        let (c1, c2) = (length(a1, x.b), length(a2, y.b));
        let rc = 2.0 * seventh((c1 + c2) / 2.0);
        Common { a1, a2, c1, c2, rc }
    }
}

/// Of a direction, or of a colour its chroma: far from where squares overflow, and cheaper than `hypot`.
fn length(a: f64, b: f64) -> f64 {
    (a * a + b * b).sqrt()
}

/// SL.
fn lightness_weight(x: Lab, y: Lab) -> f64 {
    let off = ((x.l + y.l) / 2.0 - 50.0).powi(2);
    1.0 + 0.015 * off / (20.0 + off).sqrt()
}

/// Degrees from 0 to 360.
fn hue_angle((cosine, sine): Direction) -> f64 {
    let degrees = sine.atan2(cosine).to_degrees();
    if degrees < 0.0 {
        degrees + 360.0
    } else {
        degrees
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::data_rows;
    use proptest::prelude::*;

    /// The file names the paper and where the numbers were taken from.
    #[test]
    fn the_34_published_pairs() {
        let mut checked = 0;
        for row in data_rows(include_str!("../../tests/data/ciede2000.csv")) {
            let n: Vec<f64> = row.split(',').map(|n| n.parse().expect(row)).collect();
            let (x, y) = (Lab::new(n[0], n[1], n[2]), Lab::new(n[3], n[4], n[5]));
            let found = ciede2000(x, y);
            // The paper prints four decimals.
            assert!((found - n[6]).abs() <= 0.000_05 + 1e-9, "{row}: {found}");
            assert!(lower_bound(x, y) <= found, "{row}");
            checked += 1;
        }
        assert_eq!(checked, 34);
    }

    /// The formula as the paper has it, in degrees.
    fn by_the_paper(x: Lab, y: Lab) -> f64 {
        let Common { a1, a2, c1, c2, rc } = Common::of(x, y);
        let hue = |a: f64, b: f64| b.atan2(a).to_degrees().rem_euclid(360.0);
        let (h1, h2) = (hue(a1, x.b), hue(a2, y.b));
        let grey = c1 * c2 == 0.0;
        let turn = match h2 - h1 {
            _ if grey => 0.0,
            turn if turn > 180.0 => turn - 360.0,
            turn if turn < -180.0 => turn + 360.0,
            turn => turn,
        };
        let mean_hue = match h1 + h2 {
            sum if grey => sum,
            sum if (h1 - h2).abs() <= 180.0 => sum / 2.0,
            sum if sum < 360.0 => (sum + 360.0) / 2.0,
            sum => (sum - 360.0) / 2.0,
        };
        let mean_c = (c1 + c2) / 2.0;
        let cosine = |degrees: f64| degrees.to_radians().cos();
        let t = 1.0 - 0.17 * cosine(mean_hue - 30.0)
            + 0.24 * cosine(2.0 * mean_hue)
            + 0.32 * cosine(3.0 * mean_hue + 6.0)
            - 0.20 * cosine(4.0 * mean_hue - 63.0);
        let theta = 30.0 * (-((mean_hue - 275.0) / 25.0).powi(2)).exp();
        let rt = -rc * (2.0 * theta).to_radians().sin();
        let lightness = (y.l - x.l) / lightness_weight(x, y);
        let chroma = (c2 - c1) / (1.0 + 0.045 * mean_c);
        let hue =
            2.0 * (c1 * c2).sqrt() * (turn / 2.0).to_radians().sin() / (1.0 + 0.015 * mean_c * t);
        (lightness.powi(2) + chroma.powi(2) + hue.powi(2) + rt * chroma * hue)
            .max(0.0)
            .sqrt()
    }

    fn any_lab() -> impl Strategy<Value = Lab> {
        (0.0..100.0, -128.0..128.0, -128.0..128.0).prop_map(|(l, a, b)| Lab::new(l, a, b))
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20_000))]

        #[test]
        fn the_bound_is_never_above_the_distance(x in any_lab(), y in any_lab(), near in 0.0..1.0_f64) {
            // Colours close together too: there the terms of the bound nearly cancel.
            let step = |from: f64, to: f64| from + (to - from) * near.powi(12);
            let close = Lab::new(step(x.l, y.l), step(x.a, y.a), step(x.b, y.b));
            for other in [y, close, Lab::new(y.l, 0.0, 0.0), Lab::new(x.l, -x.a, -x.b)] {
                let (bound, distance) = (lower_bound(x, other), ciede2000(x, other));
                prop_assert!(bound <= distance, "{x} {other}: {bound} > {distance}");
            }
        }

        #[test]
        fn directions_give_what_degrees_do(x in any_lab(), y in any_lab(), near in 0.0..1.0_f64) {
            let step = |from: f64, to: f64| from + (to - from) * near.powi(12);
            let close = Lab::new(step(x.l, y.l), step(x.a, y.a), step(x.b, y.b));
            for other in [y, close, Lab::new(y.l, 0.0, 0.0), Lab::new(y.l, x.a, x.b)] {
                let (ours, papers) = (ciede2000(x, other), by_the_paper(x, other));
                // Where two hues are nearly opposite, which way round is the nearer hangs on the last digits.
                prop_assert!((ours - papers).abs() < 1e-8, "{x} {other}: {ours} and {papers}");
            }
        }

        #[test]
        fn the_bound_by_lightness_grows_on_either_side(x in any_lab(), y in any_lab(), between in 0.0..=1.0_f64) {
            let nearer = Lab::new(x.l + (y.l - x.l) * between, y.a, y.b);
            prop_assert!(lightness_bound(x, nearer) <= lightness_bound(x, y) + 1e-12);
            prop_assert!(lightness_bound(x, y) <= ciede2000(x, y));
        }

        #[test]
        fn either_way_is_as_far_and_nothing_is_nearer_than_itself(x in any_lab(), y in any_lab()) {
            prop_assert!((ciede2000(x, y) - ciede2000(y, x)).abs() < 1e-9);
            prop_assert_eq!(ciede2000(x, x), 0.0);
        }

        /// A bound of zero would pass the tests above and be of no use.
        #[test]
        fn among_reds_and_yellows_the_bound_is_the_distance(
            one in (20.0..90.0, 10.0..90.0, 0.0..90.0),
            other in (20.0..90.0, 10.0..90.0, 0.0..90.0),
        ) {
            let lab = |(l, a, b)| Lab::new(l, a, b);
            let (one, other) = (lab(one), lab(other));
            let (bound, distance) = (lower_bound(one, other), ciede2000(one, other));
            prop_assert!(bound > distance * 0.99 - 1e-3, "{one} {other}: {bound} of {distance}");
        }
    }
}
