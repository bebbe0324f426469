//! The colours of a drawing, by part and pattern.
//!
//! A part is filled with its colour as it was stated, whole and even: light and shade are slivers
//! that lie on it (`modelling`), so that most of what is seen is the flower's colour.

use crate::colour::{Lab, Part, Pattern, Srgb};

use super::patch::Role;
use super::tone;

/// Disc florets and pollen are yellow, whatever the rays are. Our own value, by eye.
const DISC_YELLOW: Lab = Lab::new(80.0, 8.0, 72.0);
/// Stem and bracts. Our own value, by eye.
const LEAF_GREEN: Lab = Lab::new(52.0, -24.0, 30.0);
const WHITE: Lab = Lab::new(100.0, 0.0, 0.0);
const BLACK: Lab = Lab::new(0.0, 0.0, 0.0);
/// Florets nearer the centre than this, as a share of all, are of the second colour of a blend.
const HEART_OF_BLEND: f64 = 0.12;
/// Florets nearer than this are of a colour between.
const MIDDLE_OF_BLEND: f64 = 0.28;
/// Florets of a closed bloom nearer than this are still folded over its middle, their backs outside.
const FOLDED: f64 = 0.1;

/// What colours a drawing is filled with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paint {
    main: Lab,
    second: Option<(Lab, Pattern)>,
    /// The under faces, where they are told apart.
    reverse: Option<Lab>,
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
            reverse: Some(Lab::new(82.0, 0.0, 0.0)),
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
    /// the drawing is plain. A reverse that nobody noted is the main colour. What no screen and no
    /// printer shows is the nearest that one does, so that shades are of what is seen.
    pub fn of(colours: &[(Lab, Part, Pattern)]) -> Paint {
        let displayable = |(colour, part, pattern): &(Lab, Part, Pattern)| {
            (Lab::from(colour.to_srgb()), *part, *pattern)
        };
        let colours: Vec<_> = colours.iter().map(displayable).collect();
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
            reverse: of_part(Part::Reverse).map(|colour| colour.0),
            centre: centre.unwrap_or(DISC_YELLOW),
            stem: LEAF_GREEN,
            plain: false,
        }
    }

    /// Whether under faces have a colour of their own, and not the grey of one ink.
    fn backs_are_seen(&self) -> bool {
        self.reverse.is_some() && !self.plain
    }

    /// The second colour and how it lies.
    pub(super) fn second(&self) -> Option<(Lab, Pattern)> {
        self.second
    }

    /// Whether it is for one ink, which shows no light and shade.
    pub(super) fn is_plain(&self) -> bool {
        self.plain
    }

    /// What a part is filled with; `age` is 0 at the centre of the bloom and 1 at its rim.
    pub(super) fn fill(&self, role: Role, age: f64) -> Lab {
        match role {
            Role::RayFace if age < FOLDED && self.backs_are_seen() => {
                self.fill(Role::RayReverse, age)
            }
            Role::RayFace => match self.second {
                Some((second, Pattern::Blend)) if age < HEART_OF_BLEND => second,
                Some((second, Pattern::Blend)) if age < MIDDLE_OF_BLEND => {
                    mix(self.main, second, 0.5)
                }
                _ => self.main,
            },
            Role::RayInside if self.plain => Lab::new(35.0, 0.0, 0.0),
            Role::RayInside => tone::hollow(self.fill(Role::RayFace, age)),
            Role::RayReverse => match self.reverse {
                Some(reverse) => reverse,
                None => self.fill(Role::RayFace, age),
            },
            Role::Collar => match self.second {
                _ if self.plain => WHITE,
                Some((second, _)) => second,
                None => self.main,
            },
            Role::Disc | Role::Pincushion => self.centre,
            Role::DiscFloret if self.plain => BLACK,
            Role::DiscFloret => tone::hollow(self.centre),
            Role::Stem => self.stem,
        }
    }

    /// An edge that turns over and shows its back: lighter where the back has no colour of its own.
    pub(super) fn turned_over(&self) -> Lab {
        self.reverse.unwrap_or(tone::lit(self.main))
    }

    /// The fold along the middle of a petaloid.
    pub(super) fn crease(&self, fill: Lab) -> Lab {
        match self.plain {
            true => BLACK,
            false => tone::shaded(fill),
        }
    }

    /// The outline around a fill.
    pub(super) fn line(&self, fill: Lab) -> Lab {
        match self.plain {
            true => BLACK,
            false => tone::line(fill),
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
