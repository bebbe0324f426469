//! What each digit begins to note, said above a table.

use super::text::{Row, width};
use crate::screen::theme::Role;

/// All of them however narrow the window.
pub(in crate::screen) fn digits<'a>(
    all: impl Iterator<Item = (char, &'a str)>,
    columns: usize,
) -> Vec<Row> {
    let lead = "Note:";
    let mut rows = vec![lead.to_string()];
    for (digit, name) in all {
        let told = format!("{digit} {name}");
        let has_room = |row: &&mut String| width(row) + 2 + width(&told) <= columns;
        match rows.last_mut().filter(has_room) {
            Some(row) if row == lead => *row += &format!(" {told}"),
            Some(row) => *row += &format!("  {told}"),
            None => rows.push(format!("{:lead$} {told}", "", lead = lead.len())),
        }
    }
    let rows = rows.iter();
    rows.map(|row| Row::of(row, Role::Quiet)).collect()
}
