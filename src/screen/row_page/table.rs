//! The row as a table: only the rows that are seen.

use super::{RowPage, Sum};
use crate::account::Column;
use crate::screen::choose_page::first_shown;
use crate::screen::text::{Row, cut, fit, width};
use crate::screen::theme::Role;
use crate::trial::account::row_table;
use crate::trial::{Fate, Subject};

/// The place of the form in the row's table.
const FORM: usize = 1;

/// The columns of the table, by what there is room for; 0 is left out.
#[derive(Debug, Clone, Copy)]
struct Columns {
    subject: usize,
    form: usize,
    mean: usize,
    vase: usize,
    damage: usize,
    stands: usize,
    next: usize,
}

impl RowPage {
    fn columns(&self, columns: usize) -> Columns {
        let named = |at: &usize| matches!(self.sums[*at].evidence.subject, Subject::Variety(_));
        let subject = if self.shown.iter().any(named) { 14 } else { 8 };
        let wide = columns >= 100;
        let form = if wide { 28 } else { 19 };
        let (mean, vase, stands) = (9, 7, 9);
        let damage = if columns >= 76 { 7 } else { 0 };
        let taken = 2 + subject + form + mean + vase + damage + stands;
        Columns {
            subject,
            form,
            mean,
            vase,
            damage,
            stands,
            next: columns.saturating_sub(taken),
        }
    }

    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        let at = self.columns(columns);
        let table = row_table();
        let cells = table.columns.iter().zip(at.widths());
        let add = |row: Row, (column, width): (&Column, usize)| {
            row.with(fit(&column.name, width), Role::Quiet)
        };
        cells.fold(Row::of("  ", Role::Plain), add)
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
        let at = self.columns(columns);
        let first = first_shown(self.cursor, self.shown.len(), height);
        let seen = self.shown.iter().enumerate().skip(first).take(height);
        seen.map(|(place, sum)| self.table_row(&self.sums[*sum], place == self.cursor, at))
            .collect()
    }

    fn table_row(&self, sum: &Sum, chosen: bool, at: Columns) -> Row {
        let picked = self.compared.contains(&sum.evidence.subject);
        let mark = if chosen { ">" } else { " " };
        let plant = self.plant(sum);
        let mut cells = plant.cells(&sum.next, &self.by());
        let taken = plant.taken(&self.by());
        let too_wide = width(&cells[FORM].shown()) >= at.form;
        if let Some(taken) = taken.filter(|_| too_wide) {
            // The share, or where else it is from, is what must not be cut.
            let ground = brief(&taken.ground());
            let room = at.form.saturating_sub(ground.len() + 2);
            let name = cut(taken.name(&self.plot.keyer.set), room);
            cells[FORM] = format!("{name} {ground}").into();
        }
        let mut row = Row::of(mark, Role::Strong).with(if picked { "x" } else { " " }, Role::Doubt);
        for ((cell, width), role) in cells.iter().zip(at.widths()).zip(roles(sum)) {
            row = row.with(fit(&brief_in(cell.shown(), width), width), role);
        }
        if chosen { row.all(Role::Chosen) } else { row }
    }
}

/// The text, with signs for words where they would be cut.
fn brief_in(text: String, columns: usize) -> String {
    match width(&text) < columns {
        true => text,
        false => brief(&text),
    }
}

fn brief(text: &str) -> String {
    text.replace("over ", ">").replace("under ", "<")
}

impl Columns {
    /// In the order of the row's table.
    fn widths(self) -> [usize; 7] {
        [
            self.subject,
            self.form,
            self.mean,
            self.vase,
            self.damage,
            self.stands,
            self.next,
        ]
    }
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
