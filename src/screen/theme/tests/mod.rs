//! What is read is read on every ground and by every eye.

mod eyes;

use ratatui::style::{Color, Modifier, Style};

use super::*;
use crate::colour::{LEGIBLE, ciede2000, contrast};
use eyes::Eyes;

const RED: Srgb = Srgb::new(200, 20, 20);

/// Grounds that terminals and their usual schemes have, the farthest of each kind among them.
const DARK: [&str; 7] = [
    "#000000", "#1a1b26", "#1e1e1e", "#002b36", "#282a36", "#282c34", "#2e3440",
];
const LIGHT: [&str; 5] = ["#ffffff", "#fafafa", "#fdf6e3", "#eff1f5", "#eeeeee"];

/// The least distance (CIEDE2000) of two colours whose words mean something else: several times what
/// is just noticed side by side. Our own.
const APART: f64 = 10.0;

/// The roles one by one: a new one has to be named here to compile.
fn after(role: Role) -> Option<Role> {
    match role {
        Role::Plain => Some(Role::Heading),
        Role::Heading => Some(Role::Strong),
        Role::Strong => Some(Role::Quiet),
        Role::Quiet => Some(Role::Line),
        Role::Line => Some(Role::Key),
        Role::Key => Some(Role::Fits),
        Role::Fits => Some(Role::Doubt),
        Role::Doubt => Some(Role::Wrong),
        Role::Wrong => Some(Role::Found),
        Role::Found => Some(Role::ChosenFound),
        Role::ChosenFound => Some(Role::Chosen),
        Role::Chosen => Some(Role::Marked),
        Role::Marked => Some(Role::ChosenSwatch(RED)),
        Role::ChosenSwatch(_) => Some(Role::Swatch(RED)),
        Role::Swatch(_) => Some(Role::Petal(Some(RED), Some(RED))),
        Role::Petal(..) => Some(Role::MarkedPetal(Some(RED))),
        Role::MarkedPetal(..) => Some(Role::Bar),
        Role::Bar => Some(Role::Range),
        Role::Range => Some(Role::RangeOnBar),
        Role::RangeOnBar => Some(Role::Need),
        Role::Need => Some(Role::NeedOnBar),
        Role::NeedOnBar => Some(Role::Short),
        Role::Short => None,
    }
}

fn roles() -> Vec<Role> {
    std::iter::successors(Some(Role::Plain), |role| after(*role)).collect()
}

/// Whether words are written in it: a line and a flower's colour are none.
fn is_of_words(role: Role) -> bool {
    match role {
        Role::Plain
        | Role::Heading
        | Role::Strong
        | Role::Quiet
        | Role::Key
        | Role::Fits
        | Role::Doubt
        | Role::Wrong
        | Role::Found
        | Role::ChosenFound
        | Role::Chosen
        | Role::Marked
        | Role::Range
        | Role::RangeOnBar
        | Role::Need
        | Role::NeedOnBar
        | Role::Short => true,
        Role::Line
        | Role::Bar
        | Role::ChosenSwatch(_)
        | Role::Swatch(_)
        | Role::Petal(..)
        | Role::MarkedPetal(..) => false,
    }
}

/// The roles that judge: who takes one for another is misled.
const JUDGES: [Role; 3] = [Role::Fits, Role::Doubt, Role::Wrong];

/// The colour that a terminal shows; of the 16, as `sixteen` has them.
fn shown(colour: Color, sixteen: &[&str; 16]) -> Srgb {
    let of_16 = |at: usize| sixteen[at].parse().expect("a colour");
    match colour {
        Color::Rgb(r, g, b) => Srgb::new(r, g, b),
        Color::Indexed(at @ 232..) => Srgb::grey(8 + 10 * (at - 232)),
        Color::Indexed(at @ 16..) => {
            let at = at - 16;
            let channel = |step: u8| [0, 95, 135, 175, 215, 255][usize::from(step)];
            Srgb::new(channel(at / 36), channel(at / 6 % 6), channel(at % 6))
        }
        Color::Indexed(at) => of_16(at.into()),
        Color::Black => of_16(0),
        Color::Green => of_16(2),
        Color::LightRed => of_16(9),
        Color::LightGreen => of_16(10),
        Color::LightYellow => of_16(11),
        Color::LightMagenta => of_16(13),
        Color::LightCyan => of_16(14),
        other => panic!("{other:?} is none that the themes use"),
    }
}

/// The 16 of a text console (VGA) and those that xterm has by default.
const VGA: [&str; 16] = [
    "#000000", "#aa0000", "#00aa00", "#aa5500", "#0000aa", "#aa00aa", "#00aaaa", "#aaaaaa",
    "#555555", "#ff5555", "#55ff55", "#ffff55", "#5555ff", "#ff55ff", "#55ffff", "#ffffff",
];
const XTERM: [&str; 16] = [
    "#000000", "#cd0000", "#00cd00", "#cdcd00", "#0000ee", "#cd00cd", "#00cdcd", "#e5e5e5",
    "#7f7f7f", "#ff0000", "#00ff00", "#ffff00", "#5c5cff", "#ff00ff", "#00ffff", "#ffffff",
];

/// The themes with what their words may stand on.
fn on_grounds() -> Vec<(Theme, Vec<&'static str>, &'static [&'static str; 16])> {
    let mut all = Vec::new();
    for (ground, colours) in [(Ground::Dark, &DARK[..]), (Ground::Light, &LIGHT)] {
        for theme in [
            Theme::Colours(Some(ground)),
            Theme::AllColours(Some(ground)),
        ] {
            all.push((theme, colours.to_vec(), &VGA));
        }
    }
    all.push((Theme::Console, vec!["#000000"], &VGA));
    all.push((Theme::Console, vec!["#000000"], &XTERM));
    all
}

#[test]
fn every_word_is_read_on_every_ground_of_its_kind() {
    for (theme, grounds, sixteen) in on_grounds() {
        for role in roles().into_iter().filter(|role| is_of_words(*role)) {
            let style = theme.style(role);
            assert!(!style.add_modifier.contains(Modifier::DIM), "{role:?}");
            // Without a colour of its own it is the terminal's own writing.
            let Some(front) = style.fg else { continue };
            for ground in &grounds {
                let own = style.bg.map(|back| shown(back, sixteen));
                let back = own.unwrap_or_else(|| ground.parse().expect("a colour"));
                let found = contrast(shown(front, sixteen), back);
                assert!(
                    found >= LEGIBLE,
                    "{role:?} of {theme:?} on {ground}: {found:.2}"
                );
            }
        }
    }
}

#[test]
fn a_bar_of_a_chart_is_seen_on_every_ground_of_its_kind() {
    // The least contrast of what is no text, WCAG 2, 1.4.11.
    const SEEN: f64 = 3.0;
    for (theme, grounds, sixteen) in on_grounds() {
        let bar = shown(theme.style(Role::Bar).fg.expect("a colour"), sixteen);
        for ground in grounds {
            let found = contrast(bar, ground.parse().expect("a colour"));
            assert!(found >= SEEN, "{theme:?} on {ground}: {found:.2}");
        }
    }
}

#[test]
fn on_a_ground_that_is_not_known_no_word_hangs_on_it() {
    for theme in [Theme::Colours(None), Theme::AllColours(None)] {
        for role in roles().into_iter().filter(|role| is_of_words(*role)) {
            let style = theme.style(role);
            match (style.fg, style.bg) {
                (None, None) => {}
                (Some(front), Some(back)) => {
                    assert!(contrast(shown(front, &VGA), shown(back, &VGA)) >= LEGIBLE);
                }
                half => panic!("{role:?}: {half:?}"),
            }
        }
    }
    // Why: even the colour that is read on both black and white is not read on a dark grey.
    let middle = "#767676".parse().expect("a colour");
    let on = |ground: &str| contrast(middle, ground.parse().expect("a colour"));
    assert!(on("#000000") >= LEGIBLE && on("#ffffff") >= LEGIBLE);
    assert!(on("#2e3440") < 3.0 && on("#eeeeee") < LEGIBLE);
}

#[test]
fn colours_of_words_are_the_same_in_every_terminal() {
    for ground in Ground::ALL {
        for role in roles().into_iter().filter(|role| is_of_words(*role)) {
            let [some, all] = [Theme::Colours, Theme::AllColours].map(|theme| {
                let style = theme(Some(ground)).style(role);
                let colours = [style.fg, style.bg].map(|one| one.map(|one| shown(one, &VGA)));
                (colours, style.add_modifier)
            });
            assert_eq!(some, all, "{role:?} on {ground}");
            if let Some(Color::Indexed(index)) = Theme::Colours(Some(ground)).style(role).fg {
                assert!(index >= 16, "{role:?} is of the terminal's own 16");
            }
        }
    }
}

#[test]
fn verdicts_are_told_apart_by_every_eye() {
    for (theme, _, sixteen) in on_grounds() {
        for eyes in Eyes::ALL {
            let seen = |role: Role| {
                let style: Style = theme.style(role);
                let colour = shown(style.fg.expect("a colour"), sixteen);
                (eyes.see(colour), style.add_modifier)
            };
            for (at, one) in JUDGES.into_iter().enumerate() {
                for other in &JUDGES[at + 1..] {
                    let (one_seen, other_seen) = (seen(one), seen(*other));
                    let away = ciede2000(one_seen.0, other_seen.0);
                    assert!(
                        away >= APART || one_seen.1 != other_seen.1,
                        "{one:?} and {other:?} of {theme:?} by {eyes:?}: {away:.1}"
                    );
                }
            }
        }
    }
}

#[test]
fn the_plain_themes_have_no_colour() {
    for role in roles() {
        for theme in [Theme::Plain, Theme::Ascii] {
            let style = theme.style(role);
            assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
            assert!(!style.add_modifier.contains(Modifier::DIM), "{role:?}");
        }
    }
}
