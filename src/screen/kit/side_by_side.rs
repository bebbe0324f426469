//! Things set side by side, field by field.

use super::text::{Row, fit, wrap};
use crate::screen::theme::Role;

/// The mark, the field's name and the gap before the values.
pub(in crate::screen) const LEAD: usize = 16;

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
