//! Every style of the screen, named by what it means.

mod ink;
mod of_256;
mod role;
mod surroundings;
#[cfg(test)]
mod tests;

use ratatui::style::{Color, Modifier, Style};

use crate::chart::Signs;
use crate::colour::{Ground, Srgb, legible_on};
use crate::draw::Characters;
use ink::{console_ink, ink};
use of_256::nearest_of_256;
pub(super) use of_256::of_index;
pub use role::Role;

/// How each role looks.
///
/// Where the ground is not known words have no colour, since none is read on every ground: one of
/// luminance 0.18 has a contrast of 4.5 on black and on white, and of 2.7 on a usual dark grey.
/// They are then told apart as without colour, and flowers keep theirs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// The 240 colours of 256 that are the same in every terminal, on this ground.
    Colours(Option<Ground>),
    /// Any colour, on this ground.
    AllColours(Option<Ground>),
    /// The 16 colours of a text console on black, in a font that has half blocks and no dots.
    Console,
    /// No colour at all: bold, underline and reverse video only.
    Plain,
    /// The same, and blooms are drawn in ASCII.
    Ascii,
}

impl Theme {
    /// Whether there is any colour.
    pub fn has_colour(self) -> bool {
        !matches!(self, Theme::Plain | Theme::Ascii)
    }

    /// The same on another ground, where the ground matters.
    pub fn on(self, ground: Ground) -> Theme {
        match self {
            Theme::Colours(_) => Theme::Colours(Some(ground)),
            Theme::AllColours(_) => Theme::AllColours(Some(ground)),
            Theme::Console | Theme::Plain | Theme::Ascii => self,
        }
    }

    /// What blooms are drawn with: pixels show colours, and where those are not known dots show
    /// more of the shape.
    pub fn characters(self, coloured: bool) -> Characters {
        match self {
            Theme::Ascii => Characters::Ascii,
            Theme::Console => Characters::HalfBlocks,
            Theme::Colours(_) | Theme::AllColours(_) if coloured => Characters::HalfBlocks,
            Theme::Colours(_) | Theme::AllColours(_) | Theme::Plain => Characters::Braille,
        }
    }

    /// What charts are drawn with.
    pub fn signs(self) -> Signs {
        match self {
            Theme::Ascii => Signs::Ascii,
            Theme::Console => Signs::Halves,
            Theme::Colours(_) | Theme::AllColours(_) | Theme::Plain => Signs::Eighths,
        }
    }

    /// Whether its font has Braille dots, for line drawings.
    pub fn has_dots(self) -> bool {
        matches!(
            self,
            Theme::Colours(_) | Theme::AllColours(_) | Theme::Plain
        )
    }

    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        match role {
            Role::Swatch(colour) if self.has_colour() => {
                let colour = self.colour(colour);
                Style::new().fg(colour).bg(colour)
            }
            // In reverse its ground is what the symbol is drawn in.
            Role::ChosenSwatch(colour) if self.has_colour() => {
                weight(Role::Chosen).bg(self.colour(colour))
            }
            Role::Petal(front, back) if self.has_colour() => Style {
                fg: front.map(|colour| self.colour(colour)),
                bg: back.map(|colour| self.colour(colour)),
                ..Style::new()
            },
            // On a petal no one ink is always seen.
            Role::MarkedPetal(Some(back)) if self.has_colour() => bold()
                .fg(self.colour(legible_on(back)))
                .bg(self.colour(back)),
            Role::MarkedPetal(_) => self.style(Role::Marked),
            Role::RangeOnBar | Role::NeedOnBar => self.on_bar(role),
            role => match self.ink(role) {
                Some(ink) => weight(role).fg(ink),
                None => self.without_ink(role),
            },
        }
    }

    /// The colour of a role's words, where it has one.
    fn ink(self, role: Role) -> Option<Color> {
        match self {
            Theme::Colours(ground) | Theme::AllColours(ground) => {
                Some(self.colour(ink(role, ground?)?))
            }
            Theme::Console => console_ink(role),
            Theme::Plain | Theme::Ascii => None,
        }
    }

    /// What is drawn over a bar of a chart: in the bar's colour as ground, else in reverse.
    fn on_bar(self, role: Role) -> Style {
        match (self, self.ink(Role::Bar)) {
            (Theme::Colours(Some(ground)) | Theme::AllColours(Some(ground)), Some(bar)) => {
                let over = ink(Role::Bar, ground).map_or(Srgb::BLACK, legible_on);
                weight(role).fg(self.colour(over)).bg(bar)
            }
            (_, Some(bar)) => weight(role).fg(Color::Black).bg(bar),
            (_, None) => weight(role).add_modifier(Modifier::REVERSED),
        }
    }

    /// The style of a role that has no colour of its own here.
    fn without_ink(self, role: Role) -> Style {
        match role {
            Role::Heading => bold().add_modifier(Modifier::UNDERLINED),
            Role::Line if self.has_colour() => Style::new().add_modifier(Modifier::DIM),
            Role::Key | Role::Fits | Role::Doubt | Role::Wrong | Role::Short => bold(),
            role => weight(role),
        }
    }

    /// A fixed colour as the terminal has it.
    fn colour(self, colour: Srgb) -> Color {
        match self {
            Theme::AllColours(_) => Color::Rgb(colour.r, colour.g, colour.b),
            _ => Color::Indexed(nearest_of_256(colour)),
        }
    }
}

/// The colour of arrows and dimension lines in pixels, where cells have [`Role::Marked`].
pub(super) fn marked_on(ground: Option<Ground>) -> Srgb {
    let ground = ground.unwrap_or(Ground::Dark);
    // OK because that role has a colour on both.
    ink(Role::Marked, ground).unwrap_or(Srgb::WHITE)
}

fn bold() -> Style {
    Style::new().add_modifier(Modifier::BOLD)
}

/// How a role stands out beside its colour. What fits or is wrong is bold, what is in doubt is not.
fn weight(role: Role) -> Style {
    match role {
        Role::Heading
        | Role::Strong
        | Role::Key
        | Role::Fits
        | Role::Wrong
        | Role::Marked
        | Role::MarkedPetal(_)
        | Role::Need
        | Role::NeedOnBar
        | Role::Short => bold(),
        Role::Chosen | Role::ChosenSwatch(_) => Style::new().add_modifier(Modifier::REVERSED),
        Role::Found => bold().add_modifier(Modifier::UNDERLINED),
        Role::ChosenFound => bold().add_modifier(Modifier::UNDERLINED | Modifier::REVERSED),
        Role::Plain
        | Role::Quiet
        | Role::Line
        | Role::Doubt
        | Role::Bar
        | Role::Range
        | Role::RangeOnBar
        | Role::Swatch(_)
        | Role::Petal(..) => Style::new(),
    }
}
