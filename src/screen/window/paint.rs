//! The window of a picture: how large its cells are, and its own colours.

use crate::colour::{Ground, Srgb};

/// How wide and how high a cell is.
pub(super) const CELL: (f64, f64) = (10.0, 20.0);

/// The colours of the window itself.
#[derive(Debug, Clone, Copy)]
pub(super) struct Paint {
    pub(super) ground: Srgb,
    pub(super) letters: Srgb,
    pub(super) bar: Srgb,
    pub(super) edge: Srgb,
}

impl Paint {
    pub(super) fn of(ground: Ground) -> Paint {
        match ground {
            Ground::Dark => Paint {
                ground: Srgb::new(0x1c, 0x1c, 0x20),
                letters: Srgb::new(0xe6, 0xe6, 0xe2),
                bar: Srgb::new(0x2a, 0x2a, 0x30),
                edge: Srgb::new(0x4a, 0x4a, 0x52),
            },
            Ground::Light => Paint {
                ground: Srgb::new(0xfc, 0xfa, 0xf4),
                letters: Srgb::new(0x24, 0x24, 0x22),
                bar: Srgb::new(0xec, 0xe8, 0xde),
                edge: Srgb::new(0xbc, 0xb6, 0xa8),
            },
        }
    }
}
