//! The pencil sheet: a blank table to carry down the row, and the filled one taken back.
//!
//! A sheet is a table of an account: text is ruled here, and whoever draws it on paper goes by the
//! same columns. A filled sheet is a table with the columns' ids as its heading.

use super::read::{WORDS, Word};
use super::row::Trial;
use super::seedling::Subject;
use crate::account::{Cell, Column, Table};
use crate::form::{Kind, Traits};
use crate::measure::SizeUnits;

mod import;

pub use crate::book::sheet::{BadRow, FieldSheet};
pub use import::Filled;

/// The heading of the first column.
pub const SUBJECT: &str = "seedling";
/// The heading of the second: row and place.
const PLACE: &str = "place";

/// What a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// To look at blooms: traits, diameters, colour.
    Blooms,
    /// To count and test: cut stems, vase, weather, tubers.
    Counts,
}

/// Words of a sheet of counts, with hints and widths in millimetres.
const COUNTS: [(&str, &str, u32); 10] = [
    ("cut", "stems", 12),
    ("stem", "lengths", 26),
    ("open", "blooms", 12),
    ("weather", "wind:3/12", 26),
    ("vase", "7,8,6,6+", 36),
    ("visits", "7/10min", 18),
    ("plants", "stand", 13),
    ("tubers", "lifted", 13),
    ("sound", "in spring", 20),
    ("note", "", 40),
];

impl Purpose {
    /// A blank sheet for these subjects. With `units` lengths may be written as bare numbers, and
    /// the heading says of what.
    pub fn blank(
        self,
        trial: &Trial,
        subjects: &[Subject],
        traits: &Traits,
        units: SizeUnits,
    ) -> FieldSheet {
        let column = |id: &str, hint: &str, width: u32| {
            let heading = match unit_of(id, units) {
                Some(unit) => format!("{id} ({unit})"),
                None => id.to_string(),
            };
            Column::words(id, heading).hinted(hint).wide(width.into())
        };
        let mut columns = vec![
            column(SUBJECT, "", 24),
            column(PLACE, "", 22),
            column("date", "2026-08-20", 22),
            column("by", "", 14),
        ];
        match self {
            Purpose::Counts => {
                columns.extend(COUNTS.map(|(id, hint, width)| column(id, hint, width)))
            }
            Purpose::Blooms => {
                let two = match units {
                    SizeUnits::Mm => "98,104",
                    SizeUnits::In => "3.9,4.1",
                };
                columns.push(column("diameter", two, 30));
                columns.push(column("colour", "peach", 26));
                let asked = traits.list().iter().filter(|one| one.id != "diameter");
                columns.extend(asked.map(|one| match &one.kind {
                    Kind::OneOf(states) => {
                        let ids: Vec<&str> = states.iter().map(|state| state.id.as_str()).collect();
                        column(&one.id, &ids.join(" "), 14)
                    }
                    Kind::Count(low, high) => column(&one.id, &format!("{low} to {high}"), 10),
                    Kind::Share => column(&one.id, "%", 10),
                    Kind::Length(_) => column(&one.id, "", 18),
                }));
                columns.push(column("note", "", 30));
            }
        }
        let table = Table::of("", columns);
        let row = |subject: &Subject| {
            let place = trial
                .seedling_of(subject)
                .map_or(String::new(), |seedling| {
                    let row = seedling.row.as_ref().map(ToString::to_string);
                    let place = seedling.place.map(|place| place.to_string());
                    let parts: Vec<String> = row.into_iter().chain(place).collect();
                    parts.join(" ")
                });
            table.row([(SUBJECT, subject.to_string().into()), (PLACE, place.into())])
        };
        let rows: Vec<Vec<Cell>> = subjects.iter().map(row).collect();
        FieldSheet {
            title: match self {
                Purpose::Blooms => "Trial row: blooms".to_string(),
                Purpose::Counts => "Trial row: counts".to_string(),
            },
            table: table.with(rows),
        }
    }
}

/// The unit of bare numbers in a column, where it has one.
fn unit_of(id: &str, units: SizeUnits) -> Option<&'static str> {
    match (id, units) {
        ("diameter", SizeUnits::Mm) => Some("mm"),
        ("stem" | "height", SizeUnits::Mm) => Some("cm"),
        ("diameter" | "stem" | "height", SizeUnits::In) => Some("in"),
        _ => None,
    }
}

/// The ids that a sheet's heading may have, beside `seedling`, `place` and the traits.
fn words() -> impl Iterator<Item = &'static Word> {
    // What is no observation is decided at the desk.
    let desk = ["decide", "reason", "corrects", "withdraw"];
    WORDS.iter().filter(move |word| !desk.contains(&word.id))
}

#[cfg(test)]
mod tests;
