//! The last step: what the file would change, old beside new, what cannot be read first.

use super::reading::{Reading, counted, things};
use crate::screen::kit::text::{Row, lines, paragraph};
use crate::screen::theme::Role;
use crate::variety::exchange::{Filled, Import, Taken};

impl Reading {
    /// What is done to the list, in a sentence, and what Enter does.
    pub(super) fn counts(&self, import: &Import, columns: usize) -> Vec<Row> {
        let mut told = format!(
            "{}: {} new, {} changed, {} the same",
            self.name(),
            import.new.len(),
            import.changed.len(),
            import.same
        );
        if !import.bad.is_empty() {
            let stays = if self.leaves_out {
                ", and stay out"
            } else {
                ""
            };
            told += &format!(
                "; {} cannot be read{stays}",
                counted(import.bad.len(), "row")
            );
        }
        let mut rows = lines(&format!("{told}."), Role::Strong, columns);
        let below = match &self.note {
            Some(note) => (note.as_str(), Role::Doubt),
            None if import.new.is_empty() && import.changed.is_empty() => {
                ("Enter closes: the list has all of it.", Role::Quiet)
            }
            None => (
                "Enter takes it in, to be undone as one; Esc goes back.",
                Role::Quiet,
            ),
        };
        rows.extend(lines(below.0, below.1, columns));
        rows
    }

    /// The rows from where the cursor is, as many as have room.
    pub(super) fn preview(&self, import: &Import, columns: usize, height: usize) -> Vec<Row> {
        let all = things(import);
        let top = self.cursor.row(all);
        let mut rows = Vec::new();
        let mut shown = top;
        while shown < all && rows.len() < height {
            rows.extend(item(import, shown, columns));
            shown += 1;
        }
        if top > 0 && !rows.is_empty() {
            rows.insert(
                0,
                Row::of(format!("  \u{2026} {top} above: Up"), Role::Doubt),
            );
        }
        if rows.len() > height && height > 0 {
            rows.truncate(height - 1);
            rows.push(Row::of("  \u{2026} more below: Down", Role::Doubt));
        }
        rows
    }
}

/// One thing of the preview: a row that cannot be read, a change, a new record, or what is to be known.
fn item(import: &Import, at: usize, columns: usize) -> Vec<Row> {
    let (bad, changed, new) = (import.bad.len(), import.changed.len(), import.new.len());
    match at {
        _ if at < bad => {
            let row = &import.bad[at];
            let name = row.name.as_deref().map(|name| format!(", {name}"));
            let told = format!(
                "line {}{}: {}",
                row.line,
                name.unwrap_or_default(),
                row.told
            );
            paragraph(("! ", Role::Wrong), &told, Role::Wrong, columns)
        }
        _ if at < bad + changed => taken(&import.changed[at - bad], "~ ", columns),
        _ if at < bad + changed + new => taken(&import.new[at - bad - changed], "+ ", columns),
        _ => {
            let note = import.notes.get(at - bad - changed - new);
            let note = note.map_or("", String::as_str);
            paragraph(("  ", Role::Plain), note, Role::Quiet, columns)
        }
    }
}

/// A record: of one that changes each field as it was and as it will be.
fn taken(one: &Taken, mark: &str, columns: usize) -> Vec<Row> {
    let unknown = |value: &Option<String>| value.clone().unwrap_or_else(|| "?".to_string());
    let told = |field: &Filled| match mark {
        "+ " => format!("{} {}", field.heading, unknown(&field.new)),
        _ => format!(
            "{} {} -> {}",
            field.heading,
            unknown(&field.old),
            unknown(&field.new)
        ),
    };
    let fields: Vec<String> = one.fields.iter().map(told).collect();
    let told = match fields.is_empty() {
        true => one.name.clone(),
        false => format!("{}: {}", one.name, fields.join("; ")),
    };
    paragraph((mark, Role::Key), &told, Role::Plain, columns)
}
