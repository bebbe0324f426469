//! How colours look to eyes that lack one kind of cone: Machado, Oliveira & Fernandes, "A
//! Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE Transactions on
//! Visualization and Computer Graphics 15(6), 2009; the tables for severity 1.0, on linear light.
//! Written down from memory, so the tests below hold them to what is known of them.

use crate::colour::{Lab, Srgb};

/// Whose eyes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Eyes {
    /// All three cones.
    Usual,
    /// Without the cones for long waves: red is dark and goes with green.
    Protan,
    /// Without those for middle waves: red goes with green.
    Deutan,
    /// Without those for short waves: blue goes with green.
    Tritan,
}

impl Eyes {
    pub(super) const ALL: [Eyes; 4] = [Eyes::Usual, Eyes::Protan, Eyes::Deutan, Eyes::Tritan];

    fn matrix(self) -> [[f64; 3]; 3] {
        match self {
            Eyes::Usual => [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            Eyes::Protan => [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
            Eyes::Deutan => [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
            Eyes::Tritan => [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        }
    }

    /// The colour as these eyes see it.
    pub(super) fn see(self, colour: Srgb) -> Lab {
        let light = [colour.r, colour.g, colour.b].map(|channel| decode(channel.into()));
        let seen = self.matrix().map(|row| {
            let sum: f64 = row.iter().zip(light).map(|(a, b)| a * b).sum();
            encode(sum.clamp(0.0, 1.0))
        });
        Lab::from(Srgb::new(seen[0], seen[1], seen[2]))
    }
}

fn decode(channel: f64) -> f64 {
    match channel / 255.0 {
        low if low <= 0.04045 => low / 12.92,
        high => ((high + 0.055) / 1.055).powf(2.4),
    }
}

fn encode(light: f64) -> u8 {
    let channel = match light {
        low if low <= 0.003_130_8 => low * 12.92,
        high => 1.055 * high.powf(1.0 / 2.4) - 0.055,
    };
    (channel * 255.0).round() as u8
}

#[test]
fn greys_stay_and_what_each_lacks_is_lost() {
    for eyes in Eyes::ALL {
        for row in eyes.matrix() {
            let sum: f64 = row.iter().sum();
            assert!((sum - 1.0).abs() < 3e-6, "{eyes:?}: {sum}");
        }
        for level in [0, 40, 128, 255] {
            let away =
                crate::colour::ciede2000(eyes.see(Srgb::grey(level)), Srgb::grey(level).into());
            assert!(away < 0.5, "{eyes:?} {level}: {away}");
        }
        // One direction of colour is lost: the matrix flattens what it maps to a quarter or less.
        let [a, b, c] = eyes.matrix();
        let minor = |i: usize, j: usize| b[i] * c[j] - b[j] * c[i];
        let determinant = a[0] * minor(1, 2) - a[1] * minor(0, 2) + a[2] * minor(0, 1);
        assert_eq!(
            determinant.abs() < 0.25,
            eyes != Eyes::Usual,
            "{eyes:?}: {determinant}"
        );
    }
    let away = |eyes: Eyes, one: &str, other: &str| {
        let [one, other] = [one, other].map(|hex| eyes.see(hex.parse().expect("a colour")));
        crate::colour::ciede2000(one, other)
    };
    // An olive and a brown that differ in red and green alone, and a blue and a green.
    for (eyes, one, other) in [
        (Eyes::Deutan, "#b25a00", "#6f7a00"),
        (Eyes::Protan, "#b25a00", "#6f6a00"),
        (Eyes::Tritan, "#0090a8", "#009a70"),
    ] {
        let (usual, lost) = (away(Eyes::Usual, one, other), away(eyes, one, other));
        assert!(lost < 0.5 * usual, "{eyes:?}: {usual:.1} to {lost:.1}");
    }
}
