//! What a symbol of a cell looks like, as shapes where it is none of a script.

use ratatui::symbols::pixel::{OCTANTS, QUADRANTS, SEXTANTS};

/// A symbol of a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Symbol<'a> {
    /// Nothing is seen of it.
    Blank,
    /// A letter, a figure or a sign: the font's.
    Letter(&'a str),
    /// Filled parts of the cell, each from left, top to right, bottom as shares of its width and height.
    Blocks(Vec<[f64; 4]>),
    /// The cell filled to this share of its colour.
    Shade(f64),
    /// Dots of Braille, by the bits of Unicode's pattern.
    Dots(u8),
    /// Lines from the middle to these sides: left, right, up, down.
    Lines([bool; 4]),
}

impl Symbol<'_> {
    pub(super) fn of(text: &str) -> Symbol<'_> {
        let mut characters = text.chars();
        let (first, more) = (characters.next(), characters.next());
        let Some(character) = first.filter(|_| more.is_none()) else {
            return if text.is_empty() {
                Symbol::Blank
            } else {
                Symbol::Letter(text)
            };
        };
        match character {
            ' ' | '\u{a0}' | '\u{2800}' => Symbol::Blank,
            '\u{2801}'..='\u{28ff}' => Symbol::Dots((u32::from(character) - 0x2800) as u8),
            _ => { block(character) }
                .or_else(|| lines(character).map(Symbol::Lines))
                .unwrap_or(Symbol::Letter(text)),
        }
    }
}

/// A character that fills parts of its cell: by eighths from a side, by shade, or by parts of two
/// columns as the tables of the terminal's library have them.
fn block(character: char) -> Option<Symbol<'static>> {
    let one = |left, top, right, bottom| Symbol::Blocks(vec![[left, top, right, bottom]]);
    let eighths = |from: char| f64::from(u32::from(character) - u32::from(from) + 1) / 8.0;
    Some(match character {
        '\u{2581}'..='\u{2588}' => one(0.0, 1.0 - eighths('\u{2581}'), 1.0, 1.0),
        // From seven eighths of the width down to one.
        '\u{2589}'..='\u{258f}' => one(0.0, 0.0, 1.0 - eighths('\u{2589}'), 1.0),
        '\u{2591}' => Symbol::Shade(0.25),
        '\u{2592}' => Symbol::Shade(0.5),
        '\u{2593}' => Symbol::Shade(0.75),
        '\u{2594}' => one(0.0, 0.0, 1.0, 0.125),
        '\u{2595}' => one(0.875, 0.0, 1.0, 1.0),
        _ => {
            let tables = [(2, &QUADRANTS[..]), (3, &SEXTANTS), (4, &OCTANTS)];
            let find = |(rows, table): (usize, &[char])| {
                let pattern = table.iter().position(|one| *one == character)?;
                Some(grid(rows, |place| pattern & (1 << place) != 0))
            };
            return tables.into_iter().find_map(find);
        }
    })
}

/// A cell of two columns and so many rows, of which some are filled, counted as one reads.
fn grid(rows: usize, filled: impl Fn(usize) -> bool) -> Symbol<'static> {
    let places = (0..2 * rows).filter(|place| filled(*place));
    let part = |place: usize| {
        let (left, top) = ((place % 2) as f64 / 2.0, (place / 2) as f64);
        let rows = rows as f64;
        [left, top / rows, left + 0.5, (top + 1.0) / rows]
    };
    Symbol::Blocks(places.map(part).collect())
}

/// The light lines of box drawing: to which sides they go.
fn lines(character: char) -> Option<[bool; 4]> {
    const YES: bool = true;
    const NO: bool = false;
    Some(match character {
        '\u{2500}' => [YES, YES, NO, NO],
        '\u{2502}' => [NO, NO, YES, YES],
        '\u{250c}' | '\u{256d}' => [NO, YES, NO, YES],
        '\u{2510}' | '\u{256e}' => [YES, NO, NO, YES],
        '\u{2514}' | '\u{2570}' => [NO, YES, YES, NO],
        '\u{2518}' | '\u{256f}' => [YES, NO, YES, NO],
        '\u{251c}' => [NO, YES, YES, YES],
        '\u{2524}' => [YES, NO, YES, YES],
        '\u{252c}' => [YES, YES, NO, YES],
        '\u{2534}' => [YES, YES, YES, NO],
        '\u{253c}' => [YES; 4],
        '\u{2574}' => [YES, NO, NO, NO],
        '\u{2576}' => [NO, YES, NO, NO],
        '\u{2575}' => [NO, NO, YES, NO],
        '\u{2577}' => [NO, NO, NO, YES],
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(symbol: &str) -> f64 {
        match Symbol::of(symbol) {
            Symbol::Blocks(parts) => { parts.iter() }
                .map(|[left, top, right, bottom]| (right - left) * (bottom - top))
                .sum(),
            other => panic!("{symbol} is {other:?}"),
        }
    }

    #[test]
    fn blocks_fill_their_share_of_the_cell() {
        for (symbol, share) in [
            ("\u{2588}", 1.0),
            ("\u{2580}", 0.5),
            ("\u{2584}", 0.5),
            ("\u{2581}", 0.125),
            ("\u{2589}", 0.875),
            ("\u{258c}", 0.5),
            ("\u{258f}", 0.125),
            ("\u{2590}", 0.5),
            ("\u{2596}", 0.25),
            ("\u{2599}", 0.75),
            ("\u{259a}", 0.5),
            ("\u{259f}", 0.75),
            ("\u{1fb00}", 1.0 / 6.0),
            ("\u{1fb3b}", 5.0 / 6.0),
            ("\u{1cd00}", 0.125),
            ("\u{1cde5}", 0.875),
        ] {
            assert!((area(symbol) - share).abs() < 1e-9, "{symbol}");
        }
    }

    #[test]
    fn quadrants_stand_where_their_names_say() {
        let lower_left = Symbol::Blocks(vec![[0.0, 0.5, 0.5, 1.0]]);
        assert_eq!(Symbol::of("\u{2596}"), lower_left);
        let upper_right = Symbol::Blocks(vec![[0.5, 0.0, 1.0, 0.5]]);
        assert_eq!(Symbol::of("\u{259d}"), upper_right);
        // BLOCK SEXTANT-23456 is the last: all but the upper left.
        let Symbol::Blocks(last) = Symbol::of("\u{1fb3b}") else {
            panic!("no blocks");
        };
        assert!(!last.contains(&[0.0, 0.0, 0.5, 1.0 / 3.0]));
    }

    #[test]
    fn words_stay_letters() {
        assert_eq!(Symbol::of("a"), Symbol::Letter("a"));
        assert_eq!(Symbol::of("\u{2026}"), Symbol::Letter("\u{2026}"));
        assert_eq!(Symbol::of("e\u{301}"), Symbol::Letter("e\u{301}"));
        assert_eq!(Symbol::of(" "), Symbol::Blank);
        assert_eq!(Symbol::of("\u{2800}"), Symbol::Blank);
        assert_eq!(Symbol::of("\u{283f}"), Symbol::Dots(0b11_1111));
    }
}
