//! The table of keys as it is read: the footer and the help.

use super::Mode::{
    Anywhere, Asking, Beginning, Browsing, Choosing, Filling, Finding, ImportingAnswer,
    ImportingFile, ImportingPreview, ImportingWords, Jumping, Line, List, Naming, Noting, Ordering,
    Page, Pages, Picking, Reckoning, Rowing, Sheet, Small, Tagging, Typing, Writing,
};
use super::{BINDINGS, Binding, Mode};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;

/// The footer: the keys of the mode that fit, and always how to see them all.
pub fn footer(mode: Mode, columns: usize) -> Row {
    let in_it = |row: &&Binding| !row.short.is_empty() && row.is_reached(mode);
    let mut rows: Vec<&Binding> = BINDINGS.iter().filter(in_it).collect();
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

/// The help: every row of the table by mode, where the grower is first, and then what holds there
/// too.
pub fn help(here: Mode, columns: usize) -> Vec<Row> {
    let mut parts: [(&str, &[Mode]); 25] = [
        ("At a question", &[Asking]),
        ("While a number is typed", &[Typing]),
        ("While a trait is looked for", &[Finding]),
        ("While forms are looked through", &[Browsing]),
        ("At the list", &[Choosing]),
        ("While words, a colour or a note are typed", &[Writing]),
        ("While a value is picked", &[Picking]),
        ("While a file to read in is chosen", &[ImportingFile]),
        (
            "While headings and words are asked about",
            &[ImportingWords],
        ),
        ("While another answer is typed", &[ImportingAnswer]),
        (
            "While it is seen what a file would change",
            &[ImportingPreview],
        ),
        ("At the row", &[Rowing]),
        ("While a note along the row is typed", &[Noting]),
        ("At the order", &[Ordering]),
        ("Where there is no order yet", &[Beginning]),
        ("While a figure is typed", &[Reckoning]),
        ("At the tags", &[Tagging]),
        ("While a name is typed", &[Naming]),
        ("On a slip that is filled in", &[Filling]),
        ("Up and down any list", &[List]),
        ("On any line that is typed", &[Line]),
        ("On any page", &[Page, Pages, Anywhere]),
        ("On the jump line", &[Jumping]),
        ("On a sheet such as this", &[Sheet]),
        ("In a window that is too small", &[Small]),
    ];
    let holds = |modes: &[Mode]| here.with().iter().any(|mode| modes.contains(mode));
    parts.sort_by_key(|(_, modes)| match modes.contains(&here) {
        true => 0,
        false if holds(modes) => 1,
        false => 2,
    });
    let mut rows = Vec::new();
    for (title, modes) in parts {
        if !rows.is_empty() {
            rows.push(Row::default());
        }
        rows.push(Row::of(title, Role::Heading));
        let own = |row: &&Binding| modes.contains(&row.mode) && row.is_open();
        for row in BINDINGS.iter().filter(own) {
            let lead = format!("  {:<14} ", row.keys);
            let lead = (lead.as_str(), Role::Key);
            rows.extend(paragraph(lead, row.long, Role::Plain, columns));
        }
    }
    rows
}
