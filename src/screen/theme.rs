//! Every style of the screen, named by what it means.

use ratatui::style::{Color, Modifier, Style};

use crate::colour::Srgb;

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
    /// Where the cursor is.
    Chosen,
    /// A block of a flower's colour; what is written in it is not seen where there is colour.
    Swatch(Srgb),
}

/// How each role looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// The terminal's own 16 colours, and for flowers the nearest of 256.
    Colours,
    /// The terminal's own 16 colours, and for flowers any colour.
    AllColours,
    /// No colour at all: bold, underline and reverse video only.
    Plain,
}

impl Theme {
    /// Whether there is any colour.
    pub fn has_colour(self) -> bool {
        self != Theme::Plain
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
            (Theme::Plain, Role::Swatch(_)) => plain,
            (Theme::Colours, Role::Swatch(colour)) => block(Color::Indexed(nearest_of_256(colour))),
            (Theme::AllColours, Role::Swatch(colour)) => {
                block(Color::Rgb(colour.r, colour.g, colour.b))
            }
            (Theme::Plain, Role::Heading) => bold.add_modifier(Modifier::UNDERLINED),
            (Theme::Plain, Role::Quiet) => plain,
            (Theme::Plain, _) => bold,
            (_, Role::Heading) => bold.fg(Color::Cyan),
            // Bright black vanishes on some backgrounds: the terminal's own dimming does not.
            (_, Role::Quiet) => plain.add_modifier(Modifier::DIM),
            (_, Role::Key) => bold.fg(Color::Yellow),
            (_, Role::Fits) => bold.fg(Color::Green),
            (_, Role::Doubt) => plain.fg(Color::Yellow),
            (_, Role::Wrong) => bold.fg(Color::Red),
        }
    }
}

fn block(colour: Color) -> Style {
    Style::new().fg(colour).bg(colour)
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

    #[test]
    fn the_plain_theme_has_no_colour() {
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
            Swatch(Srgb {
                r: 200,
                g: 20,
                b: 20,
            }),
        ] {
            let style = Theme::Plain.style(role);
            assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
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
