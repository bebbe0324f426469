//! Two to four varieties side by side.

use super::ChoosePage;
use crate::screen::text::{Row, fit, wrap};
use crate::screen::theme::Role;
use crate::variety::compare;

/// The mark, the field's name and the gap before the values.
pub(in crate::screen) const LEAD: usize = 16;

impl ChoosePage {
    /// What is compared, field by field; where the values differ the field is marked.
    pub(super) fn side_by_side(&self, columns: usize) -> Vec<Row> {
        let picked = self.to_compare();
        let varieties: Vec<_> = picked.iter().map(|row| self.known(*row)).collect();
        let each = columns.saturating_sub(LEAD) / varieties.len().max(1);
        let mut rows = vec![Row::of("* differs, ? unknown", Role::Quiet)];
        let names: Vec<String> = varieties.iter().map(|one| one.name.to_string()).collect();
        rows.extend(field(("", false), &names, each, Role::Heading));
        for line in compare(&varieties, self.stock.grounds(), self.stock.units) {
            let shown = |value: &Option<String>| value.clone().unwrap_or_else(|| "?".to_string());
            let values: Vec<String> = line.values.iter().map(shown).collect();
            let role = if line.differs {
                Role::Strong
            } else {
                Role::Plain
            };
            rows.extend(field((&line.field, line.differs), &values, each, role));
        }
        rows
    }
}

/// One field's rows: each value wrapped in its own column.
pub(in crate::screen) fn field(
    (name, differs): (&str, bool),
    values: &[String],
    each: usize,
    role: Role,
) -> Vec<Row> {
    let inner = each.saturating_sub(2);
    let names = wrap(name, LEAD - 3);
    let cells: Vec<Vec<String>> = values.iter().map(|value| wrap(value, inner)).collect();
    let height = cells
        .iter()
        .map(Vec::len)
        .chain([names.len()])
        .max()
        .unwrap_or(0);
    let line = |at: usize| {
        let mark = if differs && at == 0 { "* " } else { "  " };
        let name = names.get(at).map_or("", String::as_str);
        let row = Row::of(mark, Role::Doubt).with(fit(name, LEAD - 2), Role::Quiet);
        cells.iter().fold(row, |row, cell| {
            let text = cell.get(at).map_or("", String::as_str);
            row.with(fit(text, inner) + "  ", role)
        })
    };
    (0..height).map(line).collect()
}
