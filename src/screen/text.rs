//! Text for the screen: the one door through which words reach the terminal.
//!
//! A `Row` holds only cleaned text, so that no data can move the cursor, change colours or turn
//! the direction of writing. Widths are columns, never bytes or characters.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use unicode_segmentation::UnicodeSegmentation;

use super::theme::{Role, Theme};
use crate::account;

pub use crate::account::text::width;

/// What stands in place of a character that must not reach the terminal.
const BLANKED: char = '\u{b7}';
/// What stands where a text was cut.
const CUT: &str = "\u{2026}";

/// One row of a page: cleaned pieces of text with what they are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    pieces: Vec<(String, Role)>,
}

impl Row {
    /// A row of one piece.
    pub fn of(text: impl AsRef<str>, role: Role) -> Row {
        Row::default().with(text, role)
    }

    /// The row with one more piece.
    pub fn with(mut self, text: impl AsRef<str>, role: Role) -> Row {
        self.pieces.push((clean(text.as_ref()), role));
        self
    }

    /// The row with another after it.
    pub fn and(mut self, other: Row) -> Row {
        self.pieces.extend(other.pieces);
        self
    }

    /// The row as the head of a part of a page, in a line of so many columns.
    pub fn in_a_line(self, columns: usize) -> Row {
        let line = columns.saturating_sub(self.width() + 3);
        Row::of("\u{2500} ", Role::Quiet)
            .and(self)
            .with(" ", Role::Plain)
            .with("\u{2500}".repeat(line), Role::Quiet)
    }

    /// Its width in columns.
    pub fn width(&self) -> usize {
        self.pieces.iter().map(|(text, _)| width(text)).sum()
    }

    /// The row in at most so many columns, with a mark where it was cut.
    pub fn cut(self, columns: usize) -> Row {
        if self.width() <= columns {
            return self;
        }
        let mut left = columns;
        let mut kept = Row::default();
        for (text, role) in self.pieces {
            // Where the rest is dropped there is a mark: a column is kept free for it.
            let text = match width(&text) < left {
                true => text,
                false => cut(&format!("{text} "), left),
            };
            left -= width(&text).min(left);
            kept.pieces.push((text, role));
            if left == 0 {
                break;
            }
        }
        kept
    }

    /// The row with every piece but a flower's colours in one role: where the cursor is.
    pub fn all(mut self, role: Role) -> Row {
        for piece in &mut self.pieces {
            if !matches!(
                piece.1,
                Role::Swatch(_) | Role::Petal(..) | Role::MarkedPetal(..)
            ) {
                piece.1 = role;
            }
        }
        self
    }
}

/// Replaces control characters and those that turn or hide writing; keeps accents.
pub fn clean(text: &str) -> String {
    let harmful = |c: char| {
        c.is_control()
            || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
    };
    text.chars()
        .map(|c| if harmful(c) { BLANKED } else { c })
        .collect()
}

/// The text in at most `columns`, with a mark where it was cut.
pub fn cut(text: &str, columns: usize) -> String {
    let text = clean(text);
    if width(&text) <= columns {
        return text;
    }
    let mut kept = String::new();
    for grapheme in text.graphemes(true) {
        if width(&kept) + width(grapheme) >= columns {
            break;
        }
        kept.push_str(grapheme);
    }
    if columns > 0 {
        kept.push_str(CUT);
    }
    kept
}

/// The text in exactly `columns`: cut with a mark, or filled with spaces.
pub fn fit(text: &str, columns: usize) -> String {
    let text = cut(text, columns);
    let fill = columns.saturating_sub(width(&text));
    text + &" ".repeat(fill)
}

/// The text broken at spaces into rows of at most `columns`; a longer word is broken inside.
pub fn wrap(text: &str, columns: usize) -> Vec<String> {
    account::text::wrap(&clean(text), columns)
}

/// Erases the last character as a reader sees characters.
pub fn erase_last(text: &mut String) {
    let kept = text
        .grapheme_indices(true)
        .next_back()
        .map_or(0, |(at, _)| at);
    text.truncate(kept);
}

/// A paragraph: `lead` in its own role before the first row, the rest indented under it.
pub fn paragraph(lead: (&str, Role), text: &str, role: Role, columns: usize) -> Vec<Row> {
    let indent = width(lead.0);
    let wrapped = wrap(text, columns.saturating_sub(indent));
    let row = |(at, text): (usize, &String)| match at {
        0 => Row::of(lead.0, lead.1).with(text, role),
        _ => Row::of(" ".repeat(indent), Role::Plain).with(text, role),
    };
    wrapped.iter().enumerate().map(row).collect()
}

/// Draws rows into an area. What does not fit is told: a wide row ends with a mark, and the last
/// row says how many more there are and, by `more`, how to see them.
pub fn paint(rows: &[Row], area: Rect, buffer: &mut Buffer, theme: Theme, more: &str) {
    let height = usize::from(area.height);
    let hidden = rows.len().saturating_sub(height);
    let shown = if hidden > 0 {
        height.saturating_sub(1)
    } else {
        rows.len()
    };
    for (y, row) in rows.iter().take(shown).enumerate() {
        paint_row(row, at(area, y), buffer, theme);
    }
    if hidden > 0 && height > 0 {
        let told = Row::of(format!("{CUT} {} more {more}", hidden + 1), Role::Doubt);
        paint_row(&told, at(area, shown), buffer, theme);
    }
}

/// Draws a part of a page: its head in a line across, and its rows under that; nothing where it has
/// no height.
pub fn paint_part(
    (head, rows): (Row, &[Row]),
    area: Rect,
    buffer: &mut Buffer,
    theme: Theme,
    more: &str,
) {
    if area.height == 0 {
        return;
    }
    let head = head.in_a_line(usize::from(area.width));
    paint(&[head], Rect { height: 1, ..area }, buffer, theme, "");
    let body = Rect {
        y: area.y + 1,
        height: area.height - 1,
        ..area
    };
    paint(rows, body, buffer, theme, more);
}

fn at(area: Rect, y: usize) -> Rect {
    // OK because callers stay within the area's height, a u16.
    Rect {
        y: area.y + y as u16,
        height: 1,
        ..area
    }
}

fn paint_row(row: &Row, area: Rect, buffer: &mut Buffer, theme: Theme) {
    let columns = usize::from(area.width);
    let mut left = columns;
    let mut x = area.x;
    let too_wide = row.width() > columns;
    for (text, role) in &row.pieces {
        // A mark's own column is kept free where the row goes on.
        let told = if too_wide && width(text) >= left {
            cut(&format!("{text} "), left)
        } else {
            text.clone()
        };
        let (next, _) = buffer.set_stringn(x, area.y, &told, left, theme.style(*role));
        left -= usize::from(next - x).min(left);
        x = next;
        if left == 0 {
            break;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_would_steer_the_terminal_is_blanked() {
        assert_eq!(clean("a\u{1b}[31mb\u{202e}c\u{9b}\té"), "a·[31mb·c··é");
    }

    #[test]
    fn a_cut_shows_and_counts_columns() {
        assert_eq!(cut("formal decorative", 9), "formal d…");
        assert_eq!(cut("花びら", 4), "花…");
        assert_eq!(fit("花", 4), "花  ");
        assert_eq!(
            wrap("a ring of short petaloids", 9),
            ["a ring of", "short", "petaloids"]
        );
    }

    proptest! {
        #[test]
        fn no_row_is_wider_than_asked(text in "\\PC{0,60}", columns in 2_usize..40) {
            prop_assert!(width(&cut(&text, columns)) <= columns);
            prop_assert_eq!(width(&fit(&text, columns)), columns);
            for row in wrap(&text, columns) {
                prop_assert!(width(&row) <= columns, "{:?}", row);
            }
        }
    }
}
