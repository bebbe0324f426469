//! The pencil sheet: a blank table to carry into the store, and the filled one taken back: every row
//! becomes an entry, or none does.

use jiff::civil::Date;

use super::check::StockContext;
use super::entry::Entry;
use super::read::{Draft, WORDS};
use super::sums::Stock;
use crate::account::{Cell, Column, Table};
use crate::book;
use crate::book::sheet::{BadRow, FieldSheet};
use crate::measure::brief;
use crate::measure::day::Calendar;
use crate::table::{self, Row, guard};
use crate::trial::Subject;
use crate::variety::Text;

/// The heading of the first column.
pub const PLANT: &str = "plant";

/// What a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Lifting and dividing.
    Lifting,
    /// Looking through the store.
    Store,
    /// Selling.
    Sale,
}

/// What a filled sheet holds that the book does not have yet.
pub type Filled = book::filled::Filled<Entry>;

impl Purpose {
    /// Every purpose with its word.
    pub const ALL: [(&str, Purpose); 3] = [
        ("lifting", Purpose::Lifting),
        ("store", Purpose::Store),
        ("sale", Purpose::Sale),
    ];

    /// The words of its columns, with hints and widths in millimetres.
    fn columns(self) -> &'static [(&'static str, &'static str, u32)] {
        match self {
            Purpose::Lifting => &[
                ("lifted", "clumps", 14),
                ("divided", "with an eye", 18),
                ("stored", "tubers", 16),
                ("lost", "tubers", 14),
                ("why", "rotten, dry", 30),
                ("note", "", 40),
            ],
            Purpose::Store => &[
                ("sound", "of all here", 18),
                ("lost", "tubers", 14),
                ("why", "rotten, dry", 30),
                ("potted", "tubers", 16),
                ("planted", "", 16),
                ("note", "", 40),
            ],
            Purpose::Sale => &[
                ("sold", "how many", 14),
                ("price", "of each", 16),
                ("given", "", 14),
                ("promised", "", 18),
                ("to", "whom", 36),
                ("note", "", 36),
            ],
        }
    }

    fn title(self) -> &'static str {
        match self {
            Purpose::Lifting => "Stock: lifting and dividing",
            Purpose::Store => "Stock: what is in store",
            Purpose::Sale => "Stock: sales and promises",
        }
    }

    /// Whom a sheet is for where nobody is named: to lift, everybody of the book; else those of whom
    /// something is here.
    pub fn usual(self, stock: &Stock) -> Vec<Subject> {
        let mut all = stock.subjects();
        let is_here = |one: &Subject| stock.last_lifting(one).is_some_and(|one| one.here() > 0);
        all.retain(|one| self == Purpose::Lifting || is_here(one));
        all
    }

    /// A blank sheet for these plants: a row for each place where the last lifting of one lies.
    pub fn blank(self, stock: &Stock, subjects: &[Subject]) -> FieldSheet {
        let column = |id: &str, hint: &str, width: u32| {
            Column::words(id, id).hinted(hint).wide(width.into())
        };
        let mut columns = vec![
            column(PLANT, "", 24),
            column("place", "", 22),
            column("date", "2026-10-20", 22),
            column("by", "", 14),
        ];
        let own = self.columns().iter();
        columns.extend(own.map(|(id, hint, width)| column(id, hint, *width)));
        let table = Table::of("", columns);
        let rows = subjects.iter().flat_map(|subject| {
            let places = places(stock, subject).into_iter();
            let row = |place: Option<Text>| {
                let place = place.map(|place| place.to_string());
                table.row([(PLANT, subject.to_string().into()), ("place", place.into())])
            };
            places.map(row).collect::<Vec<_>>()
        });
        let rows: Vec<Vec<Cell>> = rows.collect();
        FieldSheet {
            title: self.title().to_string(),
            table: table.with(rows),
        }
    }
}

/// Where the last lifting of a plant lies: at no place that is named where nothing is here.
fn places(stock: &Stock, subject: &Subject) -> Vec<Option<Text>> {
    let lifting = stock.last_lifting(subject);
    let places = lifting.iter().flat_map(|one| &one.places);
    let here = places.filter(|(_, own)| own.here() > 0);
    let here: Vec<Option<Text>> = here.map(|(place, _)| place.clone()).collect();
    if here.is_empty() { vec![None] } else { here }
}

impl Filled {
    /// Reads a filled sheet over a book. `day` is that of rows whose own is left out; one that a row has
    /// is read by `days`.
    ///
    /// # Errors
    /// Every row that is wrong, with its line; nothing is then to be taken.
    pub fn of(
        table: &table::Table,
        stock: &Stock,
        grounds: &StockContext<'_>,
        day: Option<Date>,
        days: &Calendar,
    ) -> Result<Filled, Vec<BadRow>> {
        let Some((heading, rows)) = table.rows.split_first() else {
            let told = format!("found nothing, expected a heading with {PLANT}");
            return Err(vec![BadRow { line: 1, told }]);
        };
        let columns = columns(heading)?;
        let read = |row: &Row, book: &Stock| {
            let read = entry(row, &columns, book.book().next_id(), day, days)?;
            Ok(read.map(|entry| as_listed(entry, grounds)))
        };
        let rows = rows.iter().map(|row| (row.line, row));
        Filled::over(
            stock,
            (Stock::book, Stock::add),
            rows,
            read,
            |book, entry| book.check(entry, grounds),
        )
    }
}

/// A variety by the name that the list has for it.
fn as_listed(entry: Entry, grounds: &StockContext<'_>) -> Entry {
    let of = entry.of.as_listed(grounds.list);
    Entry { of, ..entry }
}

/// What each column holds: `None` of the plant's, else a word of an entry.
fn columns(heading: &Row) -> Result<Vec<Option<&'static str>>, Vec<BadRow>> {
    let line = heading.line;
    let mut bad = Vec::new();
    let mut columns: Vec<Option<&'static str>> = Vec::new();
    let words = || WORDS.iter().filter(|word| !DESK.contains(&word.id));
    let mut has_plant = false;
    for at in 0..heading.cells.len() {
        let cell = guard::plain(heading.cell(at));
        let word = words().find(|word| word.id == cell).map(|word| word.id);
        let told = match (cell, word) {
            (PLANT, _) if !has_plant => {
                has_plant = true;
                columns.push(None);
                continue;
            }
            (_, Some(word)) if !columns.contains(&Some(word)) => {
                columns.push(Some(word));
                continue;
            }
            (PLANT, _) | (_, Some(_)) => {
                format!("found the column {cell:?} a second time, expected each once")
            }
            _ => {
                let ids: Vec<&str> = words().map(|word| word.id).collect();
                format!(
                    "found the column {:?}, expected {PLANT} or one of {}",
                    brief(cell),
                    ids.join(", ")
                )
            }
        };
        bad.push(BadRow { line, told });
        columns.push(None);
    }
    if !has_plant {
        let told = format!(
            "found no column {PLANT}, expected one with the seedling's number or the variety's name"
        );
        bad.push(BadRow { line, told });
    }
    if bad.is_empty() {
        Ok(columns)
    } else {
        Err(bad)
    }
}

/// What is decided at the desk.
const DESK: [&str; 2] = ["corrects", "withdraw"];

/// The entry of a row; `None` where nothing was written beside what was printed.
fn entry(
    row: &Row,
    columns: &[Option<&'static str>],
    id: u32,
    day: Option<Date>,
    days: &Calendar,
) -> Result<Option<Entry>, String> {
    let (found, expected) = (row.cells.len(), columns.len());
    if found > expected {
        return Err(format!(
            "found {found} cells, expected {expected}; a cell with commas stands in quotation marks"
        ));
    }
    let mut subject = "";
    let (mut words, mut written) = (Vec::new(), false);
    for (at, column) in columns.iter().enumerate() {
        let cell = guard::plain(row.cell(at));
        match column {
            None => subject = cell,
            Some(_) if cell.is_empty() => {}
            Some(word) => {
                written |= !matches!(*word, "date" | "by" | "place" | "year");
                words.push(format!("{word}={cell}"));
            }
        }
    }
    if !written {
        return Ok(None);
    }
    let of: Subject = subject
        .parse()
        .map_err(|error| format!("{PLANT}: {error}"))?;
    let draft = Draft::read(&words, days).map_err(|error| error.to_string())?;
    let told = draft.date.as_ref().map(|typed| typed.day);
    let date = { told.or(day) }.ok_or("date: found nothing, expected a day such as 2026-10-20")?;
    Ok(Some(draft.entry(id, of, date)))
}

#[cfg(test)]
mod tests;
