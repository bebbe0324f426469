//! One piece of a drawing: an outline and the part of the bloom that it is of.

use crate::geometry::Outline;

/// The width of every line, where the radius of the bloom is 1.
pub(super) const LINE: f64 = 0.016;

/// One outline and what it is of.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// The outline with its colours.
    pub outline: Outline,
    /// The part of the bloom.
    pub role: Role,
    /// Whether it lies on the patch before, as a slot does on its floret, rather than standing
    /// off what is behind it.
    pub on_last: bool,
}

/// A part of the bloom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// The upper face of a ray floret.
    RayFace,
    /// The inside of a ray floret whose edges roll forward.
    RayInside,
    /// The under face of a ray floret.
    RayReverse,
    /// A petaloid of the collar.
    Collar,
    /// The flat disc.
    Disc,
    /// A floret of the disc.
    DiscFloret,
    /// A tube of the pincushion.
    Pincushion,
    /// Stem and bracts.
    Stem,
}
