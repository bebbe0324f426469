//! What can be tagged as a table: only the rows that are seen.

use super::TagsPage;
use super::candidates::Candidate;
use crate::screen::choose_page::first_shown;
use crate::screen::text::{Row, fit, width};
use crate::screen::theme::Role;

/// The columns of the cursor and the mark.
const MARKS: usize = 4;
/// From this width on there is room for how each stands and for its form.
const WIDE: usize = 46;
/// The columns of these two.
const STANDS: usize = 10;
const FORM: usize = 21;

impl TagsPage {
    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        let plant = match self.words.trim() {
            "" => "plant".to_string(),
            words => format!("with {words:?}"),
        };
        let row = Row::of(" ".repeat(MARKS), Role::Plain);
        let room = columns.saturating_sub(MARKS);
        row.with(cells(room, &plant, "stands", "form"), Role::Quiet)
    }

    /// As many rows as fit, the cursor among them.
    pub(super) fn table(&self, columns: usize, height: usize) -> Vec<Row> {
        if self.shown.is_empty() {
            let told = match self.all.is_empty() {
                true => "Neither row nor list has a plant to tag.",
                false => "No plant holds these words: / changes them.",
            };
            return vec![Row::of(told, Role::Doubt)];
        }
        let first = first_shown(self.cursor, self.shown.len(), height);
        let seen = self.shown.iter().enumerate().skip(first).take(height);
        seen.map(|(place, at)| self.table_row(&self.all[*at], place == self.cursor, columns))
            .collect()
    }

    fn table_row(&self, one: &Candidate, chosen: bool, columns: usize) -> Row {
        let picked = self.picked.contains(&one.subject);
        let refused = self.labels.get(&one.subject).is_some_and(Result::is_err);
        let (mark, role) = match (picked, refused) {
            (_, true) => ("! ", Role::Wrong),
            (true, false) => ("+ ", Role::Fits),
            (false, false) => ("  ", Role::Plain),
        };
        let row = Row::of(if chosen { "> " } else { "  " }, Role::Key)
            .with(mark, role)
            .with(
                cells(
                    columns.saturating_sub(MARKS),
                    &one.subject.to_string(),
                    one.stands,
                    &one.form,
                ),
                Role::Plain,
            );
        match chosen {
            true => row.all(Role::Chosen),
            false => row,
        }
    }
}

/// Name, how it stands and form in so many columns. Where there are few, the form is left out, and
/// how it stands where the name needs the room.
fn cells(columns: usize, name: &str, stands: &str, form: &str) -> String {
    if columns + MARKS >= WIDE {
        let name = fit(name, columns - STANDS - FORM - 1);
        return format!("{name} {}{}", fit(stands, STANDS), fit(form, FORM));
    }
    match columns.checked_sub(width(name) + 1 + width(stands)) {
        Some(gap) => format!("{name}{} {stands}", " ".repeat(gap)),
        None => fit(name, columns),
    }
}
