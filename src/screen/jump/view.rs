//! The jump line as it is drawn, over the upper part of the page.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::Jump;
use super::place::Place;
use crate::account::text::counted;
use crate::matching::Query;
use crate::screen::kit::area;
use crate::screen::kit::part::{Part, mark};
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, width};
use crate::screen::theme::{Role, Theme};

/// What is said below the line.
const HINT: &str = "A variety, seedling, form, trait, need, bed, supplier or command: a part of its name, its first letters, or letters in order.";
/// The fewest rows that it takes where there are as many; else two thirds of the page.
const LEAST: u16 = 12;
/// The columns of the cursor, or of that there is more.
const MARKS: usize = 2;
/// The columns of what a place is, and the least of its name and of what is said of it.
const KIND: usize = 10;
const NAME: usize = 16;
const ASIDE: usize = 12;

impl Jump {
    /// Draws it over the page, which is seen below it.
    pub(in crate::screen) fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let height = (area.height * 2 / 3).max(LEAST).min(area.height);
        let [over, _] = area::rows(area, [Length(height), Fill(1)]);
        let (columns, height) = area::size(over);
        let words = area::of_words(over);
        let typed = self.line.rows("Jump to", (HINT, Role::Quiet), words);
        let edge = " ".repeat(area::EDGE.into());
        let typed = typed
            .into_iter()
            .map(|row| Row::of(&edge, Role::Plain).and(row));
        let mut rows: Vec<Row> = typed.collect();
        // The list has at least half.
        rows.truncate((height / 2).max(1));
        let room = height.saturating_sub(rows.len() + 1);
        rows.extend(self.list(columns, room));
        rows.resize(height.saturating_sub(1), Row::default());
        rows.push(self.foot(columns));
        // What is under it is blanked.
        let rows = rows.into_iter().map(|row| row.fit(columns)).collect();
        Part::bare(rows).paint(over, buffer, theme);
    }

    /// As many of the found as have room, the cursor among them.
    fn list(&self, columns: usize, height: usize) -> Vec<Row> {
        let len = self.found.len();
        let cursor = self.cursor.row(len);
        let seen = self.cursor.seen(len, height);
        let shown = &self.found[seen.clone()];
        let longest = |text: fn(&Place) -> &str| {
            let wide = shown.iter().map(|place| width(text(place)));
            wide.max().unwrap_or(0) + 1
        };
        let (name, aside) = (longest(|one| &one.name), longest(|one| &one.aside));
        let table = Columns::of(
            vec![
                Column::words("", KIND, KIND),
                Column::words("", NAME.min(name), name),
                Column::words("", ASIDE.min(aside), aside),
            ],
            MARKS,
            columns,
        );
        let query = self.query();
        let row = |at: usize| {
            let place = &self.found[at];
            let cells = [
                Row::of(place.kind.word(), Role::Quiet),
                marked(&place.name, &query),
                Row::of(&place.aside, Role::Quiet),
            ];
            let mark = mark(at, Some(cursor), &seen, len);
            let row = table.row(Row::of(mark, Role::Strong), cells);
            row.in_list(at == cursor)
        };
        seen.clone().map(row).collect()
    }

    /// How many are found, in a line.
    fn foot(&self, columns: usize) -> Row {
        let told = match self.count {
            0 => "Nothing is called so".to_string(),
            count => format!("{} found, the best first", counted(count, "place")),
        };
        let line = columns.saturating_sub(width(&told) + 4);
        Row::of("\u{2500} ", Role::Line)
            .with(told, Role::Quiet)
            .with(" ", Role::Plain)
            .with("\u{2500}".repeat(line), Role::Line)
    }
}

/// The name with the letters marked that the query found.
fn marked(name: &str, query: &Query) -> Row {
    let marks = query.marks(name);
    let letters: Vec<(char, bool)> = name.chars().zip(marks).collect();
    let runs = letters.chunk_by(|(_, a), (_, b)| a == b);
    runs.fold(Row::default(), |row, run| {
        let text: String = run.iter().map(|(c, _)| c).collect();
        let role = match run[0].1 {
            true => Role::Found,
            false => Role::Plain,
        };
        row.with(text, role)
    })
}
