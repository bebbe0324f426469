//! Which of the eight masks of a QR code reads best (ISO/IEC 18004, 7.8; numbers from memory).
//!
//! A mask turns some of the squares of a code over, and the penalty tells how much of what is left
//! misleads a reader. The library weighs all eight square by square, which takes twenty times as long as
//! making the code. Here a row is one number, and a code under another mask is made of the first: two
//! codes of one version and level differ by their data alone, so what two masks do to an empty code
//! they do to every other.

use std::collections::BTreeMap;

use qrcodegen::{Mask, QrCode, QrCodeEcc};

/// A code as its rows, a square a bit, the leftmost the lowest.
pub(super) type Grid = Vec<u128>;

/// The widest code whose rows are numbers.
const WIDEST: i32 = 128;
/// What each thing that misleads counts: a run of five alike, a block of two by two, what looks like a
/// finder, each twentieth more or less of dark.
const RUN: u32 = 3;
const BLOCK: u32 = 3;
const FINDER: u32 = 40;
const BALANCE: u32 = 10;

/// What the masks do to codes of each version and level, as far as they were needed.
#[derive(Debug, Default)]
pub(in crate::tag) struct Masks(BTreeMap<(u8, QrCodeEcc), Vec<Lines>>);

/// Rows and columns of a code.
#[derive(Debug)]
struct Lines {
    rows: Grid,
    columns: Grid,
}

impl Masks {
    /// The code under the mask that reads best; it was made under the first. `None` where it is wider
    /// than these numbers.
    pub(super) fn best(&mut self, first: &QrCode) -> Option<Grid> {
        if first.size() > WIDEST {
            return None;
        }
        let level = first.error_correction_level();
        let key = (first.version().value(), level);
        let turned = self.0.entry(key).or_insert_with(|| turned(first, level));
        let own = Lines::of(rows(first));
        // Of several as good the first.
        let best = turned.iter().min_by_key(|turned| penalty(&own, turned))?;
        Some(against(&own.rows, &best.rows))
    }
}

impl Lines {
    fn of(rows: Grid) -> Lines {
        let column = |x: usize| {
            let dark = rows.iter().enumerate();
            dark.fold(0, |column, (y, row)| column | (row >> x & 1) << y)
        };
        Lines {
            columns: (0..rows.len()).map(column).collect(),
            rows,
        }
    }
}

/// What each mask turns over of a code that was made under the first.
fn turned(of: &QrCode, level: QrCodeEcc) -> Vec<Lines> {
    let version = of.version();
    let empty = |mask: u8| {
        let mask = Some(Mask::new(mask));
        // OK because nothing fits into any code.
        QrCode::encode_segments_advanced(&[], level, version, version, mask, false).ok()
    };
    let empty: Vec<Grid> = { 0..8 }
        .filter_map(|mask| Some(rows(&empty(mask)?)))
        .collect();
    let turned = empty.iter().map(|grid| against(grid, &empty[0]));
    turned.map(Lines::of).collect()
}

/// Where two differ.
fn against(one: &[u128], other: &[u128]) -> Grid {
    let both = one.iter().zip(other);
    both.map(|(one, other)| one ^ other).collect()
}

/// The rows of a code, of which none is wider than a number.
fn rows(code: &QrCode) -> Grid {
    let size = code.size();
    let row = |y: i32| {
        let dark = (0..size).filter(|x| code.get_module(*x, y));
        dark.fold(0, |row, x| row | 1 << x)
    };
    (0..size).map(row).collect()
}

/// How much misleads of a code of which so much is turned over.
fn penalty(own: &Lines, turned: &Lines) -> u32 {
    let size = own.rows.len();
    let rows = against(&own.rows, &turned.rows);
    let columns = against(&own.columns, &turned.columns);
    let lines = rows.iter().chain(&columns);
    let along: u32 = lines
        .map(|line| runs(*line, size) + finders(*line, size))
        .sum();
    let blocks: u32 = { rows.windows(2) }
        .map(|two| blocks(two[0], two[1], size))
        .sum();
    let dark: u32 = rows.iter().map(|row| row.count_ones()).sum();
    along + blocks + balance(dark, size)
}

/// The lowest `count` bits.
fn lowest(count: usize) -> u128 {
    match count {
        128.. => u128::MAX,
        count => (1 << count) - 1,
    }
}

/// Squares that are as their right neighbour.
fn alike(line: u128, size: usize) -> u128 {
    !(line ^ line >> 1) & lowest(size - 1)
}

/// Five squares alike count three, and each more of the run one.
fn runs(line: u128, size: usize) -> u32 {
    let two = alike(line, size);
    let five = two & two >> 1 & two >> 2 & two >> 3;
    let begun = five & !(five << 1);
    five.count_ones() + (RUN - 1) * begun.count_ones()
}

fn blocks(above: u128, below: u128, size: usize) -> u32 {
    let alike = alike(above, size) & alike(below, size) & !(above ^ below);
    BLOCK * alike.count_ones()
}

/// What looks like a finder: dark and light as 1:1:3:1:1, with four as much light on one side; beyond
/// the code all is light.
fn finders(line: u128, size: usize) -> u32 {
    let mut found = 0;
    for unit in 1..=size / 7 {
        // Runs of one unit, by their first squares.
        let of_unit = (1..unit).fold(line, |all, at| all & line >> at);
        let whole = |at: usize| onward(of_unit, at * unit);
        let middle = whole(2) & whole(3) & whole(4);
        // No three units of dark: then none of more squares either.
        if middle == 0 {
            break;
        }
        let any = (1..unit).fold(line, |any, at| any | line >> at);
        let light = |at: usize| !onward(any, at * unit);
        let before = |units: usize| !{ 1..=units * unit }.fold(0, |any, back| any | line << back);
        let core = whole(0) & light(1) & middle & light(5) & whole(6);
        let after = |units: usize| (7..7 + units).fold(u128::MAX, |all, at| all & light(at));
        let core = core & lowest(size);
        found += (core & before(4) & after(1)).count_ones();
        found += (core & before(1) & after(4)).count_ones();
    }
    FINDER * found
}

/// Each square's place taken by the one so many places on; beyond the code all is light.
fn onward(line: u128, by: usize) -> u128 {
    let by = u32::try_from(by).ok();
    by.and_then(|by| line.checked_shr(by)).unwrap_or(0)
}

fn balance(dark: u32, size: usize) -> u32 {
    // OK because a code has no more than 177 squares a side.
    let all = (size * size) as u32;
    let off = (dark * 20).abs_diff(all * 10);
    BALANCE * off.div_ceil(all).saturating_sub(1)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use qrcodegen::{QrSegment, Version};

    use super::*;

    fn made(text: &str, mask: Option<Mask>, most: u8) -> QrCode {
        let segments = QrSegment::make_segments(text);
        let (least, most) = (Version::MIN, Version::new(most));
        let made =
            QrCode::encode_segments_advanced(&segments, QrCodeEcc::Low, least, most, mask, true);
        made.expect("room")
    }

    proptest! {
        /// Against the library, which weighs the masks square by square: the very same code.
        #[test]
        fn the_mask_that_reads_best_is_the_librarys(words in "[a-zA-Z0-9 ,.:'\n-]{1,700}") {
            let own = Masks::default().best(&made(&words, Some(Mask::new(0)), 27));
            prop_assert_eq!(own, Some(rows(&made(&words, None, 27))));
        }
    }

    #[test]
    fn a_code_wider_than_a_number_is_left_to_the_library() {
        let wide = made(&"dahlia ".repeat(300), Some(Mask::new(0)), 40);
        assert!(wide.size() > WIDEST);
        assert_eq!(Masks::default().best(&wide), None);
    }
}
