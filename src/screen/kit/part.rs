//! A part of a page: its head, its rows, and what of them is hidden.

use std::ops::Range;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::area;
use super::cursor::Cursor;
use super::text::{CUT, Piece, Row, cut, width};
use crate::screen::theme::{Role, Theme};

/// A part of a page. What has no room in it is told in its last row.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Part {
    head: Head,
    rows: Vec<Row>,
    more: String,
    /// Whether its rows are words, and not a list with a cursor.
    words: bool,
}

/// What stands over the rows.
#[derive(Debug, Clone)]
enum Head {
    Nothing,
    /// A row of its own.
    Bare(Row),
    /// A row that goes on as a line across the part.
    Lined(Row),
}

impl Part {
    /// Rows under a head that goes on as a line.
    pub(in crate::screen) fn new(head: Row, rows: Vec<Row>) -> Part {
        Part::of(Head::Lined(head), rows)
    }

    /// Rows under a head without a line, such as that of a table.
    pub(in crate::screen) fn under(head: Row, rows: Vec<Row>) -> Part {
        Part::of(Head::Bare(head), rows)
    }

    /// Rows without a head.
    pub(in crate::screen) fn bare(rows: Vec<Row>) -> Part {
        Part::of(Head::Nothing, rows)
    }

    fn of(head: Head, rows: Vec<Row>) -> Part {
        Part {
            head,
            rows,
            more: String::new(),
            words: false,
        }
    }

    /// With rows that begin where words begin.
    pub(in crate::screen) fn words(self) -> Part {
        Part {
            words: true,
            ..self
        }
    }

    /// With the key that shows what is hidden.
    pub(in crate::screen) fn more(self, more: impl Into<String>) -> Part {
        let more = more.into();
        Part { more, ..self }
    }

    /// Draws it; nothing where the area has no height.
    pub(in crate::screen) fn paint(self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let head = match self.head {
            Head::Nothing => None,
            Head::Bare(head) => Some(head),
            Head::Lined(head) => Some(in_a_line(head, area.width.into())),
        };
        let body = match &head {
            None => area,
            Some(head) => {
                let [first, body] = area::below_head(area);
                paint_row(head, first, buffer, theme);
                body
            }
        };
        let body = match self.words {
            true => area::inset(body),
            false => body,
        };
        let (shown, hidden) = shown(self.rows.len(), body.height.into());
        let told = (hidden > 0).then(|| Row::of(hides(hidden, &self.more), Role::Doubt));
        let rows = self.rows.into_iter().take(shown).chain(told);
        for (row, area) in rows.zip(body.rows()) {
            paint_row(&row, area, buffer, theme);
        }
    }
}

/// A head at the left of a line across so many columns, and what stands at its right.
pub(in crate::screen) fn lined(left: Row, right: Row, columns: usize) -> Row {
    let piece = |row: Row| match row.width() {
        0 => row,
        _ => Row::of(" ", Role::Plain).and(row).with(" ", Role::Plain),
    };
    let line = |columns: usize| Row::of("\u{2500}".repeat(columns), Role::Line);
    let right = piece(right);
    let left = piece(left).cut(columns.saturating_sub(right.width() + 3));
    let between = columns.saturating_sub(left.width() + right.width() + 2);
    line(1).and(left).and(line(between)).and(right).and(line(1))
}

/// How many of so many rows are shown in a height, and how many are then hidden: where any are,
/// the last row says so.
fn shown(rows: usize, height: usize) -> (usize, usize) {
    match rows <= height {
        true => (rows, 0),
        false => (height.saturating_sub(1), rows + 1 - height.max(1)),
    }
}

/// How many rows are hidden, and by which key they are seen.
fn hides(count: usize, more: &str) -> String {
    format!("{CUT} {count} more {more}")
}

/// The rows about the cursor of a list, with marks where there are more; the row that the cursor is
/// on is always among them.
pub(in crate::screen) fn about(rows: Vec<Row>, cursor: usize, height: usize) -> Vec<Row> {
    let count = rows.len();
    if count <= height || height == 0 {
        return rows;
    }
    let seen = Cursor::on(cursor).seen(count, height);
    let (above, below) = (seen.start, count - seen.end);
    let mut kept: Vec<Row> = rows.into_iter().skip(above).take(height).collect();
    let mark =
        |count: usize, way: &str| Row::of(format!("  {CUT} {} {way}", count + 1), Role::Doubt);
    if above > 0 && cursor > above {
        kept[0] = mark(above, "above");
    }
    if below > 0 && cursor + 1 < seen.end {
        kept[height - 1] = mark(below, "below");
    }
    kept
}

/// What stands before a row of the list of `len` rows that is `seen`: the cursor, or that there is
/// more above or below.
pub(in crate::screen) fn mark(
    at: usize,
    cursor: Option<usize>,
    seen: &Range<usize>,
    len: usize,
) -> &'static str {
    match at {
        _ if cursor == Some(at) => ">",
        _ if at == seen.start && at > 0 => "^",
        _ if at + 1 == seen.end && at + 1 < len => "v",
        _ => " ",
    }
}

/// What is typed or was just done, `said`, and before it as much of how things stand as has room.
pub(in crate::screen) fn standing(how: Vec<Row>, said: Vec<Row>, height: usize) -> Vec<Row> {
    let room = height.saturating_sub(said.len());
    how.into_iter().take(room).chain(said).collect()
}

/// A line down or across an area of one column or one row.
pub(in crate::screen) fn rule(area: Rect, buffer: &mut Buffer, theme: Theme) {
    let symbol = match area.width {
        1 => "\u{2502}",
        _ => "\u{2500}",
    };
    let row = Row::of(symbol.repeat(area.width.into()), Role::Line);
    for line in area.rows() {
        paint_row(&row, line, buffer, theme);
    }
}

/// The row as a head, in a line of so many columns.
fn in_a_line(head: Row, columns: usize) -> Row {
    let line = columns.saturating_sub(head.width() + 3);
    Row::of("\u{2500} ", Role::Line)
        .and(head)
        .with(" ", Role::Plain)
        .with("\u{2500}".repeat(line), Role::Line)
}

/// Draws a row; what is too wide ends with a mark.
fn paint_row(row: &Row, area: Rect, buffer: &mut Buffer, theme: Theme) {
    if area.is_empty() {
        return;
    }
    let columns = usize::from(area.width);
    let too_wide = row.width() > columns;
    let (mut left, mut x) = (columns, area.x);
    for Piece { text, role, strip } in row.pieces() {
        // A mark's own column is kept free where the row goes on.
        let seen = match too_wide && width(text) >= left {
            true => cut(&format!("{text} "), left),
            false => text.clone(),
        };
        let (next, _) = buffer.set_stringn(x, area.y, &seen, left, theme.style(*role));
        if let Some(strip) = strip {
            for at in x..next {
                let cell = &mut buffer[(at, area.y)];
                let said = strip.say(cell.symbol(), at - x);
                cell.set_symbol(&said);
            }
        }
        left -= usize::from(next - x).min(left);
        x = next;
        if left == 0 {
            break;
        }
    }
    // What is chosen is so over the whole width, however far its words go.
    if row.is_chosen() {
        let rest = " ".repeat(left);
        buffer.set_stringn(x, area.y, rest, left, theme.style(Role::Chosen));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn painted(part: Part, width: u16, height: u16) -> Vec<String> {
        let window = area::window(width, height);
        let mut buffer = Buffer::empty(window);
        part.paint(window, &mut buffer, Theme::Plain);
        let row = |y| (0..width).map(move |x| (x, y));
        let shown = |y| row(y).map(|at| buffer[at].symbol()).collect::<String>();
        (0..height)
            .map(|y| shown(y).trim_end().to_string())
            .collect()
    }

    fn rows(texts: &[&str]) -> Vec<Row> {
        texts
            .iter()
            .map(|text| Row::of(text, Role::Plain))
            .collect()
    }

    #[test]
    fn a_part_says_what_it_hides() {
        let part = || {
            Part::new(
                Row::of("Head", Role::Heading),
                rows(&["one", "two", "three"]),
            )
        };
        assert_eq!(
            painted(part(), 9, 4),
            ["\u{2500} Head \u{2500}\u{2500}", "one", "two", "three"]
        );
        let cut = painted(part().more("(w)"), 12, 3);
        assert_eq!(cut[1..], ["one", "\u{2026} 2 more (w)"]);
        assert_eq!(
            painted(Part::bare(rows(&["one", "two"])), 9, 1),
            ["\u{2026} 2 more"]
        );
        assert_eq!(painted(part(), 9, 0), Vec::<String>::new());
        let wide = Part::bare(vec![
            Row::of("formal ", Role::Plain).with("decorative", Role::Key),
        ]);
        assert_eq!(painted(wide, 10, 1), ["formal de\u{2026}"]);
    }

    #[test]
    fn a_list_says_how_many_are_above_and_below() {
        let all = rows(&["0", "1", "2", "3", "4", "5", "6"]);
        let shown = |cursor| -> Vec<String> {
            about(all.clone(), cursor, 4)
                .iter()
                .map(Row::to_string)
                .collect()
        };
        assert_eq!(shown(0), ["0", "1", "2", "  \u{2026} 4 below"]);
        assert_eq!(
            shown(3),
            ["  \u{2026} 2 above", "2", "3", "  \u{2026} 3 below"]
        );
        assert_eq!(shown(6), ["  \u{2026} 4 above", "4", "5", "6"]);
    }

    proptest! {
        #[test]
        fn what_is_hidden_and_what_is_seen_are_all(count in 0_usize..40, height in 1_usize..20) {
            let (seen, hidden) = shown(count, height);
            prop_assert_eq!(seen + hidden, count);
            prop_assert!(seen + usize::from(hidden > 0) <= height);
        }

        #[test]
        fn the_row_under_the_cursor_is_seen(count in 1_usize..40, at in 0_usize..40, height in 1_usize..20) {
            let at = at.min(count - 1);
            let all: Vec<Row> = (0..count).map(|one| Row::of(format!("row {one}."), Role::Plain)).collect();
            let own = all[at].clone();
            let seen = about(all, at, height);
            prop_assert!(seen.len() <= height && seen.contains(&own));
        }
    }
}
