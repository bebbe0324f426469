//! The row as a table: only the rows that are seen.

use super::{RowPage, Sum};
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, cut};
use crate::screen::theme::Role;
use crate::trial::{Fate, Subject};

/// What stands where nothing was looked at.
const UNKNOWN: &str = "?";
/// The columns of the cursor and of what is picked to be compared.
const MARKS: usize = 2;

impl RowPage {
    fn columns(&self, columns: usize) -> Columns {
        let named = |at: &usize| matches!(self.sums[*at].evidence.subject, Subject::Variety(_));
        let plant = if self.shown.iter().any(named) { 14 } else { 8 };
        let table = vec![
            Column::words("plant", plant, plant),
            Column::words("form so far", 19, 28),
            Column::words("mean", 9, 9),
            Column::words("vase", 7, 7),
            Column::words("harm", 6, 6).rank(1),
            Column::words("advice", 8, 8),
            Column::words("what next", 11, 34),
        ];
        Columns::of(table, MARKS, columns)
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
        let evidence = &sum.evidence;
        let picked = self.compared.contains(&evidence.subject);
        let mark = if chosen { ">" } else { " " };
        let marks = Row::of(mark, Role::Strong).with(if picked { "x" } else { " " }, Role::Doubt);
        let mean = evidence.diameters.as_ref();
        let mean = mean.map_or(UNKNOWN.to_string(), |seen| {
            seen.mean().shown(self.plot.units)
        });
        let (fate, role) = fate(sum);
        let next = match &evidence.decision {
            Some((_, decision)) if decision.fate != Fate::Hold => decision
                .reason
                .as_ref()
                .map_or("", |reason| reason.as_str()),
            _ => &sum.next.told,
        };
        let cells = [
            Row::of(evidence.subject.to_string(), Role::Strong),
            Row::of(self.form(sum, columns.width(1)), Role::Plain),
            Row::of(mean, Role::Plain),
            Row::of(vase(sum), Role::Plain),
            Row::of(harm(sum), Role::Plain),
            Row::of(fate, role),
            Row::of(next, Role::Quiet),
        ];
        columns.row(marks, cells).in_list(chosen)
    }

    /// The form so far. The share, or where else it is from, is what must not be cut.
    fn form(&self, sum: &Sum, columns: usize) -> String {
        let Some(taken) = self.taken(sum) else {
            return UNKNOWN.to_string();
        };
        let name = taken.name(&self.plot.keyer.set);
        let ground = taken.ground().replace("over ", ">").replace("under ", "<");
        let room = columns.saturating_sub(ground.len() + 1);
        format!("{} {ground}", cut(name, room))
    }
}

/// The median days, or that over half outlasted the test.
fn vase(sum: &Sum) -> String {
    match &sum.evidence.vase {
        None => UNKNOWN.to_string(),
        Some(curve) => match curve.median {
            Some(median) => format!("{median} d"),
            None => format!(">{} d", curve.watched),
        },
    }
}

/// The share of open blooms that the worst weather damaged.
fn harm(sum: &Sum) -> String {
    let shares = sum
        .evidence
        .damage
        .iter()
        .filter_map(|one| one.share.value());
    let worst = shares.max_by(f64::total_cmp);
    worst.map_or(UNKNOWN.to_string(), |share| {
        format!("{:.0} %", share * 100.0)
    })
}

/// What was decided, else what is advised, with a question mark.
fn fate(sum: &Sum) -> (&'static str, Role) {
    match &sum.evidence.decision {
        Some((_, decision)) => match decision.fate {
            Fate::Keep => ("kept", Role::Fits),
            Fate::Hold => ("held", Role::Plain),
            Fate::Cull => ("culled", Role::Quiet),
        },
        None => match sum.advice.fate {
            Fate::Keep => ("keep?", Role::Fits),
            Fate::Hold => ("hold?", Role::Doubt),
            Fate::Cull => ("cull?", Role::Wrong),
        },
    }
}
