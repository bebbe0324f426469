//! The row as a table: only the rows that are seen.

use super::{RowPage, Sum};
use crate::account::text::{Side, width};
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, cut};
use crate::screen::theme::Role;
use crate::trial::Fate;
use crate::trial::account::row_table;

/// The place of the form in the row's table.
const FORM: usize = 1;
/// That of the decision.
const DECISION: usize = 5;
/// The columns of a plant's number or name, with the gap behind it.
const PLANT: (usize, usize) = (8, 14);
/// In a narrower table form and next step give way, so that a plant's number is not cut.
const NARROW: usize = 56;
/// The columns of the cursor and of what is picked to be compared.
const MARKS: usize = 4;

impl RowPage {
    fn columns(&self, columns: usize) -> Columns {
        let plant = |at: &usize| width(&self.sums[*at].evidence.subject.to_string());
        let plant = self.shown.iter().map(plant).max().unwrap_or(0);
        let plant = (plant + 1).clamp(PLANT.0, PLANT.1);
        // A number is whole on a telephone too.
        let (form, next) = match columns < NARROW {
            true => (14, 18),
            false => (19, 22),
        };
        // In the order of the row's table: at least, at best, and what is left out first.
        let widths = [
            (plant, plant, 0),
            (form, 28, 0),
            (8, 8, 3),
            (7, 7, 4),
            (9, 9, 5),
            (10, 10, 1),
            (7, 7, 2),
            (next, 64, 0),
        ];
        let heads = row_table(self.plot.units)
            .columns
            .into_iter()
            .zip(widths)
            .enumerate();
        let column = |(at, (head, (least, wish, rank))): (usize, (crate::account::Column, _))| {
            let column = match head.side {
                Side::Right => Column::numbers(head.name, least),
                Side::Left => Column::words(after_numbers(at, head.name), least, wish),
            };
            column.rank(rank)
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
        let marks = Row::of(mark, Role::Strong).with(if picked { " x" } else { "  " }, Role::Doubt);
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
        let cells = cells.map(|(at, (cell, role))| {
            let text = brief_in(cell.shown(), columns.width(at));
            Row::of(after_numbers(at, text), role)
        });
        columns.row(marks, cells).in_list(chosen)
    }
}

/// The decision stands behind figures, which keep no gap behind them.
fn after_numbers(at: usize, text: String) -> String {
    match at {
        DECISION => format!(" {text}"),
        _ => text,
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
fn roles(sum: &Sum) -> [Role; 8] {
    let decision = sum.evidence.decision.as_ref();
    let decided = match decision.map(|(_, decision)| decision.fate) {
        Some(Fate::Keep) => Role::Fits,
        Some(Fate::Hold) => Role::Plain,
        Some(Fate::Cull) | None => Role::Quiet,
    };
    let advised = match (decision, sum.advice.fate) {
        // Advice is for what is open.
        (Some(_), _) => Role::Quiet,
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
        decided,
        advised,
        plain,
    ]
}
