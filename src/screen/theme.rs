//! Every style of the screen, named by what it means.

use ratatui::style::{Color, Modifier, Style};

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
}

/// How each role looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// The terminal's own 16 colours.
    Colours,
    /// No colour at all: bold, underline and reverse video only.
    Plain,
}

impl Theme {
    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let plain = Style::new();
        let bold = plain.add_modifier(Modifier::BOLD);
        let reverse = plain.add_modifier(Modifier::REVERSED);
        match (self, role) {
            (_, Role::Plain) => plain,
            (_, Role::Strong) => bold,
            (_, Role::Chosen) => reverse,
            (Theme::Plain, Role::Heading) => bold.add_modifier(Modifier::UNDERLINED),
            (Theme::Plain, Role::Quiet) => plain,
            (Theme::Plain, _) => bold,
            (Theme::Colours, Role::Heading) => bold.fg(Color::Cyan),
            // Bright black vanishes on some backgrounds: the terminal's own dimming does not.
            (Theme::Colours, Role::Quiet) => plain.add_modifier(Modifier::DIM),
            (Theme::Colours, Role::Key) => bold.fg(Color::Yellow),
            (Theme::Colours, Role::Fits) => bold.fg(Color::Green),
            (Theme::Colours, Role::Doubt) => plain.fg(Color::Yellow),
            (Theme::Colours, Role::Wrong) => bold.fg(Color::Red),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_plain_theme_has_no_colour() {
        use Role::*;
        for role in [
            Plain, Heading, Strong, Quiet, Key, Fits, Doubt, Wrong, Chosen,
        ] {
            let style = Theme::Plain.style(role);
            assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
        }
    }
}
