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

/// The colours of a role.
struct Inks {
    on_dark: u32,
    on_light: u32,
    /// Of the 16 that a text console has, whose ground is black: mostly the light ones, since its red,
    /// its brown, its blue and its magenta are too dark there.
    console: Option<Color>,
}

/// The colours of a role; `None` where its words are as the terminal writes.
fn inks(role: Role) -> Option<Inks> {
    let (on_dark, on_light, console) = match role {
        Role::Heading => (0x87d7ff, 0x005f87, Some(Color::LightCyan)),
        Role::Key => (0xd7afff, 0x5f00af, Some(Color::LightMagenta)),
        Role::Fits => (0x5fd7af, 0x005f5f, Some(Color::LightGreen)),
        Role::Doubt => (0xffd75f, 0x875f00, Some(Color::LightYellow)),
        Role::Wrong | Role::Short => (0xff8787, 0x870000, Some(Color::LightRed)),
        Role::Marked => (0xff87ff, 0xaf00af, Some(Color::LightMagenta)),
        Role::Bar => (0x87af87, 0x5f875f, Some(Color::Green)),
        Role::Range => (0x87afd7, 0x005f87, Some(Color::LightCyan)),
        Role::Quiet => (0xb2b2b2, 0x585858, None),
        Role::Line => (0x767676, 0x8a8a8a, None),
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
    Some(Inks {
        on_dark,
        on_light,
        console,
    })
}

/// The colour of a role on such a ground; `None` where it is as the terminal writes.
pub(super) fn ink(role: Role, ground: Ground) -> Option<Srgb> {
    let inks = inks(role)?;
    Some(of_hex(match ground {
        Ground::Dark => inks.on_dark,
        Ground::Light => inks.on_light,
    }))
}

/// The same on a text console.
pub(super) fn console_ink(role: Role) -> Option<Color> {
    inks(role)?.console
}

const fn of_hex(hex: u32) -> Srgb {
    let [_, r, g, b] = hex.to_be_bytes();
    Srgb::new(r, g, b)
}
