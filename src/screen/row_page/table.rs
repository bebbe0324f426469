//! The row as a table: only the rows that are seen.

use super::{RowPage, Sum};
use crate::account::text::width;
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, cut};
use crate::screen::theme::Role;
use crate::trial::account::row_table;
use crate::trial::{Fate, Subject};

/// The place of the form in the row's table.
const FORM: usize = 1;
/// The columns of the cursor and of what is picked to be compared.
const MARKS: usize = 2;

impl RowPage {
    fn columns(&self, columns: usize) -> Columns {
        let named = |at: &usize| matches!(self.sums[*at].evidence.subject, Subject::Variety(_));
        let plant = if self.shown.iter().any(named) { 14 } else { 8 };
        // In the order of the row's table: at least, at best, and what is left out first.
        let widths = [
            (plant, plant, 0),
            (19, 28, 0),
            (9, 9, 0),
            (7, 7, 0),
            (7, 7, 1),
            (9, 9, 0),
            (11, 34, 0),
        ];
        let heads = row_table().columns.into_iter().zip(widths);
        let column = |(head, (least, wish, rank)): (crate::account::Column, _)| {
            Column::words(head.name, least, wish).rank(rank)
        };
        Columns::of(heads.map(column).collect(), MARKS, columns)
    }

    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        self.columns(columns).head()
    }

    /// As many rows as fit, the cursor among them.
    pub(super) fn table(&self, columns: usize, height: usize) -> Vec<Row> {
        if self.shown.is_empty() {
            let told = match self.sums.is_empty() {
                true => "The row is empty: a adds the first seedling.",
                false => "No plant of the row holds these words: / changes them.",
            };
            return vec![Row::of(format!("  {told}"), Role::Doubt)];
        }
        let count = self.shown.len();
        let table = self.columns(columns);
        let row = |place: usize| {
            let sum = &self.sums[self.shown[place]];
            self.table_row(sum, place == self.cursor.row(count), &table)
        };
        self.cursor.seen(count, height).map(row).collect()
    }

    fn table_row(&self, sum: &Sum, chosen: bool, columns: &Columns) -> Row {
        let picked = self.compared.contains(&sum.evidence.subject);
        let mark = if chosen { ">" } else { " " };
        let marks = Row::of(mark, Role::Strong).with(if picked { "x" } else { " " }, Role::Doubt);
        let plant = self.plant(sum);
        let mut cells = plant.cells(&sum.next, &self.by());
        let taken = plant.taken(&self.by());
        let room = columns.width(FORM);
        let too_wide = width(&cells[FORM].shown()) > room;
        if let Some(taken) = taken.filter(|_| too_wide) {
            // The share, or where else it is from, is what must not be cut.
            let ground = brief(&taken.ground());
            let name = taken.name(&self.plot.keyer.set);
            let name = cut(name, room.saturating_sub(ground.len() + 1));
            cells[FORM] = format!("{name} {ground}").into();
        }
        let cells = cells.iter().zip(roles(sum)).enumerate();
        let cells = cells
            .map(|(at, (cell, role))| Row::of(brief_in(cell.shown(), columns.width(at)), role));
        columns.row(marks, cells).in_list(chosen)
    }
}

/// The text, with signs for words where they would be cut.
fn brief_in(text: String, columns: usize) -> String {
    match width(&text) <= columns {
        true => text,
        false => brief(&text),
    }
}

fn brief(text: &str) -> String {
    text.replace("over ", ">").replace("under ", "<")
}

/// What each cell of a plant's row is, in the order of the row's table.
fn roles(sum: &Sum) -> [Role; 7] {
    let stands = match (&sum.evidence.decision, sum.advice.fate) {
        (Some((_, decision)), _) => match decision.fate {
            Fate::Keep => Role::Fits,
            Fate::Hold => Role::Plain,
            Fate::Cull => Role::Quiet,
        },
        (None, Fate::Keep) => Role::Fits,
        (None, Fate::Hold) => Role::Doubt,
        (None, Fate::Cull) => Role::Wrong,
    };
    let plain = Role::Plain;
    [
        Role::Strong,
        plain,
        plain,
        plain,
        plain,
        stands,
        Role::Quiet,
    ]
}
