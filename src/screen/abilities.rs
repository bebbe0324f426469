//! What the terminal can show beside letters in sixteen colours, as far as it said.

use crate::colour::Srgb;

/// What a terminal said of itself; the default is one that said nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Abilities {
    /// The colour of its ground, on which text stands.
    pub ground: Option<Srgb>,
    /// How it shows pixels, where it does.
    pub pixels: Option<Pixels>,
    /// The finest cells of two colours that its letters surely have.
    pub finest: Finest,
}

/// How pixels reach a terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pixels {
    /// In what form.
    pub protocol: Protocol,
    /// The pixels of a cell: across and down, neither of them 0.
    pub cell: (u16, u16),
}

/// In what form pixels are sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Protocol {
    /// Kitty's, with cells that stand for parts of a picture.
    Kitty,
    /// That of iTerm2: a PNG file in the text.
    Iterm2,
    /// Sixels, in up to 256 colours.
    Sixel,
}

/// The finest of the cells of two colours that a terminal has, the coarsest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Finest {
    /// An upper and a lower half: every font has them.
    #[default]
    Halves,
    /// Four quarters: in nearly every font, as old as the halves in most.
    Quadrants,
    /// Six parts, of Unicode 13: in few fonts, but some terminals draw them themselves.
    Sextants,
    /// Eight parts, of Unicode 16: in hardly any font.
    Octants,
}
