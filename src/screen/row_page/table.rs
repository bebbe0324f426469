//! The row as a table: only the rows that are seen.

use super::{RowPage, Sum};
use crate::screen::choose_page::first_shown;
use crate::screen::text::{Row, fit};
use crate::screen::theme::Role;
use crate::trial::{Fate, Subject};

/// What stands where nothing was looked at.
const UNKNOWN: &str = "?";

/// The columns of the table, by what there is room for; 0 is left out.
#[derive(Debug, Clone, Copy)]
struct Columns {
    subject: usize,
    form: usize,
    mean: usize,
    vase: usize,
    harm: usize,
    fate: usize,
    next: usize,
}

impl RowPage {
    fn columns(&self, columns: usize) -> Columns {
        let named = |at: &usize| matches!(self.sums[*at].evidence.subject, Subject::Variety(_));
        let subject = if self.shown.iter().any(named) { 14 } else { 8 };
        let wide = columns >= 100;
        let form = if wide { 28 } else { 19 };
        let (mean, vase, fate) = (9, 7, 8);
        let harm = if columns >= 76 { 6 } else { 0 };
        let taken = 2 + subject + form + mean + vase + harm + fate;
        Columns {
            subject,
            form,
            mean,
            vase,
            harm,
            fate,
            next: columns.saturating_sub(taken),
        }
    }

    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        let at = self.columns(columns);
        let cells = [
            ("plant", at.subject),
            ("form so far", at.form),
            ("mean", at.mean),
            ("vase", at.vase),
            ("harm", at.harm),
            ("advice", at.fate),
            ("what next", at.next),
        ];
        let add = |row: Row, (text, width): (&str, usize)| row.with(fit(text, width), Role::Quiet);
        cells.into_iter().fold(Row::of("  ", Role::Plain), add)
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
        let evidence = &sum.evidence;
        let picked = self.compared.contains(&evidence.subject);
        let mark = if chosen { ">" } else { " " };
        let form = match self.taken(sum) {
            Some(taken) => {
                let name = taken.name(&self.plot.keyer.set);
                // The share, or where else it is from, is what must not be cut.
                let ground = taken.ground().replace("over ", ">").replace("under ", "<");
                let room = at.form.saturating_sub(ground.len() + 2);
                format!("{} {ground}", crate::screen::text::cut(name, room))
            }
            None => UNKNOWN.to_string(),
        };
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
        let row = Row::of(mark, Role::Strong)
            .with(if picked { "x" } else { " " }, Role::Doubt)
            .with(fit(&evidence.subject.to_string(), at.subject), Role::Strong)
            .with(fit(&form, at.form), Role::Plain)
            .with(fit(&mean, at.mean), Role::Plain)
            .with(fit(&vase(sum), at.vase), Role::Plain)
            .with(fit(&harm(sum), at.harm), Role::Plain)
            .with(fit(fate, at.fate), role)
            .with(fit(next, at.next), Role::Quiet);
        if chosen { row.all(Role::Chosen) } else { row }
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
