//! Every style of the screen, named by what it means.

use ratatui::style::{Color, Modifier, Style};

use crate::colour::Srgb;
use crate::draw::Characters;

/// What a piece of text is; how it looks is the theme's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Running text.
    Plain,
    /// The head of a part of the page.
    Heading,
    /// What the eye should find first.
    Strong,
    /// Rules, marks and asides.
    Quiet,
    /// A key to press.
    Key,
    /// A form that fits, or a settled verdict.
    Fits,
    /// Something to be unsure about.
    Doubt,
    /// Something that is wrong.
    Wrong,
    /// A letter that was looked for.
    Found,
    /// The same where the cursor is.
    ChosenFound,
    /// Where the cursor is.
    Chosen,
    /// A block of a flower's colour; what is written in it is not seen where there is colour.
    Swatch(Srgb),
    /// A cell of a bloom's drawing: the colours of its symbol and behind it, as far as it has any.
    Petal(Option<Srgb>, Option<Srgb>),
    /// The same where it belongs to what a question asks about.
    MarkedPetal(Option<Srgb>, Option<Srgb>),
    /// The word for what is marked.
    Marked,
}

/// The mark over petals, between the red and the blue of the terminal's magenta.
pub(super) const MARK: Srgb = Srgb {
    r: 200,
    g: 0,
    b: 200,
};

/// How each role looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// The terminal's own 16 colours, and for flowers the nearest of 256.
    Colours,
    /// The terminal's own 16 colours, and for flowers any colour.
    AllColours,
    /// The same 16 alone, in a font that has half blocks and no dots.
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

    /// What blooms are drawn with: pixels show colours, and where those are not known dots show
    /// more of the shape.
    pub fn characters(self, coloured: bool) -> Characters {
        match self {
            Theme::Ascii => Characters::Ascii,
            Theme::Console => Characters::HalfBlocks,
            Theme::Colours | Theme::AllColours if coloured => Characters::HalfBlocks,
            Theme::Colours | Theme::AllColours | Theme::Plain => Characters::Braille,
        }
    }

    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let plain = Style::new();
        let bold = plain.add_modifier(Modifier::BOLD);
        let reverse = plain.add_modifier(Modifier::REVERSED);
        match (self, role) {
            (_, Role::Plain) => plain,
            (_, Role::Strong) => bold,
            (_, Role::Chosen) => reverse,
            (_, Role::Found) => bold.add_modifier(Modifier::UNDERLINED),
            (_, Role::ChosenFound) => bold.add_modifier(Modifier::UNDERLINED | Modifier::REVERSED),
            (Theme::Plain | Theme::Ascii, role) => match role {
                Role::Swatch(_) | Role::Petal(..) | Role::Quiet => plain,
                Role::Heading => bold.add_modifier(Modifier::UNDERLINED),
                Role::Marked | Role::MarkedPetal(..) => reverse,
                _ => bold,
            },
            (_, Role::Swatch(colour)) => {
                let colour = self.flower(colour);
                plain.fg(colour).bg(colour)
            }
            (_, Role::Petal(front, back)) => Style {
                fg: front.map(|colour| self.flower(colour)),
                bg: back.map(|colour| self.flower(colour)),
                ..plain
            },
            (_, Role::MarkedPetal(front, back)) => plain
                .fg(front.map_or(Color::White, |front| self.flower(marked(front))))
                .bg(self.flower(back.map_or(MARK, marked))),
            (_, Role::Marked) => bold.fg(Color::White).bg(Color::Magenta),
            (_, Role::Heading) => bold.fg(Color::Cyan),
            // Bright black vanishes on some backgrounds: the terminal's own dimming does not.
            (_, Role::Quiet) => plain.add_modifier(Modifier::DIM),
            (_, Role::Key) => bold.fg(Color::Yellow),
            (_, Role::Fits) => bold.fg(Color::Green),
            (_, Role::Doubt) => plain.fg(Color::Yellow),
            (_, Role::Wrong) => bold.fg(Color::Red),
        }
    }

    /// A flower's colour as the terminal has it.
    fn flower(self, colour: Srgb) -> Color {
        match self {
            Theme::AllColours => Color::Rgb(colour.r, colour.g, colour.b),
            _ => Color::Indexed(nearest_of_256(colour)),
        }
    }
}

/// A petal's colour under the mark: what is marked is seen through it.
fn marked(colour: Srgb) -> Srgb {
    let mixed = |own: u8, mark: u8| ((u16::from(own) * 2 + u16::from(mark) * 3) / 5) as u8;
    Srgb {
        r: mixed(colour.r, MARK.r),
        g: mixed(colour.g, MARK.g),
        b: mixed(colour.b, MARK.b),
    }
}

/// The nearest colour of the cube of 6 by 6 by 6 and the 24 greys of a terminal with 256 colours,
/// whose levels are those of xterm's table (0, 95, 135 ... 255; 8, 18 ... 238).
fn nearest_of_256(colour: Srgb) -> u8 {
    let own = [colour.r, colour.g, colour.b].map(i32::from);
    let level = |step: i32| if step == 0 { 0 } else { 55 + 40 * step };
    let away =
        |other: [i32; 3]| -> i32 { own.iter().zip(other).map(|(a, b)| (a - b).pow(2)).sum() };
    let nearest_step = |value: i32| {
        (0..6)
            .min_by_key(|step| (level(*step) - value).abs())
            .unwrap_or(0)
    };
    let steps = own.map(nearest_step);
    let cube = (
        away(steps.map(level)),
        16 + 36 * steps[0] + 6 * steps[1] + steps[2],
    );
    let grey = (0..24)
        .map(|step| (away([8 + 10 * step; 3]), 232 + step))
        .min();
    // OK because both run from 16 to 255.
    grey.map_or(cube, |grey| cube.min(grey)).1 as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    const RED: Srgb = Srgb {
        r: 200,
        g: 20,
        b: 20,
    };

    #[test]
    fn the_plain_themes_have_no_colour() {
        use Role::*;
        for role in [
            Plain,
            Heading,
            Strong,
            Quiet,
            Key,
            Fits,
            Doubt,
            Wrong,
            Chosen,
            Found,
            ChosenFound,
            Marked,
            Swatch(RED),
            Petal(Some(RED), Some(RED)),
            MarkedPetal(Some(RED), None),
        ] {
            for theme in [Theme::Plain, Theme::Ascii] {
                let style = theme.style(role);
                assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
            }
        }
    }

    #[test]
    fn swatches_are_the_nearest_of_256() {
        for ((r, g, b), index) in [
            ((0, 0, 0), 16),
            ((255, 255, 255), 231),
            ((255, 0, 0), 196),
            ((90, 96, 135), 60),
            ((128, 128, 128), 244),
        ] {
            assert_eq!(nearest_of_256(Srgb { r, g, b }), index, "{r} {g} {b}");
        }
    }
}
