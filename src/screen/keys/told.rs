//! The table of keys as it is read: the footer and the help.

use super::Place::{
    Anywhere, Asking, Browsing, Choosing, Finding, Naming, Noting, Ordering, Page, Pages, Picking,
    Reckoning, Rowing, Sheet, Tagging, Typing, Writing,
};
use super::{BINDINGS, Binding, Place};
use crate::screen::text::{Row, paragraph};
use crate::screen::theme::Role;

/// The footer: the keys of the open places that fit, and always how to see them all.
pub fn footer(places: &[Place], columns: usize) -> Row {
    let told = |row: &&Binding| !row.short.is_empty() && row.is_reached(places);
    let mut rows: Vec<&Binding> = BINDINGS.iter().filter(told).collect();
    // The last rows lead to help and out: they stay when the window is narrow.
    let stays = |row: &Binding| matches!(row.short, "keys" | "quit" | "back" | "why");
    let needed = |rows: &[&Binding]| -> usize {
        rows.iter()
            .map(|row| first_key(row).len() + row.short.len() + 3)
            .sum()
    };
    while needed(&rows) > columns {
        let Some(last) = rows.iter().rposition(|row| !stays(row)) else {
            break;
        };
        rows.remove(last);
    }
    let add = |line: Row, row: &&Binding| {
        line.with(" ", Role::Plain)
            .with(first_key(row), Role::Key)
            .with(format!(" {} ", row.short), Role::Quiet)
    };
    rows.iter().fold(Row::default(), add)
}

/// The first of the keys as they are shown: the footer has little room.
fn first_key(row: &Binding) -> &'static str {
    row.keys.split(" or ").next().unwrap_or(row.keys)
}

/// The help: every row of the table, by place, where the grower is first.
pub fn help(here: Place, columns: usize) -> Vec<Row> {
    let mut parts: [(&str, &[Place]); 15] = [
        ("At a question", &[Asking]),
        ("While a number is typed", &[Typing]),
        ("While a trait is looked for", &[Finding]),
        ("While forms are looked through", &[Browsing]),
        ("At the list", &[Choosing]),
        ("While a line is typed", &[Writing]),
        ("While a value is picked", &[Picking]),
        ("At the row", &[Rowing]),
        ("While a note is typed", &[Noting]),
        ("At the order", &[Ordering]),
        ("While a figure is typed", &[Reckoning]),
        ("At the tags", &[Tagging]),
        ("While a name is typed", &[Naming]),
        ("On any page", &[Page, Pages, Anywhere]),
        ("On a sheet such as this", &[Sheet]),
    ];
    parts.sort_by_key(|(_, places)| !places.contains(&here));
    let mut rows = Vec::new();
    for (title, places) in parts {
        if !rows.is_empty() {
            rows.push(Row::default());
        }
        rows.push(Row::of(title, Role::Heading));
        for row in BINDINGS
            .iter()
            .filter(|row| places.contains(&row.place) && row.is_open())
        {
            let lead = format!("  {:<14} ", row.keys);
            rows.extend(paragraph(
                (&lead, Role::Key),
                row.long,
                Role::Plain,
                columns,
            ));
        }
    }
    rows
}
