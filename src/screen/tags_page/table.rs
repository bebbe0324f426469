//! What can be tagged as a table: only the rows that are seen.

use super::TagsPage;
use super::candidates::Candidate;
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, paragraph, width};
use crate::screen::theme::Role;

/// The columns of the cursor and the mark.
const MARKS: usize = 4;
/// From this width on there is room for how each stands and for its form.
const WIDE: usize = 46;
/// And from this on for what one costs.
const WIDER: usize = 64;
/// The columns of a name, where these two stand beside it, and theirs.
const NAME: usize = 10;
const USUAL_NAME: usize = 20;
const STANDS: usize = 10;
const FREE: usize = 6;
const EACH: usize = 8;
const LEAST_FORM: usize = 14;
const FORM: usize = 23;

impl TagsPage {
    fn columns(&self, columns: usize) -> Columns {
        let name = match self.words.trim() {
            "" => "plant".to_string(),
            words => format!("with {words:?}"),
        };
        let table = match columns {
            WIDE.. => vec![
                Column::words(name, NAME, USUAL_NAME),
                Column::words("stands", STANDS, STANDS),
                Column::numbers("free", FREE),
                match columns {
                    WIDER.. => Column::numbers("each", EACH),
                    _ => Column::LEFT_OUT,
                },
                Column::words("  form", LEAST_FORM, FORM),
            ],
            _ => {
                let room = columns.saturating_sub(MARKS);
                vec![Column::words(spread(&name, "stands", room), 1, columns)]
            }
        };
        Columns::of(table, MARKS, columns)
    }

    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        self.columns(columns).head()
    }

    /// As many rows as fit, the cursor among them.
    pub(super) fn table(&self, columns: usize, height: usize) -> Vec<Row> {
        if self.shown.is_empty() {
            let told = match self.all.is_empty() {
                true => {
                    "No kept seedlings yet: on Row, d keeps one; varieties of your list are tagged too."
                }
                false => "No plant holds these words: / changes them.",
            };
            return paragraph(("  ", Role::Plain), told, Role::Doubt, columns);
        }
        let count = self.shown.len();
        let table = self.columns(columns);
        let seen = self.cursor.seen(count, height);
        seen.map(|place| {
            let one = &self.all[self.shown[place]];
            self.table_row(one, place == self.cursor.row(count), &table)
        })
        .collect()
    }

    fn table_row(&self, one: &Candidate, chosen: bool, columns: &Columns) -> Row {
        let picked = self.picked.contains(&one.subject);
        let refused = self.labels.get(&one.subject).is_some_and(Result::is_err);
        let (mark, role) = match (picked, refused) {
            (_, true) => ("! ", Role::Wrong),
            (true, false) => ("+ ", Role::Fits),
            (false, false) => ("  ", Role::Plain),
        };
        let marks = Row::of(if chosen { "> " } else { "  " }, Role::Key).with(mark, role);
        let name = one.subject.to_string();
        let plain = |text: &str| Row::of(text, Role::Plain);
        let own = self.in_the_book(&one.subject);
        let own = own.filter(|own| own.here > 0 || own.promised > 0);
        let free = own.map(|own| own.count.to_string()).unwrap_or_default();
        let row = match columns.width(1) {
            0 => {
                // Where there is room for one of the two only, what may be sold says more.
                let beside = match own {
                    Some(_) => format!("{free} free"),
                    None => one.stands.to_string(),
                };
                columns.row(marks, [plain(&spread(&name, &beside, columns.width(0)))])
            }
            _ => {
                let each = own.and_then(|own| own.price);
                let each = each.map(|price| price.to_string()).unwrap_or_default();
                let form = format!("  {}", one.form);
                let cells = [&name, one.stands, &free, &each, &form];
                columns.row(marks, cells.map(plain))
            }
        };
        row.in_list(chosen)
    }
}

/// A name, and at the right how it stands; that is left out where the name needs the room.
fn spread(name: &str, stands: &str, columns: usize) -> String {
    match columns.checked_sub(width(name) + 1 + width(stands)) {
        Some(gap) => format!("{name}{} {stands}", " ".repeat(gap)),
        None => name.to_string(),
    }
}
