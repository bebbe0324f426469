//! A cell as it is seen: its symbol, and its colours with reverse video and dimming done.

use ratatui::buffer::Cell;
use ratatui::style::{Color, Modifier};

use super::paint::Paint;
use super::symbol::Symbol;
use crate::colour::Srgb;
use crate::screen::theme::of_index;

/// A cell as it is seen.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Shown<'a> {
    pub(super) symbol: Symbol<'a>,
    /// What its symbol is drawn in.
    pub(super) front: Srgb,
    /// What is behind it, where that is not the window's ground.
    pub(super) back: Option<Srgb>,
    pub(super) bold: bool,
    pub(super) underlined: bool,
}

impl<'a> Shown<'a> {
    pub(super) fn of(cell: &'a Cell, paint: Paint) -> Shown<'a> {
        let has = |modifier| cell.modifier.contains(modifier);
        let mut front = colour(cell.fg).unwrap_or(paint.letters);
        let mut back = colour(cell.bg);
        if has(Modifier::DIM) {
            front = front.toward(back.unwrap_or(paint.ground), 0.5);
        }
        if has(Modifier::REVERSED) {
            let behind = back.unwrap_or(paint.ground);
            (front, back) = (behind, Some(front));
        }
        Shown {
            symbol: Symbol::of(cell.symbol()),
            front,
            back,
            bold: has(Modifier::BOLD),
            underlined: has(Modifier::UNDERLINED),
        }
    }

    /// Whether the two are written in one run of words.
    pub(super) fn is_like(&self, other: &Shown<'_>) -> bool {
        (self.front, self.bold) == (other.front, other.bold)
    }
}

/// The colour that is meant, where it is not the terminal's own. The themes take none of the first 16.
fn colour(colour: Color) -> Option<Srgb> {
    match colour {
        Color::Rgb(r, g, b) => Some(Srgb::new(r, g, b)),
        Color::Indexed(index) => of_index(index),
        _ => None,
    }
}
