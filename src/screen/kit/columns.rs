//! Blocks of rows set in columns of as good as one height.

use super::text::Row;
use crate::screen::theme::Role;

/// Rows that the blocks take in so many columns.
pub(in crate::screen) fn height(blocks: &[Vec<Row>], count: usize) -> usize {
    let all: usize = blocks.iter().map(Vec::len).sum();
    let least = all.div_ceil(count.max(1)).saturating_sub(1);
    let fits = |height: &usize| {
        let most = starts(blocks, *height);
        most.is_some_and(|starts| starts.len() <= count)
    };
    (least..=all).find(fits).unwrap_or(all)
}

/// The blocks in their order, column after column of the same width, `gap` columns between. A block is
/// not torn apart; a blank row at the head of a column is left out.
pub(in crate::screen) fn balanced(
    blocks: Vec<Vec<Row>>,
    count: usize,
    width: usize,
    gap: usize,
) -> Vec<Row> {
    let height = height(&blocks, count);
    let starts = starts(&blocks, height).unwrap_or_else(|| vec![0]);
    let mut rows = vec![Row::default(); height];
    for (at, start) in starts.iter().enumerate() {
        let end = starts.get(at + 1).copied().unwrap_or(blocks.len());
        let column = blocks[*start..end].iter().flatten();
        let column: Vec<&Row> = column.skip_while(|row| row.width() == 0).collect();
        for (place, row) in rows.iter_mut().enumerate() {
            let own = column.get(place).map(|row| (*row).clone());
            let cell = own.unwrap_or_default().fit(width);
            let between = if at > 0 { gap } else { 0 };
            *row = std::mem::take(row)
                .with(" ".repeat(between), Role::Plain)
                .and(cell);
        }
    }
    rows
}

/// With which block each column begins; `None` where a block is higher than that.
fn starts(blocks: &[Vec<Row>], height: usize) -> Option<Vec<usize>> {
    let mut starts = Vec::new();
    let mut taken = height + 1;
    for (at, block) in blocks.iter().enumerate() {
        let blank = usize::from(block.first().is_some_and(|row| row.width() == 0));
        if taken + block.len() > height {
            starts.push(at);
            taken = block.len() - blank;
        } else {
            taken += block.len();
        }
        if taken > height {
            return None;
        }
    }
    Some(starts)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn blocks(texts: &[&[&str]]) -> Vec<Vec<Row>> {
        let block = |texts: &&[&str]| {
            texts
                .iter()
                .map(|text| Row::of(text, Role::Plain))
                .collect()
        };
        texts.iter().map(block).collect()
    }

    #[test]
    fn columns_are_of_one_height_and_no_block_is_torn_apart() {
        let blocks = blocks(&[
            &["", "Here", "a"],
            &["b", "  more of b"],
            &["c"],
            &["", "There", "d"],
            &["e"],
        ]);
        let shown = |count| -> Vec<String> {
            let rows = balanced(blocks.clone(), count, 12, 2);
            let rows = rows.iter().map(|row| row.to_string());
            rows.map(|row| row.trim_end().to_string()).collect()
        };
        assert_eq!(
            shown(1),
            ["Here", "a", "b", "  more of b", "c", "", "There", "d", "e"]
        );
        assert_eq!(
            shown(2),
            [
                "Here          There",
                "a             d",
                "b             e",
                "  more of b",
                "c"
            ]
        );
        assert_eq!(
            shown(3),
            [
                "Here          b             There",
                "a               more of b   d",
                "              c             e"
            ]
        );
    }
}
