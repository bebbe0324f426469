//! What a symbol of a cell looks like, as shapes where it is none of a script.

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
            '\u{2580}'..='\u{259f}' => block(character),
            '\u{1fb00}'..='\u{1fb3b}' => sextant(u32::from(character) - 0x1_fb00),
            _ => lines(character).map_or(Symbol::Letter(text), Symbol::Lines),
        }
    }
}

/// The block elements of Unicode, U+2580 to U+259F.
fn block(character: char) -> Symbol<'static> {
    let one = |left, top, right, bottom| Symbol::Blocks(vec![[left, top, right, bottom]]);
    let eighths = |from: char| f64::from(u32::from(character) - u32::from(from) + 1) / 8.0;
    match character {
        '\u{2580}' => one(0.0, 0.0, 1.0, 0.5),
        '\u{2581}'..='\u{2588}' => one(0.0, 1.0 - eighths('\u{2581}'), 1.0, 1.0),
        // From seven eighths of the width down to one.
        '\u{2589}'..='\u{258f}' => one(0.0, 0.0, 1.0 - eighths('\u{2589}'), 1.0),
        '\u{2590}' => one(0.5, 0.0, 1.0, 1.0),
        '\u{2591}' => Symbol::Shade(0.25),
        '\u{2592}' => Symbol::Shade(0.5),
        '\u{2593}' => Symbol::Shade(0.75),
        '\u{2594}' => one(0.0, 0.0, 1.0, 0.125),
        '\u{2595}' => one(0.875, 0.0, 1.0, 1.0),
        quadrants => {
            // Upper left, upper right, lower left, lower right, from U+2596 on.
            const OF: [u8; 10] = [
                0b0010, 0b0001, 0b1000, 0b1011, 0b1001, 0b1110, 0b1101, 0b0100, 0b0110, 0b0111,
            ];
            let at = (u32::from(quadrants) - 0x2596) as usize;
            let of = OF.get(at).copied().unwrap_or_default();
            grid(2, |place| of & (0b1000 >> place) != 0)
        }
    }
}

/// The sextants of Unicode, U+1FB00 on: two by three parts, the full ones and both halves left out.
fn sextant(at: u32) -> Symbol<'static> {
    let mut pattern = at + 1;
    for left_out in [0b01_0101, 0b10_1010] {
        if pattern >= left_out {
            pattern += 1;
        }
    }
    grid(3, |place| pattern & (1 << place) != 0)
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
