//! Places of pictures among the rows of a page.
//!
//! A page lays out a picture as rows of cells, strip by strip, as it lays out all else. Each cell of a strip
//! says, behind the letter that it shows, of which picture it is and where in it. When all is drawn,
//! [`settle`] looks which pictures stand whole: those are laid over their cells. Where a part is cut off,
//! or another thing is drawn over it, the cells stay.
//!
//! What a cell says begins with a control character, which no text has that came through `text`: no record
//! can place a picture.

use std::collections::BTreeMap;

use ratatui::buffer::Buffer;

use super::area;
use crate::screen::picture::Painted;

/// What stands between a cell's letter and what it says of a picture.
const SAYS: char = '\u{1}';

/// A piece of a row of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::screen) struct Strip {
    /// The picture's number.
    pub(super) picture: u32,
    /// The column and the row in it where the piece begins.
    pub(super) at: (u16, u16),
}

impl Strip {
    /// Says so in a cell, so many columns on from where the piece begins.
    pub(super) fn say(self, symbol: &str, on: u16) -> String {
        let (column, row) = self.at;
        format!("{symbol}{SAYS}{},{},{row}", self.picture, column + on)
    }
}

/// Lays pictures over the cells where they stand whole, as far as `painted` has them.
pub(in crate::screen) fn settle<'a>(
    buffer: &mut Buffer,
    painted: impl Fn(u32) -> Option<&'a Painted>,
) {
    // How many cells there are of each picture, by where it would begin.
    let mut places: BTreeMap<(u32, u16, u16), usize> = BTreeMap::new();
    for at in 0..buffer.content.len() {
        let cell = &mut buffer.content[at];
        let Some((symbol, said)) = cell.symbol().split_once(SAYS) else {
            continue;
        };
        let mut numbers = said.split(',').map(str::parse::<u32>);
        let numbers = [numbers.next(), numbers.next(), numbers.next()];
        let symbol = symbol.to_string();
        cell.set_symbol(&symbol);
        let (x, y) = buffer.pos_of(at);
        if let [Some(Ok(picture)), Some(Ok(column)), Some(Ok(row))] = numbers
            && let (Some(left), Some(top)) = (back(x, column), back(y, row))
        {
            *places.entry((picture, left, top)).or_default() += 1;
        }
    }
    for ((picture, left, top), cells) in places {
        let Some(painted) = painted(picture) else {
            continue;
        };
        let (wide, high) = painted.size();
        if cells == usize::from(wide) * usize::from(high) {
            let place = area::placed((left, top), (wide, high));
            for at in place.positions() {
                buffer[at].reset();
            }
            painted.lay(place, buffer);
        }
    }
}

fn back(from: u16, by: u32) -> Option<u16> {
    from.checked_sub(u16::try_from(by).ok()?)
}
