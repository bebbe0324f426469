//! What follows from a terminal's answers: what it may be sent.

use super::replies::Replies;
use crate::screen::abilities::{Abilities, Finest, Pixels, Protocol};

/// What is known of a terminal by its name.
struct Known {
    /// How its name begins, in small letters.
    name: &'static str,
    /// From which version on it draws which cells itself, whatever the font; the finest first.
    cells: &'static [(Version, Finest)],
    /// In what form it is sent pixels.
    pixels: Sent,
}

/// A version's first two numbers.
type Version = (u32, u32);

/// In what form a terminal is sent pixels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sent {
    /// As it answered.
    AsAnswered,
    /// In this form, whatever it answered.
    As(Protocol),
    /// Never.
    Never,
}

const EVER: Version = (0, 0);

/// Terminals by what their makers tell of them. Versions are from memory: an older one than stands here is
/// drawn in coarser cells, which it has.
///
/// Pixels in kitty's form are asked of those alone that know the cells which stand for parts of a picture
/// (`Protocol::Kitty`): others take the question for granted and then show letters. `WezTerm` and
/// `Konsole` are of those, and have iTerm2's form; the sixels of the latter leave traces. Of `tmux` it is
/// not known what stands behind it.
const KNOWN: [Known; 11] = [
    Known {
        name: "kitty",
        cells: &[((0, 40), Finest::Octants), (EVER, Finest::Sextants)],
        pixels: Sent::As(Protocol::Kitty),
    },
    Known {
        name: "ghostty",
        cells: &[((1, 2), Finest::Octants), (EVER, Finest::Sextants)],
        pixels: Sent::As(Protocol::Kitty),
    },
    Known {
        name: "wezterm",
        cells: &[(EVER, Finest::Sextants)],
        pixels: Sent::As(Protocol::Iterm2),
    },
    Known {
        name: "foot",
        cells: &[((1, 20), Finest::Octants), (EVER, Finest::Sextants)],
        pixels: Sent::AsAnswered,
    },
    Known {
        name: "contour",
        cells: &[(EVER, Finest::Sextants)],
        pixels: Sent::AsAnswered,
    },
    Known {
        name: "vte",
        cells: &[(EVER, Finest::Sextants)],
        pixels: Sent::AsAnswered,
    },
    Known {
        name: "iterm2",
        cells: &[],
        pixels: Sent::As(Protocol::Iterm2),
    },
    Known {
        name: "mintty",
        cells: &[],
        pixels: Sent::As(Protocol::Iterm2),
    },
    Known {
        name: "konsole",
        cells: &[],
        pixels: Sent::As(Protocol::Iterm2),
    },
    Known {
        name: "tmux",
        cells: &[],
        pixels: Sent::Never,
    },
    Known {
        name: "screen",
        cells: &[],
        pixels: Sent::Never,
    },
];

/// What a terminal can show by its answers; `cell` is the size of a cell where it told none.
pub(super) fn abilities(replies: &Replies, cell: Option<(u16, u16)>) -> Abilities {
    let known = replies.name.as_deref().and_then(|name| {
        let name = name.to_lowercase();
        let known = KNOWN.iter().find(|known| name.starts_with(known.name))?;
        Some((known, version(&name)))
    });
    let sent = known.map_or(Sent::AsAnswered, |(known, _)| known.pixels);
    let answered = replies.takes_sixels().then_some(Protocol::Sixel);
    let protocol = match sent {
        // Kitty's can be switched off, and then is not answered.
        Sent::As(Protocol::Kitty) => replies.takes_kitty.then_some(Protocol::Kitty),
        Sent::As(protocol) => Some(protocol),
        Sent::AsAnswered => answered,
        Sent::Never => None,
    };
    let cell = replies.cell.or(cell).filter(|cell| is_usual(*cell));
    let pixels = protocol.zip(cell);
    let drawn = known.and_then(|(known, version)| {
        let cells = known.cells.iter();
        cells
            .filter(|(since, _)| version >= *since)
            .map(|(_, finest)| *finest)
            .max()
    });
    // Whoever answers at all is of an age in which fonts have quarters.
    let usual = match replies.is_ended() {
        true => Finest::Quadrants,
        false => Finest::Halves,
    };
    Abilities {
        ground: replies.ground,
        pixels: pixels.map(|(protocol, cell)| Pixels { protocol, cell }),
        finest: drawn.unwrap_or(usual),
    }
}

/// Whether a cell may be of this size: one that is wider or higher would make pictures that no window has
/// room for, and smaller ones nobody reads.
pub(super) fn is_usual((wide, high): (u16, u16)) -> bool {
    let usual = 3..=100;
    usual.contains(&wide) && usual.contains(&high)
}

/// The first two numbers of a name with its version.
fn version(name: &str) -> Version {
    let told = name.trim_start_matches(|c: char| !c.is_ascii_digit());
    // iTerm2's own number stands in its name, and its version is not asked after.
    let mut numbers = told.split(|c: char| !c.is_ascii_digit());
    let mut next = || numbers.next().and_then(|one| one.parse().ok()).unwrap_or(0);
    (next(), next())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(bytes: &str) -> (Option<Protocol>, Finest) {
        let mut replies = Replies::default();
        replies.take(bytes.as_bytes());
        let found = abilities(&replies, Some((8, 16)));
        (found.pixels.map(|pixels| pixels.protocol), found.finest)
    }

    #[test]
    fn each_terminal_is_sent_what_it_shows_without_traces() {
        const KITTY: &str = "\x1b_Gi=31;OK\x1b\\";
        for (name, answers, protocol, finest) in [
            (
                "kitty(0.42.1)",
                KITTY,
                Some(Protocol::Kitty),
                Finest::Octants,
            ),
            (
                "kitty(0.35.2)",
                KITTY,
                Some(Protocol::Kitty),
                Finest::Sextants,
            ),
            ("kitty(0.42.1)", "", None, Finest::Octants),
            (
                "ghostty 1.1.3",
                KITTY,
                Some(Protocol::Kitty),
                Finest::Sextants,
            ),
            (
                "WezTerm 20240203-110809",
                KITTY,
                Some(Protocol::Iterm2),
                Finest::Sextants,
            ),
            (
                "Konsole 24.12.0",
                KITTY,
                Some(Protocol::Iterm2),
                Finest::Quadrants,
            ),
            (
                "iTerm2 3.5.10",
                KITTY,
                Some(Protocol::Iterm2),
                Finest::Quadrants,
            ),
            ("another 1.0", KITTY, None, Finest::Quadrants),
            ("tmux 3.5a", KITTY, None, Finest::Quadrants),
        ] {
            let bytes = format!("{answers}\x1bP>|{name}\x1b\\\x1b[?62;22c");
            assert_eq!(of(&bytes), (protocol, finest), "{name}");
        }
        let foot = "\x1bP>|foot(1.21.0)\x1b\\\x1b[?62;4;22c";
        assert_eq!(of(foot), (Some(Protocol::Sixel), Finest::Octants));
        assert_eq!(of("\x1bP>|tmux 3.5a\x1b\\\x1b[?1;2;4c").0, None);
        assert_eq!(
            of("\x1b[?62;4c"),
            (Some(Protocol::Sixel), Finest::Quadrants)
        );
        assert_eq!(of(""), (None, Finest::Halves));
    }

    #[test]
    fn without_the_size_of_a_cell_there_are_no_pixels() {
        let mut replies = Replies::default();
        replies.take(b"\x1b[?62;4c");
        assert_eq!(abilities(&replies, None).pixels, None);
        assert_eq!(abilities(&replies, Some((0, 4000))).pixels, None);
        replies.take(b"\x1b[6;17;8t");
        let pixels = abilities(&replies, Some((9, 18))).pixels;
        assert_eq!(pixels.map(|pixels| pixels.cell), Some((8, 17)));
    }
}
