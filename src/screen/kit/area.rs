//! Where the parts of a page are. This is the only place that cuts rectangles.

use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::{Constraint, Flex, Layout, Rect, Spacing};

/// The columns between two parts that stand side by side.
pub(in crate::screen) const GAP: u16 = 2;

/// The column in which words begin, on every page and sheet: before it stand the cursor of a list and the
/// line of a head.
pub(in crate::screen) const EDGE: u16 = 2;

/// What words have of a part: all from the edge on.
pub(in crate::screen) fn inset(part: Rect) -> Rect {
    let [_, inner] = columns(part, 0, [Length(EDGE), Fill(1)]);
    inner
}

/// The columns that words have in a part.
pub(in crate::screen) fn of_words(part: Rect) -> usize {
    size(inset(part)).0
}

/// Parts one below the other.
pub(in crate::screen) fn rows<const N: usize>(area: Rect, heights: [Constraint; N]) -> [Rect; N] {
    Layout::vertical(heights).flex(Flex::Start).areas(area)
}

/// Parts side by side, so many columns between them.
pub(in crate::screen) fn columns<const N: usize>(
    area: Rect,
    gap: u16,
    widths: [Constraint; N],
) -> [Rect; N] {
    let layout = Layout::horizontal(widths).flex(Flex::Start);
    layout.spacing(Spacing::Space(gap)).areas(area)
}

/// Parts side by side, each with the same share of the width.
pub(in crate::screen) fn shares<const N: usize>(area: Rect, gap: u16) -> [Rect; N] {
    columns(area, gap, [Fill(1); N])
}

/// The first row of an area, and the rows below it.
pub(in crate::screen) fn below_head(area: Rect) -> [Rect; 2] {
    rows(area, [Length(1), Fill(1)])
}

/// So many rows of what is said over a page, at most half of it, and the rows below them: nothing is
/// done that is not seen whole.
pub(in crate::screen) fn below_said(area: Rect, said: usize) -> [Rect; 2] {
    let most = area.height / 2;
    let said = u16::try_from(said).unwrap_or(most).min(most);
    rows(area, [Length(said), Fill(1)])
}

/// A part that is not drawn: it has no height.
pub(in crate::screen) fn none(area: Rect) -> Rect {
    Rect { height: 0, ..area }
}

/// The whole window, of so many columns and rows.
pub(in crate::screen) fn window(width: u16, height: u16) -> Rect {
    Rect::new(0, 0, width, height)
}

/// So many columns and rows from a place on.
pub(in crate::screen) fn placed((x, y): (u16, u16), (width, height): (u16, u16)) -> Rect {
    Rect::new(x, y, width, height)
}

/// Columns and rows of an area, to count text by.
pub(in crate::screen) fn size(area: Rect) -> (usize, usize) {
    (area.width.into(), area.height.into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn parts_follow_each_other_without_a_hole() {
        let whole = window(80, 24);
        let [head, body, foot] = rows(whole, [Length(3), Fill(1), Length(7)]);
        assert_eq!((head.height, body.y, body.height, foot.y), (3, 3, 14, 17));
        let [left, right] = columns(body, GAP, [Fill(1), Length(26)]);
        assert_eq!((left.width, right.x, right.width), (52, 54, 26));
        let [head, below] = below_head(body);
        assert_eq!((head.height, below.y, below.height), (1, 4, 13));
        assert_eq!(size(none(body)), (80, 0));
    }

    proptest! {
        #[test]
        fn shares_are_as_good_as_equal_and_stay_inside(width in 0_u16..200, gap in 0_u16..4) {
            let parts: [Rect; 3] = shares(window(width, 5), gap);
            let all: u16 = parts.iter().map(|part| part.width).sum();
            prop_assert!(all <= width);
            if width > 20 {
                prop_assert_eq!(all + 2 * gap, width);
                let (least, most) = (parts.iter().map(|one| one.width).min(), parts.iter().map(|one| one.width).max());
                prop_assert!(most.zip(least).is_some_and(|(most, least)| most - least <= 1));
            }
            prop_assert!(parts.iter().all(|part| part.right() <= width));
        }
    }
}
