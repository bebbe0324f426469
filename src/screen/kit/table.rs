//! A table that shares out the width it has among its columns.

use std::cmp::Ordering;

use super::text::Row;
use crate::screen::theme::Role;

/// One column: its head, and how wide it may be.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Column {
    head: String,
    /// It is not narrower while a column of a higher rank is still there.
    least: usize,
    /// It grows no further while others have less of what they wish for.
    wish: usize,
    /// 0 stays; of the others the highest is left out first.
    rank: u8,
    /// Whether its cells stand at the right.
    right: bool,
}

impl Column {
    /// A column that nobody asked for.
    pub(in crate::screen) const LEFT_OUT: Column = Column {
        head: String::new(),
        least: 0,
        wish: 0,
        rank: 0,
        right: false,
    };

    /// Words, from the left, in `least` to `wish` columns with the gap behind them.
    pub(in crate::screen) fn words(head: impl Into<String>, least: usize, wish: usize) -> Column {
        Column {
            head: head.into(),
            least,
            wish,
            ..Column::LEFT_OUT
        }
    }

    /// Numbers, to the right, in so many columns with the gap before them.
    pub(in crate::screen) fn numbers(head: impl Into<String>, width: usize) -> Column {
        Column {
            right: true,
            ..Column::words(head, width, width)
        }
    }

    /// The same, left out where there is no room; the highest rank goes first.
    pub(in crate::screen) fn rank(self, rank: u8) -> Column {
        Column { rank, ..self }
    }
}

/// The columns of a table with the width that each has; 0 is left out.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Columns {
    columns: Vec<(Column, usize)>,
    marks: usize,
}

impl Columns {
    /// The columns in a window of so many columns, `marks` of them kept for what stands before a
    /// row. What is left over when every wish is met goes to the last column of words.
    pub(in crate::screen) fn of(columns: Vec<Column>, marks: usize, window: usize) -> Columns {
        let room = window.saturating_sub(marks);
        let widths = columns.iter().map(|column| column.least).collect();
        let widths = grown(&columns, narrowed(&columns, widths, room), room);
        Columns {
            columns: columns.into_iter().zip(widths).collect(),
            marks,
        }
    }

    /// The columns that a cell has for its text; 0 where its column is left out. Words keep a gap
    /// behind them, but before numbers: those have it themselves.
    pub(in crate::screen) fn width(&self, at: usize) -> usize {
        let own = self.columns.get(at);
        own.map_or(0, |(column, width)| {
            let gap = !column.right && self.after(at).is_some_and(|(_, next, _)| !next.right);
            width.saturating_sub(usize::from(gap))
        })
    }

    /// The next column that is there: its place, itself and its width.
    fn after(&self, at: usize) -> Option<(usize, &Column, usize)> {
        let after = self.columns.iter().enumerate().skip(at + 1);
        let mut there = after.filter(|(_, (_, width))| *width > 0);
        there
            .next()
            .map(|(at, (column, width))| (at, column, *width))
    }

    /// The heads over the columns.
    pub(in crate::screen) fn head(&self) -> Row {
        let heads = self.columns.iter();
        let heads = heads.map(|(column, _)| Row::of(&column.head, Role::Quiet));
        self.row(Row::default(), heads)
    }

    /// A row: its marks, and a cell for each column, those that are left out too.
    pub(in crate::screen) fn row(&self, marks: Row, cells: impl IntoIterator<Item = Row>) -> Row {
        let cells: Vec<Row> = cells.into_iter().collect();
        let mut row = marks.fit(self.marks);
        for (at, cell) in cells.iter().enumerate() {
            let Some((column, width)) = self.columns.get(at).filter(|(_, width)| *width > 0) else {
                continue;
            };
            row = row.and(match column.right {
                true => cell.clone().fit_right(*width),
                false => cell.clone().cut(self.room(at, &cells)).fit(*width),
            });
        }
        row
    }

    /// The columns that these words have: one less where a number fills all of its own.
    fn room(&self, at: usize, cells: &[Row]) -> usize {
        let is_full = self.after(at).is_some_and(|(next, column, width)| {
            column.right && cells.get(next).is_some_and(|cell| cell.width() >= width)
        });
        match is_full {
            true => self.width(at).saturating_sub(1),
            false => self.width(at),
        }
    }
}

/// The widths where there is too little room: columns are left out by their rank, then that one
/// of words shrinks which has most of its least.
fn narrowed(columns: &[Column], mut widths: Vec<usize>, room: usize) -> Vec<usize> {
    while widths.iter().sum::<usize>() > room {
        let there = (0..columns.len()).filter(|at| widths[*at] > 0);
        let ranked = there.clone().filter(|at| columns[*at].rank > 0);
        if let Some(at) = ranked.max_by_key(|at| columns[*at].rank) {
            widths[at] = 0;
            continue;
        }
        let least = |at: usize| columns[at].least;
        // A number that is cut says something else: words give way as long as there are any.
        let words = there.clone().filter(|at| !columns[*at].right);
        let most = |one: &usize, other: &usize| by_share(&widths, least, *one, *other);
        match words.max_by(most).or_else(|| there.max_by(most)) {
            Some(at) => widths[at] -= 1,
            None => break,
        }
    }
    widths
}

/// The widths where there is room to spare: that column grows which has least of what it wishes.
fn grown(columns: &[Column], mut widths: Vec<usize>, room: usize) -> Vec<usize> {
    for _ in widths.iter().sum::<usize>()..room {
        let there = (0..widths.len()).filter(|at| widths[*at] > 0);
        let wish = |at: usize| columns[at].wish;
        let wishing = there.clone().filter(|at| widths[*at] < wish(*at));
        let mut words = there.filter(|at| !columns[*at].right);
        let grows = wishing
            .min_by(|one, other| by_share(&widths, wish, *one, *other))
            .or_else(|| words.next_back());
        match grows {
            Some(at) => widths[at] += 1,
            None => break,
        }
    }
    widths
}

/// Two columns by the share that each has of what it should.
fn by_share(
    widths: &[usize],
    whole: impl Fn(usize) -> usize,
    one: usize,
    other: usize,
) -> Ordering {
    (widths[one] * whole(other)).cmp(&(widths[other] * whole(one)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn plain(texts: &[&str]) -> Vec<Row> {
        texts
            .iter()
            .map(|text| Row::of(text, Role::Plain))
            .collect()
    }

    fn table(window: usize) -> Columns {
        let columns = vec![
            Column::words("name", 8, 12),
            Column::words("form", 6, 10).rank(1),
            Column::numbers("price", 7).rank(2),
            Column::LEFT_OUT,
        ];
        Columns::of(columns, 2, window)
    }

    #[test]
    fn columns_go_by_rank_and_grow_to_what_they_wish() {
        let shown = |window| {
            let columns = table(window);
            let row = columns.row(
                Row::of(">", Role::Key),
                plain(&["Ebb Buttermilk", "ball", "4.50", "x"]),
            );
            (columns.head().to_string(), row.to_string())
        };
        for (window, head, row) in [
            (
                31,
                "  name        form        price",
                "> Ebb Butter\u{2026} ball         4.50",
            ),
            (
                23,
                "  name    form    price",
                "> Ebb Bu\u{2026} ball     4.50",
            ),
            (18, "  name     form   ", "> Ebb But\u{2026} ball   "),
            (10, "  name    ", "> Ebb But\u{2026}"),
            (6, "  name", "> Ebb\u{2026}"),
        ] {
            assert_eq!(
                shown(window),
                (head.to_string(), row.to_string()),
                "{window}"
            );
        }
    }

    fn any_column() -> impl Strategy<Value = Column> {
        (0_usize..20, 0_usize..20, 0_u8..4, any::<bool>()).prop_map(|(least, more, rank, right)| {
            match right {
                true => Column::numbers("n", least).rank(rank),
                false => Column::words("w", least, least + more).rank(rank),
            }
        })
    }

    proptest! {
        #[test]
        fn the_shares_are_the_window(
            columns in prop::collection::vec(any_column(), 0..7),
            marks in 0_usize..4,
            window in 4_usize..120,
        ) {
            let mut columns = columns;
            columns.push(Column::words("last", 1, 9));
            let cells = columns.len();
            let table = Columns::of(columns, marks, window);
            prop_assert_eq!(table.head().width(), window);
            let row = table.row(Row::default(), plain(&vec!["a longer text than that"; cells]));
            prop_assert_eq!(row.width(), window);
        }
    }
}
