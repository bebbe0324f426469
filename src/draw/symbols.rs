//! The characters of a cell's parts, two to a row: The Unicode Standard, Block Elements, Symbols for
//! Legacy Computing and its Supplement (16.0).
//!
//! A pattern has bit 0 for the part at the top left, bit 1 for the one to its right, and so on down.

/// A cell of two rows of parts.
pub(super) fn quadrant(pattern: usize) -> char {
    const ALL: [char; 16] = [
        ' ', '▘', '▝', '▀', '▖', '▌', '▞', '▛', '▗', '▚', '▐', '▜', '▄', '▙', '▟', '█',
    ];
    ALL.get(pattern).copied().unwrap_or(' ')
}

/// A cell of three rows: from U+1FB00 on in the order of the patterns, without those that the
/// quadrants have.
pub(super) fn sextant(pattern: usize) -> char {
    const FIRST: u32 = 0x1fb00;
    const LEFT: usize = 0b01_01_01;
    const RIGHT: usize = 0b10_10_10;
    match pattern {
        0 => ' ',
        LEFT => '▌',
        RIGHT => '▐',
        0b11_11_11 => '█',
        _ => {
            let before = 1 + usize::from(pattern > LEFT) + usize::from(pattern > RIGHT);
            nth(FIRST, pattern.saturating_sub(before))
        }
    }
}

/// A cell of four rows: from U+1CD00 on in the order of the patterns, without those that had a
/// character before.
pub(super) fn octant(pattern: usize) -> char {
    const FIRST: u32 = 0x1cd00;
    match ELSEWHERE.binary_search_by_key(&pattern, |own| own.0) {
        Ok(at) => ELSEWHERE[at].1,
        Err(before) => nth(FIRST, pattern.saturating_sub(before)),
    }
}

fn nth(first: u32, at: usize) -> char {
    let code = u32::try_from(at)
        .ok()
        .and_then(|at| char::from_u32(first + at));
    code.unwrap_or(' ')
}

/// The patterns of octants that are characters of another block, rising.
const ELSEWHERE: [(usize, char); 26] = [
    (0b00_00_00_00, ' '),
    (0b00_00_00_01, '\u{1cea8}'),
    (0b00_00_00_10, '\u{1ceab}'),
    (0b00_00_00_11, '\u{1fb82}'),
    (0b00_00_01_01, '▘'),
    (0b00_00_10_10, '▝'),
    (0b00_00_11_11, '▀'),
    (0b00_01_01_00, '\u{1fbe6}'),
    (0b00_10_10_00, '\u{1fbe7}'),
    (0b00_11_11_11, '\u{1fb85}'),
    (0b01_00_00_00, '\u{1cea3}'),
    (0b01_01_00_00, '▖'),
    (0b01_01_01_01, '▌'),
    (0b01_01_10_10, '▞'),
    (0b01_01_11_11, '▛'),
    (0b10_00_00_00, '\u{1cea0}'),
    (0b10_10_00_00, '▗'),
    (0b10_10_01_01, '▚'),
    (0b10_10_10_10, '▐'),
    (0b10_10_11_11, '▜'),
    (0b11_00_00_00, '▂'),
    (0b11_11_00_00, '▄'),
    (0b11_11_01_01, '▙'),
    (0b11_11_10_10, '▟'),
    (0b11_11_11_00, '▆'),
    (0b11_11_11_11, '█'),
];

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::symbols::pixel::{OCTANTS, QUADRANTS, SEXTANTS};

    /// Another's tables, by the patterns.
    #[test]
    fn every_pattern_has_the_character_that_another_table_has() {
        type Own = fn(usize) -> char;
        for (own, other) in [
            (quadrant as Own, &QUADRANTS[..]),
            (sextant, &SEXTANTS[..]),
            (octant, &OCTANTS[..]),
        ] {
            for (pattern, other) in other.iter().enumerate() {
                assert_eq!(own(pattern), *other, "{pattern:b}");
            }
        }
    }
}
