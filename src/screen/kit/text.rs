//! Text for the screen: the one door through which words reach the terminal.
//!
//! A `Row` holds only cleaned text, so that no data can move the cursor, change colours or turn
//! the direction of writing. Widths are columns, never bytes or characters.

use std::fmt;

use unicode_segmentation::UnicodeSegmentation;

use super::strip::Strip;
use crate::account;
use crate::screen::theme::Role;

use crate::account::text::is_ascii_letters;
pub use crate::account::text::width;
use crate::problem::steers;

/// What stands in place of a character that must not reach the terminal.
const BLANKED: char = '\u{b7}';
/// The lower half of a cell: a swatch where the cursor is.
const HALF: &str = "\u{2584}";
/// The most columns of running text: longer lines lose the eye on its way back. Common practice, no
/// source.
pub(super) const PROSE: usize = 90;
/// What stands where a text was cut.
pub(super) const CUT: &str = "\u{2026}";

/// One row of a page: cleaned pieces of text with what they are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    pieces: Vec<Piece>,
    /// Whether the cursor of a list is on it.
    chosen: bool,
}

/// A piece of text, what it is, and where in a picture it stands for a part of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    pub(super) text: String,
    pub(super) role: Role,
    pub(super) strip: Option<Strip>,
}

impl Row {
    /// A row of one piece.
    pub fn of(text: impl AsRef<str>, role: Role) -> Row {
        Row::default().with(text, role)
    }

    /// The row with one more piece.
    pub fn with(mut self, text: impl AsRef<str>, role: Role) -> Row {
        self.pieces.push(Piece {
            text: clean(text.as_ref()),
            role,
            strip: None,
        });
        self
    }

    /// The row as one of a picture, by its number: where all its rows are seen, the picture is.
    pub(in crate::screen) fn in_picture(mut self, picture: u32, row: u16) -> Row {
        let mut column = 0;
        for piece in &mut self.pieces {
            let at = (column, row);
            piece.strip = Some(Strip { picture, at });
            column = column.saturating_add(u16::try_from(width(&piece.text)).unwrap_or(u16::MAX));
        }
        self
    }

    /// The row with another after it.
    pub fn and(mut self, other: Row) -> Row {
        self.pieces.extend(other.pieces);
        self.chosen |= other.chosen;
        self
    }

    /// Its width in columns.
    pub fn width(&self) -> usize {
        self.pieces.iter().map(|piece| width(&piece.text)).sum()
    }

    /// The row in at most so many columns, with a mark where it was cut.
    pub fn cut(self, columns: usize) -> Row {
        if self.width() <= columns {
            return self;
        }
        let mut left = columns;
        let mut kept = Row {
            chosen: self.chosen,
            ..Row::default()
        };
        for mut piece in self.pieces {
            // Where the rest is dropped there is a mark: a column is kept free for it.
            if width(&piece.text) >= left {
                piece.text = cut(&format!("{} ", piece.text), left);
            }
            left -= width(&piece.text).min(left);
            kept.pieces.push(piece);
            if left == 0 {
                break;
            }
        }
        kept
    }

    /// The row in exactly so many columns: cut with a mark, or filled with spaces behind it.
    pub fn fit(self, columns: usize) -> Row {
        let row = self.cut(columns);
        let fill = columns.saturating_sub(row.width());
        row.with(" ".repeat(fill), Role::Plain)
    }

    /// The same with the spaces before it.
    pub fn fit_right(self, columns: usize) -> Row {
        let row = self.cut(columns);
        let fill = columns.saturating_sub(row.width());
        Row::of(" ".repeat(fill), Role::Plain).and(row)
    }

    /// The row as one of a list: in reverse where the cursor is on it.
    pub fn in_list(self, chosen: bool) -> Row {
        match chosen {
            true => Row {
                chosen: true,
                ..self.all(Role::Chosen)
            },
            false => self,
        }
    }

    /// Whether the cursor of a list is on it.
    pub(super) fn is_chosen(&self) -> bool {
        self.chosen
    }

    /// Its pieces in order.
    pub(super) fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The row with every piece but a flower's colours in one role: where the cursor is. What was
    /// looked for stays marked, and a swatch leaves room for what chooses it.
    pub fn all(mut self, role: Role) -> Row {
        for piece in &mut self.pieces {
            piece.role = match piece.role {
                Role::Swatch(colour) if role == Role::Chosen => {
                    piece.text = HALF.repeat(width(&piece.text));
                    Role::ChosenSwatch(colour)
                }
                own @ (Role::Swatch(_) | Role::Petal(..) | Role::MarkedPetal(..)) => own,
                Role::Found if role == Role::Chosen => Role::ChosenFound,
                _ => role,
            };
        }
        self
    }
}

impl fmt::Display for Row {
    /// The text alone.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.pieces
            .iter()
            .try_for_each(|piece| f.write_str(&piece.text))
    }
}

/// Replaces control characters and those that turn or hide writing; keeps accents.
pub fn clean(text: &str) -> String {
    if is_ascii_letters(text) {
        return text.to_string();
    }
    text.chars()
        .map(|c| if steers(c) { BLANKED } else { c })
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

/// A paragraph: `lead` in its own role before the first row, the rest indented under it.
pub fn paragraph(lead: (&str, Role), text: &str, role: Role, columns: usize) -> Vec<Row> {
    let indent = width(lead.0);
    let wrapped = wrap(text, columns.min(PROSE).saturating_sub(indent));
    let row = |(at, text): (usize, &String)| match at {
        0 => Row::of(lead.0, lead.1).with(text, role),
        _ => Row::of(" ".repeat(indent), Role::Plain).with(text, role),
    };
    wrapped.iter().enumerate().map(row).collect()
}

/// The text in rows of one role.
pub fn lines(text: &str, role: Role, columns: usize) -> Vec<Row> {
    let wrapped = wrap(text, columns.min(PROSE));
    wrapped.iter().map(|line| Row::of(line, role)).collect()
}

/// The text broken into at most so many rows, with a mark where there would be more.
pub fn wrap_within(text: &str, columns: usize, height: usize) -> Vec<String> {
    let columns = columns.min(PROSE);
    let mut rows = wrap(text, columns);
    if rows.len() > height {
        rows.truncate(height);
        if let Some(last) = rows.last_mut() {
            *last = match width(last) + 2 > columns {
                true => cut(&format!("{last} "), columns.min(width(last))),
                false => format!("{last} {CUT}"),
            };
        }
    }
    rows
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
