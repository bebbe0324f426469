//! The colours of words, on each kind of ground.
//!
//! Each has a contrast of 4.5 or more (WCAG 2) on every ground of its kind: on dark ones from black
//! to a grey such as #2e3440, on light ones from white to #eeeeee. Those that differ in meaning are
//! told apart without red, without green and without blue: what fits leans to blue, what is wrong is
//! the darkest. All are among the colours that a terminal of 256 has the same everywhere. The choice
//! is our own; the tests of the theme hold it to all this.

use ratatui::style::Color;

use super::role::Role;
use crate::colour::{Ground, Srgb};

/// The colour of a role's words on such a ground; `None` where they are as the terminal writes.
pub(super) fn ink(role: Role, ground: Ground) -> Option<Srgb> {
    let (on_dark, on_light) = match role {
        Role::Heading => (0x87d7ff, 0x005f87),
        Role::Key => (0xd7afff, 0x5f00af),
        Role::Fits => (0x5fd7af, 0x005f5f),
        Role::Doubt => (0xffd75f, 0x875f00),
        Role::Wrong | Role::Short => (0xff8787, 0x870000),
        Role::Bar => (0x87af87, 0x5f875f),
        Role::Range => (0x87afd7, 0x005f87),
        Role::Quiet => (0xb2b2b2, 0x585858),
        Role::Line => (0x767676, 0x8a8a8a),
        Role::Marked => (0xff87ff, 0xaf00af),
        Role::Plain
        | Role::Strong
        | Role::Found
        | Role::ChosenFound
        | Role::Chosen
        | Role::RangeOnBar
        | Role::Need
        | Role::NeedOnBar
        | Role::ChosenSwatch(_)
        | Role::Swatch(_)
        | Role::Petal(..)
        | Role::MarkedPetal(..) => return None,
    };
    Some(of_hex(match ground {
        Ground::Dark => on_dark,
        Ground::Light => on_light,
    }))
}

/// The same of the 16 that a text console has, whose ground is black: the light ones, since its red,
/// its brown, its blue and its magenta are too dark there.
pub(super) fn console_ink(role: Role) -> Option<Color> {
    match role {
        Role::Heading => Some(Color::LightCyan),
        Role::Key => Some(Color::LightMagenta),
        Role::Fits => Some(Color::LightGreen),
        Role::Doubt => Some(Color::LightYellow),
        Role::Wrong | Role::Short => Some(Color::LightRed),
        Role::Bar => Some(Color::Green),
        Role::Range => Some(Color::LightCyan),
        Role::Marked => Some(Color::LightMagenta),
        Role::Plain
        | Role::Strong
        | Role::Quiet
        | Role::Line
        | Role::Found
        | Role::ChosenFound
        | Role::Chosen
        | Role::RangeOnBar
        | Role::Need
        | Role::NeedOnBar
        | Role::ChosenSwatch(_)
        | Role::Swatch(_)
        | Role::Petal(..)
        | Role::MarkedPetal(..) => None,
    }
}

const fn of_hex(hex: u32) -> Srgb {
    let [_, r, g, b] = hex.to_be_bytes();
    Srgb::new(r, g, b)
}
