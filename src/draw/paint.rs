//! The colours of a drawing, by part and pattern.

use crate::colour::{Lab, Part, Pattern, Srgb};

use super::patch::Role;

/// Disc florets and pollen are yellow, whatever the rays are. Our own value, by eye.
const DISC_YELLOW: Lab = Lab::new(80.0, 8.0, 72.0);
/// Stem and bracts. Our own value, by eye.
const LEAF_GREEN: Lab = Lab::new(52.0, -24.0, 30.0);
const WHITE: Lab = Lab::new(100.0, 0.0, 0.0);
const BLACK: Lab = Lab::new(0.0, 0.0, 0.0);
/// Under this lightness an outline is lighter than what it bounds, or it could not be seen.
const DARK: f64 = 38.0;

/// What colours a drawing is filled with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paint {
    main: Lab,
    second: Option<(Lab, Pattern)>,
    reverse: Lab,
    centre: Lab,
    stem: Lab,
    /// Black outlines and no shading: for one ink.
    plain: bool,
}

impl Paint {
    /// For black ink on white paper: white faces, grey reverses, black outlines.
    pub fn plain() -> Paint {
        Paint {
            main: WHITE,
            second: None,
            reverse: Lab::new(82.0, 0.0, 0.0),
            centre: Lab::new(70.0, 0.0, 0.0),
            stem: Lab::new(70.0, 0.0, 0.0),
            plain: true,
        }
    }

    /// For a bloom whose colours nobody told, where white petals would look like a claim: grey ones.
    pub fn unknown() -> Paint {
        Paint::of(&[(Lab::new(78.0, 0.0, 2.0), Part::Main, Pattern::SelfColoured)])
    }

    /// From a bloom's colours. Without a main colour the first stands for it; without any colour
    /// the drawing is plain. A reverse that nobody noted is the main colour, paler.
    pub fn of(colours: &[(Lab, Part, Pattern)]) -> Paint {
        let of_part = |part: Part| colours.iter().find(|colour| colour.1 == part).copied();
        let Some((main, _, pattern)) = of_part(Part::Main).or(colours.first().copied()) else {
            return Paint::plain();
        };
        let second = of_part(Part::Second).map(|(second, _, own)| match own {
            // The pattern may be noted with either colour.
            Pattern::SelfColoured => (second, pattern),
            _ => (second, own),
        });
        let centre = of_part(Part::Centre).map(|colour| colour.0);
        Paint {
            main,
            second: second.map(|(second, pattern)| match pattern {
                Pattern::SelfColoured => (second, Pattern::Blend),
                _ => (second, pattern),
            }),
            reverse: of_part(Part::Reverse).map_or(mix(main, WHITE, 0.3), |colour| colour.0),
            centre: centre.unwrap_or(DISC_YELLOW),
            stem: LEAF_GREEN,
            plain: false,
        }
    }

    /// The second colour and how it lies.
    pub(super) fn second(&self) -> Option<(Lab, Pattern)> {
        self.second
    }

    /// What a part is filled with; `age` is 0 at the centre of the bloom and 1 at its rim.
    pub(super) fn fill(&self, role: Role, age: f64) -> Lab {
        let shade = |colour: Lab| match self.plain {
            true => colour,
            false => mix(colour, BLACK, 0.16 * (1.0 - age.clamp(0.0, 1.0))),
        };
        match role {
            Role::RayFace => shade(match self.second {
                Some((second, Pattern::Blend)) => mix(self.main, second, 0.8 * (1.0 - age)),
                _ => self.main,
            }),
            Role::RayInside if self.plain => Lab::new(35.0, 0.0, 0.0),
            Role::RayInside => mix(self.main, BLACK, 0.4),
            Role::RayReverse => shade(self.reverse),
            Role::Collar => match self.second {
                _ if self.plain => WHITE,
                Some((second, _)) => second,
                None => mix(self.main, WHITE, 0.55),
            },
            Role::Disc | Role::Pincushion => self.centre,
            Role::DiscFloret if self.plain => BLACK,
            Role::DiscFloret => mix(self.centre, BLACK, 0.35),
            Role::Stem => self.stem,
        }
    }

    /// The outline around a fill.
    pub(super) fn line(&self, fill: Lab) -> Lab {
        match (self.plain, fill.l < DARK) {
            (true, _) => BLACK,
            (false, true) => mix(fill, WHITE, 0.4),
            (false, false) => mix(fill, BLACK, 0.55),
        }
    }
}

/// What is on the screen or the paper.
pub(super) fn shown(colour: Lab) -> Srgb {
    colour.to_srgb()
}

pub(super) fn mix(one: Lab, other: Lab, share: f64) -> Lab {
    let part = |a: f64, b: f64| a + (b - a) * share;
    Lab::new(
        part(one.l, other.l),
        part(one.a, other.a),
        part(one.b, other.b),
    )
}
