//! The shelf as a table: only the rows that are seen.

use super::{One, StockPage};
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;

/// The columns of the cursor.
const MARKS: usize = 2;
/// The columns of a plant's number or name, at least and at best.
const PLANT: (usize, usize) = (14, 26);
/// The same of the places where its tubers are.
const WHERE: (usize, usize) = (12, 30);

impl StockPage {
    fn columns(&self, columns: usize) -> Columns {
        let numbers = |head: &str, width: usize, rank: u8| Column::numbers(head, width).rank(rank);
        let table = vec![
            Column::words("plant", PLANT.0, PLANT.1),
            numbers("lifted", 8, 3),
            numbers("in store", 10, 0),
            numbers("pots", 6, 4),
            numbers("promised", 10, 1),
            numbers("kept", 6, 2),
            numbers("free", 6, 0),
            numbers("price", 8, 1),
            numbers("sold", 6, 2),
            numbers("lost", 6, 3),
            Column::words("  where", WHERE.0, WHERE.1).rank(5),
        ];
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
                true => "Nothing is lifted, kept or on hand yet: a names a plant to begin with.",
                false => "No plant holds these words: / changes them.",
            };
            return paragraph(("  ", Role::Plain), told, Role::Doubt, columns);
        }
        let count = self.shown.len();
        let table = self.columns(columns);
        let row = |place: usize| {
            let one = &self.all[self.shown[place]];
            table_row(one, place == self.cursor.row(count), &table)
        };
        self.cursor.seen(count, height).map(row).collect()
    }
}

fn table_row(one: &One, chosen: bool, columns: &Columns) -> Row {
    let marks = Row::of(if chosen { "> " } else { "  " }, Role::Key);
    let plain = |text: String| Row::of(text, Role::Plain);
    let name = plain(one.subject.to_string());
    let Some(lifting) = &one.lifting else {
        let listed = one.listed.map(|tubers| tubers.to_string());
        let cells = ["", &listed.unwrap_or_default()].map(|cell| Row::of(cell, Role::Quiet));
        let cells = std::iter::once(name).chain(cells);
        return columns.row(marks, cells).in_list(chosen);
    };
    let all = lifting.all();
    let some = |count: u64| {
        plain(if count == 0 {
            String::new()
        } else {
            count.to_string()
        })
    };
    let places = lifting.places.iter().filter(|(_, own)| own.here() > 0);
    let places: Vec<&str> = places
        .filter_map(|(place, _)| place.as_ref().map(|place| place.as_str()))
        .collect();
    let free = match lifting.free() {
        0 => Row::of("0", Role::Quiet),
        free => Row::of(free.to_string(), Role::Fits),
    };
    let cells = [
        name,
        plain(lifting.year.to_string()),
        plain(all.tubers().to_string()),
        some(all.pots),
        some(lifting.promised()),
        some(lifting.kept()),
        free,
        plain(
            lifting
                .price
                .map_or(String::new(), |price| price.to_string()),
        ),
        some(all.sold),
        some(all.lost),
        plain(format!("  {}", places.join(", "))),
    ];
    columns.row(marks, cells).in_list(chosen)
}
